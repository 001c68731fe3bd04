import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.tape import tape_layers, tape_length_m, tape_pressure_pa

PSI = 6894.757
INCH = 0.0254
radii = st.floats(0.005, 0.5)


@pytest.mark.published("hoop-stress-problem", at="problem 314, solution")
def test_thin_ring_as_worked():
    # 500 psi inside a mean radius of 0.265 in, wall 0.03 in: hoop stress of 4,417 psi.
    pressure = tape_pressure_pa(4417 * PSI, 0.03 * INCH, 1, 0.265 * INCH)
    assert pressure / PSI == pytest.approx(500, abs=0.5)


@pytest.mark.published("tape-compression-page", at="factors of the compression force")
def test_thicker_tape_presses_as_much_harder_as_printed(as_printed):
    thin, thick = (tape_pressure_pa(20e6, t * INCH, 1, 0.02) for t in (0.002, 0.005))
    assert thick / thin == as_printed("2.5")


@pytest.mark.published("tape-compression-page", at="factors of the compression force")
@pytest.mark.parametrize(("layers", "times"), [(2, "2"), (3, "3")])
def test_layers_multiply_the_pressure_as_printed(layers, times, as_printed):
    one = tape_pressure_pa(20e6, 5e-5, 1, 0.02)
    assert tape_pressure_pa(20e6, 5e-5, layers, 0.02) / one == as_printed(times)


@given(radii, st.floats(1.01, 5.0))
def test_the_smaller_the_tube_the_harder_it_is_pressed(radius, times):
    small = tape_pressure_pa(20e6, 5e-5, 4, radius)
    assert small == pytest.approx(times * tape_pressure_pa(20e6, 5e-5, 4, times * radius))


@given(st.floats(2e4, 4e5), radii)
def test_the_layers_are_the_least_that_press_hard_enough(pressure, radius):
    layers = tape_layers(pressure, 20e6, 5e-5, radius)
    assert layers * 20e6 * 5e-5 / radius >= pressure * (1 - 1e-9)
    assert layers == 1 or (layers - 1) * 20e6 * 5e-5 / radius < pressure


def test_the_tape_covers_the_area_as_often_as_there_are_layers():
    length = tape_length_m(0.3, 6, 0.025)
    assert length * 0.025 == pytest.approx(6 * 0.3)


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ((20.0e9, 5e-5, 4, 0.02), "stress_pa"),
        ((20e6, 0.05, 4, 0.02), "thickness_m"),
        ((20e6, 5e-5, 0, 0.02), "layers"),
        ((20e6, 5e-5, 4, 20.0), "radius_m"),
        ((20e6, 5e-3, 4, 0.02), "layers"),
    ],
)
def test_what_is_no_thin_ring_is_refused(wrong, named):
    with pytest.raises(ValueError, match=named):
        tape_pressure_pa(*wrong)
