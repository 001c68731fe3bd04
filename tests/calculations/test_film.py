import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.film import (
    cap_radius_m,
    crown_curvature_per_m2,
    edge_strain,
    gaussian_curvature_per_m2,
    strip_width_m,
    strips_needed,
)

radii = st.floats(0.02, 40.0)
strains = st.floats(1e-4, 0.05)


@pytest.mark.parametrize(
    ("radius_mm", "strain", "width_mm", "shared_mm"),
    [
        # Worked apart; the shared widths are those of the approximation.
        (100, 0.005, 20.01, 28.3),
        (500, 0.001, 44.73, 63.2),
        (500, 0.005, 100.04, 141.4),
        (500, 0.02, 200.33, 282.8),
    ],
)
def test_worked_widths_on_a_sphere(radius_mm, strain, width_mm, shared_mm):
    curvature = gaussian_curvature_per_m2(radius_mm * 1e-3, radius_mm * 1e-3)
    assert strip_width_m(curvature, strain) * 1e3 == pytest.approx(width_mm, abs=0.005)
    shared_m = strip_width_m(curvature, strain, shared=True)
    assert shared_m * 1e3 == pytest.approx(shared_mm, rel=0.01)


def test_worked_face_of_two_radii():
    curvature = gaussian_curvature_per_m2(0.3, 1.5)
    assert strip_width_m(curvature, 0.005) * 1e3 == pytest.approx(134.0, abs=0.5)


def test_worked_edge_strains():
    assert edge_strain(0.05, 4.0) == pytest.approx(-0.0012497, abs=5e-8)
    assert edge_strain(0.2, 4.0) == pytest.approx(-0.019933, abs=5e-7)


@given(radii, strains)
def test_a_strip_of_the_width_found_has_the_strain_allowed_at_its_edges(radius_m, strain):
    for curvature, sign in ((1.0 / radius_m**2, -1.0), (-1.0 / radius_m**2, 1.0)):
        width_m = strip_width_m(curvature, strain)
        assert edge_strain(width_m, curvature) == pytest.approx(sign * strain, rel=1e-9)


@given(radii, strains)
def test_sharing_the_strain_gives_a_wider_strip_of_about_root_two(radius_m, strain):
    for curvature in (1.0 / radius_m**2, -1.0 / radius_m**2):
        ratio = strip_width_m(curvature, strain, shared=True) / strip_width_m(
            curvature, strain
        )
        assert ratio == pytest.approx(math.sqrt(2.0), rel=0.04)


@given(radii, strains)
def test_widths_scale_with_the_radius(radius_m, strain):
    unit, scaled = 1.0, 1.0 / radius_m**2
    wide = radius_m * strip_width_m(unit, strain)
    assert strip_width_m(scaled, strain) == pytest.approx(wide)


@given(radii, strains)
def test_flat_cylinder_and_cone_need_one_sheet(radius_m, strain):
    for radii_m in ((math.inf, math.inf), (radius_m, math.inf), (math.inf, -radius_m)):
        curvature = gaussian_curvature_per_m2(*radii_m)
        assert curvature == 0.0
        assert strip_width_m(curvature, strain) == math.inf
        assert strips_needed(3.0, strip_width_m(curvature, strain)) == 1


@given(radii, radii)
def test_radii_of_opposite_sign_make_a_saddle(a_m, b_m):
    assert gaussian_curvature_per_m2(a_m, -b_m) < 0.0
    assert gaussian_curvature_per_m2(a_m, b_m) == pytest.approx(
        gaussian_curvature_per_m2(-b_m, -a_m)
    )


def test_strips_on_both_sides_of_a_whole_number():
    assert strips_needed(0.5, 0.1) == 5
    assert strips_needed(0.501, 0.1) == 6


def test_cap_of_half_its_width_is_a_hemisphere():
    assert cap_radius_m(1.0, 0.5) == 0.5
    assert cap_radius_m(0.6, 0.1) == pytest.approx(0.5)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: gaussian_curvature_per_m2(0.0, 1.0), "radius_a_m is 0.0 m.*inf"),
        (lambda: gaussian_curvature_per_m2(1.0, math.nan), "radius_b_m is nan"),
        (lambda: edge_strain(0.0, 1.0), "width_m is 0.0"),
        (lambda: edge_strain(2.0, 4.0), "w / 2 is 2.0 rad"),
        (lambda: strip_width_m(math.inf, 0.005), "curvature_per_m2 is inf"),
        (lambda: strip_width_m(4.0, 0.5), "allowed_strain is 0.5.*per cent"),
        (lambda: strips_needed(600.0, 0.1), "breadth_m is 600.0 m.*millimetres"),
        (lambda: strips_needed(1.0, 0.0), "width_m is 0.0"),
        (lambda: cap_radius_m(1.0, 0.6), "height_m is 0.6 m.*hemisphere"),
    ],
)
def test_film_refuses_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()


def test_a_crown_is_as_curved_as_the_sphere_it_is_cut_from():
    assert crown_curvature_per_m2(0.4, 0.4, 0.1) == pytest.approx(1 / 0.25**2)
    assert crown_curvature_per_m2(0.8, 0.4, 0.1) < crown_curvature_per_m2(0.4, 0.4, 0.1)
    assert crown_curvature_per_m2(0.4, 0.4, 0.3) == pytest.approx(25.0)
