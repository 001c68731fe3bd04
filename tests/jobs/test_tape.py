import re

import pytest

TUBE = {
    "part.length": 900,
    "part.width": 40,
    "part.depth": 40,
    "part.shape": "closed",
    "part.tool_side": "male",
    "part.undercut": False,
    "part.draft": 1,
    "part.smallest_radius": 20,
    "part.tolerance_over": 900,
    "cure.pressure": "tape",
    "cure.resin": "epoxy-120",
    "cure.temperature": 120,
    "budget.total": 60_000,
    "proposal": {"tool": "aluminium"},
}


def found(plan, id):
    return next(one for one in plan.findings if one.id == id)


def test_a_straight_round_tube_is_taped_on_a_metal_mandrel(make_plan):
    plan = make_plan("cowl", TUBE)
    assert (plan.route.tool, plan.route.bagging) == ("aluminium", "shrink-tape")


def test_nothing_under_tape_speaks_of_a_pump_a_leak_or_a_bag(make_plan):
    plan = make_plan("cowl", TUBE)
    spoken = re.compile(r"\bpump\b|leak|full vacuum|\bhose on\b|breather|sealant")
    told = {step.conclusion.rule for step in plan.steps if spoken.search(step.text)}
    assert told - {"STEP-048", "STEP-1010"} == set()


def test_a_shop_without_a_pump_can_still_tape_a_tube(make_plan):
    without = {"vacuum.pump": False}
    assert make_plan("cowl", TUBE, without).route.bagging == "shrink-tape"
    assert make_plan("cowl", TUBE | {"cure.pressure": "vacuum"}, without).route is None


@pytest.mark.parametrize(
    "away",
    [
        {"part.depth": 20},
        {"part.smallest_radius": 5},
        {"part.draft": 8},
        {"part.undercut": True},
        {"part.width": 400, "part.depth": 400, "part.smallest_radius": 200},
    ],
    ids=["oval", "flats", "steep", "bent", "large"],
)
def test_tape_is_kept_for_small_round_straight_tubes(make_plan, away):
    assert make_plan("cowl", TUBE | away).route is None


@pytest.mark.published("tape-compression-page", at="factors of the compression force")
def test_a_larger_tube_takes_more_layers(make_plan):
    large = TUBE | {"part.width": 80, "part.depth": 80, "part.smallest_radius": 40}
    layers = [found(make_plan("cowl", job), "tape-layers").value for job in (TUBE, large)]
    assert layers[1] == pytest.approx(2 * layers[0], abs=1.5)


def test_a_cool_cure_asks_when_the_tape_shrinks(make_plan):
    cool = TUBE | {"cure.resin": "epoxy-low-temperature", "cure.temperature": 80}
    told = {one.conclusion.rule for one in make_plan("cowl", cool).conditions}
    assert "TAPE-083" in told
    assert found(make_plan("cowl", cool), "class-shrink-tape").value == 110


def test_the_pressure_counted_on_is_the_low_end_of_the_span(make_plan):
    """What keeps pores small must not rest on a pull that is only believed."""
    pressure = found(make_plan("cowl", TUBE), "cure-pressure")
    assert pressure.value == pressure.low < pressure.high
    assert pressure.low >= pressure.limit


def test_a_hollow_mandrel_is_proved_first(make_plan):
    steep = {"part.draft": 3, "proposal": {"tool": "carbon-laminate"}}
    hollow = make_plan("cowl", TUBE | steep)
    assert hollow.route.tool == "carbon-laminate"
    assert "TAPE-093" in {one.conclusion.rule for one in hollow.conditions}
    solid = {one.conclusion.rule for one in make_plan("cowl", TUBE).conditions}
    assert "TAPE-093" not in solid
