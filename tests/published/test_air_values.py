"""Viscosity of the air that seeps through a body, against a reference library."""

import pytest
from CoolProp.CoolProp import PropsSI

from advisor.knowledge.tables import limit_span


@pytest.mark.published("coolprop-library", at="PropsSI('V', 'T', T, 'P', p, 'Air')")
@pytest.mark.parametrize("temperature_k", [288.15, 293.15, 298.15])
def test_the_span_holds_the_air_of_a_shop(temperature_k):
    low, value, high = limit_span("air_viscosity")
    of_air = PropsSI("V", "T", temperature_k, "P", 101_325.0, "Air")
    assert low <= of_air <= high
    if temperature_k == 293.15:
        assert value == pytest.approx(of_air, rel=2e-3)
