"""What a cure that takes longer than a day's work asks of the shop."""

import pytest

THICK = {"part.depth": "200 mm", "cure.hold": "15 h"}


def conditions(plan):
    return {one.conclusion.rule for one in plan.conditions}


def test_a_hold_shorter_than_listed_is_signed_for(make_plan):
    assert "CURE-075" in conditions(make_plan("cowl", {"cure.hold": "3 h"}))
    assert "CURE-075" not in conditions(make_plan("cowl"))


def test_a_hold_that_some_sheet_of_the_class_lists_is_not(make_plan):
    # Sheets differ: at 80 degrees some list 5 h and some 12, and 8 is taken.
    cooler = {"cure.temperature": "80 degC"}
    assert "CURE-075" not in conditions(make_plan("cowl", {**cooler, "cure.hold": "5 h"}))
    assert "CURE-075" in conditions(make_plan("cowl", {**cooler, "cure.hold": "4.5 h"}))


@pytest.mark.parametrize(("hot", "asked"), [("120 degC", False), ("115 degC", True)])
def test_the_cure_between_the_ends_of_a_class_counts(make_plan, hot, asked):
    plan = make_plan("panel", {"cure.temperature": hot, "cure.hold": "1.4 h"})
    assert ("CURE-075" in conditions(plan)) == asked


def test_a_line_of_the_maker_s_sheet_takes_the_place_of_the_list(make_plan):
    short = {"cure.hold": "3 h"}
    sheet = {"cure.sheet": [{"temperature": "90 degC", "hold": "3 h"}]}
    assert "CURE-075" in conditions(make_plan("cowl", short))
    assert "CURE-075" not in conditions(make_plan("cowl", short | sheet))


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
