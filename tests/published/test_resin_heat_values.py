"""Heat of mixed resin against a reported pot and the theory of self-heating."""

import math

import pytest

from advisor.calculations.resin_batch import runaway_depth_m
from advisor.calculations.resin_heat import adiabatic_rise_k, heat_of_reaction_j_kg


@pytest.mark.published("uncontrolled-cure-page", at="100 g in a pot")
def test_reported_pot_stays_below_the_bound():
    # A typical mix is assumed: 444 kJ/kg, 1.9 kJ/(kg K), mixed at 20 degC.
    heat_j_kg = heat_of_reaction_j_kg(100e3, 0.185, 0.040)
    rise_k = adiabatic_rise_k(heat_j_kg, 1900.0, 0.0, 850.0)
    reported_c = (400.0 - 32.0) / 1.8
    assert 0.7 * (20.0 + rise_k) < reported_c < 20.0 + rise_k


@pytest.mark.published("frank-kamenetskii", at="slab, 0.88; from memory")
def test_limit_of_a_layer_is_the_largest_that_has_a_steady_state(as_printed):
    # A layer that gives off heat at a rate growing as exp(theta) is steady, with theta_m
    # in its middle, at delta = 2 exp(-theta_m) arcosh(exp(theta_m / 2))^2.
    steady = (
        2.0 * math.exp(-m / 1000.0) * math.acosh(math.exp(m / 2000.0)) ** 2
        for m in range(1, 4000)
    )
    largest = max(steady)
    assert largest == as_printed("0.88")
    depth_m = runaway_depth_m(3600.0, 0.6, 237.0, 1e-7, 60e3, 25.0)
    warming = 237.0 * 0.6 / 3600.0
    delta = depth_m**2 * warming * 60e3 / (1e-7 * 8.314 * 298.15**2)
    assert delta == pytest.approx(largest, rel=1e-3)
