"""What is done again for the second part, and what a single part is spared."""

import pytest


def step(plan, rule):
    """Return the step a rule wrote, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def test_a_run_renews_its_release_every_few_parts(make_plan):
    plan = make_plan("cowl")
    again = step(plan, "STEP-880")
    assert again.quantities[0].value == 5  # the release's own row
    assert "Tape test" in again.text
    assert "lay-up, bag, cure and demoulding again" in again.text
    assert (step(plan, "STEP-882"), step(plan, "STEP-884")) == (None, None)


@pytest.mark.parametrize("rule", ["STEP-880", "STEP-882", "STEP-884"])
def test_a_single_part_is_told_nothing_of_a_next(make_plan, rule):
    for name in ("cowl", "panel", "duct"):
        assert step(make_plan(name, {"run.parts": 1}), rule) is None


def test_a_spent_core_is_made_again(make_plan):
    assert step(make_plan("duct"), "STEP-884")
    assert step(make_plan("duct"), "STEP-880") is None


def test_a_film_is_looked_over_again(make_plan):
    filmed = {
        "finish.target": "as-moulded",
        "proposal": {"release": "release-film"},
    }
    plan = make_plan("panel", filmed)
    assert plan.route.release == "release-film"
    assert step(plan, "STEP-882")
    assert step(plan, "STEP-880") is None
