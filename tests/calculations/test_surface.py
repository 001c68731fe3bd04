import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.surface import coats_needed, filler_sink, fills_needed

depths = st.floats(1e-4, 0.01)
shrinkages = st.floats(1e-4, 0.05)


@given(depths, shrinkages, st.floats(1e-6, 1e-3))
def test_fills_reach_the_sink_allowed_and_one_fewer_does_not(depth_m, shrinkage, allowed_m):
    fills = fills_needed(depth_m, shrinkage, allowed_m)
    assert depth_m * (3.0 * shrinkage) ** fills <= allowed_m * (1.0 + 1e-9)
    if fills > 1:
        assert depth_m * (3.0 * shrinkage) ** (fills - 1) > allowed_m * (1.0 - 1e-9)


@given(depths)
def test_filler_that_does_not_shrink_needs_one_fill(depth_m):
    assert filler_sink(depth_m, 0.0).high_m == 0.0
    assert fills_needed(depth_m, 0.0, 1e-6) == 1


@given(st.floats(2e-5, 5e-3), st.floats(0.0, 5e-3), st.floats(1e-4, 5e-3))
def test_coats_leave_what_is_asked_and_one_fewer_does_not(build_m, loss_m, left_m):
    coats = coats_needed(build_m, loss_m, left_m)
    assert coats * build_m - loss_m >= left_m - 1e-9
    if coats > 1:
        assert (coats - 1) * build_m - loss_m < left_m + 1e-9


def test_coats_on_both_sides_of_a_whole_number():
    assert coats_needed(0.1e-3, 0.1e-3, 0.1e-3) == 2
    assert coats_needed(0.1e-3, 0.1e-3, 0.101e-3) == 3


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: filler_sink(1.0, 0.01), "depth_m is 1.0 m.*millimetres"),
        (lambda: filler_sink(1e-3, 1.0), "linear_shrinkage is 1.0.*per cent"),
        (lambda: fills_needed(1e-3, 0.01, 0.0), "allowed_sink_m is 0.0"),
        (lambda: coats_needed(0.0, 1e-3, 1e-3), "build_m is 0.0"),
        (lambda: coats_needed(1e-3, -1e-3, 1e-3), "sanding_loss_m is -0.001"),
        (lambda: coats_needed(1e-3, 1e-3, 0.0), "left_m is 0.0"),
    ],
)
def test_surface_refuses_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
