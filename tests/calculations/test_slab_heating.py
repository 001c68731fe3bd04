import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from advisor.calculations.slab_heating import biot_number, eigenvalues, peak_lag_share

biots = st.floats(1e-3, 1000.0)
ramps = st.floats(1e-3, 100.0)


def peak_by_small_layers(biot, ramp_fourier, depth_share, layers=120):
    """Largest lag behind the mean in a slab of thin layers, air risen by 1 in a ramp."""
    width = 1.0 / layers

    def change(fourier, inside):
        air = min(1.0, fourier / ramp_fourier)
        flow = np.empty(layers + 1)
        flow[0] = 0.0
        flow[1:-1] = np.diff(inside) / width
        flow[-1] = (air - inside[-1]) / (1.0 / biot + width / 2.0)
        return np.diff(flow) / width

    times = np.linspace(0.0, ramp_fourier + 1.0, 400)
    solved = solve_ivp(
        change, (0.0, times[-1]), np.zeros(layers), "BDF", times, rtol=1e-7, atol=1e-9
    )
    air = np.minimum(1.0, times / ramp_fourier)
    face = solved.y[-1] + (air - solved.y[-1]) * (width / 2) / (1.0 / biot + width / 2)
    plane = face if depth_share == 1.0 else solved.y[0]
    lag = solved.y.mean(axis=0) - plane
    return float(lag[np.argmax(np.abs(lag))])


@given(biots)
def test_roots_meet_their_equation_each_in_its_own_interval(biot):
    roots = eigenvalues(biot)
    assert roots * np.sin(roots) == pytest.approx(biot * np.cos(roots), abs=1e-8)
    turns = np.arange(len(roots))
    assert (roots > turns * math.pi).all()
    assert (roots < (turns + 0.5) * math.pi).all()


@pytest.mark.parametrize("depth_share", [0.0, 1.0])
@pytest.mark.parametrize(("biot", "ramp"), [(12.5, 0.5), (1.0, 2.0), (0.1, 0.2)])
def test_series_agrees_with_a_slab_of_thin_layers(biot, ramp, depth_share):
    expected = peak_by_small_layers(biot, ramp, depth_share)
    assert peak_lag_share(biot, ramp, depth_share) == pytest.approx(expected, rel=5e-3)


@given(st.floats(0.01, 1000.0), st.floats(5.0, 1e3))
def test_long_ramp_ends_in_the_steady_differences(biot, times):
    # q L^2 / 6a behind the mean in the core and q L^2 / 3a before it at the face, reached
    # once the slab follows the air: after several times (1/2 + 1/Bi) L^2/a.
    ramp = times * (1.0 + 2.0 / biot)
    rest = 2.0 * math.exp(-times)
    core, face = peak_lag_share(biot, ramp, 0.0), peak_lag_share(biot, ramp, 1.0)
    assert core * ramp == pytest.approx(1.0 / 6.0, rel=rest + 1e-4)
    assert face * ramp == pytest.approx(-1.0 / 3.0, rel=rest + 1e-4)


@given(biots, ramps, ramps)
def test_slower_ramp_never_lags_more(biot, a, b):
    short, long = sorted((a, b))
    for place in (0.0, 1.0):
        slow = abs(peak_lag_share(biot, long, place))
        assert slow <= abs(peak_lag_share(biot, short, place)) * (1 + 1e-4)


@given(biots, ramps)
def test_ramp_never_exceeds_the_step_and_the_step_never_the_whole_change(biot, ramp):
    for place in (0.0, 1.0):
        step = abs(peak_lag_share(biot, 0.0, place))
        assert abs(peak_lag_share(biot, ramp, place)) <= step * (1 + 1e-4)
        assert step < 1.0


@given(biots, biots)
def test_better_transfer_lags_more(a, b):
    weak, strong = sorted((a, b))
    for place in (0.0, 1.0):
        weaker = abs(peak_lag_share(weak, 0.1, place))
        assert weaker <= abs(peak_lag_share(strong, 0.1, place)) * (1 + 1e-4)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (eigenvalues, (0.0,), "Biot number is 0.0"),
        (eigenvalues, (1001.0,), "Biot number is 1001.0"),
        (peak_lag_share, (1.0, -0.1, 0.0), "ramp_fourier is -0.1"),
        (peak_lag_share, (1.0, math.nan, 0.0), "ramp_fourier is nan"),
        (peak_lag_share, (1.0, 0.1, 1.1), "depth_share is 1.1"),
        (biot_number, (0.0, 0.075, 0.12), "film_w_per_m2_k is 0.0"),
        (biot_number, (20.0, 75.0, 0.12), "half_thickness_m is 75.0"),
        (biot_number, (20.0, 0.075, 0.0), "conductivity_w_per_m_k is 0.0"),
    ],
)
def test_slab_heating_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
