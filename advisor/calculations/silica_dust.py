"""Silica in dust.  A screening estimate: measure, do not rely on it."""

from advisor.calculations.valid_range import positive, within

_LARGEST_KG_M3 = 0.1
_UNITS = "Was it given in mg/m3?"


def silica_generation_kg_s(
    removed_kg: float, working_s: float, airborne_share: float, silica_share: float
) -> float:
    """Return respirable silica set free by cutting.

    ``G = m f q / T``.  A screening estimate: measure, do not rely on it.

    Parameters
    ----------
    removed_kg : float
        Mass of block cut, sanded or drilled away [kg]
    working_s : float
        Time in which it is removed [s]
    airborne_share : float
        Share of that mass that stays in the air as respirable dust: not known, so work
        with a band such as 0.0001 to 0.01 [-]
    silica_share : float
        Crystalline silica in the respirable dust [-]

    Returns
    -------
    float
        Respirable crystalline silica [kg/s]

    Raises
    ------
    ValueError
        If the mass is outside 0 to 1e5 kg, the time not above 0 and at most 1e7 s, or a
        share outside 0 to 1.

    Notes
    -----
    A what-if: good to a factor of ten at best, since the share in the air is a guess.

    Examples
    --------
    >>> generation = silica_generation_kg_s(1.0, 28800.0, 0.001, 0.15)
    >>> round(generation * 1e6 * 60.0, 4)  # mg/min
    0.3125
    """
    within("removed_kg", removed_kg, 0.0, 1e5, "kg")
    positive("working_s", working_s, 1e7, "s")
    within("airborne_share", airborne_share, 0.0, 1.0, "", "Was it given in per cent?")
    within("silica_share", silica_share, 0.0, 1.0, "", "Was it given in per cent?")
    return removed_kg * airborne_share * silica_share / working_s


def largest_respirable_dust_kg_m3(limit_kg_m3: float, silica_share: float) -> float:
    """Return the respirable dust at which its silica reaches a limit.

    ``C = limit / q``.  A screening estimate: measure, do not rely on it.

    Parameters
    ----------
    limit_kg_m3 : float
        Limit of exposure to respirable crystalline silica [kg/m3]
    silica_share : float
        Crystalline silica in the respirable dust [-]

    Returns
    -------
    float
        Respirable dust of all kinds [kg/m3]

    Raises
    ------
    ValueError
        If the limit is not above 0 and at most 0.1 kg/m3 or the share not above 0 and at
        most 1.

    Notes
    -----
    Keeping the limit for general dust is not enough where the dust holds silica.

    Examples
    --------
    >>> round(largest_respirable_dust_kg_m3(0.05e-6, 0.15) * 1e6, 2)  # mg/m3
    0.33
    """
    positive("limit_kg_m3", limit_kg_m3, _LARGEST_KG_M3, "kg/m3", _UNITS)
    positive("silica_share", silica_share, 1.0, "", "Was it given in per cent?")
    return limit_kg_m3 / silica_share


def air_to_dilute_m3(dust_kg: float, silica_share: float, limit_kg_m3: float) -> float:
    """Return the air that brings the silica of some dust down to a limit.

    ``m q / C``.  A screening estimate: measure, do not rely on it.

    Parameters
    ----------
    dust_kg : float
        Respirable dust in the air [kg]
    silica_share : float
        Crystalline silica in the respirable dust [-]
    limit_kg_m3 : float
        Limit of exposure to respirable crystalline silica [kg/m3]

    Returns
    -------
    float
        Air [m3]

    Raises
    ------
    ValueError
        If the mass is outside 0 to 1000 kg, or as for `largest_respirable_dust_kg_m3`.

    Examples
    --------
    >>> round(air_to_dilute_m3(1e-3, 0.15, 0.05e-6))
    3000
    """
    within("dust_kg", dust_kg, 0.0, 1000.0, "kg", "Was it given in grams?")
    return dust_kg / largest_respirable_dust_kg_m3(limit_kg_m3, silica_share)
