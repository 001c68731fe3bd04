from time import perf_counter

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.cure import heat_of_cure_j_per_m3
from advisor.calculations.cure_kinetics import RESIN_OF_1982, TOUGHENED_RESIN_180C
from advisor.calculations.cure_polynomials import POINTS, phi_functions, polynomial_at
from advisor.calculations.heat import heat_history
from advisor.calculations.heat_and_cure import heat_and_cure
from advisor.calculations.heat_readings import time_reaching_s
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import AirProgramme

HEAT_1982 = heat_of_cure_j_per_m3(473.6e3, 1272.0, 0.52)
HEAT_180C = heat_of_cure_j_per_m3(540.0e3, 1300.0, 0.574)
BREATHER = Layer("breather", 0.004, 0.04, 100.0, 1300.0)
BLOCK = Layer("tool", 0.15, 0.12, 500.0, 1000.0)
METAL = Layer("tool", 0.01, 150.0, 2700.0, 900.0)
# 25 to 120 degC at 2 K/min, then held to 10 h.
OVEN = AirProgramme((0.0, 2850.0, 36000.0), (25.0, 120.0, 120.0))


def laminate(thickness_m, cells=None):
    return Layer("laminate", thickness_m, 0.4135, 1578.0, 862.0, cells=cells)


def of_1982(stack, oven=OVEN, heat=HEAT_1982, **more):
    return heat_and_cure(
        stack, oven, 25.0, "laminate", heat, RESIN_OF_1982.kinetics, 0.0, **more
    )


# Laminate between faces held to a cycle of 25, 116 degC (2.5 K/min, 60 min) and 177 degC
# (120 min), worked with finite differences by another hand: peak in the middle.
CYCLE = AirProgramme(
    (0.0, 2184.0, 5784.0, 7248.0, 14448.0), (25.0, 116.0, 116.0, 177.0, 177.0)
)


@pytest.mark.parametrize(
    ("thickness_m", "peak_c"), [(0.0127, 182.4), (0.0254, 200.0), (0.0508, 215.5)]
)
def test_peak_between_faces_held_to_a_cycle(thickness_m, peak_c):
    cured = of_1982(Stack((laminate(thickness_m, 41),), 1e5, 1e5), CYCLE, every_s=15.0)
    assert cured.peak_c == pytest.approx(peak_c, abs=0.15)


def test_middle_of_25_mm_over_the_cycle():
    cured = of_1982(Stack((laminate(0.0254, 41),), 1e5, 1e5), CYCLE, every_s=15.0)
    assert cured.peak_s / 60.0 == pytest.approx(126.5, abs=0.5)
    now_min, middle = cured.heat.times_s / 60.0, cured.cure[:, 20]
    for minute, worked in ((60, 0.227), (90, 0.291), (120, 0.572), (140, 0.931)):
        assert np.interp(minute, now_min, middle) == pytest.approx(worked, abs=0.0015)


def test_peak_of_30_mm_of_toughened_resin_on_nickel_iron():
    # Worked likewise: 20 mm of tool, h 120 above and 70 below, 110 and 180 degC: 200.4.
    part = Layer(
        "laminate",
        0.03,
        0.64,
        0.426 * 1300.0 + 0.574 * 1790.0,
        0.426 * 1304.2 + 0.574 * 914.0,
    )
    tool = Layer("tool", 0.02, 13.0, 8150.0, 510.0)
    oven = AirProgramme(
        (0.0, 2160.0, 5760.0, 7440.0, 14640.0), (20.0, 110.0, 110.0, 180.0, 180.0)
    )
    cured = heat_and_cure(
        Stack((part, tool), 120.0, 70.0),
        oven,
        20.0,
        "laminate",
        HEAT_180C,
        TOUGHENED_RESIN_180C.kinetics,
        0.05,
    )
    assert cured.peak_c == pytest.approx(200.4, abs=0.3)


# Bagged laminate, worked likewise: minutes to 115 degC, peak, degree of cure at 10 h.
ON_TOOLS = [
    (BLOCK, 0.002, 369.0, 118.7, 0.862),
    (BLOCK, 0.005, 303.0, 120.2, 0.890),
    (BLOCK, 0.010, 280.0, 128.3, 0.936),
    (METAL, 0.002, 75.0, 121.3, 0.960),
    (METAL, 0.005, 76.0, 123.5, 0.965),
    (METAL, 0.010, 78.0, 128.2, 0.972),
]


@pytest.mark.parametrize(("tool", "thickness_m", "minutes", "peak_c", "cure"), ON_TOOLS)
def test_tool_decides_how_a_laminate_cures(tool, thickness_m, minutes, peak_c, cure):
    cured = of_1982(Stack((BREATHER, laminate(thickness_m), tool), 20.0, 20.0))
    mean_c = cured.heat.layer_c("laminate").mean(axis=1)
    reached_s = time_reaching_s(cured.heat.times_s, mean_c, 115.0)
    # The density of the breather was not noted.
    assert reached_s / 60.0 == pytest.approx(minutes, rel=0.02)
    assert cured.peak_c == pytest.approx(peak_c, abs=0.8)
    assert cured.cure[-1].mean() == pytest.approx(cure, abs=0.003)


def test_insulating_tool_cures_thin_laminates_too_little_and_thick_ones_too_hot():
    def on(tool, thickness_m):
        return of_1982(Stack((BREATHER, laminate(thickness_m), tool), 20.0, 20.0))

    assert on(BLOCK, 0.002).least_cure < on(METAL, 0.002).least_cure
    assert on(BLOCK, 0.02).overshoot_k > on(METAL, 0.02).overshoot_k + 10.0


