import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.lifting import (
    asymmetry_multiplier,
    distance_multiplier,
    horizontal_multiplier,
    lifting_index,
    recommended_weight_limit_kg,
    vertical_multiplier,
)

# Reach, height, travel, twist, frequency, duration, hold: everything at its best.
BEST = (0.25, 0.75, 0.25, 0.0, 0.0, 1.0, "good")
FALLING = {0: 3.0, 2: 3.0, 3: 180.0, 4: 60.0, 5: 8.0}

distances = st.floats(0.0, 3.0)
couplings = st.sampled_from(["good", "fair", "poor"])
lifts = st.tuples(
    distances,
    distances,
    distances,
    st.floats(0.0, 180.0),
    st.floats(0.0, 60.0),
    st.floats(0.01, 8.0),
    couplings,
)


@given(lifts)
def test_weight_limit_is_never_above_23_kg_or_below_none(lift):
    assert 0.0 <= recommended_weight_limit_kg(*lift) <= 23.0


def test_best_lift_reaches_23_kg():
    assert recommended_weight_limit_kg(*BEST) == 23.0


@given(lifts, st.sampled_from(sorted(FALLING)), st.floats(0.0, 1.0))
def test_weight_limit_never_rises_as_the_lift_gets_worse(lift, which, share):
    worse = list(lift)
    worse[which] += share * (FALLING[which] - worse[which])
    worse[which] = min(worse[which], FALLING[which])
    assert recommended_weight_limit_kg(*worse) <= recommended_weight_limit_kg(*lift)


@given(lifts, st.floats(0.75, 3.0), st.floats(0.75, 3.0))
def test_weight_limit_never_rises_with_height_from_the_knuckles_up(lift, one_m, other_m):
    low_m, high_m = sorted((one_m, other_m))
    low = recommended_weight_limit_kg(lift[0], low_m, *lift[2:])
    assert recommended_weight_limit_kg(lift[0], high_m, *lift[2:]) <= low


@given(lifts, st.floats(0.0, 0.75), st.floats(0.0, 0.75))
def test_weight_limit_never_falls_with_height_up_to_the_knuckles(lift, one_m, other_m):
    low_m, high_m = sorted((one_m, other_m))
    high = recommended_weight_limit_kg(lift[0], high_m, *lift[2:])
    assert recommended_weight_limit_kg(lift[0], low_m, *lift[2:]) <= high


@given(lifts, st.floats(0.1, 100.0))
def test_lifting_index_times_the_limit_is_the_load(lift, load_kg):
    limit_kg = recommended_weight_limit_kg(*lift)
    index = lifting_index(load_kg, *lift)
    if limit_kg == 0.0:
        assert index == math.inf
    else:
        assert index * limit_kg == pytest.approx(load_kg)


@pytest.mark.parametrize(
    ("multiplier", "last_full", "last_allowed"),
    [
        (horizontal_multiplier, 0.25, 0.63),
        (distance_multiplier, 0.25, 1.75),
        (vertical_multiplier, 0.75, 1.75),
        (asymmetry_multiplier, 0.0, 135.0),
    ],
)
def test_each_multiplier_is_full_at_its_best_and_nothing_beyond_its_limit(
    multiplier, last_full, last_allowed
):
    assert multiplier(last_full) == 1.0
    assert multiplier(last_full + 0.01) < 1.0
    assert multiplier(last_allowed) > 0.0
    assert multiplier(last_allowed + 0.01) == 0.0


def test_damp_porous_block_is_over_the_limit_by_hand():
    # 600 x 250 x 200 mm at 500 kg/m3 is 15 kg, H 40, V 30, D 60 cm, 30 degrees, fair:
    # 23 x .625 x .865 x .895 x .904 x 1 x .95 = 9.56 kg; with 40 % water 21 kg.
    lift = (0.40, 0.30, 0.60, 30.0, 0.1, 0.5, "fair")
    assert recommended_weight_limit_kg(*lift) == pytest.approx(9.56, abs=0.005)
    assert lifting_index(15.0, *lift) == pytest.approx(1.57, abs=0.005)
    assert lifting_index(21.0, *lift) == pytest.approx(2.20, abs=0.005)


@pytest.mark.parametrize(
    ("place", "value", "named"),
    [
        (0, 40.0, "horizontal_m is 40.0 m.*centimetres"),
        (1, -0.1, "vertical_m is -0.1 m"),
        (2, math.nan, "travel_m is nan m"),
        (3, 181.0, "asymmetry_deg is 181.0"),
        (4, -1.0, "lifts_per_minute is -1.0"),
        (5, 8.1, "hours is 8.1 h"),
        (5, 0.0, "hours is 0.0 h"),
        (6, "firm", "coupling is 'firm'"),
    ],
)
def test_lifting_refuses_what_does_not_hold(place, value, named):
    lift = list(BEST)
    lift[place] = value
    with pytest.raises(ValueError, match=named):
        recommended_weight_limit_kg(*lift)


@pytest.mark.parametrize("load_kg", [0.0, -1.0, math.nan])
def test_load_that_is_not_positive_is_refused(load_kg):
    with pytest.raises(ValueError, match="load_kg is"):
        lifting_index(load_kg, *BEST)
