"""A closed part on a core: held, bagged and drawn by the core's ends, never set down."""

TUBE = {
    "part.draft": "2 deg",
    "part.undercut": False,
    "run.parts": 4,
    "budget.total": None,
    "proposal": {"tool": "aluminium"},
}


def step(plan, rule):
    """Return the step a rule wrote, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def rules(plan):
    return [one.conclusion.rule for one in plan.steps]


def text(plan):
    """Return every word of the work."""
    return " ".join(f"{one.title} {one.text} {one.why}" for one in plan.steps)


def test_a_core_is_hung_by_its_ends_and_wrapped_all_round(make_plan):
    plan = make_plan("duct")
    assert rules(plan).index("STEP-502") < rules(plan).index("STEP-530")
    assert "all round" in step(plan, "STEP-612").text
    assert not {"STEP-506", "STEP-504", "STEP-610"} & set(rules(plan))
    assert "Stand the tool" not in text(plan)
    assert "bare ends" in step(plan, "STEP-205").text
    assert "bare ends" in step(plan, "STEP-415").text
    assert "hanging by its ends" in step(plan, "STEP-740").text


def test_a_block_with_an_edge_is_not_hung(make_plan):
    plan = make_plan("cowl")
    assert not {"STEP-103", "STEP-104", "STEP-502", "STEP-612", "STEP-815"} & set(
        rules(plan)
    )
    assert "on bars" in step(plan, "STEP-740").text


def test_a_core_that_draws_is_made_with_ends_to_hold_and_to_pull(make_plan):
    plan = make_plan("duct", TUBE)
    assert (plan.route.tool, plan.route.construction) == ("aluminium", "one-piece")
    assert step(plan, "STEP-103").quantities[0].value > 0
    assert rules(plan).index("STEP-104") < rules(plan).index("STEP-146")
    assert "along its axis" in step(plan, "STEP-815").title
    assert step(plan, "STEP-810") is None
    assert "pores of" not in text(plan)
    assert "wedge" not in step(plan, "STEP-815").text


def test_a_core_that_is_washed_out_needs_nothing_to_be_drawn_by(make_plan):
    assert not {"STEP-104", "STEP-810", "STEP-815"} & set(rules(make_plan("duct")))
