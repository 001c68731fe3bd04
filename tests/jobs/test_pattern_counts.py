"""A tool made on a pattern: the pattern's steps, hazards, hours and money count."""

import pytest

from advisor.knowledge.tables import load_knowledge

# One that first cures at 180 degrees is laid on a hot master, not on a pattern of board.
MADE_ON_A_PATTERN = [
    id
    for id, row in load_knowledge().tool_materials.items()
    if row.form == "laminate" and id != "carbon-laminate-bmi"
]


@pytest.fixture(params=MADE_ON_A_PATTERN)
def job(request):
    return {"proposal": {"tool": request.param}, "budget.total": None}


def step(plan, rule):
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def line(plan, label):
    return next(one.amount for one in plan.route.cost_lines if one.label == label)


def test_the_pattern_comes_before_the_tool_and_the_tool_is_proved(make_plan, job):
    plan = make_plan("cowl", job)
    assert plan.route.tool == job["proposal"]["tool"]
    order = ["STEP-150", "STEP-160", "STEP-310"]
    places = [step(plan, rule).n for rule in order]
    assert places == sorted(places)
    assert step(plan, "STEP-160").hold_point is not None
    assert not step(make_plan("panel"), "STEP-150")


def test_the_dust_and_gas_of_the_pattern_stand_at_its_step(make_plan, job):
    plan = make_plan("cowl", job)
    cut = {"wood-dust", "combustible-dust", "formaldehyde", "epoxy", "solvent", "fire"}
    assert cut <= set(step(plan, "STEP-150").cautions)
    assert {"formaldehyde", "vacuum", "oven"} <= set(step(plan, "STEP-160").cautions)


def test_the_days_of_the_pattern_are_in_the_lead_time(make_plan, job):
    days = load_knowledge().limits["pattern_time"].figure.value
    assert make_plan("cowl", job).route.lead_time_h >= 24 * days


def test_the_board_and_seal_of_the_pattern_are_paid_for(make_plan, job):
    dear = {"prices.tool-mdf": 9.0}
    sealed = {"prices.sealer-epoxy-fairing": 900.0}
    usual = line(make_plan("cowl", job), "Tool material")
    assert line(make_plan("cowl", job, dear), "Tool material") > usual
    assert line(make_plan("cowl", job, sealed), "Tool material") > usual
