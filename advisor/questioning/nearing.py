"""Closes in on the number at which an answer turns, as far as a person writes digits."""

import math
from collections.abc import Callable
from typing import TypeVar

Found = TypeVar("Found")

_DIGITS = 3


def rounded(number: float, unit: str, whole: bool, more: bool) -> float:
    """Round up or down to what a person would write.

    Parameters
    ----------
    number : float
        In `unit`.
    unit : str
        As pint spells it: degrees Celsius are written whole, angles by the half degree,
        all else with three digits.
    whole : bool
        Whether it counts things.
    more : bool
        Whether it is rounded up.

    Examples
    --------
    >>> rounded(81.2, "degC", False, True), rounded(1234.5, "mm", False, False)
    (82.0, 1230.0)
    """
    outward = math.ceil if more else math.floor
    nearly = -1e-9 if more else 1e-9  # what is off by rounding alone counts as there
    if whole or unit == "degC":
        return float(outward(number + nearly))
    if not number:
        return 0.0
    power = math.floor(math.log10(abs(number))) - _DIGITS + 1
    step = 0.5 if unit == "deg" else 10.0**power
    return round(outward(number / step + nearly) * step, max(0, -power))


def finer(
    before: float,
    number: float,
    found: Found,
    at: Callable[[float], Found | None],
    unit: str,
    whole: bool,
) -> tuple[float, Found]:
    """Halve the way between where nothing was found and where something was.

    Parameters
    ----------
    before, number : float
        Where nothing is found, and where `found` is [unit].
    found : object
        What is found at `number`.
    at : callable
        Returns what is found at a number, or None.
    unit, whole
        As `rounded` takes them: the search ends when no number to be written is between.

    Returns
    -------
    tuple
        The nearest number to `before` at which something is found, and that.
    """
    more = number > before
    while True:
        middle = rounded(0.5 * (before + number), unit, whole, more)
        if middle in (before, number):
            return number, found
        between = at(middle)
        if between is None:
            before = middle
        else:
            number, found = middle, between
