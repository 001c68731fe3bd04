import math

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.volumes import (
    arc_area_m2,
    arc_length_m,
    blank_size,
    dust_mass_kg,
    face_area_m2,
    is_core,
    ply_edge_length_m,
    removed_volume_m3,
    sanding_volume_m3,
    sealed_area_m2,
    shape_volume_m3,
    steep_face_area_m2,
    tool_blank,
    tool_mass_kg,
)

SHAPES = ["flat", "single-curvature", "double-curvature", "closed"]
sides = st.floats(0.01, 10.0)
depths = st.floats(0.001, 5.0)
margins = st.floats(0.0, 0.5)
shapes = st.sampled_from(SHAPES)


@given(shapes, sides, sides, depths, margins)
def test_areas_are_positive_and_symmetric_in_length_and_width(
    shape, length_m, width_m, depth_m, margin_m
):
    face_m2 = face_area_m2(shape, length_m, width_m, depth_m)
    assert face_m2 > 0.0
    assert face_area_m2(shape, width_m, length_m, depth_m) == pytest.approx(face_m2)
    sealed_m2 = sealed_area_m2(shape, length_m, width_m, depth_m, margin_m)
    assert sealed_m2 >= face_m2


@given(shapes, sides, sides, depths)
def test_face_is_never_smaller_than_its_plan(shape, length_m, width_m, depth_m):
    face_m2 = face_area_m2(shape, length_m, width_m, depth_m)
    assert face_m2 >= length_m * width_m * (1 - 1e-9)


@given(shapes, sides, sides, depths, depths)
def test_face_and_volume_never_shrink_with_depth(shape, length, width, one, other):
    low_m, high_m = sorted((one, other))
    sizes = (shape, length, width)
    assert face_area_m2(*sizes, high_m) >= face_area_m2(*sizes, low_m) * (1 - 1e-9)
    assert shape_volume_m3(*sizes, high_m) >= shape_volume_m3(*sizes, low_m) * (1 - 1e-6)


@given(shapes, sides, sides, depths, margins, st.floats(0.001, 1.0))
def test_both_tools_together_remove_all_that_stands_above_the_base(
    shape, length_m, width_m, depth_m, margin_m, base_m
):
    part = (length_m, width_m, depth_m, margin_m)
    female_m3 = removed_volume_m3(shape, "female", *part)
    male_m3 = removed_volume_m3(shape, "male", *part)
    if is_core(shape, "male"):
        whole_m3 = length_m * width_m * depth_m
        assert female_m3 + male_m3 == pytest.approx(whole_m3, rel=1e-9)
        core = tool_blank(shape, "male", *part, base_m)
        assert (core.width_m, core.height_m) == (width_m, depth_m)
        return
    blank = tool_blank(shape, "male", *part, base_m)
    above_base_m3 = blank.volume_m3 * depth_m / blank.height_m
    assert female_m3 + male_m3 == pytest.approx(above_base_m3, rel=1e-9)


@given(sides, st.floats(0.0, 5.0))
def test_arc_is_between_the_two_straight_sides_and_the_box(chord_m, height_m):
    length_m = arc_length_m(chord_m, height_m)
    roof_m = 2.0 * math.hypot(chord_m / 2.0, height_m)
    assert roof_m * (1 - 1e-12) <= length_m
    assert length_m <= (chord_m + 2.0 * height_m) * (1 + 1e-12)
    area_m2 = arc_area_m2(chord_m, height_m)
    assert chord_m * height_m * (0.5 - 1e-9) <= area_m2 <= chord_m * height_m * (1 + 1e-9)


def test_half_circle_and_sixty_degree_arc_are_exact():
    assert arc_length_m(2.0, 1.0) == pytest.approx(math.pi)
    assert arc_area_m2(2.0, 1.0) == pytest.approx(math.pi / 2)
    # Radius 1, chord 1, sagitta 1 - cos 30.
    sagitta_m = 1.0 - math.cos(math.pi / 6)
    assert arc_length_m(1.0, sagitta_m) == pytest.approx(math.pi / 3)
    assert arc_area_m2(1.0, sagitta_m) == pytest.approx(math.pi / 6 - math.sqrt(3) / 4)


@pytest.mark.parametrize("height_m", [0.5, 1e-3 * 0.5])
def test_arcs_join_without_a_step_where_their_formula_changes(height_m):
    below = arc_area_m2(1.0, height_m * (1 - 1e-9))
    above = arc_area_m2(1.0, height_m * (1 + 1e-9))
    assert below == pytest.approx(above, rel=1e-5)
    below = arc_length_m(1.0, height_m * (1 - 1e-9))
    assert below == pytest.approx(arc_length_m(1.0, height_m * (1 + 1e-9)), rel=1e-7)


def test_hemisphere_on_a_rim_of_the_plan_s_area_is_exact():
    # A square plan of area pi has the same area as a rim of radius 1.
    side_m = math.sqrt(math.pi)
    assert face_area_m2("double-curvature", side_m, side_m, 1.0) == pytest.approx(
        2 * math.pi
    )
    volume_m3 = shape_volume_m3("double-curvature", side_m, side_m, 1.0)
    assert volume_m3 == pytest.approx(2 * math.pi / 3)
    # And half a metre of straight wall below it.
    taller_m2 = face_area_m2("double-curvature", side_m, side_m, 1.5)
    assert taller_m2 == pytest.approx(3 * math.pi)


