"""Transient heat through a cure stack in oven air, exact in time."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import eigh_tridiagonal  # type: ignore[import-untyped]

from advisor.calculations.heat_stack import Cells, Stack, cells_of
from advisor.calculations.oven_air import AirProgramme
from advisor.calculations.valid_range import positive, within

FloatArray = NDArray[np.float64]

# A product of matrices of more multiplications than this may be shared among threads,
# and waking them takes longer than the whole cure.
_MOST_MULTIPLICATIONS = 200_000


@dataclass(frozen=True)
class Modes:
    """Ways in which the temperatures of a stack decay, each at a rate of its own.

    Attributes
    ----------
    decays_per_s : array
        Rate of decay of each mode [1/s]
    shapes : array
        Temperature of each cell (rows) in each mode (columns) [-]
    uniform : array
        Size of each mode in a stack at 1 K above the air [-]
    """

    decays_per_s: FloatArray
    shapes: FloatArray
    uniform: FloatArray

    def cells_k(self, sizes: FloatArray) -> FloatArray:
        """Return temperatures of cells (columns) from modes, time by time (rows) [K]."""
        rows = max(1, _MOST_MULTIPLICATIONS // self.shapes.size)
        result = np.empty_like(sizes)
        for first in range(0, sizes.shape[0], rows):
            part = slice(first, first + rows)
            result[part] = sizes[part] @ self.shapes.T
        return result


def modes_of(cells: Cells) -> Modes:
    """Return the modes of the chain of cells.

    With `C` the capacities and `K` the conductances, eigenvectors `V` and eigenvalues of
    the symmetric ``C^-1/2 K C^-1/2``; shapes are ``C^-1/2 V``.

    Parameters
    ----------
    cells : Cells
        Chain of capacities and conductances [-]

    Returns
    -------
    Modes
        Decay rates and shapes [-]

    Notes
    -----
    Each mode is solved exactly over a straight piece of the air programme, so the result
    is stable for any step, conserves heat to rounding, and has no error of time step.
    """
    root = np.sqrt(cells.capacities_j_per_m2_k)
    links = cells.links_w_per_m2_k
    diagonal = (links[:-1] + links[1:]) / root**2
    decays, vectors = eigh_tridiagonal(diagonal, -links[1:-1] / (root[:-1] * root[1:]))
    return Modes(
        # Rounding can bring the smallest, of a stack behind a very weak film, below zero.
        np.maximum(decays, 1e-15 * decays[-1]),
        vectors / root[:, None],
        vectors.T @ root,
    )


def above_air(
    modes: Modes, programme: AirProgramme, start_c: float, times_s: FloatArray
) -> FloatArray:
    """Return how far a stack that only the air heats and cools is above it, in modes.

    ``w e^(-s t) - r u (1 - e^(-s t)) / s`` within each straight piece of the programme,
    with `w` the modes at its start, `r` its slope, `s` the decay and `u` the uniform mode.

    Parameters
    ----------
    modes : Modes
        Modes of the stack [-]
    programme : AirProgramme
        Oven air [-]
    start_c : float
        Temperature of the whole stack at time 0 [degC]
    times_s : array
        Times, within the programme [s]

    Returns
    -------
    array
        Modes (columns) at the times (rows) [K]

    Raises
    ------
    ValueError
        If `start_c` is outside -30 to 450 degC.
    """
    within("start_c", start_c, -30.0, 450.0, "degC", "Was it given in kelvin?")
    knots_s = np.asarray(programme.times_s)
    slopes = np.diff(programme.air_c) / np.diff(knots_s)
    trailing = modes.uniform / modes.decays_per_s * slopes[:, None]
    starts = [(start_c - programme.air_c[0]) * modes.uniform]
    for lasting_s, behind in zip(np.diff(knots_s), trailing, strict=True):
        fallen = np.expm1(-modes.decays_per_s * lasting_s)
        starts.append(starts[-1] + (starts[-1] + behind) * fallen)
    piece = np.clip(np.searchsorted(knots_s, times_s, "right") - 1, 0, slopes.size - 1)
    fallen = np.expm1(-modes.decays_per_s * (times_s - knots_s[piece])[:, None])
    start = np.array(starts)[piece]
    return np.asarray(start + (start + trailing[piece]) * fallen)


@dataclass(frozen=True)
class HeatHistory:
    """Temperatures of a stack over time.

    Attributes
    ----------
    stack : Stack
        Layers and films [-]
    cells : Cells
        The stack cut into cells [-]
    times_s : array
        Times, from the start of the programme [s]
    air_c : array
        Oven air at those times [degC]
    cells_c : array
        Temperature of each cell (columns) at those times (rows) [degC]
    """

    stack: Stack
    cells: Cells
    times_s: FloatArray
    air_c: FloatArray
    cells_c: FloatArray

    def layer_c(self, name: str) -> FloatArray:
        """Return the temperatures of a layer's cells (columns) over time [degC]."""
        place = self.stack.place_of(name)
        return self.cells_c[:, self.cells.starts[place] : self.cells.starts[place + 1]]

    def top_c(self, name: str) -> FloatArray:
        """Return the temperature of a layer's upper face over time [degC]."""
        return self._face_c(self.cells.starts[self.stack.place_of(name)], 0)

    def bottom_c(self, name: str) -> FloatArray:
        """Return the temperature of a layer's lower face over time [degC]."""
        return self._face_c(self.cells.starts[self.stack.place_of(name) + 1] - 1, 1)

    def _face_c(self, cell: int, side: int) -> FloatArray:
        """Take off the fall of temperature over the half cell next to the face."""
        padded = np.column_stack([self.air_c, self.cells_c, self.air_c])
        here_c, beyond_c = padded[:, cell + 1], padded[:, cell + 2 * side]
        flux = self.cells.links_w_per_m2_k[cell + side] * (beyond_c - here_c)
        return np.asarray(here_c + flux * self.cells.halves_m2_k_per_w[cell])

    def middle_c(self, name: str) -> FloatArray:
        """Return the temperature half way through a layer over time [degC]."""
        layer_c = self.layer_c(name)
        half = layer_c.shape[1] // 2
        if layer_c.shape[1] % 2:
            return layer_c[:, half]
        return np.asarray(layer_c[:, half - 1 : half + 1].mean(axis=1))

    def coldest_c(self, name: str) -> FloatArray:
        """Return the lowest temperature of a layer, faces included, over time [degC]."""
        faces_c = np.minimum(self.top_c(name), self.bottom_c(name))
        return np.asarray(np.minimum(self.layer_c(name).min(axis=1), faces_c))

    def hottest_c(self, name: str) -> FloatArray:
        """Return the highest temperature of a layer, faces included, over time [degC]."""
        faces_c = np.maximum(self.top_c(name), self.bottom_c(name))
        return np.asarray(np.maximum(self.layer_c(name).max(axis=1), faces_c))


