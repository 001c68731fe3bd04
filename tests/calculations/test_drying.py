import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.drying import (
    front_drying_time_s,
    vapour_permeability_kg_per_m_s_pa,
)

DAY_S = 86_400.0
half_thicknesses = st.floats(0.005, 0.5)


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
