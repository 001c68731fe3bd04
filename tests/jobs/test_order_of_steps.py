"""The order on the bench: is everything said before it is needed, and said once?"""

import re

BLOCK = {"proposal": {"tool": "aerated-concrete"}, "run.parts": 4}
FEMALE = BLOCK | {"part.tool_side": "female"}
OVEN = {"kind": "industrial", "length": 3000, "width": 2000, "height": 2000}
BOARD = {
    "proposal": {"tool": "pu-board", "release": "wax", "bagging": "bag-to-tool"},
    "cure.temperature": "65 degC",
    "cure.hold": "16 h",
    "budget.total": None,
}


def step(plan, rule):
    """Return the step a rule wrote, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def in_order(plan, *rules):
    """Return whether the steps of all these rules stand in the plan in this order."""
    written = [one.conclusion.rule for one in plan.steps]
    places = [written.index(rule) for rule in rules]
    return places == sorted(places)


def test_how_far_seal_and_release_run_is_said_before_they_go_on(make_plan):
    block, plate = make_plan("cowl"), make_plan("panel")
    assert in_order(block, "STEP-205", "STEP-210", "STEP-220", "STEP-415", "STEP-420")
    assert "tape line" not in step(block, "STEP-205").text
    assert in_order(plate, "STEP-417", "STEP-420")
    assert "Mask the tape line first" in step(plate, "STEP-417").text
    assert (step(block, "STEP-417"), step(plate, "STEP-415")) == (None, None)
    assert step(plate, "STEP-205") is None


def test_a_seal_runs_on_under_the_tape_of_a_bag_on_the_tool(make_plan):
    plan = make_plan("cowl", BOARD)
    assert (plan.route.tool, plan.route.bagging) == ("pu-board", "bag-to-tool")
    assert "under the tape line" in step(plan, "STEP-205").text


def test_what_shapes_the_templates_is_said_before_the_kit_is_cut(make_plan):
    plan, female = make_plan("cowl"), make_plan("cowl", FEMALE)
    assert in_order(
        plan, "STEP-516", "STEP-518", "STEP-520", "STEP-525", "STEP-527", "STEP-530"
    )
    assert in_order(female, "STEP-517", "STEP-520")
    assert "over the released edge" in step(plan, "STEP-530").hold_point.accept
    assert step(plan, "STEP-517") is None
    assert step(make_plan("panel"), "STEP-516") is None


def test_what_lies_under_the_tool_is_laid_before_the_plies(make_plan):
    plan = make_plan("cowl")
    assert plan.route.bagging == "bag-to-table"
    assert in_order(plan, "STEP-501", "STEP-504", "STEP-511", "STEP-525", "STEP-530")
    assert "breather under the tool" in step(plan, "STEP-504").text
    assert "pores" in step(plan, "STEP-504").why
    assert "under the tool" not in step(plan, "STEP-610").text
    assert step(make_plan("panel"), "STEP-504") is None


TABLE = {"bagging": "bag-to-table"}

ENVELOPED = {
    "proposal": {"tool": "aluminium", "bagging": "envelope"},
    "budget.total": None,
}


def test_an_envelope_is_begun_before_the_plies_and_closed_after_them(make_plan):
    plan = make_plan("cowl", ENVELOPED)
    assert (plan.route.tool, plan.route.bagging) == ("aluminium", "envelope")
    assert "lower half" in step(plan, "STEP-506").text
    assert "pores" not in step(plan, "STEP-506").why
    assert "lower half" not in step(plan, "STEP-610").text
    assert "upper half" in step(plan, "STEP-610").text
    assert step(plan, "STEP-504") is None
    assert step(make_plan("cowl"), "STEP-506") is None


def listed(plan):
    """Return the places of the thermocouples in one line."""
    return " ".join(step(plan, "STEP-525").listed)


def test_thermocouples_are_placed_where_the_cure_reads_them(make_plan):
    block, plate, core = make_plan("cowl"), make_plan("panel"), make_plan("duct")
    for needed in ("in the core's hole", "on the underside"):
        assert needed in listed(block)
        assert needed not in listed(plate)
    assert "thermocouple of the underside" in step(block, "STEP-504").text
    assert "in the core" not in listed(make_plan("cowl", ENVELOPED))
    assert "on its underside, at the laminate" in listed(core)


def test_a_tough_porous_tool_gets_no_thermocouple_below(make_plan):
    plan = make_plan("cowl", BOARD | {"proposal": BOARD["proposal"] | TABLE})
    assert (plan.route.tool, plan.route.bagging) == ("pu-board", "bag-to-table")
    assert "thermocouple" not in step(plan, "STEP-504").text


def test_the_coupon_comes_before_the_blank_is_bonded_and_cut(make_plan):
    core = ["HOLLOW-063"]  # a core that washes out is tried besides
    for name, bonded, more in (("cowl", "STEP-123", []), ("duct", "STEP-122", core)):
        plan = make_plan(name)
        assert in_order(plan, "STEP-114", bonded, "STEP-140", "STEP-412", "STEP-420")
        assert step(plan, "STEP-410") is None
        tried = sorted(one.conclusion.rule for one in plan.trials)
        assert tried == [*more, "STEP-114"]


def test_a_bare_metal_face_is_tried_where_it_stands(make_plan):
    plan = make_plan("panel")
    assert in_order(plan, "STEP-250", "STEP-410", "STEP-420")
    assert (step(plan, "STEP-114"), step(plan, "STEP-412")) == (None, None)
    assert "seal" not in plan.trials[0].text
    assert "block" not in plan.trials[0].text


def test_the_leak_rate_is_read_before_and_after_the_empty_cycle(make_plan):
    hold = step(make_plan("cowl"), "STEP-320").hold_point
    assert "leak rate before and after" in hold.record
    assert step(make_plan("panel"), "STEP-320") is None


def test_one_humidity_is_printed_and_in_whole_per_cent(make_plan):
    plan = make_plan("panel")
    thaw, sealed = step(plan, "STEP-510").text, step(plan, "STEP-515").text
    said = re.search(r"(\d+)\u202f% humidity or less", thaw)[1]
    assert re.findall(r"([\d.]+)\u202f%", sealed) == [said]
    assert "70" not in thaw
    assert "70\u202f% humidity or less" in step(make_plan("duct"), "STEP-510").text


def test_the_cold_hold_is_one_and_follows_the_leak_test(make_plan):
    block, plate = make_plan("cowl"), make_plan("panel")
    assert in_order(block, "STEP-650", "STEP-660", "STEP-740")
    assert in_order(plate, "STEP-650", "STEP-670", "STEP-730")
    assert (step(block, "STEP-670"), step(plate, "STEP-660")) == (None, None)


def test_a_long_way_to_the_edge_is_held_longer(make_plan):
    def hold(job, rule, name):
        return step(make_plan(name, job), rule).quantities[0].value

    assert hold({}, "STEP-670", "panel") == 1
    wide = {"part.length": 1300, "part.width": 1200}
    plan = make_plan("panel", wide | {"budget.total": None}, {"stock": None, "oven": OVEN})
    assert step(plan, "STEP-670").quantities[0].value == 2
    assert hold({}, "STEP-660", "cowl") == 1


def test_peel_ply_is_laid_where_the_job_bonds_and_nowhere_else(make_plan):
    bond = {"finish.after": "bond"}
    for name, rule in (("cowl", "STEP-610"), ("panel", "STEP-610"), ("duct", "STEP-612")):
        assert "peel ply" not in step(make_plan(name), rule).text
        assert "peel ply" in step(make_plan(name, bond), rule).text
    assert "as for a bag on the tool" not in step(make_plan("cowl"), "STEP-610").text


def test_an_empty_tool_is_heated_under_the_cut_out_of_a_bagged_load(make_plan):
    plan = make_plan("cowl")
    trip = next(one for one in plan.findings if one.id == "trip-setting")
    assert f"{trip.value:g}" in step(plan, "STEP-320").text
    assert "film" in step(plan, "STEP-320").text


def test_a_tool_that_grips_its_part_is_left_warm(make_plan):
    """By hand: of two tools the one that shrinks more than carbon grips a part in it."""
    female = {"part.tool_side": "female", "run.parts": 4, "budget.total": 60_000}
    board = make_plan("cowl", female | {"proposal": {"tool": "epoxy-board"}})
    assert board.route.tool == "epoxy-board"
    gap = next(one for one in board.findings if one.id == "cooling-gap")
    assert gap.value < -0.2
    assert in_order(board, "STEP-806", "STEP-810")
    assert step(make_plan("cowl"), "STEP-806") is None


def test_a_thin_coat_is_baked_before_it_is_sanded_and_sanded_with_fine_paper(make_plan):
    coat = {"tool": "epoxy-board", "sealing": "high-temp-epoxy"}
    changes = {"part.tool_side": "female", "run.parts": 4, "budget.total": 60_000}
    plan = make_plan("cowl", changes | {"proposal": coat, "finish.target": "gloss"})
    assert plan.route.sealing == "high-temp-epoxy"
    assert in_order(plan, "STEP-236", "STEP-240", "STEP-244")
    grits = [int(one) for one in re.findall(r"P(\d+)", step(plan, "STEP-244").text)]
    assert grits[0] == 400
    assert grits == sorted(grits)


def test_a_gripped_part_is_not_warmed_above_its_cure(make_plan):
    cool = {
        "part.tool_side": "female",
        "run.parts": 4,
        "budget.total": 60_000,
        "cure.temperature": "45 degC",
        "cure.resin": "epoxy-wet",
        "cure.hold": "16 h",
        "proposal": {"tool": "epoxy-board"},
    }
    drawn = step(make_plan("cowl", cool), "STEP-806").text
    assert "45\u202f°C" in drawn
    assert "50\u202f°C" not in drawn
    assert step(make_plan("duct"), "STEP-806") is None


def test_the_kit_is_cut_with_a_lay_up_or_without(make_plan):
    assert make_plan("duct").job["laminate"]["layup"] is None
    assert step(make_plan("duct"), "STEP-520")
    assert step(make_plan("duct"), "STEP-514") is None
    assert in_order(make_plan("cowl"), "STEP-514", "STEP-520")
    assert "[0/45]s" in step(make_plan("cowl"), "STEP-514").text


def test_a_patch_cured_to_prove_the_coat_brings_the_cautions_of_a_bagged_cure(make_plan):
    coat = {"tool": "epoxy-board", "sealing": "high-temp-epoxy"}
    changes = {"part.tool_side": "female", "run.parts": 4, "budget.total": 60_000}
    proof = step(make_plan("cowl", changes | {"proposal": coat}), "STEP-242")
    assert "cure one patch" in proof.text
    assert {"vacuum", "fluoropolymer", "epoxy", "solvent"} <= set(proof.cautions)
