"""Each material of the bag is pulled in a class that the heat asks for."""

import re

import pytest
from advisor.rules.shelf import needed_c

from advisor.knowledge.tables import limit, load_knowledge

ROWS = load_knowledge().consumables
HOT = {"cure.temperature": "180 degC", "cure.resin": "epoxy-180", "budget.total": 60000}
COOL = {"cure.temperature": "65 degC", "cure.hold": "16 h"}


def classes(plan):
    """Return the class asked of each material, in degrees Celsius."""
    told = [one for one in plan.findings if one.id.startswith("class-")]
    return {one.id.removeprefix("class-"): one for one in told}


@pytest.mark.parametrize("moved", [{}, COOL, {"cure.temperature": "120 degC"}])
def test_no_class_lies_below_the_cure_and_its_margin(make_plan, moved):
    plan = make_plan("cowl", {"budget.total": 60000} | moved)
    [hot] = [one.value for one in plan.findings if one.id == "tool-temperature"]
    told = classes(plan)
    elsewhere = {"peel-ply", "shrink-tape", "bladder"}
    assert set(told) == {row.role for row in ROWS.values()} - elsewhere
    for role, one in told.items():
        held = sorted(row.limit.si for row in ROWS.values() if row.role == role)
        assert one.value == next(c for c in held if c >= needed_c(hot))
        assert one.limit >= hot + limit("shelf_margin")
        assert one.limit >= hot + limit("air_lead")


def test_a_class_is_above_the_hottest_spot_and_above_the_air_that_leads_it():
    assert needed_c(90.0, margin=20.0, lead=14.0) == 110.0
    assert needed_c(90.0, margin=10.0, lead=14.0) == 104.0
    assert needed_c(90.0) == 90.0 + max(limit("shelf_margin"), limit("air_lead"))


@pytest.mark.published("helicopter-repair-manual", at="51-20 p. 330, air 15 to 25 F above")
def test_a_class_lies_as_far_above_the_cure_as_the_air_may_lead():
    assert needed_c(0.0) >= 25 / 1.8 - 0.5


def test_the_formula_says_whether_a_class_was_found(make_plan):
    told = classes(make_plan("cowl", HOT))
    assert told["bag-film"].conclusion.formula.startswith("T + max(margin, air lead)")
    assert told["bag-film"].value == told["bag-film"].limit
    assert told["release-film"].conclusion.formula.startswith("lowest class held")
    assert told["release-film"].value > told["release-film"].limit


def test_a_class_below_is_not_asked_for_more_than_it_need_be(make_plan):
    assert classes(make_plan("cowl", COOL))["bag-film"].value == 80.0
    assert classes(make_plan("cowl"))["bag-film"].value == 120.0


@pytest.mark.published("nylon-bag-page", at="service temperature")
def test_the_highest_bag_film_is_no_hotter_than_printed():
    assert ROWS["bag-film-high"].limit.value == 176.0


def test_where_no_class_is_held_the_sheet_must_say_so(make_plan):
    plan = make_plan("cowl", HOT)
    asked = [one for one in plan.conditions if one.conclusion.rule == "SHELF-030"]
    assert len(asked) == 1
    assert classes(plan)["bag-film"].judgement == "watch"
    assert classes(plan)["bag-film"].value == 194.0
    assert "194" in asked[0].text
    assert classes(plan)["release-film"].judgement == "ok"


def test_the_labels_are_read_before_the_bag_is_built(make_plan):
    steps = make_plan("cowl").steps
    [read] = [one for one in steps if one.conclusion.rule == "STEP-604"]
    assert read.hold_point
    assert read.n < next(one.n for one in steps if one.conclusion.rule == "STEP-610")
    assert [one.label for one in read.quantities][-1] == "Bag film"


# How each material is called in the lists of layers.
CALLED = {
    "peel-ply": "peel ply",
    "release-film": "release film",
    "breather": "breather (on|round|150|300)",
    "edge-breather": "dry glass tow|edge breather|rovings",
    "sealant-tape": "sealant tape",
    "bag-film": "bag film",
    "shrink-tape": "shrink tape",
    "bladder": "bladder of silicone",
}


@pytest.mark.parametrize("bag", load_knowledge().bagging)
def test_a_bag_takes_the_materials_of_its_layers(bag):
    """Flash tape alone is in no list of layers: it holds the wires and film edges."""
    row = load_knowledge().bagging[bag]
    laid = " ".join((*row.below, *row.layers))
    named = {role for role, words in CALLED.items() if re.search(words, laid)}
    assert named | {"flash-tape"} == set(row.materials)


def labels_read(plan):
    """Return the class of each material whose label is to be read."""
    [read] = [one for one in plan.steps if one.conclusion.rule == "STEP-604"]
    return {one.label: one.value for one in read.quantities}


