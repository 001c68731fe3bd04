import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.vacuum import (
    expected_gauge_pa,
    leak_accepted,
    pressure_rise_pa_per_s,
)

volumes = st.floats(1e-4, 1.0)
pumps = st.floats(1e-4, 0.1)


def test_gauge_loses_about_an_inch_of_mercury_every_three_hundred_metres():
    loss_pa = expected_gauge_pa(0.0, 0.0) - expected_gauge_pa(304.8, 0.0)
    assert loss_pa / 3386.4 == pytest.approx(1.08, abs=0.02)


@given(st.floats(0.0, 5e4), st.floats(0.0, 5e4), st.floats(1.0, 3600.0))
def test_limit_on_both_sides(start_pa, risen_pa, duration_s):
    rise = pressure_rise_pa_per_s(start_pa, start_pa + risen_pa, duration_s)
    test = (start_pa, start_pa + risen_pa, duration_s)
    assert leak_accepted(*test, start_pa + 1.0, rise + 1e-6)
    if rise > 1e-6:
        assert not leak_accepted(*test, start_pa + 1.0, rise * 0.999)
    if start_pa > 1.0:
        assert not leak_accepted(*test, start_pa * 0.999, rise + 1e-6)
