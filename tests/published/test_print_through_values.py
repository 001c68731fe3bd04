"""The film over a pore against the plate and membrane formulas printed for it."""

import pytest

from advisor.calculations.print_through import print_through_m

# A modulus ratio so high that the shear part, about (t/a)^2, is known and taken off.
POISSON = 0.3
SLENDERNESS = 1000.0


def load_for(sink, bending, stretching, square):
    """Return q/E at which the printed formula gives a sink of so many thicknesses."""
    return (bending * sink + stretching * sink**3) / (square * SLENDERNESS**4)


def sink_without_shear(load):
    thickness_m = 1e-5
    modulus_pa = 1e11
    found_m = print_through_m(
        2.0 * SLENDERNESS * thickness_m, thickness_m, load * modulus_pa, modulus_pa, POISSON
    )
    shear = load * SLENDERNESS**2 * 2.0 * (1.0 + POISSON) / (4.0 * 5.0 / 6.0)
    return found_m / thickness_m - shear


@pytest.mark.published("roark-large-deflection", at="fixed and held, K1 5.33 and K2 2.6")
@pytest.mark.parametrize("sink", [0.01, 0.1, 0.5, 1.0, 2.0, 5.0, 20.0])
def test_sink_obeys_the_printed_cubic(sink):
    # 5.33 is 64/12 rounded, so the small sinks differ by 0.06 per cent.
    load = load_for(sink, 5.33, 2.6, 1.0 - POISSON**2)
    assert sink_without_shear(load) == pytest.approx(sink, rel=7e-4)


@pytest.mark.published("civil-engineering-handbook", at="clamped circular plate, q a4/64 D")
def test_small_sink_is_that_of_a_clamped_plate():
    load = 1e-4 / SLENDERNESS**4
    stiffness = 1.0 / (12.0 * (1.0 - POISSON**2))
    small = load * SLENDERNESS**4 / (64.0 * stiffness)
    assert sink_without_shear(load) == pytest.approx(small, rel=1e-6)


@pytest.mark.published("hencky-membrane", at="0.662 a (q a/E t)^(1/3), nu 0.3; from memory")
def test_large_sink_lies_six_per_cent_above_the_membrane():
    load = 1e3 / SLENDERNESS**4
    membrane = 0.662 * SLENDERNESS * (load * SLENDERNESS) ** (1.0 / 3.0)
    assert 1.03 < sink_without_shear(load) / membrane < 1.07
