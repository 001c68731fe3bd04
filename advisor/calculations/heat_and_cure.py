"""Heat through a stack and cure of its laminate, each driving the other."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.cure_kinetics import (
    Kinetics,
    PublishedResin,
    check_cure_temperature,
)
from advisor.calculations.cure_steps import CureSteps, RunawayError
from advisor.calculations.heat import HeatHistory, modes_of, times_of
from advisor.calculations.heat_stack import Stack, cells_of
from advisor.calculations.oven_air import AirProgramme
from advisor.calculations.valid_range import within

FloatArray = NDArray[np.float64]

_FEWEST_LAMINATE_CELLS = 9


@dataclass(frozen=True)
class HeatAndCure:
    """Temperatures of a stack and degree of cure of its laminate over time.

    Attributes
    ----------
    heat : HeatHistory
        Temperatures [-]
    laminate : str
        Name of the layer that cures [-]
    cure : array
        Degree of cure of each of its cells (columns) at the times of `heat` (rows) [-]
    """

    heat: HeatHistory
    laminate: str
    cure: FloatArray

    @property
    def peak_c(self) -> float:
        """Return the highest temperature of the laminate at any time [degC]."""
        return float(self.heat.layer_c(self.laminate).max())

    @property
    def peak_s(self) -> float:
        """Return when the laminate is at its hottest [s]."""
        row = int(self.heat.layer_c(self.laminate).max(axis=1).argmax())
        return float(self.heat.times_s[row])

    @property
    def overshoot_k(self) -> float:
        """Return how far the laminate gets above the hottest air, or 0 [K]."""
        return max(0.0, self.peak_c - float(self.heat.air_c.max()))

    @property
    def least_cure(self) -> float:
        """Return the degree of cure at the end where it is lowest [-]."""
        return float(self.cure[-1].min())


@dataclass(frozen=True)
class CuringResin:
    """A published resin that a laminate is taken to be of.

    Attributes
    ----------
    resin : PublishedResin
        Its kinetics [-]
    heat_j_per_m3 : float
        Heat of full cure of the laminate [J/m3]
    start_cure : float
        Degree of cure at the start, where the kinetics cannot start from 0 [-]
    """

    resin: PublishedResin
    heat_j_per_m3: float
    start_cure: float


def cured_with(
    stack: Stack,
    programme: AirProgramme,
    start_c: float,
    resin: CuringResin,
    every_s: float,
) -> HeatAndCure | None:
    """Return the cure of the layer "laminate" with a resin; None where it runs away.

    Parameters
    ----------
    stack, programme, start_c, every_s
        As for `heat_and_cure`
    resin : CuringResin
        What the laminate is taken to be of [-]

    Returns
    -------
    HeatAndCure or None
        Temperatures and degree of cure over time [-]

    Raises
    ------
    ValueError
        As for `heat_and_cure`, save for a laminate that gets too hot.
    """
    kinetics = resin.resin.kinetics
    start = resin.start_cure if kinetics.smallest_start > 0.0 else 0.0
    cures = ("laminate", resin.heat_j_per_m3, kinetics, start)
    try:
        return heat_and_cure(stack, programme, start_c, *cures, every_s)
    except RunawayError:
        return None


def heat_and_cure(
    stack: Stack,
    programme: AirProgramme,
    start_c: float,
    laminate: str,
    heat_of_cure_j_per_m3: float,
    kinetics: Kinetics,
    start_cure: float,
    every_s: float = 60.0,
    tolerance: float = 3e-5,
) -> HeatAndCure:
    """Return temperatures and degree of cure of a stack over an air programme.

    ``C dT/dt = -K T + h T_air + Q da/dt`` and ``da/dt = f(T, a)`` in the laminate's
    cells, by `CureSteps`: heat flow exact, the rate a polynomial in each step.

    Parameters
    ----------
    stack : Stack
        Layers from the bag down, and the films of air [-]
    programme : AirProgramme
        Oven air [-]
    start_c : float
        Temperature of the whole stack at time 0 [degC]
    laminate : str
        Name of the layer that cures [-]
    heat_of_cure_j_per_m3 : float
        Heat that its full cure sets free [J/m3]
    kinetics : Kinetics
        Kinetics of its resin [-]
    start_cure : float
        Degree of cure at time 0 [-]
    every_s : float
        Longest step between times of the result: the temperatures there are as good for
        any, but a peak between two of them is seen at neither [s]
    tolerance : float
        Error allowed in the degree of cure over a step; the result is far closer [-]

    Returns
    -------
    HeatAndCure
        Temperatures and degree of cure over time [-]

    Raises
    ------
    ValueError
        If the laminate is not in the stack, its heat of cure is outside 0 to 2e9 J/m3,
        `start_cure` is below what the kinetics can start from or above 0.5, `tolerance`
        outside 1e-9 to 1e-2, or as for `heat_history`.
    RunawayError
        If the laminate gets outside -40 to 250 degC, where no kinetics hold.

    Notes
    -----
    With the default tolerance the error is below 0.01 K and 1e-4 of cure on the same
    cells.  Kinetics are good to some per cent at best: run other start values and
    film coefficients before trusting a peak near a limit.

    Examples
    --------
    >>> from advisor.calculations.cure_kinetics import RESIN_OF_1982
    >>> from advisor.calculations.heat_stack import Layer
    >>> laminate = Layer("laminate", 0.0254, 0.4135, 1578.0, 862.0)
    >>> oven = AirProgramme(
    ...     (0.0, 2184.0, 5784.0, 7248.0, 14448.0), (25.0, 116.0, 116.0, 177.0, 177.0)
    ... )
    >>> cured = heat_and_cure(
    ...     Stack((laminate,), 1e5, 1e5), oven, 25.0, "laminate", 289.2e6,
    ...     RESIN_OF_1982.kinetics, 0.0,
    ... )
    >>> round(cured.peak_c), round(cured.least_cure, 2)
    (200, 1.0)
    """
    place = stack.place_of(laminate)
    within("heat_of_cure_j_per_m3", heat_of_cure_j_per_m3, 0.0, 2e9, "J/m3")
    within("start_c", start_c, -30.0, 250.0, "degC", "Was it given in kelvin?")
    within("start_cure", start_cure, kinetics.smallest_start, 0.5, "")
    within("tolerance", tolerance, 1e-9, 1e-2, "")
    stack = _with_laminate_cells(stack, place)
    cells, times_s = cells_of(stack), times_of(programme, every_s)
    inside = slice(cells.starts[place], cells.starts[place + 1])
    modes = modes_of(cells)
    heats = heat_of_cure_j_per_m3 * cells.widths_m[inside]
    steps = CureSteps(
        modes, programme, start_c, inside, heats, kinetics, start_cure, tolerance
    )
    above_k, cure = steps.follow().at(times_s)
    air_c = programme.at_c(times_s)
    heat = HeatHistory(
        stack, cells, times_s, air_c, air_c[:, None] + modes.cells_k(above_k)
    )
    for extreme_c in (heat.layer_c(laminate).min(), heat.layer_c(laminate).max()):
        try:
            check_cure_temperature(f"temperature of {laminate}", float(extreme_c))
        except ValueError as error:
            raise RunawayError(str(error)) from None
    # Within its tolerance the polynomial of a nearly cured cell may dip, or pass 1.
    cure = np.minimum(np.maximum.accumulate(cure, axis=0), 1.0)
    return HeatAndCure(heat, laminate, cure)


def _with_laminate_cells(stack: Stack, place: int) -> Stack:
    """Cut the laminate finely enough for its own heat, unless its cells are given."""
    layer = stack.layers[place]
    if layer.cells is not None or layer.cell_count >= _FEWEST_LAMINATE_CELLS:
        return stack
    finer = replace(layer, cells=_FEWEST_LAMINATE_CELLS)
    layers = (*stack.layers[:place], finer, *stack.layers[place + 1 :])
    return replace(stack, layers=layers)
