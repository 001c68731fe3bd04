"""Mixed resin and the bedding of brittle tools: told where they are used only."""

BLOCK = {"proposal": {"tool": "aerated-concrete"}, "run.parts": 4}


def found(plan, key):
    """Return one number of the plan."""
    return next(f for f in plan.findings if f.id == key)


def rules(plan):
    """Return the rules behind the plan's findings, steps and cautions."""
    every = (*plan.findings, *plan.steps, *plan.cautions)
    return {one.conclusion.rule for one in every}


def amounts(plan, rule):
    step = next(one for one in plan.steps if one.conclusion.rule == rule)
    return {one.label: one.value for one in step.quantities}


def test_an_epoxy_seal_is_mixed_in_batches_of_the_cautious_end(make_plan):
    plan = make_plan("cowl")
    assert {"BATCH-010", "BATCH-020", "STEP-215", "CAUT-515"} <= rules(plan)
    step = amounts(plan, "STEP-215")
    assert step["Batch, at most"] == found(plan, "largest-batch").low
    depth = found(plan, "pour-depth")
    assert depth.low < depth.value < depth.high < 3.0  # mm, in the air of a room


def test_where_no_epoxy_is_mixed_no_batch_is_told(make_plan):
    assert not {"BATCH-010", "BATCH-020", "STEP-215", "CAUT-515"} & rules(
        make_plan("panel")
    )


def test_a_block_pressed_down_on_a_table_is_bedded(make_plan):
    plan = make_plan("cowl", BLOCK)
    assert plan.route.bagging == "bag-to-table"
    assert {"CRACK-060", "STEP-508"} <= rules(plan)
    span = found(plan, "longest-span")
    assert span.low < span.value < span.high
    assert amounts(plan, "STEP-508")["Gap under the tool, at most"] == span.value


def test_a_core_in_an_envelope_is_pressed_all_round(make_plan):
    assert not {"CRACK-060", "STEP-508"} & rules(make_plan("duct"))


def test_a_weaker_pump_lets_the_block_bridge_more(make_plan):
    strong, weak = (
        found(make_plan("cowl", BLOCK, {"vacuum.reading": reading}), "longest-span").value
        for reading in ("940 mbar", "800 mbar")
    )
    assert weak > strong
