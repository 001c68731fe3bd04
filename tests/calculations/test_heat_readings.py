import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.heat import heat_history
from advisor.calculations.heat_readings import (
    dwell_clock,
    lag_k,
    largest_differences_k,
    time_reaching_s,
)
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import programme_of_ramps

histories = st.lists(st.floats(20.0, 200.0), min_size=2, max_size=30).map(np.array)


def times_for(temperatures_c):
    return 60.0 * np.arange(temperatures_c.size)


@given(histories, st.floats(20.0, 200.0))
def test_target_is_met_at_the_time_returned_and_not_before(temperatures_c, target_c):
    times_s = times_for(temperatures_c)
    reached_s = time_reaching_s(times_s, temperatures_c, target_c)
    if reached_s == math.inf:
        assert temperatures_c.max() < target_c
    else:
        there_c = np.interp(reached_s, times_s, temperatures_c)
        assert there_c >= target_c or there_c == pytest.approx(target_c)
        assert (temperatures_c[times_s < reached_s] < target_c).all()


@given(histories, st.floats(25.0, 190.0), st.floats(1.0, 10.0), st.floats(0.1, 5.0))
def test_wider_band_never_starts_the_dwell_later(temperatures_c, dwell_c, band_k, more_k):
    times_s = times_for(temperatures_c)
    narrow = dwell_clock(times_s, temperatures_c, temperatures_c, dwell_c, band_k)
    wide = dwell_clock(times_s, temperatures_c, temperatures_c, dwell_c, band_k + more_k)
    assert wide.start_s <= narrow.start_s
    assert wide.above_band_s <= narrow.above_band_s + 1e-9


@given(histories, st.floats(25.0, 190.0), st.floats(1.0, 10.0))
def test_dwell_ends_within_the_history(temperatures_c, dwell_c, band_k):
    times_s = times_for(temperatures_c)
    clock = dwell_clock(times_s, temperatures_c, temperatures_c, dwell_c, band_k)
    assert 0.0 <= clock.above_band_s <= times_s[-1] + 1e-9
    if clock.start_s < math.inf:
        assert clock.lasts_s >= 0.0
        assert clock.start_s + clock.lasts_s <= times_s[-1] + 1e-9
    else:
        assert clock.lasts_s == 0.0


@given(histories, histories)
def test_differences_change_places_with_face_and_core(face_c, core_c):
    count = min(face_c.size, core_c.size)
    heating_k, cooling_k = largest_differences_k(face_c[:count], core_c[:count])
    assert (cooling_k, heating_k) == largest_differences_k(core_c[:count], face_c[:count])
    assert heating_k >= 0.0
    assert cooling_k >= 0.0


def test_dwell_clock_by_hand():
    # Coldest: 10 K in 60 s up, 75 from 330 s; falls through 75 at 690 s.
    times_s = np.array([0.0, 360.0, 660.0, 720.0])
    coldest_c = np.array([20.0, 80.0, 80.0, 70.0])
    hottest_c = np.array([20.0, 90.0, 86.0, 70.0])
    clock = dwell_clock(times_s, coldest_c, hottest_c, 80.0, 5.0)
    assert clock.start_s == pytest.approx(330.0)
    assert clock.lasts_s == pytest.approx(360.0)
    assert clock.hottest_c == 90.0
    # Above 85 from 65/70 of the first piece on, all of the second, 1/16 of the last.
    assert clock.above_band_s == pytest.approx(360.0 * 5.0 / 70.0 + 300.0 + 60.0 / 16.0)


def test_insulating_tool_delays_the_dwell_by_hours_and_metal_by_minutes():
    oven = programme_of_ramps(20.0, (80.0, 20.0), (2.0 / 60.0, 0.5 / 60.0), (43200.0, 0.0))
    starts_h = []
    for tool in (
        Layer("tool", 0.15, 0.12, 500.0, 1000.0),
        Layer("tool", 0.01, 150.0, 2700.0, 900.0),
    ):
        breather = Layer("breather", 0.004, 0.04, 100.0, 1300.0)
        laminate = Layer("laminate", 0.002, 0.65, 1600.0, 1000.0)
        history = heat_history(Stack((breather, laminate, tool), 20.0, 20.0), oven, 20.0)
        coldest_c, hottest_c = history.coldest_c("laminate"), history.hottest_c("laminate")
        clock = dwell_clock(history.times_s, coldest_c, hottest_c, 80.0, 5.0)
        starts_h.append(clock.start_s / 3600.0)
        heating_k, cooling_k = largest_differences_k(
            history.top_c("tool"), history.middle_c("tool")
        )
        assert heating_k > 0.0
        assert cooling_k > 0.0
        lag = lag_k(history.times_s, history.air_c, history.top_c("tool"), 1800.0)
        assert 20.0 < lag < 50.0
    # To the edge of the band, 75 degC, the air takes 0.46 h.
    assert starts_h[0] > 2.0
    assert starts_h[1] < 1.2


def test_what_is_already_there_is_reached_at_once():
    assert time_reaching_s(np.array([0.0, 1.0]), np.array([90.0, 20.0]), 80.0) == 0.0


def test_readings_refuse_what_does_not_hold():
    two, three = np.array([0.0, 1.0]), np.array([0.0, 1.0, 2.0])
    with pytest.raises(ValueError, match="the same length"):
        time_reaching_s(two, three, 80.0)
    with pytest.raises(ValueError, match="the same length"):
        largest_differences_k(two, three)
    with pytest.raises(ValueError, match=r"at_s is 5\.0 s"):
        lag_k(two, two, two, 5.0)
    with pytest.raises(ValueError, match=r"dwell_c is 473\.0 degC.*kelvin"):
        dwell_clock(two, two, two, 473.0, 5.0)
    with pytest.raises(ValueError, match=r"band_k is 0\.0 K"):
        dwell_clock(two, two, two, 80.0, 0.0)
