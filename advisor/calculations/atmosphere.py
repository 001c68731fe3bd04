"""Pressure of the standard atmosphere, for what a vacuum bag can do at a shop's height."""

import math


def pressure_at_altitude_pa(altitude_m: float) -> float:
    """Return the air pressure of the standard atmosphere.

    ``p = 101325 (1 - 0.0065 h / 288.15)^5.25588`` with the geopotential height `h`,
    the troposphere layer of [1]_.

    Parameters
    ----------
    altitude_m : float
        Geopotential height above sea level [m]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    ValueError
        Outside -430 m to 11 000 m, where the layer ends (the lower end is the lowest
        dry land).

    Notes
    -----
    Weather moves the barometer by a few per cent on either side.

    Examples
    --------
    >>> pressure_at_altitude_pa(1500.0)
    84556.0

    References
    ----------
    .. [1] ISO 2533:1975, Standard Atmosphere (formula from memory).
    """
    if not (math.isfinite(altitude_m) and -430.0 <= altitude_m <= 11_000.0):
        raise ValueError(
            f"altitude_m is {altitude_m} m; the layer holds from -430 to 11000 m"
        )
    return float(101_325.0 * (1.0 - 0.0065 * altitude_m / 288.15) ** 5.25588)
