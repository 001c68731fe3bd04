import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.steam import (
    boiling_point_c,
    closed_cavity_pressure_pa,
    saturation_pressure_pa,
    water_for_saturation_kg_m3,
)

temperatures = st.floats(0.1, 373.9)


@given(temperatures)
def test_boiling_point_turns_saturation_pressure_round(temperature_c):
    pressure_pa = saturation_pressure_pa(temperature_c)
    # The two equations are inverse only to about 1e-7 near the critical point.
    assert boiling_point_c(pressure_pa) == pytest.approx(temperature_c, abs=1e-4)


@given(temperatures, temperatures)
def test_hotter_water_has_more_pressure(a_c, b_c):
    cool_c, hot_c = sorted((a_c, b_c))
    assert saturation_pressure_pa(cool_c) <= saturation_pressure_pa(hot_c)


@given(st.floats(20.0, 250.0), st.floats(0.0, 1000.0), st.floats(0.0, 1e6))
def test_cavity_is_between_dry_and_saturated(temperature_c, water_kg_m3, air_pa):
    dry_pa = closed_cavity_pressure_pa(temperature_c, 0.0, air_pa)
    pressure_pa = closed_cavity_pressure_pa(temperature_c, water_kg_m3, air_pa)
    saturated_pa = dry_pa + saturation_pressure_pa(temperature_c)
    assert dry_pa <= pressure_pa <= saturated_pa * (1 + 1e-12)


@given(st.floats(20.0, 250.0), st.floats(1.0, 50.0))
def test_more_water_than_fills_the_cavity_with_steam_adds_nothing(temperature_c, times):
    enough = water_for_saturation_kg_m3(temperature_c)
    full_pa = closed_cavity_pressure_pa(temperature_c, enough, 0.0)
    more_pa = closed_cavity_pressure_pa(temperature_c, enough * times, 0.0)
    assert more_pa == pytest.approx(full_pa, rel=1e-12)
    assert full_pa == pytest.approx(saturation_pressure_pa(temperature_c), rel=1e-12)


@pytest.mark.parametrize(
    ("temperature_c", "dry_kpa", "wet_kpa"),
    [(80.0, 122, 170), (100.0, 129, 230), (120.0, 136, 335), (130.0, None, 410)],
)
def test_sealed_cavities_by_hand(temperature_c, dry_kpa, wet_kpa):
    wet_pa = closed_cavity_pressure_pa(temperature_c, 50.0, 101_325.0)
    assert wet_pa == pytest.approx(wet_kpa * 1e3, abs=1e3)
    if dry_kpa:
        dry_pa = closed_cavity_pressure_pa(temperature_c, 0.0, 101_325.0)
        assert dry_pa == pytest.approx(dry_kpa * 1e3, abs=1e3)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (saturation_pressure_pa, (-0.1,), "temperature_c is -0.1"),
        (saturation_pressure_pa, (393.15,), "temperature_c is 393.15.*kelvin"),
        (saturation_pressure_pa, (math.nan,), "temperature_c is nan"),
        (boiling_point_c, (1.0,), "pressure_pa is 1.0 Pa.*bar"),
        (boiling_point_c, (23e6,), "pressure_pa is 23000000.0"),
        (water_for_saturation_kg_m3, (251.0,), "temperature_c is 251.0"),
        (closed_cavity_pressure_pa, (10.0, 1.0, 1e5), "temperature_c is 10.0"),
        (closed_cavity_pressure_pa, (80.0, -1.0, 1e5), "water_kg_m3 is -1.0"),
        (closed_cavity_pressure_pa, (80.0, 1.0, 2e6), "closed_pressure_pa is 2000000.0"),
        (closed_cavity_pressure_pa, (80.0, 1.0, 1e5, 293.15), "closed_c is 293.15"),
    ],
)
def test_steam_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
