"""Rectangles in rectangles against the two printed forms of the theorem."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from advisor.calculations.oven_fit import slant_deg

sides = st.floats(0.1, 3.0)


@pytest.mark.published("wetzel-2000", at="theorem, b >= (2 p q a + ...) / (p^2 + q^2)")
@given(sides, sides, sides, sides)
def test_fit_is_that_of_the_theorem(one, two, three, four):
    p, q = max(one, two), min(one, two)
    a, b = max(three, four), min(three, four)
    assume(p > q)
    fits = p <= a and q <= b
    if not fits and p > a and q <= b:
        root = math.sqrt(p * p + q * q - a * a)
        fits = b >= (2 * p * q * a + (p * p - q * q) * root) / (p * p + q * q)
    assert (slant_deg(p, q, a, b) is not None) is fits


@pytest.mark.published(
    "wetzel-2000", at="second form, ((a+b)/(p+q))^2 + ((a-b)/(p-q))^2 >= 2"
)
@given(sides, sides, sides, sides)
def test_fit_is_that_of_the_second_form(one, two, three, four):
    p, q = max(one, two), min(one, two)
    a, b = max(three, four), min(three, four)
    assume(p > a + 1e-6)
    assume(p - q > 1e-3)
    assume(q < b)
    value = ((a + b) / (p + q)) ** 2 + ((a - b) / (p - q)) ** 2
    assume(abs(value - 2.0) > 1e-9)
    assert (slant_deg(p, q, a, b) is not None) is (value > 2.0)
