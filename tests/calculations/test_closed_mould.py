"""The gap between two tool halves, by hand, by its properties, and where it refuses."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.closed_mould import (
    cold_gap_m,
    fibre_share,
    hot_gap_for_part_m,
    hot_gap_m,
    laid_stack_m,
    nip_m,
    part_thickness_m,
    spare_resin_kg_m2,
    wall_travel_m,
)
from advisor.calculations.laminate import bleed_areal_kg_m2, cured_ply_thickness_m

gaps = st.floats(0.5e-3, 20e-3)
heights = st.floats(0.0, 0.3)
growths = st.floats(0.0, 6e-5)
hots = st.floats(20.0, 180.0)
plies = st.integers(1, 40)
areals = st.floats(0.1, 0.6)
resins = st.floats(0.32, 0.5)
PREPREG = (0.2, 0.42, 1790.0, 1220.0)


def test_halves_of_one_metal_that_meet_on_their_lands_by_hand():
    # A plug 100 mm high in a cavity 102 mm deep; 23e-6/K over 100 K is 0.23 %.
    plug, cavity = 100 * 1.0023, 102 * 1.0023
    gap_m = hot_gap_m(2e-3, 0.1, -0.102, 23e-6, 23e-6, 0.0, 120.0)
    assert gap_m == pytest.approx((cavity - plug) * 1e-3, rel=1e-9)


def test_a_steel_stop_beside_an_aluminium_plug_by_hand():
    # A stop of 102 mm at 12e-6/K, a plug of 100 mm at 23e-6/K, 100 K.
    stop, plug = 102 * 1.0012, 100 * 1.0023
    gap_m = hot_gap_m(2e-3, 0.1, 0.0, 23e-6, 23e-6, 12e-6, 120.0)
    assert gap_m == pytest.approx((stop - plug) * 1e-3, rel=1e-9)


def test_a_part_that_set_hot_is_thinner_cold_by_hand():
    # 45e-6/K over 100 K is 0.45 %; 0.5 % of shrinkage on top.
    assert part_thickness_m(2e-3, 45e-6, 0.005, 120.0) == pytest.approx(
        2e-3 * 0.995 / 1.0045, rel=1e-12
    )


def test_eight_plies_in_a_gap_by_hand():
    # 8 plies of 0.2304 mm lie 15 % too high: 2.120 mm; the gap is 1.8 mm.
    ply_m = cured_ply_thickness_m(*PREPREG)
    stack_m = laid_stack_m(8, ply_m, 1.15)
    assert stack_m == pytest.approx(2.120e-3, abs=1e-6)
    assert nip_m(stack_m, 1.8e-3) == pytest.approx(0.320e-3, abs=1e-6)
    # 1.6 kg/m2 of fibre of 1.79 g/cm3 is 0.894 mm of 1.8 mm.
    assert fibre_share(8, 0.2, 1790.0, 1.8e-3) == pytest.approx(0.894 / 1.8, abs=5e-4)
    # (1.8434 - 1.8) mm of resin of 1.22 g/cm3.
    assert spare_resin_kg_m2(8, *PREPREG, 1.8e-3) == pytest.approx(0.0530, abs=2e-4)


def test_a_wall_is_rubbed_the_longer_the_steeper_it_stands():
    # sin 30 degrees is a half; at 90 degrees the wall is a floor.
    assert wall_travel_m(0.3e-3, 30.0) == pytest.approx(0.6e-3, rel=1e-9)
    assert wall_travel_m(0.3e-3, 90.0) == pytest.approx(0.3e-3, rel=1e-12)


@given(gaps, heights, heights, growths, growths, growths, hots)
def test_the_cold_gap_is_what_gives_the_hot_one(gap, upper, lower, a_u, a_l, a_s, hot):
    rise_k = hot - 20.0
    by_hand = (
        (gap + upper + lower) * (1 + a_s * rise_k)
        - upper * (1 + a_u * rise_k)
        - lower * (1 + a_l * rise_k)
    )
    arguments = (upper, lower, a_u, a_l, a_s, hot)
    if by_hand <= 0.0:
        with pytest.raises(ValueError, match="meet before the stops"):
            hot_gap_m(gap, *arguments)
        return
    grown = hot_gap_m(gap, *arguments)
    assert grown == pytest.approx(by_hand, rel=1e-6, abs=1e-12)
    assert cold_gap_m(grown, *arguments) == pytest.approx(gap, rel=1e-9)


@given(gaps, heights, growths, hots)
def test_halves_and_stops_of_one_material_grow_as_the_gap_alone(gap, upper, growth, hot):
    grown = hot_gap_m(gap, upper, -upper, growth, growth, growth, hot)
    assert grown == pytest.approx(gap * (1 + growth * (hot - 20.0)), rel=1e-9)


@given(gaps, st.floats(2e-5, 8e-5), st.floats(0.0, 0.01), hots)
def test_gap_and_part_lead_back_to_each_other(gap, growth, shrinkage, hot):
    part = part_thickness_m(gap, growth, shrinkage, hot)
    assert part <= gap
    assert hot_gap_for_part_m(part, growth, shrinkage, hot) == pytest.approx(gap, rel=1e-9)


@given(plies, areals, resins)
def test_a_gap_of_the_full_thickness_squeezes_nothing_out(n, areal, resin):
    full_m = n * cured_ply_thickness_m(areal, resin, 1790.0, 1220.0)
    spare = spare_resin_kg_m2(n, areal, resin, 1790.0, 1220.0, full_m)
    assert spare == pytest.approx(0.0, abs=1e-9)
    wider = spare_resin_kg_m2(n, areal, resin, 1790.0, 1220.0, full_m * 1.02)
    assert wider < 0.0


@given(plies, areals, st.floats(0.34, 0.5), st.floats(0.005, 0.03))
def test_what_is_squeezed_out_is_what_would_have_bled(n, areal, before, less):
    after = before - less
    left_m = n * cured_ply_thickness_m(areal, after, 1790.0, 1220.0)
    spare = spare_resin_kg_m2(n, areal, before, 1790.0, 1220.0, left_m)
    bled = n * bleed_areal_kg_m2(areal, before, after)
    assert spare == pytest.approx(bled, rel=1e-6)


@given(plies, areals, st.floats(1.02, 1.5))
def test_a_wider_gap_holds_less_fibre(n, areal, wider):
    full_m = n * cured_ply_thickness_m(areal, 0.4, 1790.0, 1220.0)
    narrow = fibre_share(n, areal, 1790.0, full_m)
    assert fibre_share(n, areal, 1790.0, wider * full_m) == pytest.approx(narrow / wider)


def test_plies_too_few_for_the_gap_have_no_nip():
    assert nip_m(1.8e-3, 2.0e-3) < 0.0


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: hot_gap_m(2.0, 0, 0, 0, 0, 0, 120.0), "millimetres"),
        (lambda: hot_gap_m(2e-3, 0, 0, 23.0, 0, 0, 120.0), r"um/\(m K\)"),
        (lambda: hot_gap_m(2e-3, 0, 0, 0, 0, 0, 693.0), "kelvin"),
        (lambda: hot_gap_m(2e-3, 0, -0.1, 0, 0, 0, 120.0), "gap_m"),
        (lambda: hot_gap_m(1e-3, 0.3, 0.3, 9e-5, 9e-5, 0, 120.0), "meet before"),
        (lambda: cold_gap_m(0.0, 0, 0, 0, 0, 0, 120.0), "hot_gap_m"),
        (lambda: part_thickness_m(2e-3, 45e-6, 0.5, 120.0), "per cent"),
        (lambda: hot_gap_for_part_m(2.0, 45e-6, 0.005, 120.0), "thickness_m"),
        (lambda: laid_stack_m(0, 0.25e-3, 1.15), "plies"),
        (lambda: laid_stack_m(8, 0.25, 1.15), "millimetres"),
        (lambda: laid_stack_m(8, 0.25e-3, 0.9), "bulk_factor"),
        (lambda: nip_m(float("nan"), 2e-3), "stack_m"),
        (lambda: wall_travel_m(-1e-4, 3.0), "nip_m"),
        (lambda: wall_travel_m(1e-4, 0.0), "draft_deg"),
        (lambda: fibre_share(8, 0.2, 1790.0, 0.9e-3), "cannot close"),
        (lambda: fibre_share(8, 200.0, 1790.0, 2e-3), "g/m2"),
        (lambda: spare_resin_kg_m2(8, 0.2, 42.0, 1790.0, 1220.0, 2e-3), "per cent"),
    ],
)
def test_a_value_out_of_range_is_refused(call, says):
    with pytest.raises(ValueError, match=says):
        call()
