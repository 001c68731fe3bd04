import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.expansion import (
    cooling_fit_m,
    growth_mismatch_m,
    residual_mismatch_m,
    scale_factor,
)

expansions = st.floats(-5e-5, 5e-4)
temperatures = st.floats(-50.0, 60.0)
lengths = st.floats(1e-3, 100.0)


@given(expansions, expansions, temperatures, lengths)
def test_no_change_of_temperature_gives_no_growth(tool, part, room_c, length_m):
    assert scale_factor(tool, part, room_c, room_c) == 1.0
    assert growth_mismatch_m(length_m, tool, part, room_c, room_c) == 0.0
    assert cooling_fit_m(length_m, tool, part, room_c, room_c) == 0.0


@given(expansions, st.floats(60.0, 250.0), lengths)
def test_tool_that_expands_as_the_part_needs_no_scaling(expansion, lock_c, length_m):
    assert scale_factor(expansion, expansion, lock_c) == 1.0
    assert growth_mismatch_m(length_m, expansion, expansion, lock_c) == 0.0


@given(expansions, expansions, st.floats(21.0, 250.0), lengths)
def test_part_from_a_tool_that_expands_more_comes_out_longer(a, b, lock_c, length_m):
    less, more = sorted((a, b))
    assert scale_factor(more, less, lock_c) <= 1.0
    assert growth_mismatch_m(length_m, more, less, lock_c) >= 0.0
    assert growth_mismatch_m(length_m, less, more, lock_c) <= 0.0


@given(expansions, expansions, st.floats(21.0, 250.0), lengths)
def test_tool_cut_to_scale_gives_a_part_of_nominal_length(tool, part, lock_c, length_m):
    # Heat the tool as cut to lock-on, let the part keep that length, cool the part.
    rise_k = lock_c - 20.0
    locked_m = length_m * scale_factor(tool, part, lock_c) * (1.0 + tool * rise_k)
    assert locked_m / (1.0 + part * rise_k) == pytest.approx(length_m, rel=1e-12)


@pytest.mark.parametrize(
    ("tool", "scale_80", "scale_120", "longer_mm"),
    [
        # Worked by hand from the formula, 1 m, part 2e-6, room 20 degC.
        (3e-6, 0.999940, 0.999900, 0.100),
        (8e-6, 0.999640, 0.999400, 0.600),
        (12e-6, 0.999400, 0.999001, 1.000),
        (23e-6, 0.998742, 0.997905, 2.100),
        (35e-6, 0.998024, 0.996712, 3.299),
        (50e-6, 0.997129, 0.995224, 4.799),
    ],
)
def test_worked_scale_factors(tool, scale_80, scale_120, longer_mm):
    assert scale_factor(tool, 2e-6, 80.0) == pytest.approx(scale_80, abs=5e-7)
    assert scale_factor(tool, 2e-6, 120.0) == pytest.approx(scale_120, abs=5e-7)
    longer_m = growth_mismatch_m(1.0, tool, 2e-6, 120.0)
    assert longer_m * 1e3 == pytest.approx(longer_mm, abs=5e-4)


@given(expansions, expansions, st.floats(60.0, 250.0), lengths)
def test_values_known_exactly_leave_no_error(tool, part, lock_c, length_m):
    left_m = residual_mismatch_m(
        length_m, tool, tool, tool, part, part, part, lock_c, lock_uncertainty_k=0.0
    )
    assert left_m <= 1e-14 * length_m


@given(
    st.lists(expansions, min_size=3, max_size=3).map(sorted),
    st.lists(expansions, min_size=3, max_size=3).map(sorted),
    st.floats(60.0, 250.0),
    st.floats(0.0, 30.0),
    st.floats(0.0, 1.0),
    st.floats(0.0, 1.0),
    st.floats(-1.0, 1.0),
)
def test_no_case_inside_the_ranges_is_worse_than_the_residual(
    tools, parts, lock_c, uncertainty_k, at_tool, at_part, at_lock
):
    tool_low, tool, tool_high = tools
    part_low, part, part_high = parts
    worst_m = residual_mismatch_m(
        1.0,
        tool_low,
        tool_high,
        tool,
        part_low,
        part_high,
        part,
        lock_c,
        uncertainty_k,
    )
    true_tool = tool_low + at_tool * (tool_high - tool_low)
    true_part = part_low + at_part * (part_high - part_low)
    rise_k = lock_c + at_lock * uncertainty_k - 20.0
    scale = scale_factor(tool, part, lock_c)
    error_m = scale * (1.0 + true_tool * rise_k) / (1.0 + true_part * rise_k) - 1.0
    assert abs(error_m) <= worst_m + 1e-12


def test_residual_of_a_wide_tool_range_by_hand():
    # Only the tool is uncertain: 20 to 24e-6 about 23e-6, 60 K: 3e-6 x 60 K x 1 m.
    left_m = residual_mismatch_m(1.0, 20e-6, 24e-6, 23e-6, 0.0, 0.0, 0.0, 80.0, 0.0)
    assert left_m == pytest.approx(180e-6, rel=0.002)


def test_male_tool_that_shrinks_more_lets_go_and_one_that_shrinks_less_is_gripped():
    # Carbon about 2e-6 and glass about 11.3e-6 on a tool of 8e-6, 200 mm, 60 K.
    assert cooling_fit_m(0.2, 8e-6, 2e-6, 80.0) == pytest.approx(72e-6, rel=0.001)
    assert cooling_fit_m(0.2, 8e-6, 11.3e-6, 80.0) < 0.0


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ((23.0, 2e-6, 80.0, 20.0), "tool_expansion_per_k is 23.0 1/K"),
        ((23e-6, math.nan, 80.0, 20.0), "part_expansion_per_k is nan"),
        ((23e-6, 2e-6, 501.0, 20.0), "lock_c is 501.0 degC.*kelvin"),
        ((23e-6, 2e-6, 80.0, 293.15), "room_c is 293.15 degC.*kelvin"),
        ((23e-6, 2e-6, math.nan, 20.0), "lock_c is nan"),
    ],
)
def test_expansion_refuses_what_does_not_hold(values, named):
    with pytest.raises(ValueError, match=named):
        scale_factor(*values)


def test_lengths_that_are_not_positive_are_refused():
    with pytest.raises(ValueError, match=r"length_m is 0.0 m"):
        growth_mismatch_m(0.0, 23e-6, 2e-6, 80.0)
    with pytest.raises(ValueError, match=r"diameter_or_width_m is 600.0 m.*millimetres"):
        cooling_fit_m(600.0, 23e-6, 2e-6, 80.0)


def test_stated_value_outside_its_own_range_is_refused():
    with pytest.raises(ValueError, match=r"tool_expansion_per_k is 2.5e-05"):
        residual_mismatch_m(1.0, 20e-6, 24e-6, 25e-6, 1e-6, 3e-6, 2e-6, 80.0, 10.0)
    with pytest.raises(ValueError, match=r"part_expansion_per_k is 5e-06"):
        residual_mismatch_m(1.0, 20e-6, 24e-6, 23e-6, 1e-6, 3e-6, 5e-6, 80.0, 10.0)
    with pytest.raises(ValueError, match=r"lock_uncertainty_k is -1.0"):
        residual_mismatch_m(1.0, 20e-6, 24e-6, 23e-6, 1e-6, 3e-6, 2e-6, 80.0, -1.0)
