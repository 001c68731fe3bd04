import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.thermal_stress import (
    BrittleSlab,
    cooling_face_tension_pa,
    heating_core_tension_pa,
    peak_stress_pa,
    shock_resistance_k,
    steady_difference_k,
)

BLOCK = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)

rates = st.floats(1e-5, 0.1)
changes = st.floats(1.0, 300.0)


@given(changes, rates)
def test_cooling_stretches_the_face_more_than_heating_the_core(change_k, rate):
    heating_pa = heating_core_tension_pa(BLOCK, change_k, rate, 20.0)
    assert heating_pa < cooling_face_tension_pa(BLOCK, change_k, rate, 20.0)


@given(changes, rates, st.floats(1.0, 5.0))
def test_stress_grows_with_the_change_at_one_duration(change_k, rate, times):
    once_pa = peak_stress_pa(BLOCK, change_k, rate, 20.0, 0.0)
    more_pa = peak_stress_pa(BLOCK, change_k * times, rate * times, 20.0, 0.0)
    assert more_pa == pytest.approx(once_pa * times, rel=1e-9)


@given(rates)
def test_no_stress_beyond_that_of_the_steady_ramp(rate):
    steady_pa = BLOCK.stress_pa_per_k * steady_difference_k(BLOCK, rate)
    heating_pa = heating_core_tension_pa(BLOCK, 80.0, rate, 20.0)
    cooling_pa = cooling_face_tension_pa(BLOCK, 80.0, rate, 20.0)
    assert heating_pa <= steady_pa / 3.0 * (1 + 1e-6)
    assert cooling_pa <= steady_pa * 2.0 / 3.0 * (1 + 1e-6)


@given(st.floats(1e3, 1e9), st.floats(0.0, 0.5))
def test_shock_resistance_strains_the_face_to_its_strength(strength_pa, poisson_ratio):
    slab = replace(BLOCK, poisson_ratio=poisson_ratio)
    resistance_k = shock_resistance_k(strength_pa, 1.75e9, 8e-6, poisson_ratio)
    assert resistance_k * slab.stress_pa_per_k == pytest.approx(strength_pa)


def test_properties_of_the_block_by_hand():
    assert BLOCK.diffusivity_m2_per_s == pytest.approx(2.4e-7)
    assert BLOCK.stress_pa_per_k == pytest.approx(17.5e3)


@pytest.mark.parametrize(
    ("strength_mpa", "resistance_k"), [(0.3, 17.1), (0.5, 28.6), (0.7, 40.0)]
)
def test_shock_resistance_of_the_block_by_hand(strength_mpa, resistance_k):
    result_k = shock_resistance_k(strength_mpa * 1e6, 1.75e9, 8e-6, 0.2)
    assert result_k == pytest.approx(resistance_k, abs=0.05)


@pytest.mark.parametrize(
    ("k_per_min", "heating_mpa", "cooling_mpa"),
    [(0.25, 0.23, 0.47), (0.5, 0.31, 0.65), (1.0, 0.35, 0.78), (2.0, 0.365, 0.84)],
)
def test_worked_stresses_of_the_block_in_a_ramp_of_eighty_kelvin(
    k_per_min, heating_mpa, cooling_mpa
):
    rate = k_per_min / 60.0
    heating_pa = heating_core_tension_pa(BLOCK, 80.0, rate, 20.0)
    cooling_pa = cooling_face_tension_pa(BLOCK, 80.0, rate, 20.0)
    assert heating_pa == pytest.approx(heating_mpa * 1e6, abs=6e3)
    assert cooling_pa == pytest.approx(cooling_mpa * 1e6, abs=6e3)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("half_thickness_m", 75.0),
        ("conductivity_w_per_m_k", 0.0),
        ("density_kg_m3", -500.0),
        ("heat_capacity_j_per_kg_k", math.nan),
        ("modulus_pa", 0.0),
        ("expansion_per_k", 8.0),
        ("poisson_ratio", 0.6),
    ],
)
def test_slabs_that_cannot_be_are_refused(field, value):
    with pytest.raises(ValueError, match=f"{field} is"):
        replace(BLOCK, **{field: value})


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (shock_resistance_k, (0.0, 1e9, 8e-6, 0.2), "strength_pa is 0.0"),
        (shock_resistance_k, (1e6, 0.0, 8e-6, 0.2), "modulus_pa is 0.0"),
        (shock_resistance_k, (1e6, 1e9, 8.0, 0.2), "expansion_per_k is 8.0"),
        (shock_resistance_k, (1e6, 1e9, 8e-6, 0.7), "poisson_ratio is 0.7"),
        (steady_difference_k, (BLOCK, 0.0), "rate_k_per_s is 0.0"),
        (heating_core_tension_pa, (BLOCK, -1.0, 0.01, 20.0), "change_k is -1.0"),
        (heating_core_tension_pa, (BLOCK, 80.0, 0.0, 20.0), "rate_k_per_s is 0.0"),
        (cooling_face_tension_pa, (BLOCK, 80.0, 0.01, 0.0), "film_w_per_m2_k is 0.0"),
        (cooling_face_tension_pa, (BLOCK, 80.0, 0.01, 9e3), "Biot number is"),
    ],
)
def test_thermal_stress_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
