"""What to pull and order for the run, and how the heaviest piece is lifted."""

import pytest


def uses(plan):
    """Return quantities by item."""
    return {one.item: one.quantity for one in plan.consumables}


def rules(plan):
    """Return the rules that set conditions."""
    return {one.conclusion.rule for one in plan.conditions}


@pytest.mark.parametrize(
    "item",
    [
        "Prepreg",
        "Bag film",
        "Sealant tape",
        "Breather",
        "Release film over the plies",
    ],
)
def test_the_run_takes_as_often_as_there_are_parts(make_plan, item):
    pulled = uses(make_plan("cowl"))
    each = pulled[f"{item}, each part"]
    assert pulled[f"{item}, all 12 parts"] == pytest.approx(12 * each, rel=1e-4)


def test_a_single_part_is_listed_once(make_plan):
    pulled = uses(make_plan("cowl", {"run.parts": 1}))
    assert "Prepreg, each part" in pulled
    assert not [item for item in pulled if ", all " in item]


def test_two_people_without_a_hoist_have_the_lift_assessed(make_plan):
    no_hoist = {"people.hoist": False}
    assert {"LIFT-045", "LIFT-050"} <= rules(make_plan("panel", shop=no_hoist))
    alone = rules(make_plan("panel", shop=no_hoist | {"people.count": 1}))
    assert "LIFT-050" in alone
    assert "LIFT-045" not in alone
    assert not {"LIFT-045", "LIFT-050"} & rules(make_plan("cowl"))


def test_what_is_far_too_heavy_is_lifted_by_no_hands(make_plan):
    no_hoist = {"people.hoist": False, "people.count": 8}
    assert "LIFT-045" not in rules(make_plan("cowl", shop=no_hoist))
    assert "LIFT-048" in rules(make_plan("cowl", shop=no_hoist))
    assert "LIFT-048" not in rules(make_plan("panel", shop=no_hoist))
    assert "LIFT-048" not in rules(make_plan("cowl"))
