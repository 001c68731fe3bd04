import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.drying import (
    drying_time_s,
    evaporation_time_s,
    front_drying_time_s,
    moisture_diffusivity_m2_per_s,
    vapour_permeability_kg_per_m_s_pa,
    water_left_share,
)

DAY_S = 86_400.0
shares = st.floats(1e-6, 0.999)
half_thicknesses = st.floats(0.005, 0.5)


@given(shares, half_thicknesses)
def test_time_turns_the_share_left_round(left, half_m):
    time_s = drying_time_s(left, half_m, 1e-9)
    assert water_left_share(1e-9 * time_s / half_m**2) == pytest.approx(left, rel=1e-6)


@given(st.floats(0.0, 10.0), st.floats(0.0, 10.0))
def test_water_left_falls_from_all_to_none(a, b):
    early, late = sorted((a, b))
    assert 0.0 <= water_left_share(late) <= water_left_share(early) * (1 + 1e-9) <= 1 + 1e-9


def test_short_and_long_form_meet():
    below, above = (water_left_share(fourier) for fourier in (0.9999e-3, 1.0001e-3))
    assert below == pytest.approx(above, abs=2e-5)
    assert above <= below


@given(shares, half_thicknesses)
def test_twice_the_thickness_takes_four_times_as_long(left, half_m):
    once_s = drying_time_s(left, half_m, 1e-9)
    assert drying_time_s(left, 2.0 * half_m, 1e-9) == pytest.approx(4.0 * once_s)


def test_late_drying_falls_by_e_in_the_time_of_the_first_term():
    step = 4.0 / math.pi**2
    assert water_left_share(2.0) / water_left_share(2.0 + step) == pytest.approx(math.e)


@pytest.mark.parametrize(
    ("diffusivity", "thick_days", "thin_days"),
    [(1e-10, 552, 61), (1e-9, 55, 6.1), (5e-9, 11, 1.2), (1e-8, 5.5, 0.6)],
)
def test_worked_times_to_a_tenth(diffusivity, thick_days, thin_days):
    for half_m, days in ((0.075, thick_days), (0.025, thin_days)):
        time_s = drying_time_s(0.1, half_m, diffusivity)
        assert time_s / DAY_S == pytest.approx(days, rel=0.03)


@pytest.mark.parametrize(
    ("taken_share", "expected"), [(0.25, 1.1e-8), (0.35, 5.7e-9), (0.5, 2.8e-9)]
)
def test_worked_diffusivities_of_an_aerated_concrete(taken_share, expected):
    # 0.23 mm/min^0.5 is a published sorptivity; the rest was worked by hand.
    sorptivity = 0.23e-3 / math.sqrt(60.0)
    result = moisture_diffusivity_m2_per_s(sorptivity, taken_share)
    assert result == pytest.approx(expected, rel=0.02)


@given(st.floats(1.0, 500.0), half_thicknesses, st.floats(20.0, 90.0), st.floats(1.0, 3.0))
def test_front_takes_longer_the_more_water_thickness_and_resistance(
    water, half_m, temperature_c, times
):
    def time_s(water=water, half_m=half_m, factor=5.0):
        return front_drying_time_s(water, half_m, temperature_c, factor, 1000.0)

    assert time_s(water=times * water) == pytest.approx(times * time_s())
    assert time_s(half_m=times * half_m) == pytest.approx(times**2 * time_s())
    assert time_s(factor=times * 5.0) == pytest.approx(times * time_s())


@pytest.mark.parametrize(
    ("temperature_c", "low_days", "high_days"), [(60.0, 4.0, 7.9), (80.0, 1.5, 3.1)]
)
def test_worked_front_times(temperature_c, low_days, high_days):
    # 150 mm, 100 kg/m3, resistance 5 and 10, room air of 1.2 kPa vapour.
    for factor, days in ((5.0, low_days), (10.0, high_days)):
        time_s = front_drying_time_s(100.0, 0.075, temperature_c, factor, 1200.0)
        assert time_s / DAY_S == pytest.approx(days, abs=0.1)


def test_thin_air_dries_faster():
    at_sea = vapour_permeability_kg_per_m_s_pa(60.0, 101_325.0)
    assert vapour_permeability_kg_per_m_s_pa(60.0, 80_000.0) > at_sea


def test_heat_for_the_water_of_a_block_by_hand():
    # 36 l of block, 0.78 m2 of faces, 3.6 kg of water: 8.5 MJ at 468 W.
    assert evaporation_time_s(3.6, 0.78, 20.0, 90.0, 60.0) == pytest.approx(
        8.5e6 / 468.0, rel=0.003
    )


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (water_left_share, (-0.1,), "fourier is -0.1"),
        (water_left_share, (math.nan,), "fourier is nan"),
        (drying_time_s, (0.0, 0.075, 1e-9), "left_share is 0.0"),
        (drying_time_s, (5.0, 0.075, 1e-9), "left_share is 5.0.*per cent"),
        (drying_time_s, (0.1, 75.0, 1e-9), "half_thickness_m is 75.0"),
        (drying_time_s, (0.1, 0.075, 1.0), "diffusivity_m2_per_s is 1.0"),
        (moisture_diffusivity_m2_per_s, (0.23, 0.3), "sorptivity_m_per_sqrt_s is 0.23"),
        (moisture_diffusivity_m2_per_s, (3e-5, 30.0), "water_taken_share is 30.0"),
        (vapour_permeability_kg_per_m_s_pa, (293.0, 1e5), "temperature_c is 293.0"),
        (vapour_permeability_kg_per_m_s_pa, (20.0, 1013.0), "pressure_pa is 1013.0"),
        (front_drying_time_s, (0.0, 0.075, 60.0, 5.0, 0.0), "water_kg_m3 is 0.0"),
        (front_drying_time_s, (1.0, 0.075, 105.0, 5.0, 0.0), "temperature_c is 105.0"),
        (front_drying_time_s, (1.0, 0.075, 60.0, 0.5, 0.0), "vapour_factor is 0.5"),
        (front_drying_time_s, (1.0, 0.075, 20.0, 5.0, 2338.0), "air_vapour_pa is 2338.0"),
        (evaporation_time_s, (0.0, 1.0, 20.0, 90.0, 60.0), "water_kg is 0.0"),
        (evaporation_time_s, (1.0, 1.0, 20.0, 60.0, 60.0), "air_c less face_c is 0.0"),
        (evaporation_time_s, (1.0, 1.0, 20.0, 90.0, -1.0), "face_c is -1.0"),
    ],
)
def test_drying_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
