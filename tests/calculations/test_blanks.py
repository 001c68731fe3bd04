import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.blanks import blank_yield

BLOCK = (0.6, 0.25, 0.2)
SHEET = (2.44, 1.22, 0.018)
boxes = st.tuples(st.floats(0.05, 2.0), st.floats(0.05, 2.0), st.floats(0.02, 0.5))
pieces = st.tuples(st.floats(0.2, 1.5), st.floats(0.2, 1.0), st.floats(0.1, 0.4))


def test_blank_of_one_block_has_no_bond_and_no_offcut():
    made = blank_yield(BLOCK, BLOCK)
    assert (made.pieces, made.bond_lines, made.bond_area_m2) == (1, 0, 0.0)
    assert made.offcut_share == pytest.approx(0.0, abs=1e-12)


def test_blank_on_both_sides_of_a_block():
    assert blank_yield((0.6, 0.25, 0.2), BLOCK).pieces == 1
    assert blank_yield((0.601, 0.25, 0.2), BLOCK).pieces == 2


def test_two_layers_of_blocks_by_hand():
    # 1.2 x 0.5 x 0.4 is 2 x 2 x 2 blocks: three planes, 0.2 + 0.48 + 0.6 m2.
    made = blank_yield((1.2, 0.5, 0.4), BLOCK, "flat")
    assert (made.along, made.across, made.up, made.pieces) == (2, 2, 2, 8)
    assert made.bond_lines == 3
    assert made.bond_area_m2 == pytest.approx(0.5 * 0.4 + 1.2 * 0.4 + 1.2 * 0.5)
    assert made.offcut_share == pytest.approx(0.0, abs=1e-12)


def test_sheets_are_cut_into_layers_by_hand():
    # 100 mm of 18 mm sheet is 6 layers of 0.8 x 0.6 m, and a sheet gives 3 x 2 of them.
    made = blank_yield((0.8, 0.6, 0.1), SHEET, "flat", kerf_m=0.003)
    assert (made.up, made.along, made.across) == (6, 1, 1)
    assert made.pieces == 1
    assert made.offcut_share == pytest.approx(1.0 - 0.048 / math.prod(SHEET))
    assert blank_yield((0.8, 0.6, 0.11), SHEET, "flat", kerf_m=0.003).pieces == 2


def test_a_sheet_is_neither_stood_on_edge_nor_split():
    assert blank_yield((1.0, 1.0, 0.009), SHEET, "flat").pieces == 1
    assert blank_yield((1.0, 1.0, 0.019), SHEET, "flat").pieces == 1
    assert blank_yield((2.0, 1.0, 0.019), SHEET, "flat").pieces == 2


def test_turning_saves_bonds():
    flat = blank_yield((0.2, 0.25, 0.6), BLOCK, "flat")
    turned = blank_yield((0.2, 0.25, 0.6), BLOCK)
    assert (flat.pieces, flat.bond_lines) == (1, 2)
    assert (turned.pieces, turned.bond_lines) == (1, 0)


def test_halves_come_out_of_one_block():
    # 0.9 m is a block and a half: the second row's halves share blocks.
    assert blank_yield((0.9, 0.5, 0.2), BLOCK, "flat").pieces == 3
    assert blank_yield((0.9, 0.5, 0.2), BLOCK, "flat", kerf_m=0.005).pieces == 4


@given(boxes, pieces, st.sampled_from(["any way", "flat"]), st.floats(0.0, 0.005))
def test_bought_material_covers_the_blank(blank, piece, turning, kerf_m):
    made = blank_yield(blank, piece, turning, kerf_m=kerf_m)
    assert made.pieces * math.prod(piece) >= math.prod(blank) * (1.0 - 1e-6)
    assert 0.0 <= made.offcut_share < 1.0
    assert made.pieces <= made.along * made.across * made.up
    assert made.bond_lines == made.along + made.across + made.up - 3


@given(boxes, pieces, st.floats(0.0, 0.005))
def test_turning_any_way_never_takes_more_than_flat_without_splitting(blank, piece, kerf_m):
    assert (
        blank_yield(blank, piece, kerf_m=kerf_m).pieces
        <= blank_yield(blank, piece, "flat", kerf_m=kerf_m).pieces
    )


@given(boxes, pieces, st.floats(1.0, 1.5))
def test_yield_does_not_depend_on_the_unit(blank, piece, scale):
    made = blank_yield(blank, piece)
    grown = blank_yield(
        tuple(scale * side for side in blank), tuple(scale * side for side in piece)
    )
    assert abs(grown.pieces - made.pieces) <= 1


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (
            lambda: blank_yield((800.0, 0.6, 0.2), BLOCK),
            "blank_m length is 800.0.*millimetres",
        ),
        (lambda: blank_yield((0.8, 0.6, 0.2), (0.6, 0.0, 0.2)), "piece_m width is 0.0"),
        (lambda: blank_yield((0.8, 0.6, 0.2), BLOCK, "upright"), "turning is 'upright'"),
        (lambda: blank_yield((0.8, 0.6, 0.2), BLOCK, joint_m=0.5), "joint_m is 0.5"),
        (lambda: blank_yield((0.8, 0.6, 0.2), BLOCK, kerf_m=-0.1), "kerf_m is -0.1"),
        (lambda: blank_yield((30.0, 30.0, 30.0), BLOCK), "over 100000 pieces"),
    ],
)
def test_blanks_refuse_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
