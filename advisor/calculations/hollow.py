"""A core that is washed out of a part, and the force of gas inside a closed mould."""

from advisor.calculations.valid_range import positive


def soak_time_s(way_m: float, rate_m_s: float) -> float:
    """Return how long water takes to soak into a core from an open end: ``t = x / v``.

    Parameters
    ----------
    way_m : float
        Longest way from an open end into the core [m]
    rate_m_s : float
        Rate at which the wet front goes in [m/s]

    Returns
    -------
    float
        Time until the last of the core is wet [s]

    Raises
    ------
    ValueError
        If the way is not above 0 and at most 100 m, or the rate not above 0 and at most
        0.1 m/s.

    Notes
    -----
    A steady front, water always at hand, the wall closed all round.  Wet is not yet out:
    what has softened has to be flushed away, so it errs on the short side.

    Examples
    --------
    >>> round(soak_time_s(0.24, 0.94e-3))
    255

    References
    ----------
    Definition of the rate; derived here.
    """
    positive("way_m", way_m, 100.0, "m", "Was it given in millimetres?")
    positive("rate_m_s", rate_m_s, 0.1, "m/s", "Was it given in mm/s?")
    return way_m / rate_m_s


def parting_force_n(pressure_pa: float, length_m: float, width_m: float) -> float:
    """Return the force that parts two halves round a section under gas: ``F = p L W``.

    Parameters
    ----------
    pressure_pa : float
        Pressure in the section over that outside [Pa]
    length_m, width_m : float
        Size of the section in the plane of the joint [m]

    Returns
    -------
    float
        Force that clamps or bolts have to hold [N]

    Raises
    ------
    ValueError
        If the pressure is not above 0 and at most 2e6 Pa, or a size not above 0 and at
        most 20 m.

    Examples
    --------
    >>> round(parting_force_n(1e5, 0.48, 0.12))
    5760

    References
    ----------
    Pressure times projected area; checked against a printed load on a square, see the
    test.
    """
    positive("pressure_pa", pressure_pa, 2e6, "Pa", "Was it given in bar?")
    positive("length_m", length_m, 20.0, "m", "Was it given in millimetres?")
    positive("width_m", width_m, 20.0, "m", "Was it given in millimetres?")
    return pressure_pa * length_m * width_m
