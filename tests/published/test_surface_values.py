"""Grits, roughness and filler against the printed figures."""

import pytest

from advisor.calculations.grits import grain_size_m, sanded_roughness
from advisor.calculations.surface import filler_sink, fills_needed


@pytest.mark.published("grit-size-page", at="table of grades, FEPA P")
@pytest.mark.parametrize(
    ("grit", "printed_um"),
    [
        (12, "1815"),
        (16, "1324"),
        (20, "1000"),
        (24, "764"),
        (30, "642"),
        (36, "538"),
        (40, "425"),
        (50, "336"),
        (60, "269"),
        (80, "201"),
        (100, "162"),
        (120, "125"),
        (2500, "8.4"),
    ],
)
def test_grain_is_as_printed(grit, printed_um, as_printed):
    assert grain_size_m(grit) == as_printed(printed_um, scale=1e-6)


@pytest.mark.published("memory-grit-standard", at="mean grain; from memory")
@pytest.mark.parametrize(
    ("grit", "printed_um"),
    [(150, "100"), (180, "82"), (240, "58.5"), (400, "35.0"), (1000, "18.3")],
)
def test_finer_grain_is_as_remembered(grit, printed_um, as_printed):
    assert grain_size_m(grit) == as_printed(printed_um, scale=1e-6)


@pytest.mark.published("belt-roughness-page", at="Ra by belt grit, metal plate")
@pytest.mark.parametrize(
    ("grit", "printed_um"),
    [
        (80, "3.2"),
        (120, "1.6"),
        (240, "0.8"),
        (400, "0.4"),
        (600, "0.2"),
        (1000, "0.1"),
    ],
)
def test_printed_roughness_lies_in_the_band(grit, printed_um):
    band = sanded_roughness(grit)
    assert band.low_m <= float(printed_um) * 1e-6 <= band.high_m


@pytest.mark.published(
    "memory-filler-shrinkage", at="polyester putty 0.5 to 2 %; from memory"
)
@pytest.mark.parametrize("shrinkage", [0.005, 0.01, 0.02])
def test_putty_in_a_pore_of_a_millimetre_takes_two_fills(shrinkage):
    assert filler_sink(1e-3, shrinkage).high_m > 10e-6
    assert fills_needed(1e-3, shrinkage, 10e-6) == 2
