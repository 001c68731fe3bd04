"""Each material of the bag is pulled in a class that the heat asks for."""

import pytest

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
    under_a_bag = {row.role for row in ROWS.values()} - {"shrink-tape"}
    assert set(told) == under_a_bag
    for role, one in told.items():
        held = sorted(row.limit.si for row in ROWS.values() if row.role == role)
        assert one.value == next(c for c in held if c >= hot + limit("shelf_margin"))


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
    assert classes(plan)["bag-film"].value == 190.0
    assert classes(plan)["release-film"].judgement == "ok"


def test_the_labels_are_read_before_the_bag_is_built(make_plan):
    steps = make_plan("cowl").steps
    [read] = [one for one in steps if one.conclusion.rule == "STEP-604"]
    assert read.hold_point
    assert read.n < next(one.n for one in steps if one.conclusion.rule == "STEP-610")
    assert [one.label for one in read.quantities][-1] == "Bag film"
