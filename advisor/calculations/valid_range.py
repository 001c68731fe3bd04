"""Refusal of values outside the range in which a calculation holds."""


def within(
    name: str, value: float, low: float, high: float, unit: str, hint: str = ""
) -> None:
    """Refuse a value that is not from `low` to `high`, both ends allowed, or is NaN.

    Parameters
    ----------
    name : str
        Name of the parameter, as the caller wrote it [-]
    value : float
        Value given [`unit`]
    low, high : float
        Ends of the range that holds [`unit`]
    unit : str
        Unit to print [-]
    hint : str
        Question about the likely mistake [-]

    Raises
    ------
    ValueError
        If the value is outside the range or not a number.

    Examples
    --------
    >>> within("hours", 9.0, 0.0, 8.0, "h")
    Traceback (most recent call last):
        ...
    ValueError: hours is 9.0 h; it must be from 0.0 h to 8.0 h.
    """
    if not low <= value <= high:
        given, bottom, top = (f"{number} {unit}".strip() for number in (value, low, high))
        raise ValueError(
            f"{name} is {given}; it must be from {bottom} to {top}. {hint}".strip()
        )


def positive(name: str, value: float, high: float, unit: str, hint: str = "") -> None:
    """Refuse a value that is not above zero and at most `high`, or is NaN.

    Parameters
    ----------
    name : str
        Name of the parameter, as the caller wrote it [-]
    value : float
        Value given [`unit`]
    high : float
        Largest value that holds [`unit`]
    unit : str
        Unit to print [-]
    hint : str
        Question about the likely mistake [-]

    Raises
    ------
    ValueError
        If the value is zero, negative, above `high` or not a number.

    Examples
    --------
    >>> positive("thickness_m", 0.0, 5.0, "m")
    Traceback (most recent call last):
        ...
    ValueError: thickness_m is 0.0 m; it must be above 0 and at most 5.0 m.
    """
    if not 0.0 < value <= high:
        given, top = (f"{number} {unit}".strip() for number in (value, high))
        raise ValueError(
            f"{name} is {given}; it must be above 0 and at most {top}. {hint}".strip()
        )


def whole(name: str, value: float, low: int) -> None:
    """Refuse a count that is not a whole number of at least `low`.

    Parameters
    ----------
    name : str
        Name of the parameter, as the caller wrote it [-]
    value : float
        Count given [-]
    low : int
        Smallest count that holds [-]

    Raises
    ------
    ValueError
        If the count is too small, not whole or not a number.

    Examples
    --------
    >>> whole("parts", 0, 1)
    Traceback (most recent call last):
        ...
    ValueError: parts is 0; it must be a whole number of at least 1.
    """
    if not (value >= low and value % 1 == 0):
        raise ValueError(f"{name} is {value}; it must be a whole number of at least {low}.")


def one_of(name: str, value: str, allowed: tuple[str, ...]) -> None:
    """Refuse a word that is not among those allowed.

    Parameters
    ----------
    name : str
        Name of the parameter, as the caller wrote it [-]
    value : str
        Word given [-]
    allowed : tuple of str
        Words that hold [-]

    Raises
    ------
    ValueError
        If the word is not allowed.

    Examples
    --------
    >>> one_of("coupling", "firm", ("good", "fair", "poor"))
    Traceback (most recent call last):
        ...
    ValueError: coupling is 'firm'; it must be one of good, fair, poor.
    """
    if value not in allowed:
        raise ValueError(f"{name} is {value!r}; it must be one of {', '.join(allowed)}.")
