import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.gores import cone_sector_deg, gore_outline, gores_needed

radii = st.floats(0.05, 10.0)
openings = st.floats(5.0, 90.0)


def test_worked_gores_of_a_hemisphere():
    assert gores_needed(0.2, 90.0, 0.005) == 32


@given(radii, openings, st.floats(1e-3, 0.05))
def test_gores_depend_on_the_shape_and_not_the_size(radius_m, opening_deg, strain):
    number = gores_needed(radius_m, opening_deg, strain)
    assert abs(number - gores_needed(1.0, opening_deg, strain)) <= 1
    assert gores_needed(radius_m, opening_deg, strain, shared=True) <= number


@given(radii, openings, st.integers(3, 60))
def test_gores_together_have_the_area_and_the_rim_of_the_cap(radius_m, opening_deg, gores):
    outline = gore_outline(radius_m, opening_deg, gores, stations=201)
    step_m = outline[1].along_m
    widths = [2.0 * point.half_width_m for point in outline]
    inner = sum(widths[1:-1:2]) * 4.0 + sum(widths[2:-1:2]) * 2.0
    area_m2 = gores * step_m / 3.0 * (widths[0] + inner + widths[-1])
    cap_m2 = 2.0 * math.pi * radius_m**2 * (1.0 - math.cos(math.radians(opening_deg)))
    assert area_m2 == pytest.approx(cap_m2, rel=1e-6)
    rim_m = 2.0 * math.pi * radius_m * math.sin(math.radians(opening_deg))
    assert gores * widths[-1] == pytest.approx(rim_m)


@given(radii, openings, st.integers(3, 60), st.integers(2, 50))
def test_outline_runs_from_a_point_to_the_rim(radius_m, opening_deg, gores, stations):
    outline = gore_outline(radius_m, opening_deg, gores, stations)
    assert len(outline) == stations
    assert outline[0].along_m == outline[0].half_width_m == 0.0
    assert outline[-1].along_m == pytest.approx(radius_m * math.radians(opening_deg))
    widths = [point.half_width_m for point in outline]
    assert widths == sorted(widths)


def test_cone_flattens_to_a_disc_and_closes_to_a_line():
    assert cone_sector_deg(90.0) == 360.0
    assert cone_sector_deg(0.0) == 0.0


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: gores_needed(200.0, 90.0, 0.005), "radius_m is 200.0 m.*millimetres"),
        (lambda: gores_needed(0.2, 91.0, 0.005), "opening_deg is 91.0"),
        (lambda: gores_needed(0.2, 90.0, 0.5), "allowed_strain is 0.5"),
        (lambda: gore_outline(0.2, 90.0, 2, 10), "gores is 2"),
        (lambda: gore_outline(0.2, 90.0, 8, 1), "stations is 1"),
        (lambda: cone_sector_deg(91.0), "half_angle_deg is 91.0"),
    ],
)
def test_gores_refuse_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
