"""Cracking of brittle tools: do the ramps follow the thickness and the material?"""

import pytest

BLOCK = {"proposal": {"tool": "aerated-concrete"}, "run.parts": 4}


def found(plan, key):
    """Return one number of the plan."""
    return next(f for f in plan.findings if f.id == key)


def rules(plan):
    """Return the rules behind the plan's findings, steps and conditions."""
    every = (*plan.findings, *plan.steps, *plan.conditions)
    return {one.conclusion.rule for one in every}


def step(plan, rule):
    return next(one for one in plan.steps if one.conclusion.rule == rule)


def test_a_brittle_block_gets_ramps_of_its_own_and_the_steps_follow_them(make_plan):
    plan = make_plan("cowl", BLOCK)
    assert "CRACK-005" not in rules(plan)
    assert {"CRACK-010", "CRACK-020", "CRACK-030", "CRACK-040"} <= rules(plan)
    cooling = found(plan, "cooling-ramp")
    assert cooling.low < cooling.value < cooling.high
    assert cooling.value < found(plan, "heating-ramp").value
    assert step(plan, "STEP-760").quantities[0].value == pytest.approx(cooling.value)
    assert step(plan, "STEP-740").quantities[0].value <= found(plan, "heating-ramp").value


def test_a_tool_that_is_not_brittle_has_none(make_plan):
    plan = make_plan("panel")
    assert "CRACK-005" in rules(plan)
    assert not {"CRACK-010", "CRACK-020", "CRACK-030", "CRACK-040"} & rules(plan)


def test_a_thicker_block_cools_more_slowly(make_plan):
    thin, thick = (
        found(make_plan("cowl", BLOCK | {"part.depth": depth}), "cooling-ramp").value
        for depth in ("60 mm", "200 mm")
    )
    assert thick < thin / 2


def test_a_block_too_thick_to_cool_overnight_is_to_be_hollowed(make_plan):
    deep = BLOCK | {"part.depth": "300 mm"}
    assert "CRACK-050" in rules(make_plan("cowl", deep))
    assert "CRACK-050" not in rules(make_plan("cowl", BLOCK | {"part.depth": "60 mm"}))


def test_a_hotter_cure_takes_longer_to_cool(make_plan):
    cool, hot = (
        found(make_plan("cowl", BLOCK | {"cure.temperature": at}), "cooling-time").value
        for at in ("70 degC", "90 degC")
    )
    assert hot > cool


def test_a_slow_job_ramp_is_kept_where_the_block_stands_more(make_plan):
    plan = make_plan("cowl", BLOCK | {"cure.ramp": "0.05 delta_degC/min"})
    assert step(plan, "STEP-740").quantities[0].value == pytest.approx(0.05)
