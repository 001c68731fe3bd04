"""Fibre share that a gap sets, against a prepreg maker's sheet."""

import pytest

from advisor.calculations.closed_mould import fibre_share, spare_resin_kg_m2
from advisor.calculations.laminate import cured_ply_thickness_m

# 134 g/m2, 35 % resin of 1.30 g/cm3.  Fibre density, then fibre volume in per cent.
SHEET = [(1790.0, "57.42"), (1770.0, "57.70")]


@pytest.mark.published("maker-ply-sheet", at="physical properties")
@pytest.mark.parametrize(("fibre_density_kg_m3", "share"), SHEET)
def test_a_gap_as_thick_as_eight_plies_holds_the_fibre_printed(
    fibre_density_kg_m3, share, as_printed
):
    full_m = 8 * cured_ply_thickness_m(0.134, 0.35, fibre_density_kg_m3, 1300.0)
    found = fibre_share(8, 0.134, fibre_density_kg_m3, full_m)
    assert found == as_printed(share, scale=1e-2)
    spare = spare_resin_kg_m2(8, 0.134, 0.35, fibre_density_kg_m3, 1300.0, full_m)
    assert spare == pytest.approx(0.0, abs=1e-12)
