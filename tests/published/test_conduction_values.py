"""Transient conduction against textbook answers and a library."""

import pytest
from pychemengg.heattransfer import transient

from advisor.calculations.heat import heat_history
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import AirProgramme


def library_slab(thickness, conductivity, density, capacity, film, air_c, start_c, time_s):
    slab = transient.NonLumpedSlab(
        thickness=thickness,
        surfacearea=1,
        volume=thickness,
        density=density,
        specificheat=capacity,
        thermalconductivity=conductivity,
        thermaldiffusivity=None,
        heattransfercoefficient=film,
        T_infinity=air_c,
        T_initial=start_c,
    )
    slab.calc_Bi()
    slab.calc_Fo(time=time_s)
    slab.calc_eigenvalues(numberof_eigenvalues_desired=10)
    return slab


def cells_history(thickness, conductivity, density, capacity, film, air_c, start_c, time_s):
    stack = Stack(
        (Layer("slab", thickness, conductivity, density, capacity, cells=201),), film, film
    )
    return heat_history(stack, AirProgramme((0.0, time_s), (air_c, air_c)), start_c)


@pytest.mark.published("pychemengg-library", at="NonLumpedSlab, documented brass plate")
def test_brass_plate_in_a_furnace_as_documented():
    # 4 cm, 20 degC, in air at 500 degC for 7 min; the face after so long needs one term.
    # The cells are not asked above 450 degC, so with half of all temperatures.
    history = cells_history(0.04, 110.0, 8530.0, 380.0, 120.0, 250.0, 10.0, 420.0)
    assert 2.0 * history.top_c("slab")[-1] == pytest.approx(279.764, abs=1e-3)


@pytest.mark.published("pychemengg-library", at="NonLumpedSlab, run")
@pytest.mark.parametrize("time_s", [3600.0, 7200.0, 28800.0])
def test_cells_of_a_block_follow_the_series(time_s):
    block = (0.15, 0.12, 500.0, 1000.0, 20.0, 100.0, 20.0, time_s)
    slab = library_slab(*block)
    history = cells_history(*block)
    for place_m, cells_c in (
        (0.0, history.middle_c("slab")),
        (0.075, history.top_c("slab")),
    ):
        library_c = slab.calc_temperature_of_solid_at_time_t(
            time=time_s, xposition_tofindtemp=place_m
        )
        assert cells_c[-1] == pytest.approx(library_c, abs=0.003)


@pytest.mark.published("conduction-textbook", at="insulated pipe wall; from memory")
def test_pipe_wall_heated_by_oil():
    # 40 mm of steel, -20 degC, oil at 60 degC on one face for 8 min: the book rounds its
    # Biot and Fourier numbers and reads 42.9 and 45.2 degC.
    wall = Stack((Layer("wall", 0.04, 63.9, 7832.0, 434.0, cells=21),), 0.0, 500.0)
    history = heat_history(wall, AirProgramme((0.0, 480.0), (60.0, 60.0)), -20.0)
    assert history.top_c("wall")[-1] == pytest.approx(42.9, abs=0.3)
    assert history.bottom_c("wall")[-1] == pytest.approx(45.2, abs=0.3)
