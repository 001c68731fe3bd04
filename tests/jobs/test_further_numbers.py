"""Numbers that a job may ask for: fibre, roughness, pull-down, bedding, wet coats."""

import pytest

BLOCK = {"proposal": {"tool": "aerated-concrete"}, "run.parts": 4}


def found(plan, key):
    return next((one for one in plan.findings if one.id == key), None)


def step(plan, rule):
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def conditions(plan):
    return {one.conclusion.rule for one in plan.conditions}


def test_more_fibre_than_the_prepreg_gives_is_bled_and_thinner(make_plan):
    plain, bled = (
        make_plan("cowl", {"laminate.fibre_volume": share}) for share in (None, 0.56)
    )
    assert found(plain, "bleed") is None
    assert step(plain, "STEP-615") is None
    assert step(bled, "STEP-615").quantities[0].value >= 1
    thin, thick = (found(one, "laminate-thickness").value for one in (bled, plain))
    assert thin < thick


def test_less_fibre_than_the_prepreg_gives_asks_for_another_prepreg(make_plan):
    plan = make_plan("cowl", {"laminate.fibre_volume": 0.35})
    assert "RES-150" in conditions(plan)
    assert step(plan, "STEP-615") is None
    assert "RES-150" not in conditions(make_plan("cowl", {"laminate.fibre_volume": 0.56}))


def test_a_roughness_asked_for_decides_the_last_grit(make_plan):
    usual = make_plan("cowl")
    fine = make_plan("cowl", {"finish.roughness": "0.4 um"})
    assert (step(usual, "STEP-245"), step(fine, "STEP-244")) == (None, None)
    assert "P600" not in step(usual, "STEP-244").text
    assert "P800" in step(fine, "STEP-245").text
    assert found(fine, "face-roughness").high <= 0.4


def test_pores_under_the_bag_lengthen_the_pull_down(make_plan):
    block, plate = make_plan("cowl", BLOCK), make_plan("panel")
    assert found(block, "pull-down").value > 20 * found(plate, "pull-down").value
    small = make_plan("cowl", BLOCK, {"vacuum.flow": "5 m**3/h"})
    assert found(small, "pull-down").value > found(block, "pull-down").value
    shown = step(block, "STEP-650").quantities[0]
    assert shown.value == pytest.approx(found(block, "pull-down").value)


def test_every_heat_of_a_block_keeps_its_ramps(make_plan):
    plan = make_plan("cowl", BLOCK)
    up, down = step(plan, "STEP-118").quantities
    assert up.value == pytest.approx(found(plan, "heating-ramp").value)
    assert down.value == pytest.approx(found(plan, "cooling-ramp").value)
    assert step(make_plan("panel"), "STEP-118") is None


def test_the_door_stays_shut_until_the_core_is_near_the_room(make_plan):
    plan = make_plan("cowl", BLOCK)
    stands = found(plan, "coldest-allowed").value
    assert found(plan, "opens-at").value == pytest.approx(20 + stands)
    fall_h = (90 - 20 - stands) / found(plan, "cooling-ramp").value / 60
    assert found(plan, "cooling-time").value > fall_h
    assert "Keep the door shut" in step(plan, "STEP-760").text


def test_slow_drying_is_judged_by_a_smaller_loss(make_plan):
    thin, thick = (
        found(make_plan("cowl", BLOCK | {"part.depth": depth}), "dry-loss").value
        for depth in ("30 mm", "250 mm")
    )
    assert thick < thin <= 0.1  # per cent an hour


def test_a_soft_board_that_lies_hollow_is_bedded(make_plan):
    board = {
        "proposal": {"tool": "pu-board", "bagging": "bag-to-table"},
        "cure.temperature": "65 degC",
        "cure.hold": "16 h",
        "budget.total": None,
        "part.tolerance": "0.3 mm",
        "part.tolerance_over": "100 mm",
    }
    plan = make_plan("cowl", board)
    assert (plan.route.tool, plan.route.bagging) == ("pu-board", "bag-to-table")
    assert found(plan, "hollow-sink").value > 0.15
    assert step(plan, "STEP-509").hold_point
    assert found(make_plan("panel"), "hollow-sink") is None


def test_a_coat_with_solvent_is_dry_before_the_oven(make_plan):
    moved = {
        "cure.temperature": "60 degC",
        "run.parts": 2,
        "finish.target": "as-moulded",
        "proposal": {"tool": "mdf", "sealing": "lacquer"},
    }
    plan = make_plan("cowl", moved, {"oven.kind": "home-built"})
    assert plan.route.sealing == "lacquer"
    assert step(plan, "STEP-238").hold_point
    assert conditions(plan) & {"AIR-110", "AIR-115"}
    assert step(make_plan("cowl"), "STEP-238") is None


def test_one_person_lifts_by_the_worse_end(make_plan):
    limit = found(make_plan("cowl"), "one-person-lift")
    assert limit.low < limit.value < limit.high <= 23


def test_sanding_a_face_makes_dust_even_where_nothing_is_cut_away(make_plan):
    flat = {
        "stock": [],
        "making.metal_machining": False,
    }
    board = {"cure.temperature": "90 degC", "cure.resin": "epoxy-low-temperature"}
    board |= {"cure.hold": "5 h", "budget.total": None, "run.parts": 4}
    plan = make_plan("panel", board | {"proposal": {"tool": "epoxy-board"}}, flat)
    assert plan.route.tool == "epoxy-board"
    assert 0 < found(plan, "dust-mass").value < 1  # kg: half a millimetre of a panel
    deep = make_plan("cowl", BLOCK)
    assert found(deep, "dust-mass").value > 5
