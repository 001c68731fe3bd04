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
    says = {"ok": "No dart is planned", "watch": "Mark a dart", "fail": "uncut it will"}
    assert says[judgement] in step(plan, "STEP-518").text


def test_a_part_deeper_than_half_its_width_is_laid_in_pieces(make_plan):
    plan = make_plan("cowl", {"part.depth": 260, "budget.total": 60_000})
    assert step(plan, "STEP-518") is None
    assert step(plan, "STEP-519")
    assert step(plan, "STEP-527") is None


def test_flat_and_unidirectional_plies_are_not_draped(make_plan):
    assert shear(make_plan("panel")) is None
    plan = make_plan("cowl", {"laminate.weave": "unidirectional"})
    assert shear(plan) is None
    assert step(plan, "STEP-518") is None
    assert step(plan, "STEP-527") is None


def test_a_more_upright_side_asks_for_the_face_to_be_measured(make_plan):
    """The least draft of a cap's own rim agrees with the cap, and nothing is asked."""
    steep = make_plan("cowl", {"part.draft": "5 deg"})
    found = {one.id: one for one in steep.findings}
    assert found["face-area-steep"].judgement == "watch"
    most = next(
        one for one in steep.consumables if one.item == "Prepreg at most, each part"
    )
    each = next(one for one in steep.consumables if one.item == "Prepreg, each part")
    share = found["face-area-steep"].value / found["face-area"].value
    assert most.quantity / each.quantity == pytest.approx(share, rel=0.02)
    cap = make_plan("cowl", {"part.draft": "44 deg"})
    assert not [one for one in cap.findings if one.id == "face-area-steep"]
