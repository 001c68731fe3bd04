import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.calculations.cure_kinetics import RESIN_OF_1982, TOUGHENED_RESIN_180C
from advisor.calculations.heat_and_cure import CuringResin
from advisor.calculations.heat_stack import Layer
from advisor.calculations.tool_heating import (
    OvenCure,
    heat_up,
    own_heat,
    stack_of,
)

BREATHER = Layer("breather", 0.002, 0.04, 75.0, 1300.0)
BLOCK = Layer("tool", 0.15, 0.12, 500.0, 1000.0)
PLATE = Layer("tool", 0.01, 150.0, 2700.0, 900.0)
HEAT_1982 = 289.2e6


def laminate(thickness_m):
    return Layer("laminate", thickness_m, 0.6, 1550.0, 950.0)


def oven(dwell_c=90.0, ramp=1.0, hours=24.0):
    return OvenCure(20.0, dwell_c, ramp / 60.0, hours * 3600.0)


def bagged(tool=BLOCK, thickness_m=0.001, film=20.0, all_round=False):
    return stack_of(BREATHER, laminate(thickness_m), tool, film, all_round)


def test_a_block_lags_far_more_than_a_plate():
    block, plate = (heat_up(bagged(tool), oven(), 5.0) for tool in (BLOCK, PLATE))
    assert block.delay_s > 4.0 * plate.delay_s
    assert block.lag_k > plate.lag_k
    assert plate.core_k < 0.5


@settings(max_examples=25)
@given(st.floats(5.0, 30.0), st.floats(0.02, 0.3), st.floats(0.1, 3.0))
def test_brisker_air_never_heats_later(film, thickness_m, ramp):
    tool = Layer("tool", thickness_m, 0.12, 500.0, 1000.0)
    slow, brisk = (
        heat_up(bagged(tool, film=one), oven(ramp=ramp), 5.0) for one in (film, 2.0 * film)
    )
    assert brisk.reached_s <= slow.reached_s + 1e-6
    assert brisk.lag_k <= slow.lag_k + 1e-9


@settings(max_examples=25)
@given(st.floats(0.02, 0.3), st.floats(0.1, 2.0))
def test_slower_ramp_lags_less(thickness_m, ramp):
    tool = Layer("tool", thickness_m, 0.12, 500.0, 1000.0)
    fast, slow = (heat_up(bagged(tool), oven(ramp=one), 5.0) for one in (ramp, ramp / 2))
    assert slow.lag_k <= fast.lag_k + 1e-9
    assert slow.core_k <= fast.core_k + 1e-9
    assert slow.reached_s >= fast.reached_s - 1e-6


def test_a_cure_at_room_temperature_needs_no_waiting():
    heated = heat_up(bagged(), oven(dwell_c=20.0), 5.0)
    assert (heated.reached_s, heated.delay_s) == (0.0, 0.0)
    assert heated.lag_k == pytest.approx(0.0, abs=1e-9)


def test_a_laminate_that_is_never_warm_waits_to_the_end():
    steel = Layer("tool", 2.0, 45.0, 7850.0, 480.0)
    heated = heat_up(bagged(steel), oven(hours=6.0), 5.0)
    assert heated.reached_s == pytest.approx(oven(hours=6.0).programme.end_s)


def test_laminate_round_a_core_heats_it_alike_from_both_sides():
    around, above = (heat_up(bagged(all_round=one), oven(), 5.0) for one in (True, False))
    assert around.reached_s > above.reached_s  # the second bag keeps heat from the core


def test_thick_laminate_on_a_block_gets_hotter_than_thin():
    hot = oven(120.0, 2.0, 10.0)
    thin, thick = (
        own_heat(
            bagged(thickness_m=one), hot, CuringResin(RESIN_OF_1982, HEAT_1982, 0.0)
        ).peak_c
        for one in (0.002, 0.02)
    )
    assert thin < 122.0
    assert thick > thin + 10.0


def test_an_insulator_keeps_the_heat_that_a_plate_takes_away():
    hot = oven(120.0, 2.0, 10.0)
    on_block, on_plate = (
        own_heat(bagged(one, 0.02), hot, CuringResin(RESIN_OF_1982, HEAT_1982, 0.0)).peak_c
        for one in (BLOCK, PLATE)
    )
    assert on_block > on_plate


def test_a_laminate_past_what_any_law_holds_for_is_put_at_its_limit():
    hot = oven(180.0, 5.0, 5.0)
    stack = bagged(thickness_m=0.15)
    peak_c = own_heat(stack, hot, CuringResin(TOUGHENED_RESIN_180C, 300e6, 0.02)).peak_c
    assert peak_c <= 250.0
    assert own_heat(stack, hot, CuringResin(RESIN_OF_1982, HEAT_1982, 0.0)).peak_c == 250.0
