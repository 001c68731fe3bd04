"""Time heat and cure of one stack against scipy's BDF on the same cells.

Run it as a script: ``python tests/benchmarks/bench_heat_cure.py``.  Both are held to a
reference by Radau IIA at 1e-9.  BDF is run at falling tolerances, over the whole
programme and piece by piece, with a dense and with a sparse Jacobian; the fastest run
whose temperatures are at least as close as ours is the one compared.  The cure is not
asked of BDF, to its advantage: at that tolerance it is further off than ours.
"""

import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.integrate import solve_ivp
from scipy.sparse import csr_matrix

from advisor.calculations.cure import heat_of_cure_j_per_m3
from advisor.calculations.cure_kinetics import (
    RESIN_OF_1982,
    TOUGHENED_RESIN_180C,
    PublishedResin,
)
from advisor.calculations.heat_and_cure import heat_and_cure
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.oven_air import AirProgramme

START_C = 25.0
RATIO_WANTED = 10.0
SECONDS_WANTED = 0.1
REPEATS = 9


@dataclass(frozen=True)
class Case:
    """One stack, one programme and one resin."""

    title: str
    stack: Stack
    programme: AirProgramme
    resin: PublishedResin
    fibre_share: float
    start_cure: float

    @property
    def heat_j_per_m3(self) -> float:
        """Return the heat of cure of the laminate [J/m3]."""
        resin = self.resin
        return heat_of_cure_j_per_m3(
            resin.heat_of_reaction_j_per_kg, resin.density_kg_per_m3, self.fibre_share
        )


def stack_of(laminate_m: float, tool: Layer) -> Stack:
    """Return a bagged laminate on a tool on a metal shelf."""
    return Stack(
        (
            Layer("bag", 50e-6, 0.25, 1150.0, 1700.0),
            Layer("breather", 0.004, 0.04, 100.0, 1300.0, cells=3),
            Layer("laminate", laminate_m, 0.4135, 1578.0, 862.0, cells=11),
            tool,
            Layer("shelf", 0.003, 50.0, 7850.0, 480.0),
        ),
        film_top_w_per_m2_k=20.0,
        film_bottom_w_per_m2_k=20.0,
    )


BLOCK = Layer("tool", 0.15, 0.12, 500.0, 1000.0, 1.0 / 30.0)
PLATE = Layer("tool", 0.01, 150.0, 2700.0, 900.0, 1.0 / 30.0, cells=31)
HOUR_S = 3600.0
TWO_DWELLS = AirProgramme(
    (0.0, 0.5 * HOUR_S, 3.5 * HOUR_S, 4.2 * HOUR_S, 12.0 * HOUR_S, 15.0 * HOUR_S),
    (25.0, 80.0, 80.0, 120.0, 120.0, 30.0),
)
HOT = AirProgramme(
    (0.0, 0.75 * HOUR_S, 3.0 * HOUR_S, 3.6 * HOUR_S, 10.0 * HOUR_S, 15.0 * HOUR_S),
    (25.0, 110.0, 110.0, 180.0, 180.0, 30.0),
)
CASES = (
    Case("thin on block", stack_of(0.004, BLOCK), TWO_DWELLS, RESIN_OF_1982, 0.52, 0.0),
    Case("thick on block", stack_of(0.015, BLOCK), TWO_DWELLS, RESIN_OF_1982, 0.52, 0.0),
    Case("thin, 180 degC", stack_of(0.004, BLOCK), HOT, TOUGHENED_RESIN_180C, 0.57, 0.01),
    Case("thick, 180 degC", stack_of(0.015, PLATE), HOT, TOUGHENED_RESIN_180C, 0.57, 0.01),
)


