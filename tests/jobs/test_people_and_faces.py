"""Conditions that hang on who is at hand, on the face that is seen, on the pump."""

import pytest

from advisor.reading import InputError


def conditions(plan):
    return {one.conclusion.rule for one in plan.conditions}


def found(plan, key):
    return next((one for one in plan.findings if one.id == key), None)


def test_a_shop_of_one_names_a_second_person(make_plan):
    assert "PEOPLE-010" in conditions(make_plan("panel", shop={"people.count": 1}))
    assert "PEOPLE-010" not in conditions(make_plan("panel"))


def test_the_finish_of_a_male_tool_is_that_of_the_inside(make_plan):
    assert "FACE-010" in conditions(make_plan("cowl"))
    hidden = make_plan("cowl", {"finish.target": "as-moulded"})
    assert "FACE-010" not in conditions(hidden)
    assert "FACE-010" not in conditions(make_plan("panel"))


def test_a_pump_that_leaves_too_much_air_is_mended_or_accepted(make_plan):
    weak = {"vacuum.reading": "820 mbar"}
    assert "VAC-030" in conditions(make_plan("cowl", shop=weak))
    assert "VAC-030" not in conditions(make_plan("cowl"))


def test_a_lay_up_that_cannot_be_read_is_a_fault_of_the_file(make_plan):
    with pytest.raises(InputError, match=r"laminate\.layup.*'foo' is not an angle"):
        make_plan("cowl", {"laminate.layup": "[0/45/foo]"})


def test_a_solid_metal_tool_does_not_collapse(make_plan):
    vacuum = {one.id for one in make_plan("cowl").cautions}
    assert "vacuum" in vacuum
    assert "vacuum" not in {one.id for one in make_plan("panel").cautions}


def test_a_core_has_no_base_and_no_sides(make_plan):
    tube = {
        "part.shape": "closed",
        "part.tool_side": "male",
        "part.length": "300 mm",
        "part.width": "70 mm",
        "part.depth": "70 mm",
        "part.smallest_radius": None,
        "part.tolerance": None,
        "part.tolerance_over": None,
    }
    plan = make_plan("cowl", tube)
    volume = 0.5 * 0.07 * 0.07  # m3, with the longest margin at both ends
    assert found(plan, "tool-mass").value < 2800 * volume


def test_a_heavy_tool_has_its_caution_even_where_it_is_only_carried(make_plan):
    plan = make_plan("panel", shop={"people.hoist": False})
    assert found(plan, "lifting-index").value > 1
    lifting = next(one for one in plan.cautions if "lift" in one.hazard)
    assert lifting.applies_to_steps


def test_a_short_oven_is_offered_as_the_change_that_opens_a_route(make_plan):
    small = {"oven.length": "700 mm", "oven.width": "460 mm"}
    plan = make_plan("cowl", {"budget.total": None}, small)
    assert plan.verdict == "no-route"
    assert "larger oven" in plan.conditions[0].text
    assert len({one.text for one in plan.conditions}) == len(plan.conditions)


def test_air_that_is_held_back_brings_the_dwell_later(make_plan):
    thick = {"laminate.plies": 4, "cure.ramp": "2 delta_degC/min"}
    plan = make_plan("panel", thick)
    assert found(plan, "face-lag").judgement == "watch"
    slow = make_plan("panel", {"cure.ramp": "1 delta_degC/min"})
    ramp_h = (121 - 20) / 2 / 60
    assert found(plan, "dwell-start").value > ramp_h
    assert found(plan, "dwell-start").value <= found(slow, "dwell-start").value * 1.2