def test_only_what_lies_in_this_bag_is_pulled(make_plan):
    plain, bonded = make_plan("cowl"), make_plan("cowl", {"finish.after": "bond"})
    assert "Peel ply" not in labels_read(plain)
    assert labels_read(bonded) == labels_read(plain) | {"Peel ply": 180.0}
    closed = make_plan(
        "cowl",
        {
            "finish.both_faces": True,
            "finish.after": "bond",
            "proposal": {},
            "budget.total": 900_000,
        },
    )
    assert closed.route.bagging == "matched-mould"
    assert not {"Peel ply", "Release film over the plies"} & set(labels_read(closed))


@pytest.mark.parametrize("moved", [{}, HOT, COOL])
def test_the_labels_are_those_of_the_findings(make_plan, moved):
    plan = make_plan("cowl", moved)
    found = {one.label: one.value for one in plan.findings if one.id.startswith("class-")}
    assert {f"{role}: class, at least": c for role, c in labels_read(plan).items()} == found


def cut_out(plan):
    """Return the finding of the cut-out and the limits it is the least of."""
    [set_to] = [one for one in plan.findings if one.id == "trip-setting"]
    [step] = [one for one in plan.steps if one.conclusion.rule == "STEP-048"]
    setting, *limits = ((one.label, one.value) for one in step.quantities)
    assert setting == ("Over-temperature cut-out, at most", set_to.value)
    return set_to, dict(limits)


SOFT_BOARD = {
    "cure.temperature": 60,
    "cure.resin": "epoxy-tooling",
    "cure.hold": 10,
    "run.parts": 2,
    "proposal": {"tool": "mdf", "release": "wax"},
}


@pytest.mark.parametrize("moved", [{}, HOT, COOL, SOFT_BOARD, {"finish.after": "bond"}])
def test_the_cut_out_is_the_least_of_all_that_lies_in_the_load(make_plan, moved):
    plan = make_plan("cowl", moved)
    found, limits = cut_out(plan)
    assert found.value == min(limits.values())
    assert "Limit of tool, for a short time" in limits
    assert ("Limit of seal, baked" in limits) == (plan.route.sealing != "none")
    for label, stands in labels_read(plan).items():
        assert limits[f"Limit of {label.lower()}"] == stands


def test_film_and_tape_hold_the_cut_out_under_a_tool_that_stands_more(make_plan):
    found, limits = cut_out(make_plan("cowl"))
    assert found.value == limits["Limit of bag film"] == 120.0
    assert found.value < limits["Limit of seal, baked"]
    assert cut_out(make_plan("cowl", COOL))[0].value == 80.0


def test_a_cut_out_without_room_for_the_air_asks_for_a_higher_class(make_plan):
    roomy, tight = make_plan("cowl"), make_plan("cowl", SOFT_BOARD)
    assert cut_out(roomy)[0].judgement == "ok"
    assert cut_out(tight)[0].judgement == "watch"
    assert cut_out(tight)[0].value < cut_out(tight)[0].limit

    def asked(plan):
        return [one for one in plan.conditions if one.conclusion.rule == "OVEN-112"]

    assert asked(roomy) == []
    assert "higher class" in asked(tight)[0].text


def test_the_cut_out_is_lowered_before_the_bag_where_the_bag_stands_less(make_plan):
    plan, level = make_plan("cowl"), make_plan("cowl", SOFT_BOARD)
    rules = [one.conclusion.rule for one in plan.steps]
    [lower] = [one for one in plan.steps if one.conclusion.rule == "STEP-602"]
    [alone] = [one for one in plan.findings if one.id == "trip-alone"]
    assert lower.quantities[0].value == cut_out(plan)[0].value < alone.value
    assert rules.index("STEP-602") < rules.index("STEP-740")
    assert lower.hold_point
    assert "STEP-602" not in [one.conclusion.rule for one in level.steps]


BOARD = {
    "cure.hold": 8,
    "run.parts": 2,
    "budget.total": 60000,
    "proposal": {"tool": "mdf", "sealing": "high-temp-epoxy"},
}


@pytest.mark.parametrize(
    ("cure_c", "above_in"),
    [(65, set()), (75, {"STEP-240"}), (90, {"STEP-240", "STEP-730"})],
)
def test_a_heat_between_the_two_limits_of_the_tool_says_why(make_plan, cure_c, above_in):
    """The board serves to 80 and stands 120 for a short time."""
    row = load_knowledge().tool_materials["mdf"]
    assert (row.service_limit.si, row.short_limit.si) == (80.0, 120.0)
    plan = make_plan("cowl", BOARD | {"cure.temperature": cure_c})
    told = [one for one in plan.steps if "above the 80" in one.text]
    assert plan.route.tool == "mdf"
    assert {one.conclusion.rule for one in told} == above_in
    assert all("under the 120" in one.text for one in told)
