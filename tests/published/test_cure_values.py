"""Cure of two published resins against their sources and a library."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from advisor.calculations.cure_kinetics import (
    RESIN_OF_1982,
    TOUGHENED_RESIN_180C,
    cure_rate_per_s,
)
from advisor.calculations.heat_and_cure import heat_and_cure
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import AirProgramme


@pytest.mark.published("lee-loos-springer-1982", at="constants, transcribed")
@pytest.mark.parametrize("temperature_c", [100.0, 120.0, 150.0, 177.0])
@pytest.mark.parametrize("cure", [0.0, 0.1, 0.2, 0.3])
def test_first_stage_of_the_resin_of_1982(temperature_c, cure):
    kelvin = 8.314 * (temperature_c + 273.15)
    first = 2.101e9 * math.exp(-8.07e4 / kelvin)
    second = -2.014e9 * math.exp(-7.78e4 / kelvin)
    per_minute = (first + second * cure) * (1.0 - cure) * (0.47 - cure)
    rate = cure_rate_per_s(RESIN_OF_1982.kinetics, temperature_c, cure)
    assert rate * 60.0 == pytest.approx(per_minute, rel=1e-12)


@pytest.mark.published("lee-loos-springer-1982", at="constants, transcribed")
@pytest.mark.parametrize("cure", [0.31, 0.6, 1.0])
def test_second_stage_of_the_resin_of_1982(cure):
    per_minute = 1.960e5 * math.exp(-5.66e4 / (8.314 * 393.15)) * (1.0 - cure)
    rate = cure_rate_per_s(RESIN_OF_1982.kinetics, 120.0, cure)
    assert rate * 60.0 == pytest.approx(per_minute, rel=1e-12)


@pytest.mark.published(
    "lee-loos-springer-1982", at="heat of reaction, density; transcribed"
)
def test_heat_of_reaction_of_the_resin_of_1982(as_printed):
    assert RESIN_OF_1982.heat_of_reaction_j_per_kg == as_printed("473.6", scale=1e3)
    assert RESIN_OF_1982.density_kg_per_m3 == as_printed("1272")


@pytest.mark.published("hubert-johnston-2001", at="constants, transcribed")
@pytest.mark.parametrize("temperature_c", [110.0, 150.0, 180.0])
@pytest.mark.parametrize("cure", [0.01, 0.3, 0.6, 0.8])
def test_rate_of_the_toughened_resin(temperature_c, cure):
    kelvin = temperature_c + 273.15
    free = 1.528e5 * math.exp(-66500.0 / (8.314 * kelvin)) * cure**0.8129
    slowed = 1.0 + math.exp(43.09 * (cure + 1.684 - 5.475e-3 * kelvin))
    rate = cure_rate_per_s(TOUGHENED_RESIN_180C.kinetics, temperature_c, cure)
    assert rate == pytest.approx(free * (1.0 - cure) ** 2.736 / slowed, rel=1e-12)


@pytest.mark.published("hubert-johnston-2001", at="heat of reaction, density; transcribed")
def test_heat_of_reaction_of_the_toughened_resin(as_printed):
    assert TOUGHENED_RESIN_180C.heat_of_reaction_j_per_kg == as_printed("540", scale=1e3)
    assert TOUGHENED_RESIN_180C.density_kg_per_m3 == as_printed("1300")


@pytest.mark.published("hubert-johnston-2001", at="a_C at 453.15 K, from its constants")
def test_degree_of_cure_at_which_the_toughened_resin_slows_down(as_printed):
    stops_near = TOUGHENED_RESIN_180C.kinetics.stops_near
    assert stops_near(453.15) == as_printed("0.797")
    assert stops_near(393.15) == as_printed("0.468")


@pytest.mark.published("scipy-integration", at="integrate.solve_ivp, run")
@pytest.mark.parametrize(
    ("resin", "start_cure", "fibre_share", "laminate_m"),
    [(RESIN_OF_1982, 0.0, 0.52, 0.008), (TOUGHENED_RESIN_180C, 0.02, 0.57, 0.006)],
)
def test_heat_and_cure_of_a_bagged_laminate(resin, start_cure, fibre_share, laminate_m):
    stack = Stack(
        (
            Layer("breather", 0.004, 0.04, 100.0, 1300.0, cells=3),
            Layer("laminate", laminate_m, 0.4135, 1578.0, 862.0, cells=7),
            Layer("block", 0.06, 0.12, 500.0, 1000.0, cells=15),
        ),
        20.0,
        20.0,
    )
    oven = AirProgramme((0.0, 3000.0, 15000.0, 21000.0), (25.0, 140.0, 140.0, 40.0))
    volume = (1.0 - fibre_share) * resin.density_kg_per_m3
    heat_j_per_m3 = volume * resin.heat_of_reaction_j_per_kg
    own = heat_and_cure(
        stack, oven, 25.0, "laminate", heat_j_per_m3, resin.kinetics, start_cure, 300.0
    )
    cells = own.heat.cells
    count, inside = cells.widths_m.size, slice(3, 10)
    rises_k = heat_j_per_m3 * cells.widths_m[inside] / cells.capacities_j_per_m2_k[inside]

    def rates(time_s, state):
        cells_c, cure = state[:count], state[count:]
        air_c = np.interp(time_s, oven.times_s, oven.air_c)
        flux = cells.links_w_per_m2_k * -np.diff(
            np.concatenate([[air_c], cells_c, [air_c]])
        )
        change = -np.diff(flux) / cells.capacities_j_per_m2_k
        past = cure > resin.kinetics.breaks_at
        rate = resin.kinetics.rate_per_s(cells_c[inside] + 273.15, cure, past)
        change[inside] += rises_k * rate
        return np.concatenate([change, rate])

    start = np.concatenate([np.full(count, 25.0), np.full(7, start_cure)])
    solution = solve_ivp(
        rates,
        (0.0, oven.end_s),
        start,
        method="BDF",
        t_eval=own.heat.times_s,
        rtol=1e-8,
        atol=1e-8,
        max_step=600.0,
    )
    library = solution.y.T
    assert np.abs(own.heat.cells_c - library[:, :count]).max() < 2e-3
    assert np.abs(own.cure - library[:, count:]).max() < 2e-5
