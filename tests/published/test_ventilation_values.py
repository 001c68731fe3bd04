"""Vapour and air against printed constants and a library's flammability limits."""

import chemicals
import pytest
from scipy import constants

from advisor.calculations.ventilation import (
    batch_oven_exhaust_m3_s,
    dilution_air_m3,
    largest_liquid_in_closed_oven_kg,
    lowest_known_limit,
    vapour_volume_m3,
)

FT3 = 0.3048**3
GALLON = 3.785411784e-3
PINT_KG = 0.473176473  # a US pint of liquid of specific gravity 1

# Substance, CAS, lower limit taken and all of the library's, in its order of methods.
LIMITS = [
    ("acetone", "67-64-1", 0.025, [0.025, 0.025, 0.025]),
    ("isopropanol", "67-63-0", 0.02, [0.02, 0.02, 0.02]),
    ("ethanol", "64-17-5", 0.031, [0.031, 0.033, 0.033]),
    ("methyl ethyl ketone", "78-93-3", 0.014, [0.015, 0.014, 0.014]),
    ("toluene", "108-88-3", 0.010, [0.01, 0.011, 0.011]),
    ("styrene", "100-42-5", 0.009, [0.01, 0.009, 0.009]),
]


def library_limits(cas):
    return [
        chemicals.LFL(CASRN=cas, method=method)
        for method in chemicals.LFL_methods(CASRN=cas)
    ]


@pytest.mark.published("chemicals-flammability", at="LFL by method")
@pytest.mark.parametrize(
    ("cas", "lowest", "limits"), [row[1:] for row in LIMITS], ids=[row[0] for row in LIMITS]
)
def test_lowest_limit_of_the_library_s_methods_is_taken(cas, lowest, limits):
    assert library_limits(cas) == limits
    assert lowest_known_limit(library_limits(cas)) == lowest


@pytest.mark.published("chemicals-flammability", at="LFL of a peroxide, None")
def test_substance_without_a_limit_is_refused():
    peroxide = chemicals.LFL(CASRN="1338-23-4")
    assert peroxide is None
    with pytest.raises(ValueError, match="not harmless"):
        lowest_known_limit([peroxide])


@pytest.mark.published("chemicals-flammability", at="LFL and MW")
@pytest.mark.parametrize("cas", [row[1] for row in LIMITS], ids=[row[0] for row in LIMITS])
def test_closed_oven_at_its_most_is_at_a_quarter_of_the_library_s_limit(cas):
    lower = lowest_known_limit(library_limits(cas))
    molar = chemicals.MW(cas) * 1e-3
    most_kg = largest_liquid_in_closed_oven_kg(0.5, molar, lower, 100.0)
    pressure_pa = most_kg / molar * constants.R * 373.15 / 0.5
    for limit in library_limits(cas):
        assert pressure_pa / 101325.0 <= 0.25 * limit * (1.0 + 1e-9)


@pytest.mark.published("dilution-training-page", at="387 ft3 a pound-mole")
def test_volume_of_a_pound_mole(as_printed):
    # A pound of a vapour of 1 lb/lb-mol would be 387 ft3; so is 29 lb of 29.
    volume_m3 = vapour_volume_m3(29.0 * 0.45359237, 0.029)
    assert volume_m3 / FT3 == as_printed("387")


@pytest.mark.published("university-ventilation-formulae", at="Q = 403e6 SG ER / (MW C)")
@pytest.mark.parametrize(("gravity", "molar", "ppm"), [(0.791, 58.08, 500.0), (1, 100, 20)])
def test_air_for_health_has_the_printed_constant(gravity, molar, ppm, as_printed):
    rate_kg_s = gravity * PINT_KG / 60.0
    flow = dilution_air_m3(rate_kg_s, molar * 1e-3, 0.02, ppm * 1e-6)  # a second
    cubic_feet_a_minute = flow.health / FT3 * 60.0
    assert cubic_feet_a_minute * molar * ppm / (1e6 * gravity) == as_printed("403")


@pytest.mark.published("nfpa-86-notes", at="12,000 ft3/gal (90 m3/L), as quoted")
@pytest.mark.parametrize(
    ("name", "density", "molar", "lower", "enough"),
    [
        ("acetone", 791.0, 58.08, 0.025, True),
        ("methyl ethyl ketone", 805.0, 72.11, 0.014, True),
        ("toluene", 867.0, 92.14, 0.010, False),
        ("styrene", 906.0, 104.15, 0.009, False),
    ],
)
def test_the_quoted_rule_of_thumb_is_near_but_not_always_enough(
    name, density, molar, lower, enough
):
    rule_m3 = 12_000.0 * FT3 / GALLON * 1e-3
    needed_m3 = dilution_air_m3(density * 1e-3, molar * 1e-3, lower, 1e-4).fire
    assert (needed_m3 <= rule_m3) is enough
    assert needed_m3 == pytest.approx(rule_m3, rel=0.45)


@pytest.mark.published("memory-oven-code", at="batch ovens, 440 scfm a gallon; from memory")
def test_least_exhaust_of_a_batch_oven(as_printed):
    found = batch_oven_exhaust_m3_s(GALLON) / FT3 * 60.0
    assert found == pytest.approx(440.0, abs=0.5)
