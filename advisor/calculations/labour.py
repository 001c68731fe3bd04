"""Hours of hand work that a lay-up takes."""

from advisor.calculations.valid_range import positive, whole

_SQUARE_INCHES_IN_A_SQUARE_METRE = 1550.0031


def hand_layup_hours(area_m2: float, plies: int) -> float:
    """Return the hours that a practised production hand needs to lay up flat plies.

    ``h = 0.05 + 0.000751 n A^0.6295`` with A in square inches [1]_.

    Parameters
    ----------
    area_m2 : float
        Area of each ply [m2]
    plies : int
        Number of plies [-]

    Returns
    -------
    float
        Time [h]

    Raises
    ------
    ValueError
        If the area is not above 0 and up to 100 m2, or there is no ply.

    Notes
    -----
    Errs low for a small shop and for shapes: multiply by 3 to 5 (common practice).

    Examples
    --------
    >>> hand_layup_hours(1.0, 1)
    0.127

    References
    ----------
    .. [1] Advanced Composite Cost Estimating Manual, AFFDL-TR-76-87, hand lay-up relation
       as quoted in a public repository (second-hand).
    """
    positive("area_m2", area_m2, 100.0, "m2", "Was it given in square inches?")
    whole("plies", plies, 1)
    area_in2 = area_m2 * _SQUARE_INCHES_IN_A_SQUARE_METRE
    return float(0.05 + 0.000751 * plies * area_in2**0.6295)
