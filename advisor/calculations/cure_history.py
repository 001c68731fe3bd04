"""A cure from heat-on until all is cool: temperatures and degree of cure over time."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from math import isfinite

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.heat import HeatHistory, heat_history
from advisor.calculations.heat_and_cure import CuringResin, cured_with
from advisor.calculations.heat_readings import time_reaching_s
from advisor.calculations.heat_stack import Stack
from advisor.calculations.oven_air import AirProgramme
from advisor.calculations.tool_heating import OvenCure
from advisor.calculations.valid_range import positive, within

FloatArray = NDArray[np.float64]

# Longer than this nobody waits for a cure to end, nor after it for a tool to cool [s].
WAITED_S = 7 * 86_400.0
_READINGS = 120  # that are drawn
_EVERY_S = 300.0  # between readings that are looked at
_LEAST_S = 3600.0  # after heat-off, that is looked at


class TooLongError(ValueError):
    """A cure that takes longer than anybody waits for it."""


@dataclass(frozen=True)
class CureHistory:
    """Temperatures and degree of cure of a bagged laminate on its tool over time.

    Attributes
    ----------
    times_s : array
        Times from heat-on to the opening of the bag [s]
    air_c, face_c, middle_c : array
        Oven air, face of the tool, and middle of the laminate, at those times [degC]
    cures : tuple of array or None
        Degree of cure where it is lowest, at those times, for each resin; None for one
        that runs away [-]
    ramp_ends_s, heat_off_s, opens_s : float
        When the air is at the dwell, when it begins to fall, and when all is cool [s]
    """

    times_s: FloatArray
    air_c: FloatArray
    face_c: FloatArray
    middle_c: FloatArray
    cures: tuple[FloatArray | None, ...]
    ramp_ends_s: float
    heat_off_s: float
    opens_s: float


@lru_cache(maxsize=64)
def cure_history(
    stack: Stack,
    heating: OvenCure,
    cooling_k_per_s: float,
    opens_c: float,
    resins: tuple[CuringResin, ...] = (),
    cooled: tuple[str, ...] = ("laminate", "tool"),
) -> CureHistory:
    """Return a whole cure: ramp, dwell and cooling until it may be opened.

    `heat_history` over the air, or `heat_and_cure` for each resin; the temperatures are
    then of the hottest laminate among the resins that do not run away.

    Parameters
    ----------
    stack : Stack
        Layers, with one named "laminate" and one "tool" [-]
    heating : OvenCure
        Air up to the end of the dwell; its start is taken for the room [-]
    cooling_k_per_s : float
        Fall of the air after the dwell [K/s]
    opens_c : float
        Temperature below which the hottest of the layers `cooled` ends the cure [degC]
    resins : tuple of CuringResin
        Resins whose kinetics are followed; none leaves the heat of cure out [-]
    cooled : tuple of str
        Layers whose cooling is waited for [-]

    Returns
    -------
    CureHistory
        Times, temperatures and degrees of cure [-]

    Raises
    ------
    ValueError
        If `cooling_k_per_s` is not above 0 and at most 1 K/s, `opens_c` not above the
        start of the air and at most 450 degC, or as for `heat_history` and
        `heat_and_cure`.
    TooLongError
        If the dwell does not end within 7 days, or all is not cool within 7 more.

    Examples
    --------
    >>> from advisor.calculations.heat_stack import Layer
    >>> stack = Stack((
    ...     Layer("laminate", 0.001, 0.6, 1550.0, 950.0),
    ...     Layer("tool", 0.01, 120.0, 2700.0, 900.0),
    ... ), 20.0, 20.0)
    >>> cure = cure_history(stack, OvenCure(20.0, 80.0, 1 / 60, 7200.0), 3 / 60, 50.0)
    >>> round(cure.ramp_ends_s / 3600, 1), round(cure.heat_off_s / 3600, 1)
    (1.0, 3.0)
    >>> round(float(cure.middle_c[-1]))
    50
    """
    positive("cooling_k_per_s", cooling_k_per_s, 1.0, "K/s", "Was it given in K/min?")
    within("opens_c", opens_c, heating.start_c + 0.1, 450.0, "degC")
    heat_off_s = heating.ramp_s + heating.held_s
    if heat_off_s > WAITED_S:
        raise TooLongError("the dwell does not end within 7 days.")
    whole = _whole(heating, cooling_k_per_s)
    cool_s = partial(_cool_s, heat_off_s=heat_off_s, opens_c=opens_c, cooled=cooled)
    opens_s = _opens_s(stack, whole, heat_off_s, resins, cool_s)
    if not isfinite(opens_s):
        layers = " or ".join(cooled)
        raise TooLongError(f"the {layers} is not down to {opens_c} degC within 7 days.")
    programme = _cut(whole, opens_s)
    cured = [cured_with(stack, programme, heating.start_c, one, _EVERY_S) for one in resins]
    hottest = max((one for one in cured if one), key=lambda one: one.peak_c, default=None)
    if hottest is not None:
        heat = hottest.heat
    else:
        heat = heat_history(stack, programme, heating.start_c, _EVERY_S)
    kept = _kept(heat, (heating.ramp_s, heat_off_s))
    return CureHistory(
        heat.times_s[kept],
        heat.air_c[kept],
        heat.top_c("tool")[kept],
        heat.middle_c("laminate")[kept],
        tuple(one.cure.min(axis=1)[kept] if one else None for one in cured),
        heating.ramp_s,
        heat_off_s,
        opens_s,
    )


def _whole(heating: OvenCure, cooling_k_per_s: float) -> AirProgramme:
    """Return the air of heating, dwell and cooling, as long as it is waited for."""
    falls_s = (heating.dwell_c - heating.start_c) / cooling_k_per_s
    end_s = heating.programme.end_s
    tail = {end_s + falls_s: heating.start_c, end_s + WAITED_S: heating.start_c}
    if falls_s >= WAITED_S:
        tail = {end_s + WAITED_S: heating.dwell_c - cooling_k_per_s * WAITED_S}
    return AirProgramme(
        (*heating.programme.times_s, *tail), (*heating.programme.air_c, *tail.values())
    )


def _opens_s(
    stack: Stack,
    whole: AirProgramme,
    heat_off_s: float,
    resins: Sequence[CuringResin],
    cool_s: Callable[[HeatHistory], float],
) -> float:
    """Return when all is cool, without heat of cure and with each resin's; else infinity.

    The heat of cure keeps a laminate warm for longer: how long, the cure itself tells.
    """
    start_c = whole.air_c[0]
    opens_s = cool_s(heat_history(stack, whole, start_c, 120.0))
    if not (resins and isfinite(opens_s)):
        return opens_s
    until_s = heat_off_s + max(2.0 * (opens_s - heat_off_s), _LEAST_S)
    while True:
        longer = _cut(whole, min(until_s, whole.end_s))
        cured = [cured_with(stack, longer, start_c, one, _EVERY_S) for one in resins]
        latest_s = max((cool_s(one.heat) for one in cured if one), default=opens_s)
        if isfinite(latest_s) or until_s >= whole.end_s:
            return max(opens_s, latest_s)
        until_s += until_s - heat_off_s


def _kept(heat: HeatHistory, corners_s: Sequence[float]) -> NDArray[np.intp]:
    """Return the readings to draw: evenly spread, the corners, and the hottest moments."""
    spread = np.linspace(0, len(heat.times_s) - 1, _READINGS).round().astype(np.intp)
    peaks = [int(heat.top_c("tool").argmax()), int(heat.middle_c("laminate").argmax())]
    corners = [int(np.abs(heat.times_s - one).argmin()) for one in corners_s]
    return np.union1d(spread, [*peaks, *corners])


def _cool_s(
    heat: HeatHistory, heat_off_s: float, opens_c: float, cooled: tuple[str, ...]
) -> float:
    """Return when the hottest of some layers is down to a temperature."""
    hottest_c = np.max([heat.hottest_c(one) for one in cooled], axis=0)
    falls = heat.times_s >= heat_off_s
    return time_reaching_s(heat.times_s[falls], -hottest_c[falls], -opens_c)


def _cut(programme: AirProgramme, end_s: float) -> AirProgramme:
    """Return a programme up to one of its times."""
    kept = [time for time in programme.times_s if time < end_s]
    air_c = [*programme.air_c[: len(kept)], float(programme.at_c([end_s])[0])]
    return AirProgramme((*kept, end_s), tuple(air_c))
