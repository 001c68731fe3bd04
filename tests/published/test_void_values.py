"""Resin pressure against voids, against the published fit and trend."""

import math

import pytest

from advisor.calculations.voids import least_resin_pressure_pa, pressure_margin

ATMOSPHERE_PA = 101_325.0


def fitted_pa(temperature_c, humidity):
    kelvin = temperature_c + 273.15
    return 4962.0 * math.exp(-4892.0 / kelvin) * 100.0 * humidity * ATMOSPHERE_PA


@pytest.mark.published("kardos-1986", at="bound for water; from memory")
@pytest.mark.parametrize("temperature_c", [100.0, 110.0, 120.0, 130.0])
def test_fit_and_saturation_pressure_agree_where_prepregs_cure(temperature_c):
    expected_pa = fitted_pa(temperature_c, 0.5)
    result_pa = least_resin_pressure_pa(temperature_c, 0.5)
    assert result_pa == pytest.approx(expected_pa, rel=0.005)


@pytest.mark.published("kardos-1986", at="bound for water, 100 degC, 50 %; from memory")
def test_half_an_atmosphere_at_a_hundred_degrees_and_half_humidity():
    result_pa = least_resin_pressure_pa(100.0, 0.5)
    assert result_pa / ATMOSPHERE_PA == pytest.approx(0.502, rel=0.005)


@pytest.mark.published("kardos-1986", at="bound for water; from memory")
def test_fit_is_left_for_the_saturation_pressure_in_the_cold():
    assert fitted_pa(20.0, 0.5) > 1.2 * least_resin_pressure_pa(20.0, 0.5)


@pytest.mark.published("grunenfelder-nutt-2010", at="abstract: 70 to 90 % humidity")
@pytest.mark.parametrize("humidity", [0.7, 0.9])
def test_damp_prepreg_voids_under_a_bag_and_not_in_an_autoclave(humidity):
    # The cure temperature was not read: 121 degC, and 6 bar on top, are assumed.
    assert pressure_margin(121.0, humidity, ATMOSPHERE_PA) < 1.0
    assert pressure_margin(121.0, humidity, ATMOSPHERE_PA + 6e5) > 1.0