def times_of(programme: AirProgramme, every_s: float) -> FloatArray:
    """Return times at even steps through a programme, with its own times among them.

    Parameters
    ----------
    programme : AirProgramme
        Oven air [-]
    every_s : float
        Longest step between two times [s]

    Returns
    -------
    array
        Times from 0 to the end of the programme [s]

    Raises
    ------
    ValueError
        If `every_s` is not above 0 and at most 3600 s.

    Examples
    --------
    >>> times_of(AirProgramme((0.0, 90.0, 150.0), (20.0, 23.0, 23.0)), 60.0)
    array([  0.,  60.,  90., 120., 150.])
    """
    positive("every_s", every_s, 3600.0, "s")
    even_s = np.arange(0.0, programme.end_s, every_s)
    return np.unique(np.concatenate([even_s, np.asarray(programme.times_s)]))


def heat_history(
    stack: Stack, programme: AirProgramme, start_c: float, every_s: float = 60.0
) -> HeatHistory:
    """Return the temperatures of a stack over an air programme, without heat of cure.

    ``C dT/dt = -K T + h T_air`` over the cells of `cells_of`, by `modes_of`.

    Parameters
    ----------
    stack : Stack
        Layers from the bag down, and the films of air [-]
    programme : AirProgramme
        Oven air [-]
    start_c : float
        Temperature of the whole stack at time 0 [degC]
    every_s : float
        Longest step between times of the result; it has no effect on the error [s]

    Returns
    -------
    HeatHistory
        Temperatures over time [-]

    Raises
    ------
    ValueError
        As for `above_air` and `times_of`.

    Notes
    -----
    One-dimensional and dry: drying and steam, which hold a wet block near or below
    100 degC, are not in it.  The film coefficient is the weakest figure; run its range.

    Examples
    --------
    >>> from advisor.calculations.heat_stack import Layer
    >>> stack = Stack((Layer("block", 0.15, 0.12, 500.0, 1000.0),), 20.0, 20.0)
    >>> oven = AirProgramme((0.0, 2400.0, 7200.0), (20.0, 100.0, 100.0))
    >>> round(float(heat_history(stack, oven, 20.0).top_c("block")[40]), 1)
    81.7
    """
    cells = cells_of(stack)
    times_s = times_of(programme, every_s)
    modes, air_c = modes_of(cells), programme.at_c(times_s)
    above_k = modes.cells_k(above_air(modes, programme, start_c, times_s))
    return HeatHistory(stack, cells, times_s, air_c, air_c[:, None] + above_k)
