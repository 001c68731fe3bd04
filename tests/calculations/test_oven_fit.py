import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.oven_fit import Box, oven_fit, shelf_load, slant_deg

sides = st.floats(0.1, 3.0)


def stands_within(length_m, width_m, floor_length_m, floor_width_m, slant):
    """Whether a rectangle at an angle stays in a floor, long side to long side."""
    cosine, sine = math.cos(math.radians(slant)), math.sin(math.radians(slant))
    long_m, short_m = max(length_m, width_m), min(length_m, width_m)
    a_m, b_m = max(floor_length_m, floor_width_m), min(floor_length_m, floor_width_m)
    slack = 1e-9
    return (
        long_m * cosine + short_m * sine <= a_m + slack
        and long_m * sine + short_m * cosine <= b_m + slack
    )


@given(sides, sides, sides, sides)
def test_angle_found_does_fit_and_none_means_that_no_angle_fits(p, q, a, b):
    slant = slant_deg(p, q, a, b)
    if slant is not None:
        assert stands_within(p, q, a, b, slant)
    else:
        shrunk = 1.0 - 1e-6
        assert not any(
            stands_within(p, q, a * shrunk, b * shrunk, step / 10.0) for step in range(901)
        )


@given(sides, sides, sides, sides)
def test_fit_does_not_depend_on_which_side_is_called_length(p, q, a, b):
    slant = slant_deg(p, q, a, b)
    assert slant_deg(q, p, a, b) == slant
    assert slant_deg(p, q, b, a) == slant


def test_square_does_not_fit_a_smaller_square():
    # The printed inequality alone would let it in.
    assert slant_deg(10.0, 10.0, 8.0, 8.0) is None
    assert slant_deg(8.0, 8.0, 8.0, 8.0) == 0.0


def test_long_thin_tool_lies_slanted():
    slant = slant_deg(1.2, 0.05, 1.0, 0.8)
    assert slant is not None
    assert 30.0 < slant < 45.0
    assert slant_deg(math.hypot(1.0, 0.8) + 0.01, 0.05, 1.0, 0.8) is None


def test_bag_margin_may_be_what_does_not_fit():
    oven = Box(1.0, 1.0, 1.0)
    tool = Box(0.85, 0.85, 0.2)
    assert oven_fit(tool, oven, 1.0, 1.0, 0.05).fits
    bagged = Box(1.05, 1.05, 0.3)
    found = oven_fit(bagged, oven, 1.0, 1.0, 0.05)
    assert found.placing == "none"
    assert not found.fits


def test_height_on_both_sides_of_the_limit():
    oven = Box(1.0, 1.0, 1.0)
    assert oven_fit(Box(0.5, 0.5, 0.95), oven, 1.0, 1.2, 0.05).fits
    tall = oven_fit(Box(0.5, 0.5, 0.951), oven, 1.0, 1.2, 0.05)
    assert tall.height_left_m < 0.0
    assert not tall.fits


def test_door_lower_or_narrower_than_the_oven():
    oven = Box(1.0, 1.0, 1.0)
    tool = Box(0.8, 0.5, 0.6)
    assert oven_fit(tool, oven, 0.6, 0.7, 0.05).through_door
    assert not oven_fit(tool, oven, 0.5, 0.7, 0.05).through_door
    assert not oven_fit(tool, oven, 0.6, 0.61, 0.05).through_door


def test_tool_that_must_lie_across_passes_the_door_with_its_long_side():
    # 1.5 m wide, 0.7 m deep: the tool lies across and cannot be turned inside.
    oven = Box(0.7, 1.5, 1.0)
    tool = Box(1.2, 0.5, 0.3)
    assert not oven_fit(tool, oven, 0.8, 0.8, 0.05).fits
    assert oven_fit(tool, oven, 1.3, 0.8, 0.05).fits


def test_tool_that_turns_inside_may_go_in_narrow_side_first():
    oven = Box(1.6, 1.6, 1.0)
    found = oven_fit(Box(1.2, 0.5, 0.3), oven, 0.6, 0.8, 0.05)
    assert found.turns_inside
    assert found.fits


def test_slanted_tool_is_not_called_fitting():
    found = oven_fit(Box(1.15, 0.1, 0.1), Box(1.1, 1.0, 1.0), 1.0, 1.0, 0.05)
    assert found.placing == "slanted"
    assert found.slant_deg > 0.0
    assert not found.fits


@given(sides, sides, sides, sides, sides, st.floats(0.0, 0.04))
def test_less_clearance_and_a_larger_door_never_hinder(p, q, a, b, height, clearance):
    oven, tool = Box(a, b, 2.0), Box(p, q, height)
    if oven_fit(tool, oven, b, 1.5, clearance).fits:
        assert oven_fit(tool, oven, b, 1.5, 0.0).fits
        assert oven_fit(tool, oven, b + 0.5, 2.0, clearance).fits


@given(st.floats(1.0, 500.0), st.floats(0.01, 1.0), st.floats(1.0, 500.0))
def test_load_under_a_small_foot_is_never_less_than_the_load_spread(mass, foot, rated):
    load = shelf_load(mass, foot, rated, 1.0)
    assert load.local >= load.total
    assert shelf_load(mass, 1.0, rated, 1.0).local == load.total


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: Box(800.0, 0.6, 0.2), "length_m is 800.0 m.*millimetres"),
        (lambda: Box(0.8, 0.6, math.nan), "height_m is nan"),
        (lambda: slant_deg(1.0, 1.0, 0.0, 1.0), "floor_length_m is 0.0"),
        (
            lambda: oven_fit(Box(1, 1, 1), Box(1, 1, 1), 0.0, 1.0, 0.05),
            "door_width_m is 0.0",
        ),
        (lambda: oven_fit(Box(1, 1, 1), Box(1, 1, 1), 1.0, 1.0, 0.5), "clearance_m is 0.5"),
        (lambda: shelf_load(0.0, 0.1, 50.0, 1.0), "mass_kg is 0.0"),
        (lambda: shelf_load(10.0, 2.0, 50.0, 1.0), "footprint_m2 is 2.0 m2.*shelf"),
    ],
)
def test_oven_refuses_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
