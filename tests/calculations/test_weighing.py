import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.drying import water_left_share
from advisor.calculations.weighing import (
    accepted_loss_kg,
    final_mass_kg,
    is_dry,
    mass_loss_share_per_h,
    water_content_share,
    weighing_wait_h,
)

masses = st.floats(0.5, 200.0)


@given(masses, st.floats(0.01, 5.0), st.floats(0.01, 0.95))
def test_three_weighings_of_a_steady_decay_give_its_end(dry_kg, water_kg, ratio):
    left_kg = water_kg * ratio**2
    if left_kg > dry_kg / 4.0 or (1.0 - ratio) * left_kg < 1e-6 * dry_kg:
        return
    weighings = (dry_kg + water_kg * ratio**n for n in range(3))
    assert final_mass_kg(*weighings) == pytest.approx(dry_kg, rel=1e-6)


@given(st.floats(0.3, 3.0), st.floats(0.05, 1.0))
def test_last_stage_of_drying_gives_the_end_and_an_early_one_too_high_a_mass(start, step):
    weighings = [1.0 + 0.2 * water_left_share(start + n * step) for n in range(3)]
    assert 1.0 - 1e-9 <= final_mass_kg(*weighings) <= 1.002
    early = [1.0 + 0.2 * water_left_share(1e-3 + n * 0.02) for n in range(3)]
    assert final_mass_kg(*early) > 1.02


@given(masses, st.floats(0.0, 0.1), st.floats(0.5, 24.0), st.floats(1e-5, 1e-2))
def test_finer_scale_never_turns_a_dry_block_wet(mass_kg, lost, hours, limit):
    before_kg = mass_kg * (1.0 + lost)
    coarse = is_dry(before_kg, mass_kg, hours, limit, 1e-2)
    if coarse:
        assert is_dry(before_kg, mass_kg, hours, limit, 1e-3)


def test_limit_on_both_sides():
    # 20 kg, 4 h, 0.1 % an hour: 80 g.
    assert is_dry(20.079, 20.0, 4.0, 0.001, 0.0)
    assert not is_dry(20.081, 20.0, 4.0, 0.001, 0.0)
    assert is_dry(20.069, 20.0, 4.0, 0.001, 0.01)
    assert not is_dry(20.071, 20.0, 4.0, 0.001, 0.01)


def test_block_that_gains_more_than_the_scale_shows_is_not_called_dry():
    assert is_dry(20.0, 20.01, 4.0, 0.001, 0.01)
    assert not is_dry(20.0, 20.02, 4.0, 0.001, 0.01)


@given(masses, st.floats(0.0, 3.0))
def test_water_content_is_over_the_dry_mass(dry_kg, share):
    result = water_content_share(dry_kg * (1.0 + share), dry_kg)
    assert result == pytest.approx(share, abs=1e-12)


def test_block_that_lost_nothing_more_is_at_its_end():
    assert final_mass_kg(20.1, 20.0, 20.0) == 20.0


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (mass_loss_share_per_h, (18000.0, 18.0, 1.0), "before_kg is 18000.0 kg.*grams"),
        (mass_loss_share_per_h, (18.0, 0.0, 1.0), "after_kg is 0.0"),
        (mass_loss_share_per_h, (18.0, 18.0, math.nan), "hours is nan"),
        (is_dry, (18.0, 18.0, 1.0, 0.0, 0.0), "highest_loss_share_per_h is 0.0"),
        (is_dry, (18.0, 18.0, 1.0, 0.001, -1.0), "scale_step_kg is -1.0"),
        (water_content_share, (17.0, 18.0), "mass_kg is 17.0"),
        (water_content_share, (18.0, 0.0), "dry_mass_kg is 0.0"),
        (final_mass_kg, (20.0, 19.0, 19.5), "loss in the second wait is -0.5"),
        (final_mass_kg, (20.0, 19.5, 19.0), "over the first is 1.0"),
        (final_mass_kg, (19.0, 20.0, 19.0), "over the first"),
        (final_mass_kg, (100.0, 60.0, 31.0), "water left is"),
        (final_mass_kg, (20.0, 19.0, 0.0), "third_kg is 0.0"),
    ],
)
def test_weighing_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)


@pytest.mark.parametrize(("mass_kg", "step_kg"), [(3.0, 0.1), (18.0, 0.005), (27.2, 0.05)])
def test_the_wait_is_the_shortest_that_leaves_a_step_to_read(mass_kg, step_kg):
    hours = weighing_wait_h(mass_kg, 0.001, step_kg)
    assert accepted_loss_kg(mass_kg, hours, 0.001, step_kg) >= step_kg * (1 - 1e-9)
    if hours > 1:
        with pytest.raises(ValueError, match="too coarse"):
            accepted_loss_kg(mass_kg, hours - 1, 0.001, step_kg)


@given(st.floats(1.0, 100.0), st.floats(0.001, 0.1))
def test_what_is_accepted_counts_as_dry_and_a_step_more_does_not(mass_kg, step_kg):
    hours = weighing_wait_h(mass_kg, 0.001, step_kg)
    loss_kg = accepted_loss_kg(mass_kg, hours, 0.001, step_kg)
    assert is_dry(mass_kg + 0.999 * loss_kg, mass_kg, hours, 0.001, step_kg)
    assert not is_dry(mass_kg + loss_kg + step_kg, mass_kg, hours, 0.001, step_kg)
