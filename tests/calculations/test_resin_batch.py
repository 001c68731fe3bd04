import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from advisor.calculations.resin_batch import largest_batch_kg, runaway_depth_m

MIX = (3600.0, 0.6, 237.0, 1e-7, 60e3, 25.0)
gel_times = st.floats(60.0, 1e5)


def hottest_k(depth_m, layers=40):
    """Warmth of the insulated face after ten gel times, resin never used up."""
    gel_s, conversion, rise_k, diffusivity, activation, start_c = MIX
    start_k = start_c + 273.15
    width_m = depth_m / layers

    def change(_, warmth):
        ends = np.concatenate(([warmth[0]], warmth, [-warmth[-1]]))
        flow = diffusivity * np.diff(ends, 2) / width_m**2
        steep = activation * warmth / (8.314 * start_k**2)
        return flow + rise_k * conversion / gel_s * np.exp(np.minimum(steep, 5.0))

    end_s = 10.0 * gel_s
    solved = solve_ivp(change, (0.0, end_s), np.zeros(layers), "BDF", rtol=1e-6)
    return float(solved.y[0, -1])


def test_pour_below_the_limit_stays_cool_and_one_above_runs_away():
    depth_m = runaway_depth_m(*MIX)
    steep_k = 8.314 * 298.15**2 / 60e3
    assert hottest_k(0.95 * depth_m) < 1.2 * steep_k
    assert hottest_k(1.10 * depth_m) > 5.0 * steep_k


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (runaway_depth_m, (math.nan, *MIX[1:]), "gel_time_s is nan"),
        (runaway_depth_m, (3600.0, 60.0, *MIX[2:]), "gel_conversion is 60.0.*per cent"),
        (runaway_depth_m, (3600.0, 0.6, 0.0, *MIX[3:]), "rise_k is 0.0"),
        (runaway_depth_m, (*MIX[:4], 60.0, 25.0), "activation_j_per_mol is 60.0.*kJ"),
        (runaway_depth_m, (*MIX[:5], 298.0), "start_c is 298.0 degC.*kelvin"),
        (runaway_depth_m, (*MIX[:5], 25.0, 0.0), "film_w_per_m2_k is 0.0"),
        (runaway_depth_m, (*MIX[:5], 25.0, 10.0, 0.0), "conductivity_w_per_m_k is 0.0"),
        (largest_batch_kg, (20.0, 1e3, 0.5), "spreading_kg_per_s"),
        (largest_batch_kg, (1e-3, 0.0, 0.5), "pot_life_s is 0.0"),
        (largest_batch_kg, (1e-3, 1e3, 1.5), "pot_life_share is 1.5"),
    ],
)
def test_resin_batch_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)


@given(st.floats(1.0, 1e4))
def test_a_film_only_makes_the_depth_smaller_and_a_strong_one_is_no_film(film):
    held_m = runaway_depth_m(*MIX[:5], 25.0)
    assert runaway_depth_m(*MIX[:5], 25.0, film, 0.2) <= held_m
    assert runaway_depth_m(*MIX[:5], 25.0, 1e7, 0.2) == pytest.approx(held_m, rel=1e-3)


def test_a_thin_layer_in_still_air_by_hand():
    # d = 0.878 Bi / e: L = 0.878 h (R T^2 / E) t / (e rho c dT x), k = a rho c.
    gel_s, share, rise_k, diffusivity, energy, _ = MIX
    steep_k = 8.314 * 298.15**2 / energy
    volumetric = 0.2 / diffusivity
    heat = volumetric * rise_k * share / gel_s
    by_hand_m = 0.878 * 10.0 * steep_k / (math.e * heat)
    found_m = runaway_depth_m(*MIX[:5], 25.0, 10.0, 0.2)
    assert found_m == pytest.approx(by_hand_m, rel=0.05)
