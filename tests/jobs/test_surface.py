"""Filling and sanding follow the finish asked for and the filler used."""

import itertools
import re


def step(plan, rule):
    """Return the step a rule wrote, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def grits(plan):
    """Return the grits a plan goes through."""
    text = step(plan, "STEP-244").text
    return [int(grit) for grit in re.findall(r"P(\d+)", text)]


def test_paint_asks_for_finer_paper_and_more_fills_than_a_hidden_face(make_plan):
    hidden = make_plan("cowl", {"finish.target": "as-moulded"})
    paint = make_plan("cowl")
    assert grits(hidden)[-1] == 120
    assert grits(paint) == [80, 120, 180, 240]
    fills = [step(p, "STEP-232").quantities[0].value for p in (hidden, paint)]
    assert fills[0] < fills[1]


def test_gloss_is_sanded_to_a_polish(make_plan):
    skin = {"tool": "aerated-concrete", "sealing": "epoxy-glass-skin"}
    moved = {"finish.target": "gloss", "proposal": skin, "budget.total": 60_000}
    plan = make_plan("cowl", moved)
    assert plan.route.sealing == "epoxy-glass-skin"
    assert grits(plan)[-1] == 1000
    assert "polish" in step(plan, "STEP-244").text


def test_no_step_skips_a_grit(make_plan):
    sizes = {80: 201, 120: 125, 180: 82, 240: 58.5}
    sequence = grits(make_plan("cowl"))
    for coarse, fine in itertools.pairwise(sequence):
        assert sizes[coarse] / sizes[fine] <= 1.75


def test_a_bare_plate_is_neither_filled_nor_sanded(make_plan):
    plan = make_plan("panel")
    assert step(plan, "STEP-232") is None
    assert step(plan, "STEP-244") is None
