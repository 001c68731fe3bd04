"""Heat and cure of a laminate together, step by step through an air programme."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.cure_kinetics import BoolArray, Kinetics
from advisor.calculations.cure_polynomials import (
    BASIS,
    HIGHEST,
    INTEGRALS,
    LATER,
    POINTS,
    POWERS,
    StepTable,
    following_part,
    polynomial_at,
    step_table,
)
from advisor.calculations.heat import Modes
from advisor.calculations.oven_air import AirProgramme

FloatArray = NDArray[np.float64]

_ZERO_C_IN_K = 273.15
_FIRST_STEP_S = 300.0
_SHORTEST_STEP_S = 1e-3
_MOST_SWEEPS = 9
# A settled sweep changes the degree of cure by less than this share of the tolerance,
# and a cell as near as that to the break has reached it.
_SETTLED = 0.1
# An error this many times smaller than the tolerance stays below it in a step twice as
# long, since it goes with the fifth power.
_ROOM_TO_DOUBLE = 64.0


class RunawayError(ValueError):
    """The laminate heats itself faster than it loses heat, beyond any kinetics."""


@dataclass(frozen=True)
class CureTrack:
    """Steps of a cure, from which any time can be read.

    Attributes
    ----------
    starts_s, steps_s : array
        Start and length of each step [s]
    starts_cure : array
        Degree of cure of each laminate cell (columns) at each start (rows) [-]
    rates_per_s : array
        Rates of cure by step, point of the step and cell [1/s]
    steady_k : array
        Modes above the air that follow it and the rate of cure, by step, point of the
        step and mode [K]
    passing_k : array
        Modes above the air that die away from the start of each step (rows) [K]
    decays_per_s : array
        Rate of decay of each mode [1/s]
    """

    starts_s: FloatArray
    steps_s: FloatArray
    starts_cure: FloatArray
    rates_per_s: FloatArray
    steady_k: FloatArray
    passing_k: FloatArray
    decays_per_s: FloatArray

    def at(self, times_s: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Return modes above the air [K] and degree of cure [-] at rising times (rows)."""
        step = np.searchsorted(self.starts_s, times_s, "right") - 1
        since_s = times_s - self.starts_s[step]
        share = (since_s / self.steps_s[step])[:, None]
        values = share**POWERS @ BASIS.T
        integrals = share ** (POWERS + 1) / (POWERS + 1) @ BASIS.T
        modes_k = np.exp(-self.decays_per_s * since_s[:, None]) * self.passing_k[step]
        cure = self.starts_cure[step]
        bounds = np.searchsorted(times_s, np.append(self.starts_s, np.inf))
        for row, (first, after) in enumerate(pairwise(bounds)):
            part = slice(first, after)
            modes_k[part] += values[part] @ self.steady_k[row]
            cure[part] += integrals[part] @ (self.steps_s[row] * self.rates_per_s[row])
        return modes_k, cure


