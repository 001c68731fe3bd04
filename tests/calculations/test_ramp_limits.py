import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.heat import heat_history
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import programme_of_ramps
from advisor.calculations.ramp_limits import (
    fastest_ramp_k_per_s,
    ramp_response,
    shock_resistance_k,
)
from advisor.calculations.tool_heating import stack_of

BREATHER = Layer("breather", 0.002, 0.04, 75.0, 1300.0)
PLIES = Layer("laminate", 0.001, 0.6, 1550.0, 950.0)


def slab(thickness_m, film=20.0, cells=201):
    block = Layer("tool", thickness_m, 0.12, 500.0, 1000.0, cells=cells)
    return ramp_response(Stack((block,), film, film), "tool")


def bagged(thickness_m, film=20.0):
    block = Layer("tool", thickness_m, 0.12, 500.0, 1000.0)
    return stack_of(BREATHER, PLIES, block, film, all_round=False)


differences = st.floats(0.5, 60.0)
thicknesses = st.floats(0.02, 0.4)
sides = st.booleans()


@settings(max_examples=40)
@given(differences, thicknesses, sides)
def test_at_the_limit_the_coldest_plane_is_where_it_may_be(allowed_k, thick_m, cooling):
    block = slab(thick_m, cells=41)
    rate = fastest_ramp_k_per_s(block, 80.0, allowed_k, cooling)
    if rate < math.inf:
        assert block.coldest_k(80.0, rate, cooling) == pytest.approx(allowed_k, rel=1e-3)
    else:
        assert block.coldest_k(80.0, 10.0, cooling) <= allowed_k


@settings(max_examples=40)
@given(differences, thicknesses)
def test_cooling_is_slower_than_heating(allowed_k, thick_m):
    block = slab(thick_m, cells=41)
    heating, cooling = (
        fastest_ramp_k_per_s(block, 80.0, allowed_k, side) for side in (False, True)
    )
    assert cooling <= heating


@settings(max_examples=40)
@given(st.floats(1e-5, 0.1), st.floats(1.0, 5.0), sides)
def test_lag_grows_with_the_change_at_one_duration(rate, times, cooling):
    block = slab(0.15, cells=41)
    once_k = block.coldest_k(80.0, rate, cooling)
    assert block.coldest_k(80.0 * times, rate * times, cooling) == pytest.approx(
        once_k * times
    )


@given(st.floats(1e3, 1e9), st.floats(0.0, 0.5))
def test_what_a_plate_stands_strains_its_face_to_its_strength(strength_pa, poisson_ratio):
    resistance_k = shock_resistance_k(strength_pa, 1.75e9, 8e-6, poisson_ratio)
    stress_pa = resistance_k * 1.75e9 * 8e-6 / (1.0 - poisson_ratio)
    assert stress_pa == pytest.approx(strength_pa)


@pytest.mark.parametrize(
    ("strength_mpa", "resistance_k"), [(0.3, 17.1), (0.5, 28.6), (0.7, 40.0)]
)
def test_what_the_block_stands_by_hand(strength_mpa, resistance_k):
    found = shock_resistance_k(strength_mpa * 1e6, 1.75e9, 8e-6, 0.2)
    assert found == pytest.approx(resistance_k, abs=0.05)


@pytest.mark.parametrize(
    ("strength_mpa", "heating", "cooling"),
    [(0.3, 0.26, 0.13), (0.5, 0.44, 0.22), (0.7, 0.61, 0.31)],
)
def test_limits_of_an_endless_ramp_by_hand(strength_mpa, heating, cooling):
    # 6 a R / L^2 and 3 a R / L^2: core a third, face two thirds of the difference.
    block, change_k = slab(0.15), 1400.0
    allowed_k = shock_resistance_k(strength_mpa * 1e6, 1.75e9, 8e-6, 0.2)
    for side, k_per_min in ((False, heating), (True, cooling)):
        rate = fastest_ramp_k_per_s(block, change_k, allowed_k, side)
        assert rate * 60.0 == pytest.approx(k_per_min, abs=6e-3)


@pytest.mark.parametrize(
    ("thickness_mm", "at_030", "at_045"),
    [
        # Worked apart from this program by the series of a slab, K/min, a fall of 80 K.
        (50, 1.33, 2.72),
        (75, 0.57, 1.05),
        (100, 0.31, 0.55),
        (150, 0.14, 0.24),
        (200, 0.08, 0.13),
    ],
)
def test_worked_cooling_rates(thickness_mm, at_030, at_045):
    block = slab(thickness_mm / 1000.0)
    for strength_pa, k_per_min in ((0.30e6, at_030), (0.45e6, at_045)):
        allowed_k = shock_resistance_k(strength_pa, 1.75e9, 8e-6, 0.2)
        rate = fastest_ramp_k_per_s(block, 80.0, allowed_k, cooling=True)
        assert rate * 60.0 == pytest.approx(k_per_min, abs=7e-3)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.02, 0.3), st.floats(0.05, 3.0))
def test_lags_are_those_of_the_heat_up_at_that_ramp(thick_m, k_per_min):
    stack = bagged(thick_m)
    oven = programme_of_ramps(20.0, (90.0,), (k_per_min / 60.0,), (7200.0,))
    history = heat_history(stack, oven, 20.0, 120.0)
    faces = max(
        float((face - history.middle_c("tool")).max())
        for face in (history.top_c("tool"), history.bottom_c("tool"))
    )
    found = ramp_response(stack, "tool").apart_k(70.0, k_per_min / 60.0)
    assert found == pytest.approx(faces, rel=0.02)


def test_a_block_under_its_bag_is_heated_no_faster_than_a_bare_one():
    # Bag side slower, so the block is warmed from below: it bends less but lags more.
    under_bag = fastest_ramp_k_per_s(ramp_response(bagged(0.2), "tool"), 70.0, 14.0, True)
    bare = fastest_ramp_k_per_s(slab(0.2), 70.0, 14.0, True)
    assert under_bag < bare


def test_strong_or_thin_tool_may_go_into_the_hot_oven():
    assert fastest_ramp_k_per_s(slab(0.15), 80.0, 60.0, cooling=False) == math.inf
    assert fastest_ramp_k_per_s(slab(2e-3), 80.0, 17.0, cooling=True) == math.inf
    assert fastest_ramp_k_per_s(slab(0.15), 0.0, 1.0, cooling=True) == math.inf


def test_ramp_limits_refuse_what_does_not_hold():
    for given_k, words in ((0.0, r"allowed_k is 0\.0"), (math.nan, "allowed_k is nan")):
        with pytest.raises(ValueError, match=words):
            fastest_ramp_k_per_s(slab(0.15), 80.0, given_k, cooling=True)
    with pytest.raises(ValueError, match="change_k is -1"):
        fastest_ramp_k_per_s(slab(0.15), -1.0, 1.0, cooling=True)
    with pytest.raises(ValueError, match="'bag' is not in the stack"):
        ramp_response(bagged(0.1), "bag")
    with pytest.raises(ValueError, match="strength_pa is 0"):
        shock_resistance_k(0.0, 1e9, 1e-5, 0.2)
