import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.resin_heat import adiabatic_rise_k, heat_of_reaction_j_kg

heats = st.floats(5e4, 8e5)
capacities = st.floats(500.0, 2500.0)


@given(heats, capacities, capacities, st.floats(0.0, 0.98))
def test_heat_given_off_is_the_heat_taken_up(heat, resin, filler, share):
    rise_k = adiabatic_rise_k(heat, resin, share, filler)
    taken = rise_k * ((1.0 - share) * resin + share * filler)
    assert taken == pytest.approx((1.0 - share) * heat)


@given(heats, capacities, capacities, st.floats(0.0, 0.9), st.floats(0.0, 0.9))
def test_more_filler_never_makes_it_hotter(heat, resin, filler, a, b):
    less, more = sorted((a, b))
    rise_k = adiabatic_rise_k(heat, resin, less, filler)
    assert adiabatic_rise_k(heat, resin, more, filler) <= rise_k * (1 + 1e-12)


@pytest.mark.parametrize(
    ("heat_kj", "capacity", "share", "rise_k"),
    [(450.0, 1900.0, 0.0, 237.0), (450.0, 1900.0, 0.5, 164.0), (300.0, 1800.0, 0.0, 167.0)],
)
def test_worked_rises(heat_kj, capacity, share, rise_k):
    result_k = adiabatic_rise_k(heat_kj * 1e3, capacity, share, 850.0)
    assert result_k == pytest.approx(rise_k, abs=0.5)


def test_heat_of_a_usual_mix_by_hand():
    # 100 kJ over 185 g and 40 g.
    assert heat_of_reaction_j_kg(100e3, 0.185, 0.040) == pytest.approx(444.4e3, rel=1e-3)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (heat_of_reaction_j_kg, (100.0, 0.185, 0.04), "ring_heat_j_per_eq is 100.0"),
        (heat_of_reaction_j_kg, (1e5, 185.0, 0.04), "epoxide_kg_per_eq is 185.0.*g/eq"),
        (heat_of_reaction_j_kg, (1e5, 0.185, 0.0), "amine_kg_per_eq is 0.0"),
        (adiabatic_rise_k, (0.0, 1900.0, 0.0, 850.0), "reaction_heat_j_kg is 0.0"),
        (adiabatic_rise_k, (450e3, 1.9, 0.0, 850.0), "resin_capacity_j_per_kg_k is 1.9"),
        (adiabatic_rise_k, (450e3, 1900.0, 0.0, math.nan), "filler_capacity_j_per_kg_k"),
        (adiabatic_rise_k, (450e3, 1900.0, 50.0, 850.0), "filler_share is 50.0.*per cent"),
    ],
)
def test_resin_heat_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
