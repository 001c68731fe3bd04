import numpy as np
import pytest

from advisor.calculations.cure import heat_of_cure_j_per_m3
from advisor.calculations.cure_kinetics import (
    RESIN_OF_1982,
    TOUGHENED_RESIN_180C,
    cure_rate_per_s,
)
from advisor.calculations.heat_and_cure import heat_and_cure
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import AirProgramme

MINUTES = np.array([0.0, 30.0, 60.0, 120.0, 240.0, 480.0])


def held(kinetics, temperature_c, times_s, start_cure):
    """Cure of a thin sheet held at one temperature, whose heat is left out."""
    sheet = Layer("sheet", 0.0005, 0.4, 1500.0, 1000.0, cells=1)
    oven = AirProgramme((0.0, times_s[-1]), (temperature_c, temperature_c))
    cured = heat_and_cure(
        Stack((sheet,), 1e5, 1e5), oven, temperature_c, "sheet", 0.0, kinetics, start_cure
    )
    return np.interp(times_s, cured.heat.times_s, cured.cure[:, 0])


# Degree of cure after 30, 60, 120, 240 and 480 min at one temperature, worked with
# another integrator to 1e-9; the second resin from 0.01.
ISOTHERMAL = [
    (RESIN_OF_1982, 0.0, 100.0, (0.1064, 0.1667, 0.2347, 0.2983, 0.5960)),
    (RESIN_OF_1982, 0.0, 120.0, (0.2315, 0.2980, 0.5051, 0.7566, 0.9412)),
    (RESIN_OF_1982, 0.0, 150.0, (0.5329, 0.7451, 0.9241, 0.9933, 0.9999)),
    (RESIN_OF_1982, 0.0, 177.0, (0.8379, 0.9669, 0.9986, 1.0000, 1.0000)),
    (TOUGHENED_RESIN_180C, 0.01, 120.0, (0.0232, 0.0463, 0.1286, 0.3559, 0.5121)),
    (TOUGHENED_RESIN_180C, 0.01, 150.0, (0.1409, 0.3795, 0.6237, 0.6831, 0.7069)),
    (TOUGHENED_RESIN_180C, 0.01, 180.0, (0.5951, 0.7625, 0.8216, 0.8457, 0.8622)),
]


@pytest.mark.parametrize(("resin", "start", "temperature_c", "worked"), ISOTHERMAL)
def test_cure_at_one_temperature(resin, start, temperature_c, worked):
    cure = held(resin.kinetics, temperature_c, MINUTES * 60.0, start)
    assert cure[1:] == pytest.approx(worked, abs=6e-5)


def test_heats_that_do_not_hold_are_refused():
    with pytest.raises(ValueError, match=r"heat_of_reaction_j_per_kg is 473\.6.*kJ/kg"):
        heat_of_cure_j_per_m3(473.6, 1272.0, 0.52)
    with pytest.raises(ValueError, match=r"resin_density_kg_per_m3 is 1\.272.*g/cm3"):
        heat_of_cure_j_per_m3(473.6e3, 1.272, 0.52)
    with pytest.raises(ValueError, match=r"fibre_share is 52\.0.*per cent"):
        heat_of_cure_j_per_m3(473.6e3, 1272.0, 52.0)


def test_rates_that_do_not_hold_are_refused():
    with pytest.raises(ValueError, match=r"cure is 1\.5"):
        cure_rate_per_s(RESIN_OF_1982.kinetics, 120.0, 1.5)
    with pytest.raises(ValueError, match=r"temperature_c is 393\.15 degC"):
        cure_rate_per_s(RESIN_OF_1982.kinetics, 393.15, 0.5)
