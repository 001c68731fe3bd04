"""Water in the block and in the prepreg: do time, proof and cautions follow it?"""

import pytest

BLOCK = {"proposal": {"tool": "aerated-concrete"}, "run.parts": 4}


def found(plan, key):
    """Return one number of the plan."""
    return next(f for f in plan.findings if f.id == key)


def rules(plan):
    """Return the rules behind the plan's findings, steps and conditions."""
    every = (*plan.findings, *plan.steps, *plan.conditions)
    return {one.conclusion.rule for one in every}


def step(plan, rule):
    return next(one for one in plan.steps if one.conclusion.rule == rule)


def test_a_porous_block_is_dried_by_the_scale(make_plan):
    plan = make_plan("cowl", BLOCK)
    assert {"DRY-010", "DRY-020", "DRY-040", "DRY-050", "STEP-120"} <= rules(plan)
    days = found(plan, "drying-time")
    assert days.low < days.value < days.high
    assert "differ by no more than" in step(plan, "STEP-120").hold_point.accept


def test_a_metal_plate_is_not_dried(make_plan):
    assert not {one for one in rules(make_plan("panel")) if one.startswith("DRY")}


def test_a_thicker_block_dries_longer_and_is_to_be_bought_dry(make_plan):
    thin = make_plan("cowl", BLOCK | {"part.depth": "60 mm"})
    thick = make_plan("cowl", BLOCK | {"part.depth": "400 mm"})
    assert found(thick, "drying-time").value > 4 * found(thin, "drying-time").value
    assert "DRY-030" in rules(thick)
    assert "DRY-030" not in rules(thin)


def test_a_coarser_scale_waits_longer(make_plan):
    waits = [
        found(make_plan("cowl", BLOCK, {"room.scale_step": g}), "weighing-wait").value
        for g in (5, 50, 200)
    ]
    assert waits == sorted(waits)
    assert waits[0] < waits[-1]


def test_a_hotter_block_makes_more_steam_and_a_cool_one_needs_no_second_weighing(make_plan):
    hot = make_plan("cowl", BLOCK)
    cool = make_plan("cowl", BLOCK | {"cure.temperature": "60 degC"})
    assert found(hot, "steam-pressure").value > found(cool, "steam-pressure").value
    assert "STEP-501" in rules(hot)
    dense = {"proposal": {"tool": "aerated-concrete-650"}, "run.parts": 4}
    strong = make_plan("cowl", dense | {"cure.temperature": "60 degC"})
    assert strong.route.tool == "aerated-concrete-650"
    assert "STEP-501" not in rules(strong)
    steam = next(one for one in hot.cautions if one.id == "steam")
    assert "absolute" in steam.conclusion.sentence


@pytest.mark.parametrize("name", ["panel"])
def test_damp_prepreg_at_a_hot_cure_is_kept_sealed_and_proved(make_plan, name):
    dry, room, damp = (
        make_plan(name, shop={"room.humidity": share}) for share in (0.2, 0.5, 0.75)
    )
    margins = [found(one, "void-margin").value for one in (dry, room, damp)]
    assert margins == sorted(margins, reverse=True)
    assert "STEP-515" not in rules(dry)
    assert "STEP-515" in rules(room)
    assert "VOID-030" not in rules(room)
    assert "VOID-030" in rules(damp)


def test_a_cool_cure_presses_damp_out_of_mind(make_plan):
    assert not {"STEP-515", "VOID-030"} & rules(make_plan("duct"))


def test_high_up_the_room_must_be_drier(make_plan):
    low = make_plan("panel", shop={"vacuum.altitude": 0, "vacuum.reading": "28 inHg"})
    high = make_plan("panel", shop={"vacuum.altitude": 2000, "vacuum.reading": "22 inHg"})
    here, there = found(low, "highest-humidity"), found(high, "highest-humidity")
    assert there.value < here.value
