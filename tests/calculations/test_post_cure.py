from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.post_cure import hours_in_oven, stairs_c


@given(st.floats(20.0, 180.0), st.floats(0.0, 150.0), st.floats(5.0, 40.0))
def test_no_step_is_larger_than_allowed_and_the_last_is_reached(first, rise, step):
    stairs = (first, *stairs_c(first, first + rise, step))
    assert stairs[-1] == pytest.approx(first + rise)
    assert all(0 <= b - a <= step * (1 + 1e-6) for a, b in pairwise(stairs))


def test_time_by_hand():
    # 65 to 140 degC: 84, 103 (102.5), 121 and 140; four holds of an hour, and 120 K up
    # from the room and down to it at 10 K an hour.
    assert stairs_c(65.0, 140.0, 20.0) == (83.75, 102.5, 121.25, 140.0)
    assert hours_in_oven(20.0, 65.0, 140.0, 20.0, 1.0, 1 / 6) == pytest.approx(28.0)


@given(
    st.floats(40.0, 120.0), st.floats(0.0, 100.0), st.floats(0.0, 4.0), st.floats(0.1, 3.0)
)
def test_the_time_is_that_of_the_cycle_walked_step_by_step(first, rise, hold, ramp):
    told = hours_in_oven(20.0, first, first + rise, 20.0, hold, ramp)
    stairs = (20.0, *stairs_c(first, first + rise, 20.0))
    walked = sum((b - a) / ramp / 60 + hold for a, b in pairwise(stairs))
    assert told == pytest.approx(walked + (stairs[-1] - 20.0) / ramp / 60)


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ((100.0, 90.0, 20.0), "last_c"),
        ((60.0, 90.0, 0.0), "step_k"),
        ((-5.0, 9.0, 5.0), "first_c"),
    ],
)
def test_what_is_no_post_cure_is_refused(wrong, named):
    with pytest.raises(ValueError, match=named):
        stairs_c(*wrong)
