import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.laminate_expansion import (
    free_shape,
    plane_expansion,
)
from advisor.calculations.laminate_stiffness import Ply
from advisor.calculations.layup import ply_angles_deg

CARBON = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
GLASS = Ply(38.6e9, 8.27e9, 0.26, 4.14e9, 8.6e-6, 22.1e-6)
W = Ply(126e9, 11e9, 0.28, 6.6e9, -1e-6, 26e-6)
T = Ply(120e9, 10e9, 0.28, 5e9, 0.2e-6, 30e-6)
EVEN = Ply(70e9, 70e9, 0.3, 70e9 / 2.6, 23e-6, 23e-6)

angles = st.floats(-90.0, 90.0)
halves = st.lists(angles, min_size=1, max_size=6).map(tuple)


def closed_form(ply):
    """Expansion of a crossed or quasi-isotropic laminate, in one line."""
    e1, e2, nu = ply.along_pa, ply.across_pa, ply.poisson_ratio
    load = ply.along_per_k * (e1 + nu * e2) + ply.across_per_k * e2 * (1.0 + nu)
    return load / (e1 + e2 + 2.0 * nu * e2)


@pytest.mark.parametrize("ply", [CARBON, GLASS, W, T])
@pytest.mark.parametrize("layup", ["[0/90]s", "[±45]s", "[0/±45/90]s", "[0/±60]s"])
def test_crossed_and_quasi_isotropic_laminates_have_the_closed_form(ply, layup):
    expansion = plane_expansion(ply, ply_angles_deg(layup))
    assert expansion.along_per_k == pytest.approx(closed_form(ply), rel=1e-9)
    assert expansion.across_per_k == pytest.approx(closed_form(ply), rel=1e-9)
    assert expansion.shear_per_k == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize(
    ("ply", "layup", "along", "across", "shear"),
    [
        # Worked apart from this program.
        (CARBON, "[0/90]s", 1.5239, 1.5239, 0.0),
        (CARBON, "[±30]s", -2.369, 11.365, 0.0),
        (CARBON, "[0/±30]s", -1.362, 12.299, 0.0),
        (W, "[±30]s", -3.650, 14.083, 0.0),
        (T, "[0/±45/90]s", 3.0130, 3.0130, 0.0),
        (GLASS, "[0/90]s", 11.349, 11.349, 0.0),
        (GLASS, "[0/45]s", 9.697, 17.811, -8.115),
    ],
)
def test_worked_laminates(ply, layup, along, across, shear):
    expansion = plane_expansion(ply, ply_angles_deg(layup))
    assert expansion.along_per_k * 1e6 == pytest.approx(along, abs=6e-4)
    assert expansion.across_per_k * 1e6 == pytest.approx(across, abs=6e-4)
    assert expansion.shear_per_k * 1e6 == pytest.approx(shear, abs=6e-4)


@given(halves)
def test_free_shape_of_a_symmetric_laminate_is_flat_and_its_expansion(half):
    layup = half + half[::-1]
    expansion = plane_expansion(CARBON, layup)
    shape = free_shape(CARBON, layup, 0.25e-3, -100.0)
    assert shape.curvature_per_m == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)
    assert shape.strain[0] == pytest.approx(-100.0 * expansion.along_per_k, abs=1e-12)
    assert shape.strain[1] == pytest.approx(-100.0 * expansion.across_per_k, abs=1e-12)
    assert shape.strain[2] == pytest.approx(-100.0 * expansion.shear_per_k, abs=1e-12)


@given(halves, st.floats(-200.0, 200.0))
def test_laminate_turned_over_bends_the_other_way(layup, change_k):
    one = free_shape(CARBON, layup, 0.25e-3, change_k)
    other = free_shape(CARBON, layup[::-1], 0.25e-3, change_k)
    back = tuple(-value for value in other.curvature_per_m)
    assert one.curvature_per_m == pytest.approx(back, rel=1e-6, abs=1e-9)


def test_bow_of_two_strips_is_that_of_timoshenko():
    # Two plies that differ only in expansion along: no ply pair does that exactly, so
    # the strip theory is met by one that hardly contracts sideways.
    ply = Ply(100e9, 100e9, 0.0, 1e9, 0.0, 10e-6)
    shape = free_shape(ply, (0.0, 90.0), 1e-3, -100.0)
    expected = 1.5 * (10e-6 * 100.0) / 2e-3
    assert shape.curvature_per_m[0] == pytest.approx(-expected, rel=1e-9)
