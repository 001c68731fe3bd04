"""Conversions that the shop's gauges need, as the unit library gives them."""

import pint
import pytest


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@pytest.mark.published("pint-units", at="inch_Hg")
@pytest.mark.parametrize(
    ("inches", "unit", "printed"),
    [(1, "mbar", "33.86388640"), (22, "kPa", "74.50"), (20, "kPa", "67.73")],
)
def test_inches_of_mercury(inches, unit, printed, registry, as_printed):
    assert registry.Quantity(inches, "inHg").to(unit).magnitude == as_printed(printed)
