"""Woven plies over a crown: a deeper crown and a stiffer weave ask for darts."""

import pytest


def shear(plan):
    """Return the finding on shear, or None."""
    return next((one for one in plan.findings if one.id == "drape-shear"), None)


def step(plan, rule):
    """Return the step a rule wrote, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def test_a_deeper_crown_shears_more(make_plan):
    found = [shear(make_plan("cowl", {"part.depth": d})).value for d in (60, 150, 200)]
    assert found == sorted(found)
    assert found[0] < found[2]


@pytest.mark.parametrize(
    ("depth", "weave", "judgement"),
    [
        (60, "twill", "ok"),
        (150, "satin", "ok"),
        (215, "twill", "watch"),
        (215, "plain", "fail"),
    ],
)
def test_darts_follow_shear_and_weave(make_plan, depth, weave, judgement):
    plan = make_plan("cowl", {"part.depth": depth, "laminate.weave": weave})
    assert shear(plan).judgement == judgement
    says = {"ok": "No dart is planned", "watch": "Plan a dart", "fail": "uncut it will"}
    assert says[judgement] in step(plan, "STEP-518").text


def test_a_part_deeper_than_half_its_width_is_laid_in_pieces(make_plan):
    plan = make_plan("cowl", {"part.depth": 260, "budget.total": 60_000})
    assert step(plan, "STEP-518") is None
    assert step(plan, "STEP-519")


def test_flat_and_unidirectional_plies_are_not_draped(make_plan):
    assert shear(make_plan("panel")) is None
    plan = make_plan("cowl", {"laminate.weave": "unidirectional"})
    assert shear(plan) is None
    assert step(plan, "STEP-518") is None
