"""Heat-up, the laminate's own heat, and the hold: what each input moves.

What a seasoned hand would say is common practice, no source, unless a source is named.
"""

import pytest

from advisor.knowledge.tables import load_knowledge

HOT = {"cure.temperature": "120 degC", "cure.resin": "epoxy-120", "cure.hold": "2 h"}
RICH = {"budget.total": 100_000}


def found(plan, id):
    """Return a finding by its id, or None."""
    return next((one for one in plan.findings if one.id == id), None)


def step(plan, rule):
    """Return the step of a rule, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def asked_for(plan):
    """Return the rules that ask for something first."""
    return {one.conclusion.rule for one in plan.conditions}


def amount(step, label):
    """Return a quantity of a step whose label begins so."""
    return next(q.value for q in step.quantities if q.label.startswith(label))


def test_on_the_block_the_dwell_starts_hours_after_the_air(make_plan):
    plan = make_plan("cowl")
    delay, start = found(plan, "dwell-delay"), found(plan, "dwell-start")
    assert delay.judgement == "watch"
    assert 1.5 <= delay.value <= 7.0
    assert delay.low < delay.value < delay.high
    heating = step(plan, "STEP-740")
    assert "start the clock by the thermocouple, never by the air" in heating.text
    assert amount(heating, "Heat-on to start") == pytest.approx(start.value)
    assert amount(heating, "Heat-on to end") == pytest.approx(start.value + 5.0, rel=1e-4)


def test_on_a_metal_plate_it_follows_the_air(make_plan):
    plan = make_plan("panel")
    assert found(plan, "dwell-delay").judgement == "ok"
    assert found(plan, "core-difference") is None
    assert "soon after the air" in step(plan, "STEP-730").text


def test_a_deeper_block_waits_longer(make_plan):
    shallow, deep = (
        make_plan("cowl", {"part.depth": depth, "part.draft": "6 deg"})
        for depth in ("60 mm", "250 mm")
    )
    assert found(deep, "dwell-start").value > found(shallow, "dwell-start").value
    assert found(deep, "heating-ramp").value < found(shallow, "heating-ramp").value


def test_at_one_ramp_the_core_of_a_deeper_block_lags_more(make_plan):
    shallow, deep = (
        make_plan("cowl", {"part.depth": depth, "part.draft": "6 deg", "cure.ramp": 0.05})
        for depth in ("60 mm", "250 mm")
    )
    assert found(deep, "core-difference").value > found(shallow, "core-difference").value


def test_air_that_would_run_ahead_is_told_to_wait(make_plan):
    words = "the air would run about"
    slow, fast = (
        make_plan("panel", {"cure.ramp": f"{ramp} delta_degC/min"}) for ramp in (0.5, 2)
    )
    assert words not in step(slow, "STEP-730").text
    assert "Expect the air to lead by" in step(slow, "STEP-730").text
    assert words in step(fast, "STEP-730").text
    assert found(slow, "face-lag").judgement == "ok"
    assert found(fast, "face-lag").judgement == "watch"


def test_a_first_cure_is_heated_by_its_own_figures(make_plan):
    moved = (
        HOT
        | RICH
        | {
            "proposal": {"tool": "epoxy-board"},
            "cure.resin": "epoxy-tooling",
            "cure.first_cure": "60 degC",
            "cure.free_standing_post_cure": True,
        }
    )
    plan = make_plan("cowl", moved)
    heating = step(plan, "STEP-720")
    assert amount(heating, "Dwell temperature") == 60.0
    assert amount(heating, "Heat-on to start") == found(plan, "dwell-start").value


def test_a_thick_brittle_block_is_proved_or_hollowed_and_a_thin_core_is_not(make_plan):
    assert "HEAT-030" in asked_for(make_plan("cowl"))
    assert "HEAT-030" not in asked_for(make_plan("duct"))
    assert "HEAT-030" not in asked_for(make_plan("panel"))


def spoken_of(plan, tool):
    """Return the rules that spoke of a tool material."""
    option = next(o for o in plan.options if (o.stage, o.id) == ("tool", tool))
    return {one.rule for one in option.reasons}


def test_a_body_that_hardly_warms_is_in_doubt(make_plan):
    huge = {
        "part.length": "1500 mm",
        "part.width": "1500 mm",
        "part.depth": "1400 mm",
        "part.smallest_radius": "200 mm",
        "part.tolerance": None,
        "part.tolerance_over": None,
        "budget.total": None,
    }
    room = {"oven.length": 4000, "oven.width": 4000, "oven.height": 3000}
    assert "HEAT-020" in spoken_of(make_plan("cowl", huge, room), "graphite")
    assert "HEAT-020" not in spoken_of(make_plan("cowl", huge, room), "carbon-laminate")
    assert "HEAT-020" not in spoken_of(make_plan("cowl", huge, room), "steel")
    assert "HEAT-020" not in spoken_of(make_plan("cowl"), "graphite")


def test_a_heat_up_that_never_ends_is_proved_first(make_plan):
    thick = {"laminate.plies": 200, "laminate.areal_weight": "2000 g/m**2"}
    plan = make_plan("cowl", thick | {"budget.total": None})
    assert found(plan, "dwell-delay").judgement == "fail"
    assert "prove the heat-up first" in step(plan, "STEP-740").text
    assert "HEAT-020" in asked_for(plan)


def test_what_is_ruled_out_is_not_heated(make_plan):
    plan = make_plan("cowl", {"cure.temperature": "180 degC", "cure.resin": "epoxy-180"})
    assert "HEAT-010" not in spoken_of(plan, "mdf")


def test_a_thick_laminate_is_watched_in_its_middle(make_plan):
    thin, thick = (make_plan("cowl", HOT | RICH | {"laminate.plies": n}) for n in (4, 40))
    assert step(thin, "CURE-020") is None
    hold = step(thick, "CURE-020").hold_point
    assert "above the dwell of 120" in hold.accept
    assert "CURE-020" in asked_for(thick)
    assert found(thick, "exotherm-peak").value > found(thin, "exotherm-peak").value


def test_published_resins_warn_of_a_thick_laminate_on_an_insulator(make_plan):
    plan = make_plan("cowl", HOT | RICH | {"laminate.plies": 60})
    peak = found(plan, "exotherm-peak")
    assert peak.judgement == "fail"
    assert peak.low <= peak.value <= peak.high
    assert "no prediction" in peak.conclusion.sentence
    assert "CURE-035" in asked_for(plan)
    assert "CURE-035" not in asked_for(make_plan("cowl", HOT))


@pytest.mark.parametrize("name", ["cowl", "panel"])
def test_no_peak_is_given_for_a_cool_class_or_a_thin_laminate_on_metal(make_plan, name):
    assert found(make_plan(name), "exotherm-peak") is None


def test_a_hold_too_short_for_the_hottest_listed_cure_is_asked_about(make_plan):
    assert "CURE-040" in asked_for(make_plan("cowl", {"cure.hold": "1 h"}))
    assert "CURE-040" not in asked_for(make_plan("cowl"))


def test_below_the_lowest_listed_cure_nothing_is_worked_out(make_plan):
    cool = make_plan("cowl", {"cure.temperature": "62 degC", "cure.hold": "20 h"})
    assert "CURE-050" in asked_for(cool)
    assert found(cool, "hold-listed") is None
    assert "CURE-050" not in asked_for(make_plan("cowl"))


@pytest.mark.parametrize(
    ("temperature", "hold", "rule", "listed", "judgement"),
    [
        ("79 degC", "8 h", "CURE-070", 16.0, "watch"),
        ("89 degC", "8 h", "CURE-070", 8.0, "ok"),
        ("89 degC", "7 h", "CURE-070", 8.0, "watch"),
        ("90 degC", "5 h", "CURE-070", 5.0, "ok"),
        ("100 degC", "3 h", "CURE-060", 3.0, "ok"),
        ("100 degC", "2.5 h", "CURE-060", 3.0, "watch"),
    ],
)
def test_between_two_points_only_the_cooler_is_sure(
    make_plan, temperature, hold, rule, listed, judgement
):
    plan = make_plan("cowl", {"cure.temperature": temperature, "cure.hold": hold})
    asked = found(plan, "hold-listed")
    assert (asked.conclusion.rule, asked.value) == (rule, listed)
    assert asked.judgement == judgement


def counted(plan):
    """Return how many thermocouples are asked for, by place."""
    return {one.label: one.value for one in step(plan, "STEP-525").quantities}


@pytest.mark.published("army-composites-manual", at="page 183, three or more")
def test_a_small_part_takes_no_fewer_thermocouples_than_printed(make_plan):
    assert counted(make_plan("duct"))["At the laminate, at least"] == 3.0


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_each_thermocouple_has_a_number_a_place_and_a_reason(make_plan, name):
    plan = make_plan(name)
    lines = step(plan, "STEP-525").listed
    assert lines[0].startswith("1. Laminate, where it is thickest")
    assert [one for one in lines if "beside the hottest part of the load" in one]
    assert all(": " in one for one in lines)
    last = lines[-1].split(".")[0].split(" to ")[-1]
    assert int(last) == sum(counted(plan).values())


def test_the_least_number_is_a_ground_of_the_step(make_plan):
    grounds = step(make_plan("cowl"), "STEP-525").conclusion.grounds
    row = load_knowledge().limits["thermocouples_least"]
    assert row.meaning in {one.name for one in grounds}


@pytest.mark.published("army-composites-manual", at="page 193, close but not embedded")
def test_no_thermocouple_is_left_in_the_part(make_plan):
    assert "never in the part" in step(make_plan("cowl"), "STEP-525").text


@pytest.mark.published("helicopter-repair-manual", at="51-20 p. 330, one to 1 to 2 sq ft")
def test_no_fewer_square_metres_each_than_a_hot_air_repair_takes():
    row = load_knowledge().limits["thermocouple_area"].figure
    assert row.low_si == pytest.approx(0.3048**2, abs=0.005)
    assert row.low_si <= 2 * 0.3048**2 <= row.si


def test_a_larger_face_and_a_brittle_block_take_more_thermocouples(make_plan):
    """Common practice, no source: one more for each quarter of a square metre."""
    small, large = (
        counted(make_plan("panel", {"part.length": length, "budget.total": None}))
        for length in ("410 mm", "900 mm")
    )
    assert large["At the laminate, at least"] > small["At the laminate, at least"]
    assert "In the core of the block" in counted(make_plan("cowl"))
    assert "In the core of the block" not in small