class CureSteps:
    """Worker that follows heat and cure of a laminate through an air programme.

    Parameters
    ----------
    modes : Modes
        Modes of the stack [-]
    programme : AirProgramme
        Oven air [-]
    start_c : float
        Temperature of the whole stack at time 0 [degC]
    laminate : slice
        Cells of the laminate [-]
    heats_j_per_m2 : array
        Heat that full cure of each laminate cell sets free [J/m2]
    kinetics : Kinetics
        Kinetics of its resin [-]
    start_cure : float
        Degree of cure at time 0 [-]
    tolerance : float
        Largest share of the highest degree of the rate's polynomial, as degree of cure
        over a step [-]

    Notes
    -----
    The rate of cure in a step is a polynomial through five points, found by repetition
    until it agrees with the kinetics at temperatures that its own heat brings about; heat
    flow is exact, so heat set free and heat found agree to rounding.  Where the rate
    jumps, a step is cut short so that each cell passes the break at the end of one.
    """

    def __init__(
        self,
        modes: Modes,
        programme: AirProgramme,
        start_c: float,
        laminate: slice,
        heats_j_per_m2: FloatArray,
        kinetics: Kinetics,
        start_cure: float,
        tolerance: float,
    ) -> None:
        self.programme, self.kinetics = programme, kinetics
        self.tolerance, self.near = tolerance, _SETTLED * tolerance
        self.shapes = modes.shapes[laminate]
        self.sources_k = self.shapes * heats_j_per_m2[:, None]
        self.decays_per_s = modes.decays_per_s
        self.trailing_s = modes.uniform / self.decays_per_s
        self.tables: dict[float, StepTable] = {}
        self.cure = np.full(self.shapes.shape[0], start_cure)
        self.past: BoolArray = self.cure > kinetics.breaks_at - self.near
        self.time_s, self.air_c = 0.0, programme.air_c[0]
        self.above_k = (start_c - self.air_c) * modes.uniform
        self.last: tuple[float, FloatArray] | None = None
        self.rates_now = self.law_now()
        self.made: list[tuple[float | FloatArray, ...]] = []

    def table(self, step_s: float) -> StepTable:
        """Return the table of a step, made once for each length."""
        found = self.tables.get(step_s)
        if found is None:
            found = step_table(step_s, self.decays_per_s, self.shapes, self.sources_k)
            self.tables[step_s] = found
        return found

    def runaway(self) -> RunawayError:
        """Return the error of a cure that no step is short enough to follow."""
        return RunawayError(
            f"the cure runs away at {self.time_s:.0f} s; thin the laminate or add a cooler "
            "dwell."
        )

    def law_now(self) -> FloatArray:
        """Return the rate of cure of each cell at the start of a step [1/s]."""
        laminate_k = self.air_c + _ZERO_C_IN_K + self.shapes @ self.above_k
        return self.kinetics.rate_per_s(laminate_k, self.cure, self.past)

    def settled(self, step_s: float, slope: float, rates: FloatArray) -> FloatArray | None:
        """Return rates that agree with the kinetics, from a first guess, or None."""
        table = self.table(step_s)
        trailing = slope * self.trailing_s
        modes = table.decay * (self.above_k + trailing) - trailing
        air_k = self.air_c + _ZERO_C_IN_K + slope * step_s * LATER
        base_k = air_k + modes @ self.shapes.T
        integrals = step_s * INTEGRALS
        small, largest = self.near / step_s, 1.0 / step_s
        for _ in range(_MOST_SWEEPS):
            rise_k = table.to_laminate @ rates.ravel()
            cure = self.cure + integrals @ rates
            found = self.kinetics.rate_per_s(base_k + rise_k, cure, self.past)
            change = np.abs(found - rates[1:]).max()
            rates[1:] = found
            if change < small:
                return rates
            if not change < largest:
                break
        return None

    def first_break(self, step_s: float, rates: FloatArray) -> float | None:
        """Return the share of a step at which the first cell passes the break, or None."""
        limit = self.kinetics.breaks_at
        end = self.cure + step_s * (INTEGRALS[-1] @ rates)
        passing = ~self.past & (end > limit)
        if not passing.any():
            return None
        terms = step_s * (BASIS.T @ rates[:, passing])
        begin = self.cure[passing]
        share = (limit - begin) / (end[passing] - begin)
        for _ in range(5):
            powers = terms * share ** POWERS[:, None]
            gained = share * (powers / (POWERS[:, None] + 1)).sum(axis=0)
            share = share - (begin + gained - limit) / powers.sum(axis=0)
        return float(share.min())

    def accept(self, step_s: float, slope: float, rates: FloatArray) -> None:
        """Move to the end of a step, and past the break the cells that have reached it."""
        table = self.table(step_s)
        forcing = rates @ self.sources_k
        gained = (table.gain_s * forcing).sum(axis=1)
        trailing = slope * self.trailing_s
        passing = self.above_k + trailing
        follows = following_part(step_s, self.decays_per_s, forcing)
        steady = np.concatenate([follows[None], gained + table.decay * follows])
        made = (steady - trailing, passing - follows)
        self.made.append((self.time_s, step_s, self.cure, rates, *made))
        self.above_k = table.decay[-1] * passing - trailing + gained[-1]
        self.time_s += step_s
        self.air_c += slope * step_s
        self.cure = self.cure + step_s * (INTEGRALS[-1] @ rates)
        at_break = ~self.past & (self.cure > self.kinetics.breaks_at - self.near)
        if at_break.any():
            self.past = self.past | at_break
            self.last, self.rates_now = None, self.law_now()
        else:
            self.last, self.rates_now = (step_s, rates), rates[-1]

    def guess(self, step_s: float) -> FloatArray:
        """Return rates to start from: the last step's polynomial, carried on."""
        if self.last is None:
            return np.tile(self.rates_now, (POINTS.size, 1))
        last_s, rates = self.last
        carried = polynomial_at(1.0 + POINTS * (step_s / last_s), rates)
        carried[0] = self.rates_now
        return np.clip(carried, 0.0, 1.0 / step_s)

    def step(self, want_s: float, left_s: float, slope: float) -> float:
        """Make one step of about the length wanted; return the length to want next."""
        step_s = want_s if left_s >= 2.0 * want_s else left_s / np.ceil(left_s / want_s)
        found = self.settled(step_s, slope, self.guess(step_s))
        error = np.inf if found is None else step_s * np.abs(HIGHEST @ found).max()
        if found is None or error > self.tolerance:
            if found is None:
                self.last = None
            if step_s < _SHORTEST_STEP_S:
                raise self.runaway()
            return step_s / 2.0
        share = self.first_break(step_s, found)
        if share is not None:
            step_s, guess = share * step_s, polynomial_at(share * POINTS, found)
            found = self.settled(step_s, slope, guess)
            if found is None:
                raise self.runaway()
        self.accept(step_s, slope, found)
        room = share is None and error * _ROOM_TO_DOUBLE < self.tolerance
        return 2.0 * want_s if room else want_s

    def follow(self) -> CureTrack:
        """Return the steps through the whole programme."""
        want_s = _FIRST_STEP_S
        knots = zip(self.programme.times_s, self.programme.air_c, strict=True)
        for (start_s, start_c), (end_s, end_c) in pairwise(knots):
            slope = (end_c - start_c) / (end_s - start_s)
            self.time_s, self.air_c = start_s, start_c
            while (left_s := end_s - self.time_s) > _SHORTEST_STEP_S:
                want_s = self.step(want_s, left_s, slope)
        starts_s, steps_s, cure, rates, steady, passing = (
            np.array(column) for column in zip(*self.made, strict=True)
        )
        return CureTrack(starts_s, steps_s, cure, rates, steady, passing, self.decays_per_s)
