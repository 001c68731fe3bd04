"""Is the part cured enough, by its own sheet and for its use?"""

import pytest

SHEET = [
    {"temperature": "70 degC", "hold": "12 h"},
    {"temperature": "90 degC", "hold": "4 h"},
]


def found(plan, key):
    return next((one for one in plan.findings if one.id == key), None)


def rules(plan):
    every = (*plan.findings, *plan.conditions)
    return {one.conclusion.rule for one in every}


def test_the_lines_of_the_sheet_count_instead_of_the_class(make_plan):
    plan = make_plan("cowl", {"cure.sheet": SHEET})
    assert "CURE-080" in rules(plan)
    assert not {"CURE-040", "CURE-050", "CURE-060", "CURE-070"} & rules(plan)
    assert "CURE-080" not in rules(make_plan("cowl"))


def test_time_on_the_way_up_is_counted_by_the_slower_line(make_plan):
    needed = found(make_plan("cowl", {"cure.sheet": SHEET}), "hold-needed")
    one_line = found(make_plan("cowl", {"cure.sheet": SHEET[1:]}), "hold-needed")
    assert needed.value < one_line.value == pytest.approx(4.0, abs=0.05)
    assert needed.judgement == "ok"


def test_a_hold_shorter_than_the_sheet_is_corrected(make_plan):
    plan = make_plan("cowl", {"cure.sheet": SHEET[1:], "cure.hold": "2 h"})
    assert found(plan, "hold-needed").judgement == "fail"
    text = next(c.text for c in plan.conditions if c.conclusion.rule == "CURE-080")
    assert "not the 2" in text


def test_a_sheet_that_starts_hotter_than_the_job_is_no_cure(make_plan):
    plan = make_plan("cowl", {"cure.sheet": [{"temperature": "120 degC", "hold": 1}]})
    assert found(plan, "hold-needed") is None
    assert "CURE-080" in rules(plan)


@pytest.mark.parametrize(
    ("service", "judgement", "asked"),
    [("60 degC", "ok", False), ("80 degC", "watch", True), ("110 degC", "fail", True)],
)
def test_use_is_held_against_the_glass_transition(make_plan, service, judgement, asked):
    plan = make_plan("cowl", {"part.service_temperature": service})
    assert found(plan, "glass-transition").judgement == judgement
    conditions = {one.conclusion.rule for one in plan.conditions}
    assert ("CURE-090" in conditions) == asked
    assert found(make_plan("cowl"), "glass-transition") is None


def test_a_slow_resin_on_an_insulator_is_measured(make_plan):
    hot = {"cure.resin": "epoxy-180", "budget.total": None}
    short = make_plan("cowl", hot | {"cure.temperature": "150 degC", "cure.hold": "1 h"})
    reached = found(short, "cure-reached")
    assert reached.low <= reached.value <= reached.high
    assert reached.judgement == "watch"
    assert "CURE-037" in rules(short)
    long = make_plan("cowl", hot | {"cure.temperature": "180 degC", "cure.hold": "8 h"})
    assert found(long, "cure-reached") is None or "CURE-037" not in rules(long)
