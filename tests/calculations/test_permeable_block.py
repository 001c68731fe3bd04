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
)

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
