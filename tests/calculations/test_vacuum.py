import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from advisor.calculations.vacuum import (
    expected_gauge_pa,
    leak_accepted,
    leak_free_air_m3_per_s,
    leak_rise_pa_per_s,
    pressure_from_gauge_pa,
    pressure_rise_pa_per_s,
    pump_down_s,
)

volumes = st.floats(1e-4, 1.0)
pumps = st.floats(1e-4, 0.1)


@given(st.floats(-400.0, 8000.0), st.floats(0.0, 1e4))
def test_gauge_and_barometer_give_the_pressure_back(altitude_m, left_pa):
    barometer_pa = expected_gauge_pa(altitude_m, 0.0)
    gauge_pa = expected_gauge_pa(altitude_m, left_pa)
    back_pa = pressure_from_gauge_pa(gauge_pa, barometer_pa)
    assert back_pa == pytest.approx(left_pa, abs=1e-6)


def test_gauge_loses_about_an_inch_of_mercury_every_three_hundred_metres():
    loss_pa = expected_gauge_pa(0.0, 0.0) - expected_gauge_pa(304.8, 0.0)
    assert loss_pa / 3386.4 == pytest.approx(1.08, abs=0.02)


@given(volumes, st.floats(0.0, 1e4))
def test_leak_and_rise_turn_each_other_round(volume_m3, rise):
    flow = leak_free_air_m3_per_s(volume_m3, rise)
    if flow <= 10.0:
        assert leak_rise_pa_per_s(volume_m3, flow) == pytest.approx(rise)


def test_pores_hide_a_leak_as_many_times_as_they_are_larger():
    # 33.9 mbar/min: 0.167 l/min in 5 l, 1.84 l/min in 55 l.
    rise = 3390.0 / 60.0
    small, large = (leak_free_air_m3_per_s(v, rise) * 6e4 for v in (5e-3, 55e-3))
    assert small == pytest.approx(0.167, abs=5e-4)
    assert large == pytest.approx(1.84, abs=5e-3)
    assert large / small == pytest.approx(11.0)


@given(st.floats(0.0, 5e4), st.floats(0.0, 5e4), st.floats(1.0, 3600.0))
def test_limit_on_both_sides(start_pa, risen_pa, duration_s):
    rise = pressure_rise_pa_per_s(start_pa, start_pa + risen_pa, duration_s)
    test = (start_pa, start_pa + risen_pa, duration_s)
    assert leak_accepted(*test, start_pa + 1.0, rise + 1e-6)
    if rise > 1e-6:
        assert not leak_accepted(*test, start_pa + 1.0, rise * 0.999)
    if start_pa > 1.0:
        assert not leak_accepted(*test, start_pa * 0.999, rise + 1e-6)


@given(volumes, pumps, st.floats(1e3, 1e5), st.floats(0.0, 900.0))
def test_pump_down_agrees_with_the_balance_in_time(volume_m3, pump, end_pa, ultimate_pa):
    duration_s = pump_down_s(volume_m3, pump, 101_325.0, end_pa, ultimate_pa)
    solved = solve_ivp(
        lambda _, pressure_pa: -pump / volume_m3 * (pressure_pa - ultimate_pa),
        (0.0, max(duration_s, 1e-9)),
        [101_325.0],
        rtol=1e-8,
    )
    assert solved.y[0][-1] == pytest.approx(end_pa, rel=1e-5)


@given(volumes, pumps, st.floats(1.0, 10.0))
def test_larger_volume_takes_longer_in_proportion(volume_m3, pump, times):
    once_s = pump_down_s(volume_m3, pump, 1e5, 5e3)
    assert pump_down_s(volume_m3 * times, pump, 1e5, 5e3) == pytest.approx(once_s * times)


def test_nothing_to_pump_takes_no_time():
    assert pump_down_s(0.06, 1e-3, 5e3, 5e3) == 0.0


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (expected_gauge_pa, (0.0, 2e5), "bag_pressure_pa is 200000.0"),
        (pressure_from_gauge_pa, (8e4, 1013.0), "barometer_pa is 1013.0 Pa.*mbar"),
        (pressure_from_gauge_pa, (9e4, 8e4), "gauge_pa is 90000.0"),
        (pressure_rise_pa_per_s, (-8e4, 1e3, 60.0), "start_pa is -80000.0.*gauge"),
        (pressure_rise_pa_per_s, (1e3, math.nan, 60.0), "end_pa is nan"),
        (pressure_rise_pa_per_s, (1e3, 1e3, 0.0), "duration_s is 0.0"),
        (leak_accepted, (1e3, 1e3, 60.0, 0.0, 1.0), "highest_start_pa is 0.0"),
        (leak_accepted, (1e3, 1e3, 60.0, 1e3, 0.0), "highest_rise_pa_per_s is 0.0"),
        (leak_free_air_m3_per_s, (5000.0, 1.0), "volume_m3 is 5000.0 m3.*litres"),
        (leak_free_air_m3_per_s, (5e-3, -1.0), "rise_pa_per_s is -1.0"),
        (leak_rise_pa_per_s, (5e-3, 11.0), "free_air_m3_per_s is 11.0"),
        (pump_down_s, (0.06, 25.0, 1e5, 5e3), "pump_m3_per_s is 25.0.*m3/h"),
        (pump_down_s, (0.06, 1e-3, 1e5, 5e3, 6e3), "end_pa less ultimate_pa is -1000.0"),
        (pump_down_s, (0.06, 1e-3, 1e5, 1.1e5), "end_pa less ultimate_pa is 110000.0"),
        (pump_down_s, (0.06, 1e-3, 1e5, 5e3, 2e5), "ultimate_pa is 200000.0"),
        (pump_down_s, (0.06, 1e-3, 0.0, 5e3), "start_pa is 0.0"),
    ],
)
def test_vacuum_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
