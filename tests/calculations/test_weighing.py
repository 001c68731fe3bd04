import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.weighing import (
    accepted_loss_kg,
    is_dry,
    scale_step_kg,
    weighing_wait_h,
)

masses = st.floats(0.5, 200.0)


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


@given(masses, st.floats(1e-5, 1e-2), st.integers(1, 100))
def test_the_coarsest_scale_sees_the_limit_in_the_wait_and_a_coarser_does_not(
    mass_kg, limit, hours
):
    step_kg = scale_step_kg(mass_kg, limit, float(hours))
    assert weighing_wait_h(mass_kg, limit, step_kg) == hours
    if step_kg * 1.01 <= 10.0:
        assert weighing_wait_h(mass_kg, limit, step_kg * 1.01) > hours
