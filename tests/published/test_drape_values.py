"""Woven drape against the theorem on nets, another integration and printed limits."""

import math

import numpy as np
import pytest
from scipy.integrate import dblquad, solve_ivp

from advisor.calculations.drape import bias_shear_deg, net_shear_deg, planning_limit_deg


@pytest.mark.published("hazzidakis-theorem", at="curvature gathered over the patch")
@pytest.mark.parametrize("side", [0.3, 0.8, 1.1])
def test_shear_is_the_curvature_gathered_over_the_patch(side):
    # On a ball of radius 1 the area of the net is the integral of cos(shear).
    area, _ = dblquad(
        lambda v, u: math.cos(math.radians(net_shear_deg(u, v, 1.0))),
        *(0.0, side, 0.0, side),
        epsabs=1e-6,
    )
    assert math.radians(net_shear_deg(side, side, 1.0)) == pytest.approx(area, abs=1e-5)


@pytest.mark.published("scipy-integration", at="solve_ivp")
@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_shear_on_the_bias_is_that_of_another_integration(sense):
    def rates(s, state):
        shear, slope, _ = state
        stretch = math.sqrt(1.0 + sense * math.sin(shear))
        return [slope, (math.cos(shear) - slope) / s, stretch / math.sqrt(2.0 * s)]

    # In s = u^2: the distance grows by sqrt(2 (1 + sin shear)) du, with du = ds / 2 sqrt s.
    start = 1e-6
    begin = [start, 1.0, math.sqrt(2.0 * start)]
    solved = solve_ivp(
        rates, (start, 1.5), begin, rtol=1e-10, atol=1e-12, dense_output=True
    )
    for s in np.linspace(0.1, 0.9, 5):
        shear, _, distance = solved.sol(s)
        found = math.radians(bias_shear_deg(float(distance), sense))
        assert found == pytest.approx(shear, abs=1e-5)


@pytest.mark.published("spherical-draping-abstract", at="independent of radius and mesh")
def test_hemisphere_shears_the_same_at_any_radius(as_printed):
    for radius_m in (0.05, 0.3, 2.0):
        equator_m = radius_m * math.pi / 2.0 * (1.0 - 1e-12)
        assert bias_shear_deg(equator_m, 1.0 / radius_m**2) == as_printed("52.43")


@pytest.mark.published("zhang-2017-shear", at="locking 28.7, wrinkling 38 degrees")
def test_planning_limit_of_dry_plain_cloth_lies_between_locking_and_wrinkling():
    assert 28.7 - 0.8 <= planning_limit_deg("plain") <= 38.0


@pytest.mark.published("prepreg-shear-limit", at="45 degrees for a plain weave")
def test_planning_limit_of_plain_prepreg_stays_below_the_printed_limit():
    assert planning_limit_deg("plain prepreg") < 45.0
