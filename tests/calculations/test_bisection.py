import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.bisection import rising_root


@given(st.floats(0.0, 1.4))
def test_root_of_a_sine_is_its_inverse(angle):
    found = rising_root(lambda x: math.sin(x) - math.sin(angle), -0.1, 1.5)
    assert found == pytest.approx(angle, abs=1e-9)


@pytest.mark.parametrize("end", [0.0, 2.0])
def test_root_at_an_end_is_found(end):
    assert rising_root(lambda x: x - end, 0.0, 2.0) == pytest.approx(end, abs=1e-12)


def test_a_function_without_a_root_is_refused():
    with pytest.raises(ValueError, match=r"does not pass through zero from 0.0 to 1.0"):
        rising_root(lambda x: x + 1.0, 0.0, 1.0)
    with pytest.raises(ValueError, match=r"does not pass through zero"):
        rising_root(lambda x: x - 2.0, 0.0, 1.0)
    with pytest.raises(ValueError, match=r"does not pass through zero"):
        rising_root(lambda x: math.nan, 0.0, 1.0)
