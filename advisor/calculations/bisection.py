"""Root of a rising function, for formulas that cannot be turned round by hand."""

from collections.abc import Callable


def rising_root(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where a rising function passes through zero.

    The interval is halved until it no longer changes, so the answer is as fine as the
    numbers are.

    Parameters
    ----------
    function : callable
        Function of one number that rises from `low` to `high` [-]
    low, high : float
        Ends of the interval searched [-]

    Returns
    -------
    float
        Place of the root [-]

    Raises
    ------
    ValueError
        If the function is above zero at `low` or below zero at `high`.

    Examples
    --------
    >>> round(rising_root(lambda x: x * x - 2.0, 0.0, 2.0), 6)
    1.414214
    """
    if not function(low) <= 0.0 <= function(high):
        raise ValueError(f"the function does not pass through zero from {low} to {high}.")
    while True:
        middle = 0.5 * (low + high)
        if middle in (low, high):
            return middle
        if function(middle) < 0.0:
            low = middle
        else:
            high = middle
