"""A local undercut gets a loose piece; one that runs round, or is closed, does not.

What a seasoned hand would say is common practice, no source.
"""

import pytest

LIP = [{"place": "under the lip at the rear", "depth": 8, "length": 120}]
COWL = {
    "part.undercut": True,
    "part.tool_side": "female",
    "budget.total": 60_000,
    "proposal": {"tool": "epoxy-board"},
}


def steps(plan):
    return {one.conclusion.rule: one for one in plan.steps}


def test_a_local_undercut_is_freed_by_a_loose_piece(make_plan):
    plan = make_plan("cowl", COWL | {"part.local_undercut": LIP})
    assert plan.route.construction == "loose-piece"
    assert "under the lip at the rear" in steps(plan)["STEP-203"].text
    assert steps(plan)["STEP-823"].quantities[1].value == 8


def test_an_undercut_that_is_not_placed_still_splits_the_tool(make_plan):
    assert make_plan("cowl", COWL).route.construction == "split"


@pytest.mark.parametrize("length", [900, 1900])
def test_an_undercut_that_runs_round_splits_the_tool(make_plan, length):
    listed = [LIP[0] | {"length": length}]
    plan = make_plan("cowl", COWL | {"part.local_undercut": listed})
    assert plan.route.construction == "split"


def test_a_closed_section_keeps_its_core_that_goes(make_plan):
    plan = make_plan("duct", {"part.local_undercut": LIP})
    assert plan.route.construction == "wash-out"


def test_a_listed_undercut_needs_no_second_word(make_plan):
    listed = COWL | {"part.undercut": None, "part.local_undercut": LIP}
    assert make_plan("cowl", listed).route.construction == "loose-piece"


def test_two_places_take_two_pieces(make_plan):
    two = [*LIP, {"place": "vent at the side", "depth": 5, "length": 60}]
    plan = make_plan("cowl", COWL | {"part.local_undercut": two})
    assert [one.value for one in steps(plan)["STEP-823"].quantities] == [2, 8]


def test_the_screws_come_out_before_the_part_is_drawn(make_plan):
    text = steps(make_plan("cowl", COWL | {"part.local_undercut": LIP}))["STEP-823"].text
    order = ("every screw", "draw the part", "slide each piece")
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_the_piece_is_made_before_it_is_tried_released_and_freed(make_plan):
    plan = make_plan("cowl", COWL | {"part.local_undercut": LIP})
    order = ("STEP-203", "STEP-333", "STEP-473", "STEP-823")
    places = [steps(plan)[rule].n for rule in order]
    assert places == sorted(places)


@pytest.mark.parametrize(
    "wrong",
    [
        {"place": "", "depth": 8, "length": 120},
        {"place": "lip", "depth": 0, "length": 120},
        {"place": "lip", "depth": 8},
    ],
)
def test_a_place_a_depth_and_a_length_are_all_needed(make_plan, wrong):
    with pytest.raises(Exception, match=r"local_undercut"):
        make_plan("cowl", COWL | {"part.local_undercut": [wrong]})


def test_a_brittle_tool_gets_a_tougher_piece(make_plan):
    listed = COWL | {"part.local_undercut": LIP}
    brittle = listed | {"proposal": {"tool": "aerated-concrete"}}
    for job, doubted in ((brittle, True), (listed, False)):
        told = {one.conclusion.rule for one in make_plan("cowl", job).conditions}
        assert ("LOOSE-033" in told) == doubted


def test_each_piece_costs_its_hours(make_plan):
    two = [*LIP, {"place": "vent at the side", "depth": 5, "length": 60}]
    one, both = (
        make_plan("cowl", COWL | {"part.local_undercut": listed}).route
        for listed in (LIP, two)
    )
    assert one.tool == both.tool
    assert both.cost_total > one.cost_total
