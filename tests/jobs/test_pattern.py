"""The pattern of a laminate tool: what it stands in the oven, and what it weighs."""

import pytest

from advisor.calculations import volumes
from advisor.knowledge.tables import load_knowledge

TOOL = {
    "part.tool_side": "female",
    "part.shape": "double-curvature",
    "run.parts": 60,
    "cure.temperature": "90 degC",
    "proposal": {"tool": "carbon-laminate"},
    "budget.total": 90_000,
}


@pytest.fixture(scope="module")
def plan(make_plan):
    made = make_plan("cowl", TOOL)
    assert made.route.tool == "carbon-laminate"
    return made


def found(plan, id):
    return next(one for one in plan.findings if one.id == id)


def step(plan, rule):
    return next(one for one in plan.steps if one.conclusion.rule == rule)


def test_the_cut_out_is_set_for_the_pattern_before_it_is_heated(plan):
    pattern = found(plan, "trip-pattern")
    assert pattern.value < found(plan, "trip-alone").value
    set_to = step(plan, "STEP-159")
    assert set_to.n < step(plan, "STEP-160").n
    assert set_to.quantities[0].value == pattern.value
    assert f"{pattern.value:g}" in set_to.hold_point.accept


def test_the_pattern_stands_no_more_than_its_board(plan):
    """MDF, the board that patterns are planned in here, serves to its table's figure."""
    stands = load_knowledge().tool_materials["mdf"].service_limit.si
    assert found(plan, "trip-pattern").value == pytest.approx(stands)


def test_the_pattern_is_the_heaviest_lift_of_a_shell(plan):
    """By hand: the box of a male pattern, with its margin and base, times its density."""
    known = load_knowledge()
    margin = known.limits["laminate_tool_margin"].figure.si
    base = known.limits["base_thickness"].figure.si
    box = (0.62 + 2 * margin) * (0.44 + 2 * margin) * (0.15 + base)
    density = known.tool_materials["mdf"].density.si
    heaviest = found(plan, "heaviest-lift")
    assert heaviest.value >= box * density * 0.999
    blank = volumes.tool_blank("double-curvature", "male", 0.62, 0.44, 0.15, margin, base)
    assert blank.volume_m3 == pytest.approx(box)
    assert heaviest.value > found(plan, "tool-mass").value


def test_an_owned_tool_is_lifted_without_a_pattern(make_plan):
    plan = make_plan("panel")
    assert "pattern" not in found(plan, "heaviest-lift").label
    assert not [one for one in plan.findings if one.id == "trip-pattern"]
