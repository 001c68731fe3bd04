"""Cure by a maker's listed points, time at temperature, along a laminate's own heat-up."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import positive, within

FloatArray = NDArray[np.float64]


@dataclass(frozen=True)
class ListedCure:
    """One line of a maker's cure table.

    Attributes
    ----------
    temperature_c : float
        Temperature of the laminate [degC]
    hold_s : float
        Time there that cures it [s]

    Raises
    ------
    ValueError
        If the temperature is outside 20 to 250 degC or the time not above 0 and at most
        30 days.
    """

    temperature_c: float
    hold_s: float

    def __post_init__(self) -> None:
        """Refuse what no table of cures lists."""
        within("temperature_c", self.temperature_c, 20.0, 250.0, "degC")
        positive("hold_s", self.hold_s, 30 * 86_400.0, "s", "Was it given in hours?")


def listed_share(
    times_s: FloatArray,
    temperatures_c: FloatArray,
    listed: tuple[ListedCure, ...],
    band_k: float,
) -> FloatArray:
    """Return the share of a listed cure that a laminate has had, over time.

    ``sum of dt / t_i``, with `t_i` the shortest time listed at or below the temperature.
    Nothing is worked out between the points, and nothing counts below the lowest.

    Parameters
    ----------
    times_s : array
        Times, rising [s]
    temperatures_c : array
        Temperature of the coldest of the laminate at those times [degC]
    listed : tuple of ListedCure
        Lines of the maker's table, in any order [-]
    band_k : float
        How far below a listed temperature its time still counts [K]

    Returns
    -------
    array
        Share at those times; 1 is the whole of the cure [-]

    Raises
    ------
    ValueError
        If the arrays differ in length, no line is given, or `band_k` is outside 0 to 20 K.

    Examples
    --------
    >>> sheet = (ListedCure(80.0, 8 * 3600.0), ListedCure(100.0, 2 * 3600.0))
    >>> times_s = np.array([0.0, 3600.0, 7200.0, 10800.0])
    >>> temperatures_c = np.array([75.0, 90.0, 100.0, 100.0])
    >>> listed_share(times_s, temperatures_c, sheet, 5.0)
    array([0.   , 0.125, 0.25 , 0.75 ])
    """
    if times_s.shape != temperatures_c.shape or times_s.size < 2:
        raise ValueError("times and temperatures must be of the same length, 2 at least.")
    if not listed:
        raise ValueError("listed is empty; give at least one line of the maker's table.")
    within("band_k", band_k, 0.0, 20.0, "K")
    colder_c = np.minimum(temperatures_c[:-1], temperatures_c[1:]) + band_k
    rates = np.zeros(times_s.size - 1)
    for line in listed:
        here = np.where(colder_c >= line.temperature_c, 1.0 / line.hold_s, 0.0)
        rates = np.maximum(rates, here)
    return np.concatenate(([0.0], np.cumsum(rates * np.diff(times_s))))


def time_cured_s(times_s: FloatArray, share: FloatArray) -> float:
    """Return when a share of `listed_share` reaches 1, or infinity if it never does [s].

    Examples
    --------
    >>> time_cured_s(np.array([0.0, 3600.0, 7200.0]), np.array([0.0, 0.5, 1.5]))
    5400.0
    """
    if share[-1] < 1.0:
        return math.inf
    return float(np.interp(1.0, share, times_s))
