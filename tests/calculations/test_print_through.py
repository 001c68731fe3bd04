import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.print_through import (
    film_modulus_pa,
    largest_unfilled_pore_m,
    print_through_m,
)

pores = st.floats(0.1e-3, 1.5e-3)
films = st.floats(0.05e-3, 0.5e-3)
pressures = st.floats(2e4, 2e5)
moduli = st.floats(1e8, 5e9)


@pytest.mark.parametrize(
    ("film_mm", "modulus_pa", "sinks_um"),
    [
        # Worked apart, for pores of 0.2, 0.5, 1 and 2 mm at 1 bar.
        (0.08, 500e6, (0.028, 0.36, 4.2, 51)),
        (0.08, 150e6, (0.092, 1.2, 14, 112)),
        (0.13, 500e6, (0.015, 0.14, 1.2, 15)),
        (0.13, 150e6, (0.049, 0.46, 3.9, 47)),
        (0.25, 500e6, (0.007, 0.05, 0.29, 2.6)),
        (0.25, 150e6, (0.024, 0.17, 0.98, 8.7)),
    ],
)
def test_worked_prints_of_a_fluoropolymer_film_cold_and_hot(film_mm, modulus_pa, sinks_um):
    for pore_mm, sink_um in zip((0.2, 0.5, 1.0, 2.0), sinks_um, strict=True):
        found_m = print_through_m(pore_mm * 1e-3, film_mm * 1e-3, 1e5, modulus_pa, 0.46)
        assert found_m * 1e6 == pytest.approx(sink_um, rel=0.05)


def test_worked_prints_in_an_autoclave():
    for pore_mm, sink_um in ((0.5, 2.7), (1.0, 23.0), (2.0, 184.0)):
        found_m = print_through_m(pore_mm * 1e-3, 0.13e-3, 6e5, 150e6, 0.46)
        assert found_m * 1e6 == pytest.approx(sink_um, rel=0.02)


@pytest.mark.parametrize(("film_mm", "pore_mm"), [(0.08, 0.76), (0.13, 1.07), (0.25, 1.70)])
def test_worked_pores_that_may_stay_open(film_mm, pore_mm):
    pore_m = largest_unfilled_pore_m(5e-6, film_mm * 1e-3, 1e5, 150e6, 0.46)
    assert pore_m * 1e3 == pytest.approx(pore_mm, abs=0.005)


@given(pores, films, pressures, moduli)
def test_print_grows_with_pore_and_pressure_and_falls_with_film_and_modulus(
    pore_m, film_m, pressure_pa, modulus_pa
):
    sink_m = print_through_m(pore_m, film_m, pressure_pa, modulus_pa, 0.4)
    assert print_through_m(1.1 * pore_m, film_m, pressure_pa, modulus_pa, 0.4) > sink_m
    assert print_through_m(pore_m, film_m, 1.1 * pressure_pa, modulus_pa, 0.4) > sink_m
    assert print_through_m(pore_m, 1.1 * film_m, pressure_pa, modulus_pa, 0.4) < sink_m
    assert print_through_m(pore_m, film_m, pressure_pa, 1.1 * modulus_pa, 0.4) < sink_m


@given(pores, films, pressures, moduli, st.floats(0.5, 2.0))
def test_print_scales_with_size(pore_m, film_m, pressure_pa, modulus_pa, scale):
    sink_m = print_through_m(pore_m, film_m, pressure_pa, modulus_pa, 0.4)
    scaled_m = print_through_m(scale * pore_m, scale * film_m, pressure_pa, modulus_pa, 0.4)
    assert scaled_m == pytest.approx(scale * sink_m, rel=1e-9)


@given(pores, films, pressures, moduli)
def test_the_largest_pore_turns_the_print_round(pore_m, film_m, pressure_pa, modulus_pa):
    sink_m = print_through_m(pore_m, film_m, pressure_pa, modulus_pa, 0.4)
    found_m = largest_unfilled_pore_m(sink_m, film_m, pressure_pa, modulus_pa, 0.4)
    assert found_m == pytest.approx(pore_m, rel=1e-6)


def test_a_plate_too_stiff_to_print_leaves_any_pore_open():
    assert largest_unfilled_pore_m(1e-3, 10e-3, 1e4, 7e10, 0.33) == 0.05


@given(st.floats(20.0, 100.0))
def test_modulus_lies_between_those_known(temperature_c):
    assert 149.9e6 < film_modulus_pa(temperature_c, 20.0, 500e6, 100.0, 150e6) < 500.1e6


def test_modulus_is_kept_at_the_temperatures_known():
    assert film_modulus_pa(20.0, 20.0, 500e6, 100.0, 150e6) == 500e6
    assert film_modulus_pa(100.0, 20.0, 500e6, 100.0, 150e6) == pytest.approx(150e6)


@pytest.mark.parametrize(
    ("values", "named"),
    [
        ((1.0, 0.13e-3, 1e5, 5e8, 0.46), "pore_diameter_m is 1.0 m.*millimetres"),
        ((1e-3, 0.13, 1e5, 5e8, 0.46), "film_thickness_m is 0.13 m.*millimetres"),
        ((1e-3, 0.13e-3, 0.0, 5e8, 0.46), "pressure_pa is 0.0"),
        ((1e-3, 0.13e-3, 1e5, 500.0, 0.46), "modulus_pa is 500.0 Pa.*MPa"),
        ((1e-3, 0.13e-3, 1e5, 5e8, 0.51), "poisson_ratio is 0.51"),
        ((math.nan, 0.13e-3, 1e5, 5e8, 0.46), "pore_diameter_m is nan"),
        ((20e-3, 0.02e-3, 5e5, 5e6, 0.46), "the sink is .*Fill the pore"),
    ],
)
def test_print_refuses_what_does_not_hold(values, named):
    with pytest.raises(ValueError, match=named):
        print_through_m(*values)


def test_prints_and_moduli_out_of_range_are_refused():
    with pytest.raises(ValueError, match=r"allowed_print_m is 5.0 m.*micrometres"):
        largest_unfilled_pore_m(5.0, 0.13e-3, 1e5, 150e6, 0.46)
    with pytest.raises(ValueError, match=r"allowed_print_m is 0.001 m"):
        largest_unfilled_pore_m(1e-3, 1e-6, 1e6, 1e6, 0.46)
    with pytest.raises(ValueError, match=r"temperature_c is 120.0 degC"):
        film_modulus_pa(120.0, 20.0, 500e6, 100.0, 150e6)
    with pytest.raises(ValueError, match=r"warm_c is 20.0 degC"):
        film_modulus_pa(20.0, 20.0, 500e6, 20.0, 150e6)
    with pytest.raises(ValueError, match=r"warm_modulus_pa is 600000000.0 Pa"):
        film_modulus_pa(50.0, 20.0, 500e6, 100.0, 600e6)
