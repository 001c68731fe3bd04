"""Film on curved faces against printed theorems and against meshes of the faces."""

import math

import numpy as np
import pytest
import trimesh

from advisor.calculations.film import (
    cap_radius_m,
    edge_strain,
    gaussian_curvature_per_m2,
    strip_width_m,
)


@pytest.fixture(scope="module")
def ball():
    return trimesh.creation.icosphere(6, radius=0.5)


@pytest.mark.published("gauss-bonnet-page", at="total curvature of a closed face, 4 pi")
@pytest.mark.published("trimesh-curvature", at="vertex_defects of a ball")
def test_curvature_times_area_of_a_ball_is_the_mesh_s_angle_defect(ball):
    total = gaussian_curvature_per_m2(0.5, 0.5) * 4.0 * math.pi * 0.5**2
    assert ball.vertex_defects.sum() == pytest.approx(total, rel=1e-6)


@pytest.mark.published("trimesh-curvature", at="vertex_defects by place on a ring")
def test_curvature_of_a_ring_by_place_is_the_mesh_s_angle_defect():
    ring = trimesh.creation.torus(1.5, 0.3, major_sections=128, minor_sections=128)
    angle = np.arctan2(ring.vertices[:, 2], np.hypot(*ring.vertices[:, :2].T) - 1.5)
    # dA = r (R + r cos t) dt dp; the radii there are r and (R + r cos t) / cos t.
    for low, high in ((-0.5, 0.5), (2.6, 3.6)):
        middle = (low + high) / 2.0
        seen = ring.vertex_defects[
            np.abs((angle - middle + np.pi) % (2 * np.pi) - np.pi) < 0.5
        ]
        steps = np.linspace(low, high, 2001)
        curvatures = np.array(
            [
                gaussian_curvature_per_m2(0.3, (1.5 + 0.3 * np.cos(t)) / np.cos(t))
                for t in steps
            ]
        )
        areas = 0.3 * (1.5 + 0.3 * np.cos(steps)) * 2.0 * np.pi
        total = np.trapezoid(curvatures * areas, steps)
        assert seen.sum() == pytest.approx(total, rel=0.03)


@pytest.mark.published("trimesh-curvature", at="section of a ball by a plane")
def test_edge_of_a_strip_is_short_by_the_strain_of_the_mesh_s_section(ball):
    # A strip along the equator, 0.2 m to each side: its edge is the circle there.
    section = ball.section(plane_origin=[0, 0, 0.5 * math.sin(0.4)], plane_normal=[0, 0, 1])
    strain = section.length / (2.0 * math.pi * 0.5) - 1.0
    assert edge_strain(0.4, 4.0) == pytest.approx(strain, abs=5e-4)
    assert strip_width_m(4.0, min(0.05, 1.0 - math.cos(0.3))) == pytest.approx(
        0.3, rel=0.01
    )


@pytest.mark.published("trimesh-curvature", at="section of a ball by a plane")
def test_radius_of_a_cap_is_that_of_the_ball_it_is_cut_from(ball):
    section = ball.section(plane_origin=[0, 0, 0.4], plane_normal=[0, 0, 1])
    assert cap_radius_m(section.length / math.pi, 0.1) == pytest.approx(0.5, rel=1e-3)
