"""Lay-up and corners: does growth follow the plies, and the tool's angle the corner?"""

import pytest

UD = {"laminate.weave": "unidirectional"}


def found(plan, key):
    """Return one number of the plan."""
    return next(f for f in plan.findings if f.id == key)


def rules(plan):
    """Return the rules behind the plan's findings, steps and conditions."""
    every = (*plan.findings, *plan.steps, *plan.conditions)
    return {one.conclusion.rule for one in every}


def test_a_layup_that_is_even_gives_the_growth(make_plan):
    plan = make_plan("panel")
    assert "LAM-010" in rules(plan)
    assert not {"LAM-020", "LAM-025", "LAM-030"} & rules(plan)
    growth = found(plan, "part-expansion")
    assert growth.low < growth.value < growth.high


def test_without_a_layup_the_growth_of_the_fibre_is_taken(make_plan):
    plan = make_plan("duct")
    assert "LAM-025" in rules(plan)
    assert "LAM-010" not in rules(plan)


def test_a_layup_of_another_number_of_plies_leaves_the_growth_of_the_fibre(make_plan):
    plan = make_plan("panel", {"laminate.layup": "[0/45/0]"})
    assert {"LAM-020", "LAM-050"} <= rules(plan)
    assert "LAM-010" not in rules(plan)


def test_straight_plies_along_the_part_grow_least(make_plan):
    along, crossed, across = (
        found(make_plan("panel", UD | {"laminate.layup": text}), "part-expansion").value
        for text in ("[0_3]s", "[0/90/0]s", "[90_3]s")
    )
    assert along < crossed < across


def test_less_growth_of_the_part_means_more_scaling_of_the_tool(make_plan):
    along, across = (
        found(make_plan("panel", UD | {"laminate.layup": text}), "scale-factor").value
        for text in ("[0_3]s", "[90_3]s")
    )
    assert along < across


@pytest.mark.parametrize("layup", ["[0_3/90_3]", "[0/45/0]s", "[0_2/45_2/-45_2]"])
def test_an_uneven_layup_of_straight_plies_is_told_its_bow(make_plan, layup):
    plan = make_plan("panel", UD | {"laminate.layup": layup})
    assert {"LAM-030", "LAM-040"} <= rules(plan)
    assert found(plan, "bow").value > 0.1
    assert plan.verdict == "route-with-conditions"


@pytest.mark.parametrize(
    "laminate", [UD | {"laminate.layup": "[0/45/-45]s"}, {"laminate.layup": "[0_3/90_3]"}]
)
def test_an_even_layup_or_a_weave_has_no_bow(make_plan, laminate):
    assert not {"LAM-030", "LAM-040"} & rules(make_plan("panel", laminate))


def test_a_corner_opens_the_tool(make_plan):
    plan = make_plan("cowl", {"part.corner": 90})
    assert {"SPRING-010", "SPRING-020", "STEP-106"} <= rules(plan)
    closes = found(plan, "spring-in")
    assert closes.low < closes.value < closes.high
    assert found(plan, "tool-corner").value == pytest.approx(90 + closes.value, abs=0.02)


def test_no_corner_no_spring_in(make_plan):
    assert not {"SPRING-010", "SPRING-020", "STEP-106"} & rules(make_plan("cowl"))


def test_a_sharper_bend_and_a_hotter_cure_close_more(make_plan):
    def closes(corner, at):
        moved = {"part.corner": corner, "cure.temperature": at}
        return found(make_plan("cowl", moved), "spring-in").value

    assert closes(60, "90 degC") > closes(120, "90 degC")
    assert closes(90, "90 degC") > closes(90, "65 degC")
