"""Pressure of the standard atmosphere against a printed example."""

import pytest

from advisor.calculations.atmosphere import pressure_at_altitude_pa

EARTH_RADIUS_M = 6_356_766.0  # of the 1976 standard, from memory


@pytest.mark.published("fluids-atmosphere", at="example, 5000 m")
def test_pressure_at_five_kilometres(as_printed):
    # The example's height is geometric; the formula's is geopotential.
    height_m = EARTH_RADIUS_M * 5000.0 / (EARTH_RADIUS_M + 5000.0)
    assert pressure_at_altitude_pa(height_m) == as_printed("54048")
