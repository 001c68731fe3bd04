import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.drape import (
    bias_shear_deg,
    drape,
    net_shear_deg,
    planning_limit_deg,
)

angles = st.floats(0.05, 1.5)
radii = st.floats(0.05, 10.0)


@pytest.mark.parametrize(
    ("net", "shear_deg"),
    [(0.1, 5.7264), (0.25, 14.2744), (0.5, 28.2568), (1.0, 54.3183), (1.8615, 89.99)],
)
def test_worked_shear_of_the_net(net, shear_deg):
    assert net_shear_deg(net, 1.0, 1.0) == pytest.approx(shear_deg, abs=0.01)
    assert net_shear_deg(0.25, 4.0 * net, 1.0) == net_shear_deg(net, 1.0, 1.0)


@pytest.mark.parametrize(
    ("polar_deg", "shear_deg"),
    [
        (10, 0.868),
        (20, 3.422),
        (30, 7.520),
        (45, 16.113),
        (60, 26.946),
        (70, 35.039),
        (80, 43.592),
        (90, 52.425),
    ],
)
def test_worked_shear_on_the_bias_of_a_ball(polar_deg, shear_deg):
    found = bias_shear_deg(math.radians(polar_deg), 1.0)
    assert found == pytest.approx(shear_deg, abs=6e-4)


@settings(max_examples=25)
@given(angles, radii)
def test_shear_does_not_depend_on_the_size_of_the_ball(angle, radius_m):
    shear = bias_shear_deg(angle * radius_m, 1.0 / radius_m**2)
    assert shear == pytest.approx(bias_shear_deg(angle, 1.0), rel=1e-6)


@settings(max_examples=25)
@given(st.floats(0.01, 0.15))
def test_small_cap_and_saddle_shear_by_half_the_square_of_the_angle(angle):
    for sense in (1.0, -1.0):
        shear = math.radians(bias_shear_deg(angle, sense))
        assert shear == pytest.approx(angle**2 / 2.0, rel=0.01)


@settings(max_examples=25)
@given(st.floats(0.05, 1.2))
def test_a_saddle_shears_more_than_a_cap_of_the_same_reach(angle):
    assert bias_shear_deg(angle, -1.0) > bias_shear_deg(angle, 1.0)


@given(st.floats(0.0, 1.3), st.floats(0.0, 1.3))
def test_net_is_the_same_either_way_round_and_on_cap_and_saddle(u_m, v_m):
    shear = net_shear_deg(u_m, v_m, 1.0)
    assert net_shear_deg(v_m, u_m, 1.0) == shear
    assert net_shear_deg(u_m, v_m, -1.0) == shear


@given(st.floats(0.0, 30.0), st.floats(0.0, 30.0))
def test_flat_cylinder_and_cone_do_not_shear(u_m, v_m):
    assert net_shear_deg(u_m, v_m, 0.0) == 0.0
    assert bias_shear_deg(u_m, 0.0) == 0.0


def test_outcome_on_both_sides_of_its_limits():
    assert drape(32.0, 40.0).outcome == "drapes"
    assert drape(32.1, 40.0).outcome == "darts advised"
    assert drape(40.0, 40.0).outcome == "darts advised"
    assert drape(40.1, 40.0).outcome == "darts needed"


def test_tighter_weaves_take_less_shear():
    limits = [planning_limit_deg(weave) for weave in ("plain", "plain prepreg", "twill")]
    assert limits == sorted(limits)
    assert planning_limit_deg("satin") > limits[-1]


def test_whole_hemisphere_needs_darts_in_each_weave():
    shear_deg = bias_shear_deg(math.pi / 2.0, 1.0)
    for weave in ("plain", "plain prepreg", "twill", "satin"):
        assert drape(shear_deg, planning_limit_deg(weave)).outcome == "darts needed"


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: net_shear_deg(-1.0, 1.0, 1.0), "along_m is -1.0"),
        (lambda: net_shear_deg(1.0, math.nan, 1.0), "across_m is nan"),
        (lambda: net_shear_deg(1.0, 1.9, 1.0), "u v is 1.9.*Split"),
        (lambda: bias_shear_deg(1.6, 1.0), "d is 1.6 rad.*Split"),
        (lambda: bias_shear_deg(1.3, -1.0), "d is 1.3 rad.*Split"),
        (lambda: bias_shear_deg(1.0, math.inf), "curvature_per_m2 is inf"),
        (lambda: planning_limit_deg("felt"), "weave is 'felt'"),
        (lambda: drape(91.0, 40.0), "shear_deg is 91.0"),
        (lambda: drape(10.0, 0.0), "limit_deg is 0.0"),
        (lambda: drape(10.0, 40.0, 1.1), "dart_share is 1.1"),
    ],
)
def test_drape_refuses_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