def test_round_tube_is_exact():
    assert face_area_m2("closed", 2.0, 0.1, 0.1) == pytest.approx(math.pi * 0.1 * 2.0)
    assert shape_volume_m3("closed", 2.0, 0.1, 0.1) == pytest.approx(math.pi * 0.005)


def test_flat_face_without_depth_is_its_plan_and_with_depth_a_box():
    assert face_area_m2("flat", 0.6, 0.4, 0.0) == pytest.approx(0.24)
    assert face_area_m2("flat", 0.6, 0.4, 0.15) == pytest.approx(0.24 + 2.0 * 0.15)


@given(st.floats(0.1, 3.0), st.floats(0.1, 3.0), st.floats(0.01, 0.5), st.floats(0, 45))
def test_a_face_with_steep_sides_is_that_of_the_solid(long, wide, share, draft):
    """Trimesh, a library for meshes, measures the same solid, less its foot."""
    high = share * min(long, wide)
    lean = high * math.tan(math.radians(draft))
    foot = [(x, y, 0.0) for x in (0.0, long) for y in (0.0, wide)]
    top = [(x, y, high) for x in (lean, long - lean) for y in (lean, wide - lean)]
    solid = trimesh.convex.convex_hull(np.array(foot + top))
    told = steep_face_area_m2(long, wide, high, draft)
    assert told == pytest.approx(solid.area - long * wide, rel=1e-5)


def test_sides_that_meet_below_the_top_are_refused():
    with pytest.raises(ValueError, match="meet below"):
        steep_face_area_m2(0.4, 0.2, 0.2, 45.0)


def test_sealed_area_adds_the_land_on_all_four_sides():
    # 0.8 x 0.6 m of block less 0.6 x 0.4 m of part.
    assert sealed_area_m2("flat", 0.6, 0.4, 0.0, 0.1) == pytest.approx(0.48)


def test_blank_is_the_part_with_margins_and_base():
    blank = blank_size(0.6, 0.4, 0.15, margin_m=0.1, base_m=0.05)
    assert (blank.length_m, blank.width_m) == pytest.approx((0.8, 0.6))
    assert blank.volume_m3 == pytest.approx(0.8 * 0.6 * 0.2)


def test_dust_of_recess_and_sanding_by_hand():
    # 500 kg/m3: a recess of 450 x 300 x 50 mm; 0.5 mm sanded off 0.3 m2.  The recess in
    # board of 750 kg/m3.
    recess = removed_volume_m3("flat", "female", 0.45, 0.30, 0.05, 0.1)
    assert dust_mass_kg(recess, 500.0) == pytest.approx(3.375)
    assert dust_mass_kg(recess, 750.0) == pytest.approx(5.0625)
    assert dust_mass_kg(sanding_volume_m3(0.3, 0.0005), 500.0) == pytest.approx(0.075)


@given(st.floats(0.001, 10.0), st.floats(0.0, 1.0), st.floats(100.0, 8000.0))
def test_tool_and_dust_together_weigh_what_the_dry_blank_did(blank_m3, share, density):
    cut_m3 = share * blank_m3
    tool_kg = tool_mass_kg(blank_m3, cut_m3, density, moisture_fraction=0.0)
    total_kg = tool_kg + dust_mass_kg(cut_m3, density)
    assert total_kg == pytest.approx(blank_m3 * density)
    assert tool_mass_kg(blank_m3, cut_m3, density, moisture_fraction=0.4) >= tool_kg


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (blank_size, (600.0, 0.4, 0.1, 0.1, 0.05), "length_m is 600.0.*millimetres"),
        (blank_size, (0.6, 0.4, 0.1, 0.1, 0.0), "base_m is 0.0"),
        (face_area_m2, ("round", 0.6, 0.4, 0.1), "shape is 'round'"),
        (face_area_m2, ("flat", 0.6, math.nan, 0.1), "width_m is nan"),
        (face_area_m2, ("closed", 0.6, 0.4, 0.0), "depth_m is 0.0 m.*closed shape"),
        (shape_volume_m3, ("closed", 0.6, 0.4, 0.0), "depth_m is 0.0 m.*closed shape"),
        (sealed_area_m2, ("flat", 0.6, 0.4, 0.1, -0.1), "margin_m is -0.1"),
        (removed_volume_m3, ("flat", "left", 0.6, 0.4, 0.1, 0.1), "side is 'left'"),
        (sanding_volume_m3, (0.3, 0.5), "sanded_depth_m is 0.5.*millimetres"),
        (dust_mass_kg, (0.001, 0.5), "density_kg_m3 is 0.5.*g/cm3"),
        (dust_mass_kg, (math.nan, 500.0), "volume_m3 is nan"),
        (tool_mass_kg, (0.1, 0.2, 500.0, 0.0), "removed_volume_m3 is 0.2"),
        (tool_mass_kg, (0.1, 0.0, 500.0, 40.0), "moisture_fraction is 40.0.*cent"),
    ],
)
def test_volumes_refuse_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)


@given(sides, sides, depths)
def test_ply_edges_go_round_an_open_part_and_both_ends_of_a_closed_one(
    length, width, depth
):
    around = ply_edge_length_m("flat", length, width, 0.0)
    assert around == ply_edge_length_m("flat", width, length, 0.0)
    assert around >= 2 * math.hypot(length, width)
    closed = ply_edge_length_m("closed", length, width, depth)
    assert closed == ply_edge_length_m("closed", 2 * length, width, depth)
    assert closed == pytest.approx(2 * ply_edge_length_m("flat", width, depth, 0.0))
