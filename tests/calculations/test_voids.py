import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.voids import (
    highest_humidity,
    hottest_before_gel_c,
    least_resin_pressure_pa,
    pressure_margin,
    resin_pressure_pa,
)

humidities = st.floats(0.05, 1.0)
temperatures = st.floats(1.0, 250.0)


@given(temperatures, humidities)
def test_hottest_temperature_turns_least_pressure_round(temperature_c, humidity):
    needed_pa = least_resin_pressure_pa(temperature_c, humidity)
    if needed_pa <= 3e6:
        limit_c = hottest_before_gel_c(needed_pa, humidity)
        assert limit_c == pytest.approx(temperature_c, abs=1e-4)


@given(temperatures, humidities)
def test_least_pressure_gives_a_margin_of_one(temperature_c, humidity):
    needed_pa = min(3e6, least_resin_pressure_pa(temperature_c, humidity))
    assert pressure_margin(temperature_c, humidity, needed_pa) <= 1.0
    assert pressure_margin(temperature_c, humidity, needed_pa / 2.0) <= 0.5


@given(temperatures, st.floats(1.0, 3e6))
def test_highest_humidity_needs_no_more_than_there_is(temperature_c, pressure_pa):
    humidity = highest_humidity(temperature_c, pressure_pa)
    assert 0.0 < humidity <= 1.0
    needed_pa = least_resin_pressure_pa(temperature_c, humidity)
    assert needed_pa <= pressure_pa * (1 + 1e-12)


@given(st.floats(0.0, 5000.0), st.floats(0.0, 5000.0), st.floats(0.0, 0.9))
def test_shop_higher_up_has_less_pressure(a_m, b_m, fibre_share):
    low_m, high_m = sorted((a_m, b_m))
    low_pa = resin_pressure_pa(low_m, 5e3, fibre_share)
    assert resin_pressure_pa(high_m, 5e3, fibre_share) <= low_pa


def test_fibres_that_carry_half_leave_half():
    whole_pa = resin_pressure_pa(0.0, 5e3, 0.0)
    assert whole_pa == pytest.approx(96_325.0)
    assert resin_pressure_pa(0.0, 5e3, 0.5) == pytest.approx(whole_pa / 2.0)


@pytest.mark.parametrize(
    ("pressure_kpa", "at_30", "at_50"),
    [(96, 135.7, 119.0), (90, 133.5, 117.0), (70, 125.2, 109.3), (50, 114.6, 99.5)],
)
def test_temperatures_of_the_fit_are_met_to_half_a_kelvin(pressure_kpa, at_30, at_50):
    # Worked by hand with the fitted saturation pressure.
    assert hottest_before_gel_c(pressure_kpa * 1e3, 0.3) == pytest.approx(at_30, abs=0.5)
    assert hottest_before_gel_c(pressure_kpa * 1e3, 0.5) == pytest.approx(at_50, abs=0.5)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (least_resin_pressure_pa, (393.15, 0.5), "temperature_c is 393.15.*kelvin"),
        (least_resin_pressure_pa, (120.0, 50.0), "humidity is 50.0.*per cent"),
        (least_resin_pressure_pa, (120.0, 0.0), "humidity is 0.0"),
        (resin_pressure_pa, (0.0, 2e5, 0.0), "bag_pressure_pa is 200000.0"),
        (resin_pressure_pa, (math.nan, 5e3, 0.0), "altitude_m is nan"),
        (resin_pressure_pa, (0.0, 5e3, 1.0), "fibre_share is 1.0"),
        (resin_pressure_pa, (0.0, 5e3, 0.0, -1.0), "added_pa is -1.0"),
        (hottest_before_gel_c, (0.0, 0.5), "pressure_pa is 0.0"),
        (highest_humidity, (120.0, math.nan), "pressure_pa is nan"),
        (pressure_margin, (120.0, 0.5, -1.0), "available_pressure_pa is -1.0"),
    ],
)
def test_voids_refuse_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
