import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.spring_in import spring_in_deg, tool_angle_deg

materials = st.tuples(
    st.floats(-2e-6, 2e-5),
    st.floats(1e-5, 1e-4),
    st.floats(20.0, 250.0),
    st.floats(0.0, 0.005),
    st.floats(0.0, 0.02),
)


@given(st.floats(1.0, 180.0), st.floats(-5e-5, 5e-4), st.floats(20.0, 250.0))
def test_material_alike_in_all_directions_keeps_its_angles(swept_deg, expansion, lock_c):
    assert spring_in_deg(swept_deg, expansion, expansion, lock_c, 0.01, 0.01) == 0.0


@given(st.floats(1.0, 90.0), materials)
def test_spring_in_grows_with_the_swept_angle(swept_deg, material):
    once = spring_in_deg(swept_deg, *material)
    assert spring_in_deg(2.0 * swept_deg, *material) == pytest.approx(2.0 * once)


@given(st.floats(10.0, 179.0), materials)
def test_tool_opened_by_the_result_gives_the_part_its_angle(part_deg, material):
    tool_deg = tool_angle_deg(part_deg, *material)
    swept_deg = 180.0 - tool_deg
    closed_deg = spring_in_deg(swept_deg, *material)
    assert tool_deg - closed_deg == pytest.approx(part_deg, abs=1e-9)


@given(st.floats(0.0, 170.0), materials)
def test_bend_of_a_cooled_quarter_ring_has_the_angle_of_its_arcs(part_deg, material):
    # Inner and outer arc grow in plane, their distance through the thickness.
    in_plane, through, lock_c, in_shrinkage, thickness_shrinkage = material
    change_k = 20.0 - lock_c
    angle = math.radians(180.0 - part_deg)
    grown = (1.0 + in_plane * change_k) / (1.0 + through * change_k)
    shrunk = (1.0 - in_shrinkage) / (1.0 - thickness_shrinkage)
    expected = math.degrees(angle * (grown - 1.0 + shrunk - 1.0))
    result = spring_in_deg(180.0 - part_deg, *material)
    assert result == pytest.approx(expected, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize(
    ("lock_c", "thermal", "total"),
    [(80.0, 0.233, 0.685), (120.0, 0.389, 0.841), (177.0, 0.612, 1.064)],
)
def test_worked_corners_of_ninety_degrees(lock_c, thermal, total):
    result = spring_in_deg(90.0, 2e-6, 45e-6, lock_c, 0.0, 0.0)
    assert result == pytest.approx(thermal, abs=5e-4)
    result = spring_in_deg(90.0, 2e-6, 45e-6, lock_c, 0.0, 0.005)
    assert result == pytest.approx(total, abs=1e-3)
