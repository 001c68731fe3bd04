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


HOT = {
    "part.shape": "single-curvature",
    "part.depth": 40,
    "part.smallest_radius": 400,
    "part.draft": 5,
    "part.undercut": False,
    "part.tool_side": "female",
    "cure.resin": "epoxy-180",
    "cure.temperature": 188,
    "cure.hold": 2,
    "budget.total": 60_000,
    "proposal": {"tool": "carbon-laminate-bmi"},
}
HOT_SHOP = {"oven.limit": 250, "stock": []}


def found(plan, id):
    return next(one for one in plan.findings if one.id == id)


def test_a_tool_that_first_cures_hot_gets_a_master_of_metal(make_plan):
    plan = make_plan("panel", HOT, HOT_SHOP)
    assert step(plan, "STEP-150") is None
    assert "aluminium" in step(plan, "STEP-153").text
    assert "metal-dust" in step(plan, "STEP-153").cautions


def test_every_pattern_stands_what_its_tool_brings():
    known = load_knowledge()
    margin = known.limits["pattern_margin"].figure.value
    for row in known.tool_materials.values():
        assert (row.heat_on_pattern is not None) == row.needs_pattern
        if row.heat_on_pattern:
            pattern = known.tool_materials[known.pattern_for(row)]
            assert pattern.service_limit.value >= row.heat_on_pattern.value + margin


def test_the_hot_master_is_made_under_size_by_what_it_outgrows_the_tool(make_plan):
    known = load_knowledge().tool_materials
    scale = found(make_plan("panel", HOT, HOT_SHOP), "pattern-scale").value
    more = known["aluminium"].expansion.si - known["carbon-laminate-bmi"].expansion.si
    rise = known["carbon-laminate-bmi"].heat_on_pattern.value - 20
    assert scale == pytest.approx(1 - more * rise, abs=2e-5)


def test_the_chips_of_the_pattern_are_counted(make_plan, job):
    assert found(make_plan("cowl", job), "pattern-dust-mass").value > 1
    with_none = make_plan("panel").findings
    assert not [one for one in with_none if one.id == "pattern-dust-mass"]


def test_the_post_cure_walks_up_from_the_first_cure_past_the_parts(make_plan):
    cowl = {"proposal": {"tool": "carbon-laminate"}, "budget.total": None}
    cool, hot = (
        step(
            make_plan("cowl", cowl | {"cure.resin": "epoxy-120", "cure.temperature": c}),
            "STEP-193",
        )
        for c in (100, 120)
    )
    last = [one.quantities[0].value for one in (cool, hot)]
    assert last == [120, 140]
    hours = [one.quantities[2].value for one in (cool, hot)]
    assert hours[1] > hours[0]
