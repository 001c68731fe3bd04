import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from advisor.calculations.permeable_block import (
    PermeableBlock,
    bag_for_block,
    block_free_air_m3_per_s,
    equalising_s,
    pump_needed_m3_per_s,
    steady_bag_pa,
)
from advisor.calculations.vacuum import leak_rise_pa_per_s

AIR_PA = 101_325.0
AIR_PA_S = 1.82e-5
BLOCK = PermeableBlock(1e-14, 1.0, 0.15)
CUBIC_METRE_PER_HOUR = 1.0 / 3600.0

blocks = st.builds(
    PermeableBlock,
    st.floats(-17.0, -11.0).map(lambda n: 10.0**n),
    st.floats(0.01, 10.0),
    st.floats(0.005, 0.5),
)
pumps = st.floats(1e-5, 0.1)
pressures = st.floats(10.0, AIR_PA)


@given(blocks, pressures)
def test_flow_is_that_of_darcy_s_law_summed_over_the_pressure(block, bag_pa):
    # Mass flow is one through all depths: p k A / (mu p_std) dp/dx.
    factor = block.permeability_m2 * block.area_m2 / AIR_PA_S / AIR_PA
    expected = factor * quad(lambda p: p, bag_pa, AIR_PA)[0] / block.thickness_m
    flow = block_free_air_m3_per_s(block, AIR_PA, bag_pa, AIR_PA_S)
    assert flow == pytest.approx(expected, rel=1e-9, abs=1e-20)


@given(blocks, pumps, st.floats(0.0, 1e-3), st.floats(0.0, 1e4))
def test_pump_takes_away_what_comes_in(block, pump, leak, ultimate_pa):
    bag_pa = steady_bag_pa(block, AIR_PA, pump, AIR_PA_S, leak, ultimate_pa)
    flow = block_free_air_m3_per_s(block, AIR_PA, bag_pa, AIR_PA_S) + leak
    if bag_pa < AIR_PA:
        taken = pump * (bag_pa - ultimate_pa) / AIR_PA
        assert taken == pytest.approx(flow, rel=1e-6, abs=1e-12)
    else:
        assert leak * AIR_PA >= pump * (AIR_PA - ultimate_pa) * (1 - 1e-9)


@given(blocks, st.floats(10.0, 9e4))
def test_pump_needed_holds_its_pressure(block, bag_pa):
    pump = pump_needed_m3_per_s(block, AIR_PA, bag_pa, AIR_PA_S)
    if 0.0 < pump <= 10.0:
        result_pa = steady_bag_pa(block, AIR_PA, pump, AIR_PA_S)
        assert result_pa == pytest.approx(bag_pa, rel=1e-9)


@given(blocks, pumps, st.floats(1.0, 10.0))
def test_surface_bag_is_held_by_a_pump_slower_by_the_margin(block, pump, margin):
    choice = bag_for_block(block, AIR_PA, pump, AIR_PA_S, 5e3, margin)
    slow_pa = steady_bag_pa(block, AIR_PA, pump / margin, AIR_PA_S)
    if choice == "surface":
        assert slow_pa <= 5e3 * (1 + 1e-9)
    else:
        assert slow_pa >= 5e3 * (1 - 1e-9)


@pytest.mark.parametrize(
    ("permeability", "litres_per_min", "at_3", "at_10", "at_25"),
    [
        (1e-16, 0.111, 2.3, 0.7, 0.3),
        (1e-15, 1.11, 23, 6.8, 2.7),
        (1e-14, 11.1, 215, 67, 27),
        (1e-13, 111, 811, 507, 254),
    ],
)
def test_worked_flows_and_pressures(permeability, litres_per_min, at_3, at_10, at_25):
    block = replace(BLOCK, permeability_m2=permeability)
    flow = block_free_air_m3_per_s(block, AIR_PA, 5e3, AIR_PA_S) * 6e4
    assert flow == pytest.approx(litres_per_min, rel=5e-3)
    for speed, mbar in ((3.0, at_3), (10.0, at_10), (25.0, at_25)):
        bag_pa = steady_bag_pa(block, AIR_PA, speed * CUBIC_METRE_PER_HOUR, AIR_PA_S)
        assert bag_pa / 100.0 == pytest.approx(mbar, abs=0.6 if mbar > 20 else 0.06)


@pytest.mark.parametrize(("permeability", "mbar_per_min"), [(1e-16, 22), (1e-15, 225)])
def test_worked_rise_with_the_pump_shut_off(permeability, mbar_per_min):
    block = replace(BLOCK, permeability_m2=permeability)
    flow = block_free_air_m3_per_s(block, AIR_PA, 5e3, AIR_PA_S)
    rise = leak_rise_pa_per_s(5e-3, flow) * 60.0 / 100.0
    assert rise == pytest.approx(mbar_per_min, abs=0.6)


@pytest.mark.parametrize(
    ("permeability", "seconds"),
    [(1e-16, 18 * 3600), (1e-15, 1.8 * 3600), (1e-14, 11 * 60), (1e-13, 65)],
)
def test_worked_times_to_equalise(permeability, seconds):
    block = replace(BLOCK, permeability_m2=permeability)
    assert equalising_s(block, 0.8, 5e4, AIR_PA_S) == pytest.approx(seconds, rel=0.02)


def test_bag_changes_between_the_permeabilities_that_a_common_pump_holds():
    pump = 10.0 * CUBIC_METRE_PER_HOUR
    tight = replace(BLOCK, permeability_m2=1e-15)
    assert bag_for_block(tight, AIR_PA, pump, AIR_PA_S, 5e3, 3.0) == "surface"
    assert bag_for_block(BLOCK, AIR_PA, pump, AIR_PA_S, 5e3, 3.0) == "envelope"


@pytest.mark.parametrize(
    ("field", "value"),
    [("permeability_m2", 0.0), ("area_m2", math.nan), ("thickness_m", 150.0)],
)
def test_blocks_that_cannot_be_are_refused(field, value):
    with pytest.raises(ValueError, match=f"{field} is"):
        replace(BLOCK, **{field: value})


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (block_free_air_m3_per_s, (BLOCK, 1e5, 2e5, AIR_PA_S), "bag_pa is 200000.0"),
        (block_free_air_m3_per_s, (BLOCK, 0.0, 0.0, AIR_PA_S), "outside_pa is 0.0"),
        (block_free_air_m3_per_s, (BLOCK, 1e5, 0.0, 1.82), "viscosity_pa_s is 1.82"),
        (steady_bag_pa, (BLOCK, 1e5, 0.0, AIR_PA_S), "pump_m3_per_s is 0.0"),
        (steady_bag_pa, (BLOCK, 1e5, 1e-3, AIR_PA_S, -1.0), "leak_free_air_m3_per_s"),
        (steady_bag_pa, (BLOCK, 1e5, 1e-3, AIR_PA_S, 0.0, 2e5), "ultimate_pa is"),
        (pump_needed_m3_per_s, (BLOCK, 1e5, 0.0, AIR_PA_S), "bag_pa is 0.0"),
        (bag_for_block, (BLOCK, 1e5, 11.0, AIR_PA_S, 5e3, 3.0), "pump_m3_per_s is 11.0"),
        (bag_for_block, (BLOCK, 1e5, 1e-3, AIR_PA_S, 5e3, 0.5), "pump_margin is 0.5"),
        (equalising_s, (BLOCK, 80.0, 5e4, AIR_PA_S), "porosity is 80.0.*per cent"),
        (equalising_s, (BLOCK, 0.8, 0.0, AIR_PA_S), "mean_pa is 0.0"),
    ],
)
def test_permeable_block_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)
