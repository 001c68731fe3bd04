"""Sums of a line each, against hand-worked values and their own inverses."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.drying import front_drying_time_s, front_loss_share_per_s
from advisor.calculations.laminate import fibre_volume_fraction, resin_share_of_volume
from advisor.calculations.lifting import (
    recommended_weight_limit_kg,
    weight_limit_of_lift_kg,
)
from advisor.calculations.strength import strength_when_hot_pa
from advisor.calculations.vacuum import pull_down_time_s


@given(st.floats(0.2, 0.8), st.floats(1200.0, 2600.0), st.floats(1000.0, 1400.0))
def test_resin_by_mass_and_fibre_by_volume_are_one_another_s_inverse(share, fibre, resin):
    by_mass = resin_share_of_volume(share, fibre, resin)
    assert fibre_volume_fraction(by_mass, fibre, resin) == pytest.approx(share)


def test_pull_down_of_sixty_litres_by_hand():
    # 60 L, 10 m3/h, from one atmosphere to 50 mbar: 21.6 s times ln 20.3.
    assert pull_down_time_s(0.06, 10 / 3600, 101_325.0, 5e3) == pytest.approx(65, abs=0.5)


@given(st.floats(1e-4, 1.0), st.floats(1e-4, 1e-1), st.floats(1e3, 9e4))
def test_pull_down_in_two_stages_takes_as_long_as_in_one(volume_m3, pump, middle_pa):
    whole = pull_down_time_s(volume_m3, pump, 101_325.0, 500.0)
    parts = pull_down_time_s(volume_m3, pump, 101_325.0, middle_pa) + pull_down_time_s(
        volume_m3, pump, middle_pa, 500.0
    )
    assert parts == pytest.approx(whole)


@pytest.mark.parametrize(
    ("at_c", "share"), [(20.0, 1.0), (60.0, 0.75), (100.0, 0.5), (140.0, 0.5), (0.0, 1.0)]
)
def test_strength_falls_in_a_straight_line_to_the_limit(at_c, share):
    assert strength_when_hot_pa(8e6, at_c, 20.0, 100.0, 0.5) == pytest.approx(8e6 * share)


def test_loss_at_the_end_of_a_front_is_half_the_mean():
    water_kg_m3, density = 100.0, 500.0
    time_s = front_drying_time_s(water_kg_m3, 0.075, 80.0, 7.0, 1500.0)
    mean = water_kg_m3 / density / time_s
    found = front_loss_share_per_s(water_kg_m3 / density, time_s)
    assert found == pytest.approx(mean / 2)
    # The mass dried goes with the root of the time: the rate just before the end.
    last_s = 1e-4 * time_s
    gone = water_kg_m3 / density * (1 - math.sqrt(1 - last_s / time_s))
    assert gone / last_s == pytest.approx(found, rel=1e-3)


@given(st.floats(0.0, 1.5), st.floats(0.25, 1.0))
def test_a_lift_counts_by_its_worse_end(low_m, travel_m):
    both = [
        recommended_weight_limit_kg(0.4, hands_m, travel_m, 0.0, 0.2, 1.0, "poor")
        for hands_m in (low_m, low_m + travel_m)
    ]
    found = weight_limit_of_lift_kg(0.4, low_m, travel_m, 0.0, 0.2, 1.0, "poor")
    assert found == min(both)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: resin_share_of_volume(58.0, 1790.0, 1300.0), "fibre_share is 58.0.*cent"),
        (lambda: pull_down_time_s(0.06, 10.0 / 3600, 1e5, 1e5 + 1), "end_pa is 100001"),
        (lambda: pull_down_time_s(0.06, 10.0 / 3600, 1e5, 0.0), "end_pa is 0.0"),
        (lambda: pull_down_time_s(0.0, 10.0 / 3600, 1e5, 1e3), "volume_m3 is 0.0"),
        (lambda: pull_down_time_s(0.06, 36.0, 1e5, 1e3), "pump_m3_per_s is 36.0.*m3/h"),
        (lambda: strength_when_hot_pa(8e6, 60.0, 20.0, 20.0, 0.5), "limit_c - room_c"),
        (lambda: strength_when_hot_pa(0.0, 60.0, 20.0, 90.0, 0.5), "cold_pa is 0.0"),
        (lambda: front_loss_share_per_s(30.0, 3600.0), "water_share is 30.0.*cent"),
        (lambda: front_loss_share_per_s(0.3, 0.0), "drying_time_s is 0.0"),
    ],
)
def test_small_sums_refuse_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
