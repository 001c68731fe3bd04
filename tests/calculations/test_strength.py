import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.strength import (
    bearing_safety_factor,
    longest_span_m,
    plate_bending_stress_pa,
    plate_deflection_m,
)

sides = st.floats(0.05, 5.0)


def navier_moment(aspect, poisson_ratio, terms=400):
    """Moment across the short side at the centre by the double sum, short side 1."""
    total = 0.0
    for m in range(1, terms, 2):
        for n in range(1, terms, 2):
            across, along = m**2, (n / aspect) ** 2
            sign = (-1) ** ((m + n) // 2 - 1)
            curve = (across + poisson_ratio * along) / (across + along) ** 2
            total += sign * curve / (m * n)
    return 16.0 / math.pi**4 * total


@pytest.mark.parametrize("poisson_ratio", [0.0, 0.2, 0.3])
@pytest.mark.parametrize("aspect", [1.0, 1.5, 3.0])
def test_single_series_agrees_with_the_double_sum(aspect, poisson_ratio):
    stress_pa = plate_bending_stress_pa(1.0, 1.0, aspect, 1.0, poisson_ratio)
    expected = 6.0 * navier_moment(aspect, poisson_ratio)
    assert stress_pa == pytest.approx(expected, rel=1e-4)


@given(sides, sides)
def test_it_does_not_matter_which_side_is_called_the_span(span_m, width_m):
    plate = plate_bending_stress_pa(1e5, span_m, width_m, 0.02)
    assert plate_bending_stress_pa(1e5, width_m, span_m, 0.02) == plate
    sink_m = plate_deflection_m(1e5, span_m, width_m, 0.02, 70e9)
    assert plate_deflection_m(1e5, width_m, span_m, 0.02, 70e9) == sink_m


@given(sides, sides, sides)
def test_stress_never_falls_as_the_plate_gets_longer(short_m, one_m, other_m):
    less, more = sorted((short_m + one_m, short_m + other_m))
    shorter_pa = plate_bending_stress_pa(1e5, short_m, less, 0.02)
    longer_pa = plate_bending_stress_pa(1e5, short_m, more, 0.02)
    assert longer_pa >= shorter_pa * (1 - 1e-7)


@given(sides, sides, st.floats(0.01, 0.2), st.floats(1e3, 6e5))
def test_no_plate_as_narrow_as_the_longest_strip_is_overstressed(
    short_m, long_m, thickness_m, pressure_pa
):
    span_m = longest_span_m(pressure_pa, thickness_m, 0.2e6)
    stress_pa = plate_bending_stress_pa(pressure_pa, span_m, span_m + long_m, thickness_m)
    assert stress_pa <= 0.2e6 * (1 + 1e-7)


def test_free_block_under_one_bar_by_hand():
    # beta .2874 x 1 bar x (400 / 100)^2 = 0.46 MPa.
    assert plate_bending_stress_pa(1e5, 0.4, 0.4, 0.1) == pytest.approx(0.46e6, rel=0.005)


def test_aluminium_plate_of_ten_millimetres_by_hand():
    # .2874 x 1 bar x 30^2 = 25.9 MPa; .0444 x 1 bar x 0.3^4 / (70 GPa x 0.01^3) = 0.51 mm.
    assert plate_bending_stress_pa(1e5, 0.3, 0.3, 0.01) == pytest.approx(25.9e6, abs=5e4)
    assert plate_deflection_m(1e5, 0.3, 0.3, 0.01, 70e9) == pytest.approx(0.51e-3, abs=5e-6)


def test_bearing_at_one_and_at_six_bar_by_hand():
    assert bearing_safety_factor(1e5, 2.5e6) == 25.0
    assert bearing_safety_factor(6e5, 2.5e6) == pytest.approx(4.17, abs=0.005)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (bearing_safety_factor, (0.0, 2.5e6), "pressure_pa is 0.0"),
        (bearing_safety_factor, (1e5, math.nan), "strength_pa is nan"),
        (plate_bending_stress_pa, (1e5, 400.0, 0.4, 0.1), "span_m is 400.0.*millimetres"),
        (plate_bending_stress_pa, (1e5, 0.4, -0.4, 0.1), "width_m is -0.4"),
        (plate_bending_stress_pa, (1e5, 0.4, 0.4, 0.0), "thickness_m is 0.0"),
        (plate_bending_stress_pa, (1e5, 0.4, 0.4, 0.1, 0.6), "poisson_ratio is 0.6;"),
        (plate_deflection_m, (1e5, 0.4, 0.4, 0.1, 0.0), "modulus_pa is 0.0"),
        (longest_span_m, (math.nan, 0.1, 0.2e6), "pressure_pa is nan"),
        (longest_span_m, (1e5, 0.1, 0.0), "allowable_pa is 0.0"),
    ],
)
def test_strength_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