stacks = st.builds(
    lambda thickness_m, tool, top, bottom: Stack(
        (BREATHER, laminate(thickness_m), tool), top, bottom
    ),
    st.floats(0.0005, 0.01),
    st.sampled_from([BLOCK, METAL]),
    st.floats(5.0, 100.0),
    st.floats(0.0, 100.0),
)


@settings(max_examples=40)
@given(stacks)
def test_without_heat_of_cure_the_stack_only_heats(stack):
    cured = of_1982(stack, heat=0.0)
    only = heat_history(cured.heat.stack, OVEN, 25.0)
    assert cured.heat.cells_c == pytest.approx(only.cells_c, abs=1e-6)


@settings(max_examples=25)
@given(stacks)
def test_tighter_tolerance_changes_little(stack):
    usual, tight = of_1982(stack), of_1982(stack, tolerance=1e-7)
    assert np.abs(usual.heat.cells_c - tight.heat.cells_c).max() < 0.01
    assert np.abs(usual.cure - tight.cure).max() < 1e-4


@settings(max_examples=25)
@given(stacks, st.floats(0.1, 1.0))
def test_heat_of_cure_only_ever_warms(stack, factor):
    less = of_1982(stack, heat=0.5 * factor * HEAT_1982)
    more = of_1982(stack, heat=factor * HEAT_1982)
    assert (more.heat.cells_c >= less.heat.cells_c - 0.01).all()
    assert (more.cure >= less.cure - 1e-3).all()


@settings(max_examples=25)
@given(st.floats(0.002, 0.02), st.floats(0.05, 0.6))
def test_insulated_laminate_warms_by_its_adiabatic_rise(thickness_m, factor):
    heat = factor * HEAT_1982
    stack = Stack((laminate(thickness_m),), 1e-6, 0.0)
    oven = AirProgramme((0.0, 100 * 3600.0), (110.0, 110.0))
    cured = heat_and_cure(
        stack, oven, 110.0, "laminate", heat, RESIN_OF_1982.kinetics, 0.0, 3600.0
    )
    rise_k = heat / (1578.0 * 862.0) * cured.cure[-1].mean()
    assert cured.heat.cells_c[-1].mean() - 110.0 == pytest.approx(rise_k, abs=0.05)


def test_symmetric_stack_cures_symmetrically():
    cured = of_1982(Stack((laminate(0.02),), 20.0, 20.0))
    assert cured.cure == pytest.approx(cured.cure[:, ::-1], abs=1e-6)


def test_thin_laminate_is_cut_finely_enough_unless_its_cells_are_given():
    assert of_1982(Stack((laminate(0.001), METAL), 20.0, 20.0)).cure.shape[1] == 9
    assert of_1982(Stack((laminate(0.001, 3), METAL), 20.0, 20.0)).cure.shape[1] == 3


def test_one_stack_takes_well_under_a_tenth_of_a_second():
    stack = Stack((BREATHER, laminate(0.006), BLOCK), 20.0, 20.0)
    oven = AirProgramme(
        (0.0, 1800.0, 12600.0, 15000.0, 43200.0, 54000.0),
        (25.0, 80.0, 80.0, 120.0, 120.0, 30.0),
    )
    seconds = []
    for _ in range(5):
        begin = perf_counter()
        of_1982(stack, oven)
        seconds.append(perf_counter() - begin)
    assert min(seconds) < 0.1


def test_runaway_is_refused_as_beyond_any_kinetics():
    oven = AirProgramme((0.0, 3600.0, 20000.0), (25.0, 180.0, 180.0))
    with pytest.raises(ValueError, match=r"temperature of laminate is .*250\.0 degC"):
        of_1982(Stack((BREATHER, laminate(0.06), BLOCK), 20.0, 20.0), oven)


def test_what_does_not_hold_is_refused():
    stack = Stack((laminate(0.002), METAL), 20.0, 20.0)
    with pytest.raises(ValueError, match="'part' is not in the stack"):
        heat_and_cure(stack, OVEN, 25.0, "part", 1e8, RESIN_OF_1982.kinetics, 0.0)
    with pytest.raises(ValueError, match=r"start_cure is 0\.0"):
        heat_and_cure(
            stack, OVEN, 25.0, "laminate", 1e8, TOUGHENED_RESIN_180C.kinetics, 0.0
        )
    with pytest.raises(ValueError, match=r"heat_of_cure_j_per_m3 is -1\.0"):
        of_1982(stack, heat=-1.0)
    with pytest.raises(ValueError, match=r"tolerance is 1\.0"):
        of_1982(stack, tolerance=1.0)
    with pytest.raises(ValueError, match=r"start_c is 298\.15 degC.*kelvin"):
        heat_and_cure(stack, OVEN, 298.15, "laminate", 1e8, RESIN_OF_1982.kinetics, 0.0)


@given(st.floats(-1e6, 0.0))
def test_phi_functions_follow_their_recurrence(x):
    # x phi_(k+1) = phi_k - 1/k!
    first, second, third, fourth = (
        float(phi[0]) for phi in phi_functions(np.array([x]), 4)
    )
    assert x * second == pytest.approx(first - 1.0, abs=1e-12)
    assert x * third == pytest.approx(second - 1.0 / 2.0, abs=1e-12)
    assert x * fourth == pytest.approx(third - 1.0 / 6.0, abs=1e-12)


@given(st.lists(st.floats(-2.0, 2.0), min_size=5, max_size=5), st.floats(-1.0, 3.0))
def test_polynomial_through_five_points_is_exact_to_degree_four(coefficients, share):
    values = np.polynomial.polynomial.polyval(POINTS, coefficients)[:, None]
    expected = np.polynomial.polynomial.polyval(share, coefficients)
    assert polynomial_at(np.array([share]), values)[0, 0] == pytest.approx(
        expected, abs=1e-9
    )
