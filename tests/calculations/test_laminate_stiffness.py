import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.laminate_stiffness import (
    Ply,
    laminate_moduli,
    laminate_stiffness,
    ply_stiffness_pa,
    strain_turn,
)

CARBON = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
EVEN = Ply(70e9, 70e9, 0.3, 70e9 / 2.6, 23e-6, 23e-6)

angles = st.floats(-180.0, 180.0)
layups = st.lists(angles, min_size=1, max_size=8).map(tuple)


@given(angles)
def test_ply_alike_in_all_directions_may_lie_any_way(angle_deg):
    straight = ply_stiffness_pa(EVEN, 0.0)
    turned = ply_stiffness_pa(EVEN, angle_deg)
    assert turned == pytest.approx(straight, rel=1e-9, abs=1.0)


@given(angles)
def test_half_a_turn_changes_nothing(angle_deg):
    one = ply_stiffness_pa(CARBON, angle_deg)
    other = ply_stiffness_pa(CARBON, angle_deg + 180.0)
    assert one == pytest.approx(other, rel=1e-9, abs=1.0)


@given(angles)
def test_turning_there_and_back_is_no_turn(angle_deg):
    both = strain_turn(angle_deg) @ strain_turn(-angle_deg)
    assert both == pytest.approx(np.eye(3), abs=1e-12)


@given(layups)
def test_mirrored_laminate_does_not_bend_when_stretched(angles_deg):
    mirrored = angles_deg + angles_deg[::-1]
    whole = laminate_stiffness(CARBON, mirrored, 1e-3)
    assert whole[:3, 3:] == pytest.approx(np.zeros((3, 3)), abs=1e-6)
    assert whole == pytest.approx(whole.T, rel=1e-9, abs=1e-6)


@given(layups)
def test_stiffness_takes_work_in_every_way(angles_deg):
    whole = laminate_stiffness(CARBON, angles_deg, 1.0e-2)
    assert np.linalg.eigvalsh(whole).min() > 0.0


@given(layups)
def test_moduli_stay_between_those_of_the_ply(angles_deg):
    moduli = laminate_moduli(CARBON, angles_deg)
    for modulus_pa in (moduli.along_pa, moduli.across_pa):
        assert 7e9 < modulus_pa <= 181e9 * (1 + 1e-9)


@pytest.mark.parametrize("turn_deg", [0.0, 17.0, 30.0, 71.5])
@pytest.mark.parametrize(
    "angles_deg", [(0.0, 60.0, -60.0), (0.0, 45.0, -45.0, 90.0), (0.0, 36, 72, 108, 144)]
)
def test_even_fans_are_alike_in_all_directions(angles_deg, turn_deg):
    moduli = laminate_moduli(CARBON, tuple(angle + turn_deg for angle in angles_deg))
    assert moduli.along_pa == pytest.approx(69.676e9, rel=1e-4)
    assert moduli.across_pa == pytest.approx(moduli.along_pa, rel=1e-9)
    assert moduli.poisson_ratio == pytest.approx(0.2960, abs=5e-5)
    shear_pa = moduli.along_pa / (2.0 * (1.0 + moduli.poisson_ratio))
    assert moduli.shear_pa == pytest.approx(shear_pa, rel=1e-9)


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ((0.0, 10e9, 0.3, 5e9, 0.0, 0.0), "along_pa is 0.0"),
        ((181.0, 10e9, 0.3, 5e9, 0.0, 0.0), "along_pa is 181.0 Pa.*GPa"),
        ((181e9, 10e9, 5.0, 5e9, 0.0, 0.0), "poisson_ratio is 5.0"),
        ((181e9, 10e9, 0.3, -5e9, 0.0, 0.0), "shear_pa is -5"),
        ((181e9, 10e9, 0.3, 5e9, 22.5, 0.0), "along_per_k is 22.5"),
        ((181e9, 10e9, 0.3, 5e9, 0.0, 22.5), "across_per_k is 22.5"),
    ],
)
def test_plies_that_cannot_be_are_refused(values, named):
    with pytest.raises(ValueError, match=named):
        Ply(*values)


def test_lay_ups_that_cannot_be_are_refused():
    with pytest.raises(ValueError, match="number of plies is 0"):
        laminate_moduli(CARBON, ())
    with pytest.raises(ValueError, match="angle is 400"):
        laminate_moduli(CARBON, (400.0,))
    with pytest.raises(ValueError, match="angle_deg is nan"):
        ply_stiffness_pa(CARBON, float("nan"))
    with pytest.raises(ValueError, match=r"ply_thickness_m is 0.2 m.*millimetres"):
        laminate_stiffness(CARBON, (0.0,), 0.2)
