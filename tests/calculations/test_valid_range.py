import math

import pytest

from advisor.calculations.valid_range import one_of, positive, whole, within


def test_both_ends_of_a_range_are_allowed():
    within("hours", 0.0, 0.0, 8.0, "h")
    within("hours", 8.0, 0.0, 8.0, "h")


@pytest.mark.parametrize("value", [-0.1, 8.1, math.nan, math.inf])
def test_a_value_outside_its_range_is_refused_by_name(value):
    with pytest.raises(ValueError, match=r"^hours is .*; it must be from 0.0 h to 8.0 h\."):
        within("hours", value, 0.0, 8.0, "h")


@pytest.mark.parametrize("value", [0.0, -1.0, 5.1, math.nan, math.inf])
def test_what_must_be_positive_is_refused_otherwise(value):
    with pytest.raises(ValueError, match=r"^depth_m is .*above 0 and at most 5.0 m. Why"):
        positive("depth_m", value, 5.0, "m", "Why?")


@pytest.mark.parametrize("value", [0, 1.5, math.nan, math.inf, -math.inf])
def test_a_count_that_is_not_whole_or_too_small_is_refused(value):
    with pytest.raises(ValueError, match=r"^plies is .*whole number of at least 1"):
        whole("plies", value, 1)


def test_a_word_that_is_not_allowed_is_refused_with_those_that_are():
    with pytest.raises(ValueError, match="side is 'left'; it must be one of female, male"):
        one_of("side", "left", ("female", "male"))
