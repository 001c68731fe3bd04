import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.ramp_limits import (
    fastest_cooling_k_per_s,
    fastest_heating_k_per_s,
    fastest_steady_rates_k_per_s,
)
from advisor.calculations.thermal_stress import (
    BrittleSlab,
    cooling_face_tension_pa,
    heating_core_tension_pa,
    steady_difference_k,
)

BLOCK = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)

stresses = st.floats(2e4, 2e6)
half_thicknesses = st.floats(0.01, 0.2)


@settings(max_examples=25)
@given(stresses, half_thicknesses)
def test_stress_at_the_limit_is_the_one_allowed_or_never_reached(allowable_pa, half_m):
    slab = replace(BLOCK, half_thickness_m=half_m)
    for limit, stress in (
        (fastest_heating_k_per_s, heating_core_tension_pa),
        (fastest_cooling_k_per_s, cooling_face_tension_pa),
    ):
        rate = limit(slab, 80.0, 20.0, allowable_pa)
        reached_pa = stress(slab, 80.0, rate, 20.0)
        assert reached_pa <= allowable_pa * (1 + 1e-6)
        if rate < math.inf:
            assert reached_pa == pytest.approx(allowable_pa, rel=1e-3)


@settings(max_examples=25)
@given(stresses, half_thicknesses)
def test_limit_for_any_ramp_is_no_faster_than_that_for_a_short_one(allowable_pa, half_m):
    slab = replace(BLOCK, half_thickness_m=half_m)
    heating, cooling = fastest_steady_rates_k_per_s(slab, allowable_pa)
    assert heating == pytest.approx(2.0 * cooling)
    assert heating <= fastest_heating_k_per_s(slab, 80.0, 20.0, allowable_pa) * (1 + 1e-6)
    assert cooling <= fastest_cooling_k_per_s(slab, 80.0, 20.0, allowable_pa) * (1 + 1e-6)


@given(stresses)
def test_steady_limits_turn_the_steady_difference_round(allowable_pa):
    heating, cooling = fastest_steady_rates_k_per_s(BLOCK, allowable_pa)
    stress_pa = BLOCK.stress_pa_per_k
    core_k = steady_difference_k(BLOCK, heating) / 3.0
    face_k = steady_difference_k(BLOCK, cooling) * 2.0 / 3.0
    assert core_k * stress_pa == pytest.approx(allowable_pa)
    assert face_k * stress_pa == pytest.approx(allowable_pa)


@pytest.mark.parametrize(
    ("strength_mpa", "heating", "cooling"),
    [(0.3, 0.26, 0.13), (0.5, 0.44, 0.22), (0.7, 0.61, 0.31)],
)
def test_steady_limits_of_the_block_by_hand(strength_mpa, heating, cooling):
    limits = fastest_steady_rates_k_per_s(BLOCK, strength_mpa * 1e6)
    assert [rate * 60.0 for rate in limits] == pytest.approx([heating, cooling], abs=6e-3)


@pytest.mark.parametrize(
    ("thickness_mm", "at_030", "at_045"),
    [
        # Worked apart from this program, K/min for a fall of 80 K.
        (50, 1.33, 2.72),
        (75, 0.57, 1.05),
        (100, 0.31, 0.55),
        (150, 0.14, 0.24),
        (200, 0.08, 0.13),
    ],
)
def test_worked_cooling_rates(thickness_mm, at_030, at_045):
    slab = replace(BLOCK, half_thickness_m=thickness_mm / 2000.0)
    for allowable_pa, k_per_min in ((0.30e6, at_030), (0.45e6, at_045)):
        rate = fastest_cooling_k_per_s(slab, 80.0, 20.0, allowable_pa)
        assert rate * 60.0 == pytest.approx(k_per_min, abs=7e-3)


def test_strong_or_thin_tool_may_go_into_the_hot_oven():
    assert fastest_heating_k_per_s(BLOCK, 80.0, 20.0, 2e6) == math.inf
    thin = replace(BLOCK, half_thickness_m=1e-3)
    assert fastest_cooling_k_per_s(thin, 80.0, 20.0, 0.3e6) == math.inf
    assert fastest_cooling_k_per_s(BLOCK, 0.0, 20.0, 1.0) == math.inf


def test_ramp_limits_refuse_what_does_not_hold():
    for call in (fastest_heating_k_per_s, fastest_cooling_k_per_s):
        with pytest.raises(ValueError, match=r"allowable_pa is 0\.0"):
            call(BLOCK, 80.0, 20.0, 0.0)
    with pytest.raises(ValueError, match="allowable_pa is nan"):
        fastest_steady_rates_k_per_s(BLOCK, math.nan)
