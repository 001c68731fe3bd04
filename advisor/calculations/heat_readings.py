"""What a shop reads from temperatures over time: lag, start of the dwell, differences."""

import math

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import within

FloatArray = NDArray[np.float64]


def _check_alike(times_s: FloatArray, *columns: FloatArray) -> None:
    if times_s.size < 2 or any(column.shape != times_s.shape for column in columns):
        raise ValueError("times and temperatures must be of the same length, 2 at least.")


def _crossing_s(times_s: FloatArray, values: FloatArray, target: float, row: int) -> float:
    """Return where the straight line from the row before meets the target."""
    share = (target - values[row - 1]) / (values[row] - values[row - 1])
    return float(times_s[row - 1] + share * (times_s[row] - times_s[row - 1]))


def time_reaching_s(
    times_s: FloatArray, temperatures_c: FloatArray, target_c: float
) -> float:
    """Return when a temperature first reaches a target from below.

    Straight between the times given.

    Parameters
    ----------
    times_s : array
        Times, rising [s]
    temperatures_c : array
        Temperatures at those times [degC]
    target_c : float
        Temperature to reach [degC]

    Returns
    -------
    float
        Time, or infinity if it is not reached [s]

    Raises
    ------
    ValueError
        If the arrays differ in length.

    Examples
    --------
    >>> time_reaching_s(np.array([0.0, 60.0]), np.array([20.0, 40.0]), 35.0)
    45.0
    """
    _check_alike(times_s, temperatures_c)
    rows = np.flatnonzero(temperatures_c >= target_c)
    if rows.size == 0:
        return math.inf
    if rows[0] == 0:
        return float(times_s[0])
    return _crossing_s(times_s, temperatures_c, target_c, int(rows[0]))


def lag_k(
    times_s: FloatArray, air_c: FloatArray, temperatures_c: FloatArray, at_s: float
) -> float:
    """Return by how much a place is behind the air at one time.

    Parameters
    ----------
    times_s : array
        Times, rising [s]
    air_c : array
        Oven air at those times [degC]
    temperatures_c : array
        Temperature of the place at those times [degC]
    at_s : float
        Time of the reading, such as the end of the ramp [s]

    Returns
    -------
    float
        Air less place; negative when the air cools [K]

    Raises
    ------
    ValueError
        If the arrays differ in length, or `at_s` is outside the times.

    Examples
    --------
    >>> lag_k(np.array([0.0, 60.0]), np.array([20.0, 40.0]), np.array([20.0, 24.0]), 30.0)
    8.0
    """
    _check_alike(times_s, air_c, temperatures_c)
    within("at_s", at_s, float(times_s[0]), float(times_s[-1]), "s")
    return float(np.interp(at_s, times_s, air_c - temperatures_c))


def largest_differences_k(face_c: FloatArray, core_c: FloatArray) -> tuple[float, float]:
    """Return the largest differences between face and core, on heating and on cooling.

    ``max(T_face - T_core)`` and ``max(T_core - T_face)``, neither below 0.

    Parameters
    ----------
    face_c : array
        Temperature of the face over time [degC]
    core_c : array
        Temperature of the core at the same times [degC]

    Returns
    -------
    tuple of float
        Face above core, which pulls at the core of a brittle tool; and core above face,
        which pulls at its surface [K]

    Raises
    ------
    ValueError
        If the arrays differ in length.

    Examples
    --------
    >>> largest_differences_k(np.array([20.0, 60.0, 30.0]), np.array([20.0, 35.0, 50.0]))
    (25.0, 20.0)
    """
    _check_alike(face_c, core_c)
    difference_k = face_c - core_c
    return max(0.0, float(difference_k.max())), max(0.0, float(-difference_k.min()))


def _time_above_s(times_s: FloatArray, temperatures_c: FloatArray, limit_c: float) -> float:
    """Return the time above a limit, straight between the times given."""
    over = temperatures_c - limit_c
    before, after = over[:-1], over[1:]
    # Of a straight line from before to after, the share above the limit.
    highest, span = np.maximum(before, after), np.abs(after - before)
    part = np.clip(highest / np.where(span > 0.0, span, 1.0), 0.0, 1.0)
    share = np.where(np.minimum(before, after) > 0.0, 1.0, part)
    return float((share * np.diff(times_s)).sum())
