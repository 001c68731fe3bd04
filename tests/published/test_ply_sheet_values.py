"""Ply thickness, fibre share and density against a prepreg maker's sheet."""

import pytest

from advisor.calculations.laminate import (
    cured_ply_thickness_m,
    fibre_volume_fraction,
    laminate_density_kg_m3,
)

# 134 g/m2, 35 % resin of 1.30 g/cm3.  Fibre density, then as printed: thickness in mm,
# fibre volume in per cent, density in g/cm3.
SHEET = [(1790.0, "0.130", "57.42", "1.58"), (1770.0, "0.131", "57.70", "1.57")]


@pytest.mark.published("maker-ply-sheet", at="physical properties")
@pytest.mark.parametrize(("fibre_density_kg_m3", "thickness", "share", "density"), SHEET)
def test_ply_sheet_as_printed(fibre_density_kg_m3, thickness, share, density, as_printed):
    prepreg = (0.35, fibre_density_kg_m3, 1300.0)
    assert cured_ply_thickness_m(0.134, *prepreg) == as_printed(thickness, scale=1e-3)
    assert fibre_volume_fraction(*prepreg) == as_printed(share, scale=1e-2)
    assert laminate_density_kg_m3(*prepreg) == as_printed(density, scale=1e3)
