import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.grits import (
    grain_size_m,
    grit_for_roughness,
    grit_sequence,
    sanded_roughness,
)

GRITS = (60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 360, 400, 500, 600, 800, 1000)
grits = st.sampled_from(GRITS)


def test_finer_grits_have_finer_grain():
    sizes = [grain_size_m(grit) for grit in (12, 16, 20, 24, 30, 36, 40, 50, *GRITS, 2500)]
    assert sizes == sorted(sizes, reverse=True)


@given(grits, st.floats(1.0, 3.0))
def test_roughness_is_an_ordered_band_and_grows_on_soft_faces(grit, factor):
    hard, soft = sanded_roughness(grit), sanded_roughness(grit, factor)
    assert 0.0 < hard.low_m < hard.high_m
    assert soft.high_m == pytest.approx(factor * hard.high_m)


@given(st.floats(0.2e-6, 4e-6), st.floats(1.0, 1.3))
def test_grit_found_reaches_the_target_and_the_one_before_does_not(target_m, factor):
    grit = grit_for_roughness(target_m, factor)
    assert sanded_roughness(grit, factor).high_m <= target_m
    if grit in GRITS[1:]:
        coarser = GRITS[GRITS.index(grit) - 1]
        assert sanded_roughness(coarser, factor).high_m > target_m


@given(grits, grits, st.floats(1.35, 3.0))
def test_sequence_goes_from_first_to_last_in_steps_no_larger_than_allowed(a, b, step):
    first, last = sorted((a, b))
    sequence = grit_sequence(first, last, step)
    assert sequence[0] == first
    assert sequence[-1] == last
    for coarse, fine in pairwise(sequence):
        assert 1.0 < grain_size_m(coarse) / grain_size_m(fine) <= step * (1.0 + 1e-12)


def test_sequence_of_one_grit_is_that_grit():
    assert grit_sequence(180, 180) == (180,)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: grain_size_m(90), "grit is 90; it must be one of 12, 16"),
        (lambda: sanded_roughness(40), "grit is 40"),
        (lambda: sanded_roughness(80, 0.5), "surface_factor is 0.5"),
        (lambda: grit_for_roughness(1.6), "target_ra_m is 1.6 m.*micrometres"),
        (lambda: grit_for_roughness(1e-8), "P2500 does not reach it"),
        (lambda: grit_sequence(240, 80), "last_grit is 80"),
        (lambda: grit_sequence(80, 250), "grit is 250"),
        (lambda: grit_sequence(80, 240, math.nan), "largest_step is nan"),
        (lambda: grit_sequence(12, 24, 1.3), "no grit follows P12"),
    ],
)
def test_grits_refuse_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
