import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.laminate import (
    bleed_areal_kg_m2,
    cured_ply_thickness_m,
    fibre_volume_fraction,
    laminate_density_kg_m3,
    laminate_mass_kg,
    prepreg_areal_kg_m2,
)

areals = st.floats(0.02, 2.0)
resins = st.floats(0.2, 0.6)
densities = st.floats(900.0, 2600.0)


@given(areals, resins, densities, densities)
def test_thickness_times_density_is_the_mass_of_a_ply(areal, resin, fibre, matrix):
    thickness_m = cured_ply_thickness_m(areal, resin, fibre, matrix)
    mass_kg_m2 = thickness_m * laminate_density_kg_m3(resin, fibre, matrix)
    assert mass_kg_m2 == pytest.approx(prepreg_areal_kg_m2(areal, resin), rel=1e-9)


@given(resins, resins, densities, densities)
def test_more_resin_never_gives_more_fibre(one, other, fibre, matrix):
    less, more = sorted((one, other))
    lean = fibre_volume_fraction(less, fibre, matrix)
    assert 0.0 < fibre_volume_fraction(more, fibre, matrix) <= lean < 1.0


@given(areals, resins, resins)
def test_bleed_is_what_the_prepreg_weighs_less_afterwards(areal, one, other):
    after, before = sorted((one, other))
    lost = prepreg_areal_kg_m2(areal, before) - prepreg_areal_kg_m2(areal, after)
    assert bleed_areal_kg_m2(areal, before, after) == pytest.approx(lost, abs=1e-12)


def test_ply_of_two_hundred_grams_by_hand():
    # 42 % resin; 1.79 and 1.22 g/cm3; then bled to 35 %.
    assert fibre_volume_fraction(0.42, 1790.0, 1220.0) == pytest.approx(0.4849, abs=5e-5)
    assert prepreg_areal_kg_m2(0.2, 0.42) == pytest.approx(0.3448, abs=5e-5)
    raw_m = cured_ply_thickness_m(0.2, 0.42, 1790.0, 1220.0)
    bled_m = cured_ply_thickness_m(0.2, 0.35, 1790.0, 1220.0)
    assert raw_m == pytest.approx(0.2304e-3, abs=5e-8)
    assert bled_m == pytest.approx(0.2000e-3, abs=5e-8)
    assert fibre_volume_fraction(0.35, 1790.0, 1220.0) == pytest.approx(0.5586, abs=5e-5)
    assert bleed_areal_kg_m2(0.2, 0.42, 0.35) == pytest.approx(0.0371, abs=5e-5)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (
            fibre_volume_fraction,
            (35.0, 1790.0, 1300.0),
            "resin_mass_fraction is 35.0.*cent",
        ),
        (fibre_volume_fraction, (0.35, 1.79, 1300.0), "fibre_density_kg_m3 is 1.79.*g/cm3"),
        (fibre_volume_fraction, (0.35, 1790.0, math.nan), "resin_density_kg_m3 is nan"),
        (cured_ply_thickness_m, (200.0, 0.35, 1790.0, 1300.0), "fibre_areal_kg_m2.*g/m2"),
        (bleed_areal_kg_m2, (0.2, 0.35, 0.42), "resin_fraction_after is 0.42"),
        (laminate_mass_kg, (0.5, 0, 0.2, 0.35), "plies is 0"),
        (laminate_mass_kg, (0.5, 2.5, 0.2, 0.35), "plies is 2.5"),
        (laminate_mass_kg, (math.nan, 4, 0.2, 0.35), "area_m2 is nan"),
    ],
)
def test_laminate_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
