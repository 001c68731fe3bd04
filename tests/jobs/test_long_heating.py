"""What a cure that takes longer than a day's work asks of the shop."""

import pytest

THICK = {"part.depth": "200 mm", "cure.hold": "15 h"}


def conditions(plan):
    return {one.conclusion.rule for one in plan.conditions}


def test_a_hold_shorter_than_listed_is_signed_for(make_plan):
    assert "CURE-075" in conditions(make_plan("cowl"))
    assert "CURE-075" not in conditions(make_plan("cowl", {"cure.hold": "16 h"}))


def test_a_hold_within_what_sheets_of_the_hottest_cure_list_is_not(make_plan):
    # Sheets of the class differ at the hottest cure listed, so nothing is asked there.
    hottest = {"cure.temperature": "130 degC"}
    assert "CURE-075" in conditions(make_plan("panel"))
    assert "CURE-075" not in conditions(make_plan("panel", hottest))


def test_a_line_of_the_maker_s_sheet_takes_the_place_of_the_list(make_plan):
    sheet = [{"temperature": "90 degC", "hold": "5 h"}]
    assert "CURE-075" not in conditions(make_plan("cowl", {"cure.sheet": sheet}))


def test_the_maker_is_asked_about_a_day_of_heating(make_plan):
    assert "HEAT-040" in conditions(make_plan("cowl", THICK))
    assert "HEAT-040" not in conditions(make_plan("panel"))


@pytest.mark.parametrize(("hold", "watched"), [("15 h", True), ("30 min", False)])
def test_a_long_heat_is_watched_in_turn(make_plan, hold, watched):
    plan = make_plan("panel", {"cure.hold": hold})
    assert ("PEOPLE-020" in conditions(plan)) == watched


@pytest.mark.parametrize(("rate", "told"), [(4, True), (0.5, False)])
def test_a_cure_of_more_than_a_day_gives_fewer_parts_a_week(make_plan, rate, told):
    fired = make_plan.fired("cowl", {**THICK, "run.per_week": rate}, None)
    assert ("MONEY-027" in fired) == told
