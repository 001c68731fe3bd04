"""A whole cure over time, held against the heating and the resin heat it is made of."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.cure import heat_of_cure_j_per_m3
from advisor.calculations.cure_course import CuringResin, TooLongError, cure_course
from advisor.calculations.cure_kinetics import TOUGHENED_RESIN_180C
from advisor.calculations.heat_and_cure import heat_and_cure
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import programme_of_ramps
from advisor.calculations.tool_heating import OvenCure, heat_up

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
    course = cure_course(thin, HOT, FALL, 50.0)
    assert course.ramp_ends_s == pytest.approx(70 * 60)
    assert course.heat_off_s == pytest.approx(70 * 60 + 4 * 3600)
    assert course.opens_s == pytest.approx(course.heat_off_s + 20 * 60, abs=30)
    assert course.middle_c == pytest.approx(course.air_c, abs=0.5)


@pytest.mark.parametrize("stack", [PLATE, BLOCK], ids=["plate", "block"])
def test_the_heating_is_that_of_the_dwell(stack):
    """`heat_up`, which works the dwell out, finds the same laminate when it starts."""
    band_k = 5.0
    warmed = heat_up(stack, HOT, band_k)
    course = cure_course(stack, HOT, FALL, 50.0)
    assert at(course, course.middle_c, warmed.reached_s) == pytest.approx(
        HOT.dwell_c - band_k, abs=1.0
    )


@pytest.mark.parametrize("stack", [PLATE, BLOCK], ids=["plate", "block"])
@given(opens_c=st.floats(30.0, 70.0), fall=st.floats(0.5, 5.0))
@settings(max_examples=12, deadline=None)
def test_it_ends_when_all_is_cool(stack, opens_c, fall):
    course = cure_course(stack, HOT, fall / 60.0, opens_c)
    assert course.times_s[0] == 0.0
    assert course.times_s[-1] == pytest.approx(course.opens_s)
    assert np.all(np.diff(course.times_s) > 0.0)
    assert course.middle_c[-1] <= opens_c + 0.1
    assert course.face_c[-1] <= opens_c + 0.1
    assert 0 < course.ramp_ends_s < course.heat_off_s < course.opens_s
    assert course.air_c.max() <= HOT.dwell_c + 1e-9
    assert course.middle_c.max() <= HOT.dwell_c + 1e-6


def test_the_cooler_it_must_be_the_later_it_opens():
    ends = [cure_course(BLOCK, HOT, FALL, opens_c).opens_s for opens_c in (60, 50, 40, 30)]
    assert ends == sorted(ends)


def test_the_resin_is_that_of_heat_and_cure():
    """The same air up to heat-off gives the same heat of its own and degree of cure."""
    resin = TOUGHENED_RESIN_180C
    heat = heat_of_cure_j_per_m3(
        resin.heat_of_reaction_j_per_kg, resin.density_kg_per_m3, 0.55
    )
    course = cure_course(PLATE, HOT, FALL, 50.0, (CuringResin(resin, heat, 0.01),))
    (cure,) = course.cures
    held = programme_of_ramps(20.0, (90.0,), (1.0 / 60.0,), (4 * 3600.0,))
    start = 0.01 if resin.kinetics.smallest_start > 0 else 0.0
    alone = heat_and_cure(PLATE, held, 20.0, "laminate", heat, resin.kinetics, start, 300.0)
    assert at(course, cure, course.heat_off_s) == pytest.approx(
        float(alone.cure[-1].min()), abs=0.01
    )
    assert course.middle_c.max() == pytest.approx(alone.peak_c, abs=1.0)
    assert np.all(np.diff(cure) >= -1e-9)
    assert 0.0 <= cure[0] < cure[-1] <= 1.0


def test_what_nobody_waits_for_is_refused():
    with pytest.raises(TooLongError, match="dwell does not end"):
        cure_course(PLATE, OvenCure(20.0, 90.0, 1 / 60, 8 * 86_400.0), FALL, 50.0)
    slow = Stack((LAMINATE, Layer("tool", 1.0, 0.05, 2000.0, 2000.0)), 5.0, 5.0)
    with pytest.raises(TooLongError, match="not down to"):
        cure_course(slow, OvenCure(20.0, 90.0, 1 / 60, 5 * 86_400.0), FALL, 20.5)


@pytest.mark.parametrize(
    ("fall", "opens_c", "named"), [(0.0, 50.0, "cooling_k_per_s"), (FALL, 20.0, "opens_c")]
)
def test_what_cannot_be_is_refused_by_name(fall, opens_c, named):
    with pytest.raises(ValueError, match=named):
        cure_course(PLATE, HOT, fall, opens_c)
