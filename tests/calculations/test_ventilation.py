import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.ventilation import (
    batch_oven_exhaust_m3_s,
    dilution_air_m3,
    largest_liquid_in_closed_oven_kg,
    lowest_known_limit,
    vapour_volume_m3,
)

masses = st.floats(1e-4, 100.0)
molar_masses = st.floats(0.02, 0.3)
lower_limits = st.floats(0.005, 0.2)
exposure_limits = st.floats(1e-7, 1e-3)
temperatures = st.floats(0.0, 300.0)

# Liquid, kg/m3, g/mol, lower limit; then air in m3 a litre to a quarter of it and grams
# in a closed oven of half a cubic metre at 21, 100 and 120 degC, worked apart.
WORKED = [
    ("acetone", 791.0, 58.08, 0.025, 52.5, (7.5, 5.9, 4.0)),
    ("isopropanol", 785.0, 60.10, 0.020, 63.1, (6.2, 4.9, 3.3)),
    ("ethanol", 789.0, 46.07, 0.031, 53.3, (7.4, 5.8, 3.9)),
    ("methyl ethyl ketone", 805.0, 72.11, 0.014, 77.0, (5.2, 4.1, 2.8)),
    ("toluene", 867.0, 92.14, 0.010, 90.8, (4.8, 3.8, 2.6)),
    ("xylene", 864.0, 106.17, 0.009, 87.3, (5.0, 3.9, 2.6)),
    ("styrene", 906.0, 104.15, 0.009, 93.3, (4.9, 3.8, 2.6)),
]


@pytest.mark.parametrize(
    ("name", "density", "molar", "lower", "air_m3", "grams"),
    WORKED,
    ids=[row[0] for row in WORKED],
)
def test_worked_air_and_grams(name, density, molar, lower, air_m3, grams):
    air = dilution_air_m3(density * 1e-3, molar * 1e-3, lower, 1e-4)
    assert air.fire == pytest.approx(air_m3, rel=0.005)
    for temperature_c, gram in zip((21.0, 100.0, 120.0), grams, strict=True):
        most = largest_liquid_in_closed_oven_kg(0.5, molar * 1e-3, lower, temperature_c)
        assert most * 1e3 == pytest.approx(gram, abs=0.06)


def test_worked_putty_shows_that_health_sets_the_air():
    air = dilution_air_m3(0.125, 0.10415, lower_limit=0.009, exposure_limit=20e-6)
    assert air.fire == pytest.approx(12.9, abs=0.05)
    assert air.health == pytest.approx(1450.0, abs=5.0)
    assert air.needed == air.health
    half = dilution_air_m3(0.125, 0.10415, lower_limit=0.009, exposure_limit=10e-6)
    assert half.health == pytest.approx(2900.0, abs=5.0)


def test_worked_acetone_left_on_a_tool_is_explosive():
    vapour_m3 = vapour_volume_m3(0.05 * 0.791, 0.05808)
    assert vapour_m3 * 1e3 == pytest.approx(16.4, abs=0.05)
    assert vapour_m3 / 0.5 > 0.025


@given(masses, molar_masses, lower_limits, exposure_limits)
def test_air_grows_with_the_liquid_and_falls_with_the_limits(mass, molar, lower, exposure):
    air = dilution_air_m3(mass, molar, lower, exposure)
    twice = dilution_air_m3(2.0 * mass, molar, lower, exposure)
    assert twice.fire == pytest.approx(2.0 * air.fire)
    assert twice.health == pytest.approx(2.0 * air.health)
    assert dilution_air_m3(mass, molar, 2.0 * lower, exposure).fire < air.fire
    assert dilution_air_m3(mass, molar, lower, 2.0 * exposure).health < air.health
    assert air.needed == max(air.fire, air.health)


@given(molar_masses, lower_limits, st.floats(0.05, 100.0), temperatures, temperatures)
def test_a_hotter_closed_oven_holds_less(molar, lower, oven_m3, a_c, b_c):
    cool, hot = sorted((a_c, b_c))
    most_cool = largest_liquid_in_closed_oven_kg(oven_m3, molar, lower, cool)
    most_hot = largest_liquid_in_closed_oven_kg(oven_m3, molar, lower, hot)
    assert most_hot <= most_cool
    share = vapour_volume_m3(most_cool, molar, cool) / oven_m3
    assert share <= 0.25 * lower * (1.0 + 1e-12)


def test_hot_air_takes_the_factor_on_both_sides_of_its_limit():
    def fire(temperature_c):
        return dilution_air_m3(1.0, 0.058, 0.025, 1e-4, temperature_c).fire

    assert fire(119.9) == fire(21.0)
    assert fire(120.0) == pytest.approx(1.4 * fire(21.0))


@given(st.lists(st.one_of(st.none(), st.floats(0.001, 0.2)), min_size=1))
def test_lowest_limit_is_no_higher_than_any_known(limits):
    known = [limit for limit in limits if limit is not None]
    if known:
        assert lowest_known_limit(limits) == min(known)
    else:
        with pytest.raises(ValueError, match="not harmless"):
            lowest_known_limit(limits)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: lowest_known_limit([0.01, 0.0]), "a limit is 0.0"),
        (lambda: lowest_known_limit([]), "not harmless"),
        (lambda: vapour_volume_m3(-1.0, 0.058), "liquid_kg is -1.0"),
        (lambda: vapour_volume_m3(1.0, 58.08), "molar_mass_kg_mol is 58.08.*g/mol"),
        (lambda: vapour_volume_m3(1.0, 0.058, 393.0), "temperature_c is 393.0.*kelvin"),
        (lambda: dilution_air_m3(1.0, 0.058, 2.5, 1e-4), "lower_limit is 2.5.*per cent"),
        (lambda: dilution_air_m3(1.0, 0.058, 0.025, 500.0), "exposure_limit.*ppm"),
        (
            lambda: dilution_air_m3(1.0, 0.058, 0.025, 1e-4, math.nan),
            "temperature_c is nan",
        ),
        (lambda: batch_oven_exhaust_m3_s(2.0), "liquid_m3 is 2.0 m3.*litres"),
        (lambda: largest_liquid_in_closed_oven_kg(0.0, 0.058, 0.025), "oven_m3 is 0.0"),
    ],
)
def test_ventilation_refuses_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
