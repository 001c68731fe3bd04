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


def test_a_single_part_is_measured_and_not_called_the_first(make_plan):
    one, many = make_plan("cowl", {"run.parts": 1}), make_plan("cowl")
    assert (step(one, "STEP-870"), step(many, "STEP-872")) == (None, None)
    assert "second" not in step(one, "STEP-872").title
    assert "all 1" not in step(one, "STEP-872").why
    assert "all 12" in step(many, "STEP-870").why


def test_a_face_is_readied_for_what_goes_on_it(make_plan):
    paint, bond = (make_plan("cowl", {"finish.after": one}) for one in ("paint", "bond"))
    assert "joint" not in step(paint, "STEP-877").why
    assert "joints" in step(bond, "STEP-875").why
    assert "peel ply" in step(bond, "STEP-875").text
    assert (step(paint, "STEP-875"), step(bond, "STEP-877")) == (None, None)
    bare = make_plan("cowl", {"finish.after": "none"})
    assert (step(bare, "STEP-875"), step(bare, "STEP-877")) == (None, None)


def test_a_flat_part_has_no_corner_to_press_into(make_plan):
    assert "corner" not in step(make_plan("panel"), "STEP-530").text
    assert "corner" in step(make_plan("cowl"), "STEP-530").text


def test_a_bare_plate_is_not_told_of_a_seal(make_plan):
    plan = make_plan("panel")
    assert not {one.phase for one in plan.steps if "seal" in one.phase.lower()}
    assert "sealed" not in step(plan, "STEP-610").text


def test_a_province_without_a_limit_of_its_own_is_named_in_words(make_plan):
    said = [
        one.text for one in make_plan("cowl", shop={"rates.jurisdiction": "au"}).cautions
    ] + [
        one.text
        for one in make_plan("cowl", shop={"rates.jurisdiction": "ca-other"}).cautions
    ]
    assert not [one for one in said if "CA OTHER" in one]
    assert [one for one in said if "Canada outside Ontario and Quebec" in one]
