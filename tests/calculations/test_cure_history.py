"""A whole cure over time, held against the heating and the resin heat it is made of."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.cure import heat_of_cure_j_per_m3
from advisor.calculations.cure_history import TooLongError, cure_history
from advisor.calculations.cure_kinetics import RESIN_OF_1982, TOUGHENED_RESIN_180C
from advisor.calculations.heat_and_cure import CuringResin, heat_and_cure
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.tool_heating import OvenCure, heat_up, own_heat

LAMINATE = Layer("laminate", 0.002, 0.6, 1550.0, 950.0)
PLATE = Stack((LAMINATE, Layer("tool", 0.01, 120.0, 2700.0, 900.0)), 20.0, 20.0)
BLOCK = Stack((LAMINATE, Layer("tool", 0.2, 0.11, 400.0, 1000.0)), 20.0, 20.0)
HOT = OvenCure(20.0, 90.0, 1.0 / 60.0, 4 * 3600.0)
FALL = 2.0 / 60.0


def at(course, values, time_s):
    return float(np.interp(time_s, course.times_s, values))


def test_a_body_without_mass_follows_the_air_by_hand():
    """70 K at 1 K/min is 70 min; 40 K down at 2 K/min is 20 min after heat-off."""
    foil = Layer("tool", 1e-4, 120.0, 2700.0, 900.0)
    thin = Stack((Layer("laminate", 1e-4, 0.6, 1550.0, 950.0), foil), 60.0, 60.0)
    course = cure_history(thin, HOT, FALL, 50.0)
    assert course.ramp_ends_s == pytest.approx(70 * 60)
    assert course.heat_off_s == pytest.approx(70 * 60 + 4 * 3600)
    assert course.opens_s == pytest.approx(course.heat_off_s + 20 * 60, abs=30)
    assert course.middle_c == pytest.approx(course.air_c, abs=0.5)


@pytest.mark.parametrize("stack", [PLATE, BLOCK], ids=["plate", "block"])
def test_the_heating_is_that_of_the_dwell(stack):
    """`heat_up`, which works the dwell out, finds the same laminate when it starts."""
    band_k = 5.0
    warmed = heat_up(stack, HOT, band_k)
    course = cure_history(stack, HOT, FALL, 50.0)
    assert at(course, course.middle_c, warmed.reached_s) == pytest.approx(
        HOT.dwell_c - band_k, abs=1.0
    )


@pytest.mark.parametrize("stack", [PLATE, BLOCK], ids=["plate", "block"])
@given(opens_c=st.floats(30.0, 70.0), fall=st.floats(0.5, 5.0))
@settings(max_examples=12, deadline=None)
def test_it_ends_when_all_is_cool(stack, opens_c, fall):
    course = cure_history(stack, HOT, fall / 60.0, opens_c)
    assert course.times_s[0] == 0.0
    assert course.times_s[-1] == pytest.approx(course.opens_s)
    assert np.all(np.diff(course.times_s) > 0.0)
    assert course.middle_c[-1] <= opens_c + 0.1
    assert course.face_c[-1] <= opens_c + 0.1
    assert 0 < course.ramp_ends_s < course.heat_off_s < course.opens_s
    assert course.air_c.max() <= HOT.dwell_c + 1e-9
    assert course.middle_c.max() <= HOT.dwell_c + 1e-6


def test_the_cooler_it_must_be_the_later_it_opens():
    ends = [cure_history(BLOCK, HOT, FALL, opens_c).opens_s for opens_c in (60, 50, 40, 30)]
    assert all(before < after for before, after in pairwise(ends))


def test_what_is_not_waited_for_delays_nothing():
    laminate = cure_history(BLOCK, HOT, FALL, 50.0, cooled=("laminate",))
    assert laminate.opens_s < cure_history(BLOCK, HOT, FALL, 50.0).opens_s
    assert laminate.middle_c[-1] == pytest.approx(50.0, abs=0.5)


def of_resin(resin, fibre=0.55):
    heat = heat_of_cure_j_per_m3(
        resin.heat_of_reaction_j_per_kg, resin.density_kg_per_m3, fibre
    )
    return CuringResin(resin, heat, 0.01)


def thick_on(tool, thickness_m=0.02):
    return Stack((Layer("laminate", thickness_m, 0.6, 1550.0, 950.0), tool), 20.0, 20.0)


INSULATOR = Layer("tool", 0.15, 0.12, 500.0, 1000.0)
METAL = Layer("tool", 0.01, 150.0, 2700.0, 900.0)
AT_130 = OvenCure(20.0, 130.0, 1.0 / 60.0, 6 * 3600.0)


def test_the_resin_is_that_of_heat_and_cure():
    """The same air up to heat-off gives the same heat of its own and degree of cure."""
    resin, stack = of_resin(TOUGHENED_RESIN_180C), thick_on(INSULATOR)
    course = cure_history(stack, AT_130, FALL, 50.0, (resin,))
    (cure,) = course.cures
    law = resin.resin.kinetics
    start = 0.01 if law.smallest_start > 0 else 0.0
    heat = resin.heat_j_per_m3
    alone = heat_and_cure(
        stack, AT_130.programme, 20.0, "laminate", heat, law, start, 300.0
    )
    assert at(course, cure, course.heat_off_s) == pytest.approx(
        float(alone.cure[-1].min()), abs=0.01
    )
    middle_c = alone.heat.middle_c("laminate")
    assert course.middle_c.max() == pytest.approx(float(middle_c.max()), abs=0.1)
    bare = cure_history(stack, AT_130, FALL, 50.0)
    assert course.middle_c.max() > bare.middle_c.max() + 5.0
    assert np.all(np.diff(cure) >= -1e-9)
    assert 0.0 <= cure[0] < 0.2 < cure[-1] <= 1.0


@pytest.mark.parametrize("hold_h", [8, 48])
def test_a_short_peak_is_not_missed_in_a_long_cure(hold_h):
    hot = OvenCure(20.0, 180.0, 2.0 / 60.0, hold_h * 3600.0)
    stack, resin = thick_on(INSULATOR, 0.01), of_resin(TOUGHENED_RESIN_180C)
    course = cure_history(stack, hot, FALL, 50.0, (resin,))
    own = own_heat(stack, hot, resin)
    assert own.peak_c < 250.0
    assert course.middle_c.max() > own.peak_c - 3.0


@pytest.mark.parametrize("order", [1, -1])
def test_a_resin_that_runs_away_is_told_and_the_other_is_drawn(order):
    resins = (of_resin(RESIN_OF_1982), of_resin(TOUGHENED_RESIN_180C))[::order]
    hot = OvenCure(20.0, 180.0, 2.0 / 60.0, 8 * 3600.0)
    stack = thick_on(INSULATOR)
    course = cure_history(stack, hot, FALL, 50.0, resins)
    for resin, cure in zip(resins, course.cures, strict=True):
        own = own_heat(stack, hot, resin)
        assert (cure is None) == (own.peak_c >= 250.0)
    assert any(cure is None for cure in course.cures)


@pytest.mark.parametrize("opens_c", [40.0, 50.0, 60.0])
def test_a_laminate_that_heats_itself_is_cool_when_its_bag_is_opened(opens_c):
    short = OvenCure(20.0, 120.0, 2.0 / 60.0, 3600.0)
    for stack in (thick_on(METAL, 0.02), thick_on(METAL, 0.03)):
        resins = (of_resin(RESIN_OF_1982), of_resin(TOUGHENED_RESIN_180C))
        course = cure_history(stack, short, FALL, opens_c, resins)
        assert course.middle_c[-1] <= opens_c + 0.5


@pytest.mark.parametrize("days", [0.01, 1.0, 6.9, 7.1, 20.0, 60.0])
def test_a_slow_fall_of_the_air_is_drawn_or_refused_and_never_breaks(days):
    fall = (HOT.dwell_c - HOT.start_c) / (days * 86_400.0)
    try:
        course = cure_history(PLATE, HOT, fall, 50.0)
    except TooLongError:
        assert days > 7.0
    else:
        assert course.opens_s - course.heat_off_s <= 7 * 86_400.0
        assert 48.5 < course.middle_c[-1] <= 50.1


def test_what_nobody_waits_for_is_refused():
    with pytest.raises(TooLongError, match="dwell does not end"):
        cure_history(PLATE, OvenCure(20.0, 90.0, 1 / 60, 8 * 86_400.0), FALL, 50.0)
    slow = Stack((LAMINATE, Layer("tool", 1.0, 0.05, 2000.0, 2000.0)), 5.0, 5.0)
    with pytest.raises(TooLongError, match="not down to"):
        cure_history(slow, OvenCure(20.0, 90.0, 1 / 60, 5 * 86_400.0), FALL, 20.5)


@pytest.mark.parametrize(
    ("fall", "opens_c", "named"), [(0.0, 50.0, "cooling_k_per_s"), (FALL, 20.0, "opens_c")]
)
def test_what_cannot_be_is_refused_by_name(fall, opens_c, named):
    with pytest.raises(ValueError, match=named):
        cure_history(PLATE, HOT, fall, opens_c)
