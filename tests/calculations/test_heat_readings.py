import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.heat import heat_history
from advisor.calculations.heat_readings import lag_k, largest_differences_k, time_reaching_s
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


@given(histories, histories)
def test_differences_change_places_with_face_and_core(face_c, core_c):
    count = min(face_c.size, core_c.size)
    heating_k, cooling_k = largest_differences_k(face_c[:count], core_c[:count])
    assert (cooling_k, heating_k) == largest_differences_k(core_c[:count], face_c[:count])
    assert heating_k >= 0.0
    assert cooling_k >= 0.0


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
        start_s = time_reaching_s(history.times_s, history.coldest_c("laminate"), 75.0)
        starts_h.append(start_s / 3600.0)
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
