"""A bagged laminate on its tool in the oven: when it is warm, and how far it lags."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import isfinite

from advisor.calculations.heat import heat_history
from advisor.calculations.heat_and_cure import CuringResin, cured_with
from advisor.calculations.heat_readings import (
    lag_k,
    largest_differences_k,
    time_reaching_s,
)
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.listed_cure import ListedCure, listed_share, time_cured_s
from advisor.calculations.oven_air import AirProgramme, programme_of_ramps

# The most that a layer may measure; heat never crosses so thick a body within a cure.
THICKEST_M = 2.0
_MOST_READINGS = 600
# No kinetics hold above this.
_HOTTEST_C = 250.0


@dataclass(frozen=True)
class OvenCure:
    """Air of a cure: one ramp and one dwell.

    Attributes
    ----------
    start_c, dwell_c : float
        Air and load at the start, and air in the dwell [degC]
    ramp_k_per_s : float
        Rise of the air [K/s]
    held_s : float
        How long the air is held [s]
    """

    start_c: float
    dwell_c: float
    ramp_k_per_s: float
    held_s: float

    @property
    def ramp_s(self) -> float:
        """Return how long the air rises [s]."""
        return abs(self.dwell_c - self.start_c) / self.ramp_k_per_s

    @property
    def programme(self) -> AirProgramme:
        """Return the air over time."""
        return programme_of_ramps(
            self.start_c, (self.dwell_c,), (self.ramp_k_per_s,), (self.held_s,)
        )


@dataclass(frozen=True)
class HeatUp:
    """What is read from the heating of a tool with its laminate.

    Attributes
    ----------
    reached_s : float
        When the coldest point of the laminate is in the band of the dwell; the end of
        the hold if it never is [s]
    delay_s : float
        The same, counted from the air at temperature [s]
    lag_k : float
        Air less the coldest point of the laminate at the end of the ramp [K]
    core_k : float
        Largest difference between core and the hotter face of the tool, heating [K]
    """

    reached_s: float
    delay_s: float
    lag_k: float
    core_k: float


def stack_of(
    breather: Layer, laminate: Layer, tool: Layer, film_w_per_m2_k: float, all_round: bool
) -> Stack:
    """Return the stack from the bag down.

    Parameters
    ----------
    breather, laminate, tool : Layer
        Layers from the bag down [-]
    film_w_per_m2_k : float
        Coefficient of heat transfer on both sides [W/(m2 K)]
    all_round : bool
        Whether laminate and breather go round the tool, as round a core [-]

    Returns
    -------
    Stack
        The stack; its laminate is the layer named as `laminate` [-]
    """
    layers = [breather, laminate, tool]
    if all_round:
        layers += [
            replace(laminate, name="laminate below"),
            replace(breather, name="breather below"),
        ]
    return Stack(tuple(layers), film_w_per_m2_k, film_w_per_m2_k)


@lru_cache(maxsize=512)
def heat_up(stack: Stack, cure: OvenCure, band_k: float) -> HeatUp:
    """Return when a laminate is warm and how far laminate and core lag.

    `heat_history` read at the coldest point of the layers "laminate" and "tool"; the heat
    of cure is left out.

    Parameters
    ----------
    stack : Stack
        Layers, with one named "laminate" and one "tool" [-]
    cure : OvenCure
        Air [-]
    band_k : float
        Half width of the band round the dwell in which its time counts [K]

    Returns
    -------
    HeatUp
        Times and differences [-]

    Raises
    ------
    ValueError
        As for `heat_history`.

    Examples
    --------
    >>> stack = stack_of(
    ...     Layer("breather", 0.002, 0.04, 75.0, 1300.0),
    ...     Layer("laminate", 0.001, 0.6, 1550.0, 950.0),
    ...     Layer("tool", 0.2, 0.125, 500.0, 1000.0), 20.0, all_round=False,
    ... )
    >>> heated = heat_up(stack, OvenCure(20.0, 90.0, 0.3 / 60.0, 86400.0), 5.0)
    >>> round(heated.delay_s / 3600.0, 1), round(heated.core_k)
    (4.5, 52)
    """
    programme = cure.programme
    every_s = min(3600.0, max(60.0, programme.end_s / _MOST_READINGS))
    history = heat_history(stack, programme, cure.start_c, every_s)
    coldest_c = history.coldest_c("laminate")
    reached_s = time_reaching_s(history.times_s, coldest_c, cure.dwell_c - band_k)
    reached_s = reached_s if isfinite(reached_s) else programme.end_s
    return HeatUp(
        reached_s,
        max(0.0, reached_s - cure.ramp_s),
        lag_k(history.times_s, history.air_c, coldest_c, cure.ramp_s),
        max(
            largest_differences_k(face_c, history.middle_c("tool"))[0]
            for face_c in (history.top_c("tool"), history.bottom_c("tool"))
        ),
    )


@lru_cache(maxsize=512)
def cooled_s(stack: Stack, cooling: OvenCure, target_c: float) -> float:
    """Return when the hottest of a tool is down to a temperature.

    `heat_history` of a stack that is warm through when the air begins to fall.

    Parameters
    ----------
    stack : Stack
        Layers, with one named "tool" [-]
    cooling : OvenCure
        Air from the dwell down to the room [-]
    target_c : float
        Temperature to reach [degC]

    Returns
    -------
    float
        Time from the start of the fall; infinite if not while the air is held [s]

    Raises
    ------
    ValueError
        As for `heat_history`.

    Examples
    --------
    >>> stack = stack_of(
    ...     Layer("breather", 0.002, 0.04, 75.0, 1300.0),
    ...     Layer("laminate", 0.001, 0.6, 1550.0, 950.0),
    ...     Layer("tool", 0.2, 0.125, 500.0, 1000.0), 20.0, all_round=False,
    ... )
    >>> falling = OvenCure(90.0, 20.0, 0.1 / 60.0, 86400.0)
    >>> round(cooled_s(stack, falling, 40.0) / 3600.0, 1)
    14.9
    """
    programme = cooling.programme
    every_s = min(3600.0, max(60.0, programme.end_s / _MOST_READINGS))
    history = heat_history(stack, programme, cooling.start_c, every_s)
    return time_reaching_s(history.times_s, -history.hottest_c("tool"), -target_c)


@lru_cache(maxsize=512)
def listed_cure_s(
    stack: Stack, cure: OvenCure, listed: tuple[ListedCure, ...], band_k: float
) -> float:
    """Return when the coldest of the laminate has had the whole of a listed cure.

    `listed_share` along `heat_history`; the heat of cure is left out.

    Parameters
    ----------
    stack : Stack
        Layers, with one named "laminate" [-]
    cure : OvenCure
        Air [-]
    listed : tuple of ListedCure
        Lines of the maker's table [-]
    band_k : float
        How far below a listed temperature its time still counts [K]

    Returns
    -------
    float
        Time from heat-on; infinite if it is not cured while the air is held [s]

    Raises
    ------
    ValueError
        As for `heat_history` and `listed_share`.

    Examples
    --------
    >>> stack = stack_of(
    ...     Layer("breather", 0.002, 0.04, 75.0, 1300.0),
    ...     Layer("laminate", 0.001, 0.6, 1550.0, 950.0),
    ...     Layer("tool", 0.01, 120.0, 2700.0, 900.0), 20.0, all_round=False,
    ... )
    >>> oven = OvenCure(20.0, 80.0, 1.0 / 60.0, 20 * 3600.0)
    >>> sheet = (ListedCure(80.0, 8 * 3600.0),)
    >>> round(listed_cure_s(stack, oven, sheet, 5.0) / 3600.0, 1)
    9.3
    """
    programme = cure.programme
    history = heat_history(stack, programme, cure.start_c, 60.0)
    share = listed_share(history.times_s, history.coldest_c("laminate"), listed, band_k)
    return time_cured_s(history.times_s, share)


@dataclass(frozen=True)
class CuredLaminate:
    """What the heat of a published resin would do to a laminate.

    Attributes
    ----------
    peak_c : float
        Highest temperature of the laminate, 250 degC at most [degC]
    least_cure : float
        Degree of cure at the end where it is lowest; 1 where it runs away [-]
    """

    peak_c: float
    least_cure: float


@lru_cache(maxsize=64)
def own_heat(stack: Stack, cure: OvenCure, resin: CuringResin) -> CuredLaminate:
    """Return how hot and how far cured the laminate would get, were its resin this one.

    `heat_and_cure` over the air; 250 degC where it gets hotter or runs away.

    Parameters
    ----------
    stack : Stack
        Layers, with one named "laminate" [-]
    cure : OvenCure
        Air [-]
    resin : CuringResin
        What the laminate is taken to be of [-]

    Returns
    -------
    CuredLaminate
        Peak and least degree of cure [-]

    Raises
    ------
    ValueError
        As for `heat_and_cure`, save for a laminate that gets too hot.

    Notes
    -----
    The laminate below a core gives its heat off unseen: it is in the stack without it.

    Examples
    --------
    >>> from advisor.calculations.cure_kinetics import RESIN_OF_1982
    >>> stack = stack_of(
    ...     Layer("breather", 0.002, 0.04, 75.0, 1300.0),
    ...     Layer("laminate", 0.02, 0.6, 1550.0, 950.0),
    ...     Layer("tool", 0.15, 0.125, 500.0, 1000.0), 20.0, all_round=False,
    ... )
    >>> oven = OvenCure(20.0, 120.0, 1.0 / 60.0, 36000.0)
    >>> own = own_heat(stack, oven, CuringResin(RESIN_OF_1982, 289.2e6, 0.0))
    >>> own.peak_c > 130.0, own.least_cure > 0.95
    (True, True)
    """
    cured = cured_with(stack, cure.programme, cure.start_c, resin, 300.0)
    if cured is None:
        return CuredLaminate(_HOTTEST_C, 1.0)
    return CuredLaminate(cured.peak_c, cured.least_cure)
