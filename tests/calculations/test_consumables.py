import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.consumables import (
    BagMaterials,
    breather_area_m2,
    envelope_bag_area_m2,
    envelope_bag_materials,
    envelope_tape_length_m,
    surface_bag_area_m2,
    surface_bag_materials,
    surface_tape_length_m,
)

sides = st.floats(0.01, 10.0)
heights = st.floats(0.0, 2.0)
margins = st.floats(0.0, 0.5)
bags = pytest.mark.parametrize("area", [surface_bag_area_m2, envelope_bag_area_m2])


@bags
@given(length_m=sides, width_m=sides, height_m=heights, margin_m=margins)
def test_bag_area_is_positive_and_symmetric_in_length_and_width(
    area, length_m, width_m, height_m, margin_m
):
    film_m2 = area(length_m, width_m, height_m, margin_m)
    assert film_m2 > 0.0
    assert area(width_m, length_m, height_m, margin_m) == film_m2


@bags
@given(length_m=sides, width_m=sides, height_m=heights, margin_m=margins)
def test_bag_never_shrinks_as_what_it_covers_grows(
    area, length_m, width_m, height_m, margin_m
):
    film_m2 = area(length_m, width_m, height_m, margin_m)
    assert area(length_m + 0.1, width_m, height_m, margin_m) > film_m2
    assert area(length_m, width_m, height_m + 0.1, margin_m) > film_m2
    assert area(length_m, width_m, height_m, margin_m, pleat_share=0.4) > film_m2


@given(sides, sides, heights)
def test_surface_bag_covers_the_box_and_envelope_covers_it_all_round(length, width, height):
    box_m2 = length * width + 2.0 * height * (length + width)
    assert surface_bag_area_m2(length, width, height, 0.0) > box_m2
    round_m2 = box_m2 + length * width
    assert envelope_bag_area_m2(length, width, height, 0.0) > round_m2


@given(sides, sides, heights, margins)
def test_tape_is_symmetric_in_length_and_width_and_goes_round(
    length, width, height, margin
):
    surface_m = surface_tape_length_m(length, width, margin, height)
    envelope_m = envelope_tape_length_m(length, width, height, margin)
    assert surface_tape_length_m(width, length, margin, height) == pytest.approx(surface_m)
    assert envelope_tape_length_m(width, length, height, margin) == pytest.approx(
        envelope_m
    )
    assert min(surface_m, envelope_m) >= 2.0 * (length + width)


def test_bag_over_a_box_of_six_hundred_by_four_hundred_by_hand():
    # 1.05 x 0.85 = 0.8925 m2, and a quarter more; tape 2.6 + 4 x 0.30 m.
    used = surface_bag_materials(0.6, 0.4, 0.15, 0.075, developed_area_m2=0.54)
    assert used.bag_area_m2 == pytest.approx(0.8925 * 1.25)
    assert used.tape_length_m == pytest.approx(3.8)
    assert used.breather_area_m2 == used.release_area_m2 == pytest.approx(0.594)


def test_envelope_round_a_box_of_six_hundred_by_four_hundred_by_hand():
    # 2 x 0.9 x 0.7 = 1.26 m2, and a quarter more; tape 2 x (0.9 + 0.7) m.
    used = envelope_bag_materials(0.6, 0.4, 0.15, 0.075, developed_area_m2=0.54)
    assert used.bag_area_m2 == pytest.approx(1.26 * 1.25)
    assert used.tape_length_m == pytest.approx(3.2)


def test_each_port_takes_a_little_more_tape():
    bare = surface_bag_materials(0.6, 0.4, 0.15, 0.075, 0.54)
    with_ports = surface_bag_materials(0.6, 0.4, 0.15, 0.075, 0.54, ports=3)
    assert with_ports.tape_length_m - bare.tape_length_m == pytest.approx(0.6)


def test_bag_materials_cannot_be_changed():
    used = BagMaterials(1.0, 2.0, 3.0, 4.0)
    with pytest.raises(AttributeError):
        used.bag_area_m2 = 0.0


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (surface_bag_area_m2, (600.0, 0.4, 0.15, 0.075), "length_m is 600.0.*millimetres"),
        (surface_bag_area_m2, (0.6, 0.0, 0.15, 0.075), "width_m is 0.0"),
        (envelope_bag_area_m2, (0.6, 0.4, -0.1, 0.075), "height_m is -0.1"),
        (envelope_bag_area_m2, (0.6, 0.4, 0.15, math.nan), "margin_m is nan"),
        (surface_bag_area_m2, (0.6, 0.4, 0.15, 0.075, 25.0), "pleat_share is 25.0.*cent"),
        (surface_tape_length_m, (0.6, 0.4, 0.075, 0.15, -1), "pleats is -1"),
        (surface_tape_length_m, (0.6, 0.4, 0.075, math.nan), "pleat_height_m is nan"),
        (envelope_tape_length_m, (0.6, 0.4, 0.15, 0.075, 1.5), "ports is 1.5"),
        (breather_area_m2, (0.0,), "developed_area_m2 is 0.0"),
        (breather_area_m2, (0.5, 0.9), "overlap_factor is 0.9"),
    ],
)
def test_consumables_refuse_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
