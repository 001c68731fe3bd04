"""Thermal stress of slabs against textbook answers, printed factors and a library."""

import numpy as np
import pytest
from pychemengg.heattransfer import transient

from advisor.calculations.slab_heating import eigenvalues, peak_lag_share
from advisor.calculations.thermal_stress import shock_resistance_k


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
    # For perfect transfer to the face; the largest Biot number allowed stands for it.
    assert 1.0 / peak_lag_share(1000.0, 0.0, 0.0) == as_printed("3.2")
    assert -1.0 / peak_lag_share(1000.0, 0.0, 1.0) == pytest.approx(1.0, abs=0.06)


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
def test_first_root_as_printed(biot, printed, as_printed):
    assert float(eigenvalues(biot)[0]) == as_printed(printed)


def library_slab():
    slab = transient.NonLumpedSlab(
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
    slab.calc_Bi()
    slab.calc_Fo(time=3600.0)
    slab.calc_eigenvalues(numberof_eigenvalues_desired=40)
    return slab


@pytest.mark.published("pychemengg-library", at="NonLumpedSlab.calc_eigenvalues")
def test_roots_are_those_of_the_library():
    slab = library_slab()
    theirs = slab.calc_eigenvalues(numberof_eigenvalues_desired=10)
    assert eigenvalues(12.5)[:10] == pytest.approx(np.asarray(theirs), abs=1e-6)


@pytest.mark.published("pychemengg-library", at="calc_temperature_of_solid_at_time_t")
@pytest.mark.parametrize("depth_share", [0.0, 1.0])
def test_peak_of_a_step_is_that_of_the_library_s_temperatures(depth_share):
    slab = library_slab()
    places_m, weights = np.polynomial.legendre.leggauss(12)
    places_m, weights = 0.0375 * (places_m + 1.0), weights / 2.0
    lags = []
    for time_s in np.geomspace(300.0, 20_000.0, 60):
        slab.calc_Fo(time=time_s)
        inside = [
            slab.calc_temperature_of_solid_at_time_t(time=time_s, xposition_tofindtemp=x)
            for x in (*places_m, 0.075 * depth_share)
        ]
        lags.append(float(weights @ inside[:-1]) - inside[-1])
    expected = max(lags, key=abs)
    assert peak_lag_share(12.5, 0.0, depth_share) == pytest.approx(expected, rel=2e-3)
