"""Thermal stress of slabs against textbook answers, printed factors and a library."""

import math

import numpy as np
import pytest
from pychemengg.heattransfer import transient

from advisor.calculations.heat import modes_of
from advisor.calculations.heat_stack import Layer, Stack, cells_of
from advisor.calculations.ramp_limits import ramp_response, shock_resistance_k

STEP = 10.0  # K/s for 1 K: to a block, a step


def slab(film, cells=201):
    """Return a bare block, 150 mm thick, with both faces in the air."""
    return Stack((Layer("block", 0.15, 0.12, 500.0, 1000.0, cells=cells),), film, film)


@pytest.mark.published("callister-shock", at="three ceramics; answers from memory")
@pytest.mark.parametrize(
    ("strength_mpa", "modulus_gpa", "expansion_ppm", "printed_k"),
    [
        (69.0, 69.0, 9.0, "111"),
        (69.0, 70.0, 3.3, "300"),
        (358.0, 303.0, 7.4, "160"),
    ],
)
def test_quench_that_cracks_a_rod(strength_mpa, modulus_gpa, expansion_ppm, printed_k):
    result_k = shock_resistance_k(
        strength_mpa * 1e6, modulus_gpa * 1e9, expansion_ppm * 1e-6, 0.0
    )
    assert result_k == pytest.approx(float(printed_k), rel=0.01)


@pytest.mark.published("shock-resistance-page", at="factor of plates, cold and hot shock")
def test_factors_of_a_sudden_shock(as_printed):
    # For perfect transfer to the face; the largest film allowed stands for it.
    block = ramp_response(slab(1e5), "block")
    assert 1.0 / block.coldest_k(1.0, STEP, cooling=False) == as_printed("3.2")
    assert 1.0 / block.coldest_k(1.0, STEP, cooling=True) == pytest.approx(1.0, abs=0.06)


@pytest.mark.published("slab-roots-table", at="zeta_1; from memory")
@pytest.mark.parametrize(
    ("biot", "printed"),
    [
        (0.01, "0.0998"),
        (0.1, "0.3111"),
        (0.5, "0.6533"),
        (1.0, "0.8603"),
        (10.0, "1.4289"),
        (100.0, "1.5552"),
    ],
)
def test_slowest_decay_is_that_of_the_first_root_as_printed(biot, printed, as_printed):
    decay_per_s = modes_of(cells_of(slab(biot * 0.12 / 0.075, 801))).decays_per_s[0]
    assert 0.075 * math.sqrt(decay_per_s / 2.4e-7) == as_printed(printed)


def library_slab(time_s):
    body = transient.NonLumpedSlab(
        thickness=0.15,
        surfacearea=1.0,
        volume=0.15,
        density=500.0,
        specificheat=1000.0,
        thermalconductivity=0.12,
        thermaldiffusivity=None,
        heattransfercoefficient=20.0,
        T_infinity=1.0,
        T_initial=0.0,
    )
    body.calc_Bi()
    body.calc_Fo(time=time_s)
    body.calc_eigenvalues(numberof_eigenvalues_desired=40)
    return body


def library_lag(time_s, plane_m):
    """Return how far a plane is behind the mean after a step of 1 K, by the library."""
    body = library_slab(time_s)
    places_m, weights = np.polynomial.legendre.leggauss(12)
    inside = [
        body.calc_temperature_of_solid_at_time_t(time=time_s, xposition_tofindtemp=x)
        for x in (*(0.0375 * (places_m + 1.0)), plane_m)
    ]
    return float(weights / 2.0 @ inside[:-1]) - inside[-1]


@pytest.mark.published("pychemengg-library", at="calc_temperature_of_solid_at_time_t")
@pytest.mark.parametrize(("plane_m", "cooling"), [(0.0, False), (0.075, True)])
def test_peak_of_a_step_is_that_of_the_library_s_temperatures(plane_m, cooling):
    lags = [abs(library_lag(time_s, plane_m)) for time_s in np.geomspace(300, 2e4, 60)]
    found = ramp_response(slab(20.0), "block").coldest_k(1.0, STEP, cooling)
    assert found == pytest.approx(max(lags), rel=5e-3)
