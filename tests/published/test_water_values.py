"""Saturation of water against the release's check values and against libraries."""

import pytest
from chemicals import iapws95_Psat
from CoolProp.CoolProp import PropsSI
from iapws.iapws97 import _PSat_T, _TSat_P

from advisor.calculations.steam import (
    boiling_point_c,
    saturation_pressure_pa,
    water_for_saturation_kg_m3,
)

TEMPERATURES_C = [1.0, 20.0, 60.0, 80.0, 100.0, 120.0, 180.0, 250.0, 370.0]


@pytest.mark.published("iapws-r7-97", at="Table 35")
@pytest.mark.parametrize(
    ("kelvin", "printed_mpa"),
    [(300.0, "0.353658941e-2"), (500.0, "0.263889776e1"), (600.0, "0.123443146e2")],
)
def test_saturation_pressure_as_printed(kelvin, printed_mpa, as_printed):
    assert saturation_pressure_pa(kelvin - 273.15) == as_printed(printed_mpa, scale=1e6)


@pytest.mark.published("iapws-r7-97", at="Table 36")
@pytest.mark.parametrize(
    ("pressure_mpa", "printed_k"),
    [(0.1, "0.372755919e3"), (1.0, "0.453035632e3"), (10.0, "0.584149488e3")],
)
def test_boiling_point_as_printed(pressure_mpa, printed_k, as_printed):
    assert boiling_point_c(pressure_mpa * 1e6) + 273.15 == as_printed(printed_k)


@pytest.mark.published("iapws-library", at="iapws97._PSat_T and _TSat_P")
@pytest.mark.parametrize("temperature_c", TEMPERATURES_C)
def test_saturation_is_that_of_the_library_of_the_same_formulation(temperature_c):
    pressure_pa = saturation_pressure_pa(temperature_c)
    assert pressure_pa == pytest.approx(_PSat_T(temperature_c + 273.15) * 1e6, rel=1e-9)
    expected_c = _TSat_P(pressure_pa / 1e6) - 273.15
    assert boiling_point_c(pressure_pa) == pytest.approx(expected_c, abs=1e-8)


@pytest.mark.published("coolprop-library", at="PropsSI('P', 'T', T, 'Q', 0, 'Water')")
@pytest.mark.parametrize("temperature_c", TEMPERATURES_C)
def test_saturation_pressure_is_that_of_the_scientific_formulation(temperature_c):
    # The industrial formulation is a fit to the scientific one, within 0.03 %.
    expected_pa = PropsSI("P", "T", temperature_c + 273.15, "Q", 0, "Water")
    assert saturation_pressure_pa(temperature_c) == pytest.approx(expected_pa, rel=3e-4)


@pytest.mark.published("chemicals-water", at="iapws95_Psat")
@pytest.mark.parametrize("temperature_c", TEMPERATURES_C)
def test_saturation_pressure_is_that_of_a_second_library(temperature_c):
    expected_pa = iapws95_Psat(temperature_c + 273.15)
    assert saturation_pressure_pa(temperature_c) == pytest.approx(expected_pa, rel=3e-4)


@pytest.mark.published("coolprop-library", at="'P' at 100 degC and 120 degC")
@pytest.mark.parametrize(
    ("temperature_c", "printed_pa"), [(100.0, "101418"), (120.0, "198674")]
)
def test_saturation_pressure_of_the_usual_cures(temperature_c, printed_pa):
    # Printed with six digits; the two formulations part in the fifth.
    assert saturation_pressure_pa(temperature_c) == pytest.approx(
        float(printed_pa), rel=1e-4
    )


@pytest.mark.published("coolprop-library", at="'T' at 50 mbar and 100 mbar")
@pytest.mark.parametrize(("pressure_pa", "printed_c"), [(5e3, "32.9"), (1e4, "45.8")])
def test_water_boils_early_under_a_bag(pressure_pa, printed_c, as_printed):
    assert boiling_point_c(pressure_pa) == as_printed(printed_c)


@pytest.mark.published("coolprop-library", at="'D' of saturated vapour")
@pytest.mark.parametrize(("temperature_c", "low_share"), [(120.0, 0.03), (250.0, 0.18)])
def test_vapour_as_an_ideal_gas_is_too_light_by_what_is_said(temperature_c, low_share):
    expected = PropsSI("D", "T", temperature_c + 273.15, "Q", 1, "Water")
    assert (1.0 - low_share) * expected <= water_for_saturation_kg_m3(temperature_c)
    assert water_for_saturation_kg_m3(temperature_c) <= expected
