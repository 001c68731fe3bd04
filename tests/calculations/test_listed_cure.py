import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.listed_cure import ListedCure, listed_share, time_cured_s

SHEET = (ListedCure(80.0, 8 * 3600.0), ListedCure(100.0, 2 * 3600.0))
HOURS = np.arange(0.0, 11.0) * 3600.0


def at(*temperatures_c):
    return np.array(temperatures_c, dtype=float)


@given(st.floats(20.0, 74.9))
def test_below_the_lowest_line_nothing_counts(constant_c):
    share = listed_share(HOURS, np.full(11, constant_c), SHEET, 5.0)
    assert share[-1] == 0.0
    assert time_cured_s(HOURS, share) == math.inf


@given(st.floats(75.0, 94.9))
def test_between_the_lines_the_slower_counts(constant_c):
    share = listed_share(HOURS, np.full(11, constant_c), SHEET, 5.0)
    assert time_cured_s(HOURS, share) == pytest.approx(8 * 3600.0)


@given(st.lists(st.floats(20.0, 150.0), min_size=11, max_size=11), st.floats(0.0, 30.0))
def test_hotter_is_never_less_cured(temperatures_c, more_k):
    colder = np.array(temperatures_c)
    share, hotter = (
        listed_share(HOURS, one, SHEET, 0.0) for one in (colder, colder + more_k)
    )
    assert (hotter >= share - 1e-12).all()


def test_half_at_each_line_makes_a_whole():
    times_s = np.array([0.0, 4.0, 4.0001, 5.0]) * 3600.0
    share = listed_share(times_s, at(80, 80, 100, 100), SHEET, 0.0)
    assert share[-1] == pytest.approx(1.0, abs=1e-3)


def test_a_line_of_less_time_at_less_heat_is_believed():
    odd = (ListedCure(80.0, 3600.0), ListedCure(100.0, 7200.0))
    share = listed_share(HOURS, np.full(11, 110.0), odd, 0.0)
    assert time_cured_s(HOURS, share) == pytest.approx(3600.0)


def test_what_cannot_be_is_refused():
    with pytest.raises(ValueError, match="listed is empty"):
        listed_share(HOURS, np.full(11, 90.0), (), 5.0)
    with pytest.raises(ValueError, match="same length"):
        listed_share(HOURS, np.full(3, 90.0), SHEET, 5.0)
    with pytest.raises(ValueError, match="band_k"):
        listed_share(HOURS, np.full(11, 90.0), SHEET, 50.0)
    with pytest.raises(ValueError, match="hold_s"):
        ListedCure(80.0, 0.0)
    with pytest.raises(ValueError, match="temperature_c"):
        ListedCure(353.0, 3600.0)