class Equations:
    """The same cells as right-hand sides for scipy."""

    def __init__(self, case: Case) -> None:
        self.solved = heat_and_cure(
            case.stack,
            case.programme,
            START_C,
            "laminate",
            case.heat_j_per_m3,
            case.resin.kinetics,
            case.start_cure,
        )
        heat = self.solved.heat
        self.programme, self.kinetics = case.programme, case.resin.kinetics
        self.times_s = heat.times_s
        self.capacities = heat.cells.capacities_j_per_m2_k
        self.links = heat.cells.links_w_per_m2_k
        self.size = self.capacities.size
        place = heat.stack.place_of("laminate")
        self.inside = slice(*heat.cells.starts[place : place + 2])
        heats = case.heat_j_per_m3 * heat.cells.widths_m[self.inside]
        self.rises_k = heats / self.capacities[self.inside]
        count = self.rises_k.size
        self.start = np.concatenate(
            [np.full(self.size, START_C), np.full(count, case.start_cure)]
        )
        self.scales = np.concatenate([np.full(self.size, 100.0), np.ones(count)])

    def __call__(self, time_s: float, state: np.ndarray) -> np.ndarray:
        """Return the rates of change of temperatures and degrees of cure."""
        cells_c, cure = state[: self.size], state[self.size :]
        air_c = np.interp(time_s, self.programme.times_s, self.programme.air_c)
        flux = np.empty(self.size + 1)
        flux[1:-1] = cells_c[:-1] - cells_c[1:]
        flux[0], flux[-1] = air_c - cells_c[0], cells_c[-1] - air_c
        flux *= self.links
        past = cure > self.kinetics.breaks_at
        rates = self.kinetics.rate_per_s(cells_c[self.inside] + 273.15, cure, past)
        result = np.empty(state.size)
        result[: self.size] = (flux[:-1] - flux[1:]) / self.capacities
        result[self.inside] += self.rises_k * rates
        result[self.size :] = rates
        return result

    @property
    def sparsity(self) -> csr_matrix:
        """Return where the Jacobian is not zero."""
        pattern = np.eye(self.start.size)
        for offset in (-1, 1):
            pattern[: self.size, : self.size] += np.eye(self.size, k=offset)
        cells = np.arange(self.size)[self.inside]
        cures = np.arange(self.size, self.start.size)
        pattern[cells, cures] = pattern[cures, cells] = 1.0
        return csr_matrix(pattern)

    def solve(self, method: str, tolerance: float, whole: bool, sparse: bool) -> np.ndarray:
        """Return the states at the times of the result, one row a time."""
        ends_s = self.programme.times_s
        spans = [(ends_s[0], ends_s[-1])] if whole else list(pairwise(ends_s))
        state, rows = self.start, [self.start[None]]
        for begin_s, end_s in spans:
            inside = (self.times_s > begin_s) & (self.times_s <= end_s)
            solution = solve_ivp(
                self,
                (begin_s, end_s),
                state,
                method=method,
                rtol=tolerance,
                atol=tolerance * self.scales,
                t_eval=self.times_s[inside],
                max_step=1800.0,
                jac_sparsity=self.sparsity if sparse else None,
            )
            state = solution.y[:, -1]
            rows.append(solution.y.T)
        return np.vstack(rows)


def best_seconds(*runs: Callable[[], object], repeats: int = REPEATS) -> list[float]:
    """Return the shortest time of each run [s]; they take turns, so load hits all alike."""
    seconds = [float("inf")] * len(runs)
    for _ in range(repeats):
        for place, run in enumerate(runs):
            begin = time.perf_counter()
            run()
            seconds[place] = min(seconds[place], time.perf_counter() - begin)
    return seconds


def close_enough(
    equations: Equations, reference: np.ndarray, error_k: float
) -> list[tuple[float, bool, bool]]:
    """Return the loosest tolerance of each way to run BDF that is at least as close."""
    found = []
    for whole in (True, False):
        for sparse in (True, False):
            for tolerance in 10.0 ** np.arange(-3.0, -9.6, -0.25):
                state = equations.solve("BDF", tolerance, whole, sparse)
                if np.abs(state - reference)[:, : equations.size].max() <= error_k:
                    found.append((float(tolerance), whole, sparse))
                    break
    return found


def compare(case: Case) -> bool:
    """Print one comparison; return whether it is as fast as wanted."""
    equations = Equations(case)
    reference = equations.solve("Radau", 1e-9, whole=False, sparse=False)
    solved = equations.solved
    ours_k = np.abs(solved.heat.cells_c - reference[:, : equations.size]).max()
    ours = np.abs(solved.cure - reference[:, equations.size :]).max()
    ways = close_enough(equations, reference, ours_k)
    our_s, *all_bdf_s = best_seconds(
        lambda: heat_and_cure(
            case.stack,
            case.programme,
            START_C,
            "laminate",
            case.heat_j_per_m3,
            case.resin.kinetics,
            case.start_cure,
        ),
        *(lambda way=way: equations.solve("BDF", *way) for way in ways),
    )
    bdf_s = min(all_bdf_s)
    tolerance, whole, sparse = ways[all_bdf_s.index(bdf_s)]
    wrong = np.abs(equations.solve("BDF", tolerance, whole, sparse) - reference)
    bdf_k, bdf = wrong[:, : equations.size].max(), wrong[:, equations.size :].max()
    name = f"{'whole' if whole else 'pieces'}, {'sparse' if sparse else 'dense'}"
    name += f", {tolerance:.0e}"
    ratio = bdf_s / our_s
    sys.stdout.write(
        f"{case.title}: {equations.size} cells, {equations.times_s[-1] / HOUR_S:.0f} h, "
        f"peak {solved.peak_c:.1f} degC, cure {solved.least_cure:.3f}\n"
        f"  ours  {our_s * 1e3:7.1f} ms  error {ours_k:.1e} K, {ours:.1e} of cure\n"
        f"  BDF   {bdf_s * 1e3:7.1f} ms  error {bdf_k:.1e} K, {bdf:.1e} of cure  ({name})\n"
        f"  ratio {ratio:7.1f}\n"
    )
    return ratio >= RATIO_WANTED and our_s < SECONDS_WANTED


def main() -> int:
    """Run all cases; return 0 if each is fast enough."""
    fast = [compare(case) for case in CASES]
    sys.stdout.write(
        f"{sum(fast)} of {len(fast)} at least {RATIO_WANTED:.0f} times faster than BDF "
        f"and below {SECONDS_WANTED} s\n"
    )
    return 0 if all(fast) else 1


if __name__ == "__main__":
    raise SystemExit(main())
