"""Water in the pores and in the resin: its pressure, boiling point and latent heat."""

import math

from advisor.calculations.valid_range import within

_KELVIN = 273.15
_HOTTEST_C = 373.946  # critical point
_HIGHEST_PA = 22.064e6
_LOWEST_PA = 611.213
_VAPOUR_GAS_CONSTANT = 461.526  # J/(kg K)
# Coefficients n1 to n10 of the saturation equation, Table 34.
_N1, _N2, _N3, _N4, _N5 = (
    1167.0521452767,
    -724213.16703206,
    -17.073846940092,
    12020.82470247,
    -3232555.0322333,
)
_N6, _N7, _N8, _N9, _N10 = (
    14.91510861353,
    -4823.2657361591,
    405113.40542057,
    -0.23855557567849,
    650.17534844798,
)


def saturation_pressure_pa(temperature_c: float) -> float:
    """Return the pressure at which water boils.

    ``p = (2 C / (-B + sqrt(B^2 - 4 A C)))^4`` in MPa, where A, B and C are quadratics in
    ``t = T + n9 / (T - n10)``: equation (30) of [1]_.

    Parameters
    ----------
    temperature_c : float
        Temperature of the water [degC]

    Returns
    -------
    float
        Absolute saturation pressure [Pa]

    Raises
    ------
    ValueError
        Outside 0 to 373.946 degC, where the equation is not valid.

    Notes
    -----
    Used for the steam pressure that closed, wet pores can reach, and for the vapour in
    the voids of a resin.  An upper bound where the water is bound or dissolved.

    Examples
    --------
    >>> round(saturation_pressure_pa(120.0))
    198665

    References
    ----------
    .. [1] IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997
       (coefficients from memory).
    """
    within(
        "temperature_c", temperature_c, 0.0, _HOTTEST_C, "degC", "Was it given in kelvin?"
    )
    kelvin = temperature_c + _KELVIN
    t = kelvin + _N9 / (kelvin - _N10)
    a = t * t + _N1 * t + _N2
    b = _N3 * t * t + _N4 * t + _N5
    c = _N6 * t * t + _N7 * t + _N8
    return float(1e6 * (2.0 * c / (-b + math.sqrt(b * b - 4.0 * a * c))) ** 4)


def boiling_point_c(pressure_pa: float) -> float:
    """Return the temperature at which water boils.

    ``T = (n10 + D - sqrt((n10 + D)^2 - 4 (n9 + n10 D))) / 2`` with D from the fourth root
    of the pressure in MPa: equation (31) of [1]_.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure [Pa]

    Returns
    -------
    float
        Saturation temperature [degC]

    Raises
    ------
    ValueError
        Outside 611.213 Pa to 22.064 MPa, where the equation is not valid.

    Notes
    -----
    Under a vacuum bag, liquid water in tool or resin boils from here on.

    Examples
    --------
    >>> round(boiling_point_c(5000.0), 1)
    32.9

    References
    ----------
    .. [1] IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997
       (coefficients from memory).
    """
    within(
        "pressure_pa", pressure_pa, _LOWEST_PA, _HIGHEST_PA, "Pa", "Was it given in bar?"
    )
    root = (pressure_pa / 1e6) ** 0.25
    e = root * root + _N3 * root + _N6
    f = _N1 * root * root + _N4 * root + _N7
    g = _N2 * root * root + _N5 * root + _N8
    d = 2.0 * g / (-f - math.sqrt(f * f - 4.0 * e * g))
    total = _N10 + d
    kelvin = (total - math.sqrt(total * total - 4.0 * (_N9 + _N10 * d))) / 2.0
    return float(kelvin - _KELVIN)


def closed_cavity_pressure_pa(
    temperature_c: float,
    water_kg_m3: float,
    closed_pressure_pa: float,
    closed_c: float = 20.0,
) -> float:
    """Return the pressure in a closed, wet cavity or pore that is heated.

    ``p = p0 T / T0 + min(p_sat(T), w R_v T)``: the air shut in, warmed at constant
    volume, and the vapour, saturated as long as liquid is left.

    Parameters
    ----------
    temperature_c : float
        Temperature reached [degC]
    water_kg_m3 : float
        Water in a cubic metre of cavity, as liquid and vapour [kg/m3]
    closed_pressure_pa : float
        Absolute pressure of the air shut in, when closed [Pa]
    closed_c : float
        Temperature when closed [degC]

    Returns
    -------
    float
        Absolute pressure inside [Pa]

    Raises
    ------
    ValueError
        If `temperature_c` is below `closed_c` or above 250 degC, `closed_c` outside 0 to
        60 degC, `water_kg_m3` outside 0 to 1000 kg/m3 or `closed_pressure_pa` outside 0
        to 1 MPa.

    Notes
    -----
    Nothing vents: an upper bound for an open-pored block.  The water's own volume and
    growth are left out, so it is too low for a cavity close to full; one that is full
    bursts at any rise.

    Examples
    --------
    >>> round(closed_cavity_pressure_pa(120.0, 10.0, 101325.0) / 1e3)
    335
    >>> round(closed_cavity_pressure_pa(120.0, 0.0, 101325.0) / 1e3)
    136
    """
    within("closed_c", closed_c, 0.0, 60.0, "degC", "Was it given in kelvin?")
    within("temperature_c", temperature_c, closed_c, 250.0, "degC")
    within("water_kg_m3", water_kg_m3, 0.0, 1000.0, "kg/m3")
    within("closed_pressure_pa", closed_pressure_pa, 0.0, 1e6, "Pa")
    kelvin = temperature_c + _KELVIN
    air_pa = closed_pressure_pa * kelvin / (closed_c + _KELVIN)
    vapour_pa = min(
        saturation_pressure_pa(temperature_c), water_kg_m3 * _VAPOUR_GAS_CONSTANT * kelvin
    )
    return air_pa + vapour_pa


def water_for_saturation_kg_m3(temperature_c: float) -> float:
    """Return how little water fills a closed cavity with saturated steam.

    ``w = p_sat / (R_v T)``, the vapour as an ideal gas.

    Parameters
    ----------
    temperature_c : float
        Temperature reached [degC]

    Returns
    -------
    float
        Water in a cubic metre of cavity [kg/m3]

    Raises
    ------
    ValueError
        Outside 0 to 250 degC.

    Notes
    -----
    With more water than this the steam pressure no longer depends on how much more.  As
    an ideal gas, up to 3 % too low at 120 degC and 18 % at 250 degC.

    Examples
    --------
    >>> round(water_for_saturation_kg_m3(120.0), 2)
    1.09
    """
    within("temperature_c", temperature_c, 0.0, 250.0, "degC", "Was it given in kelvin?")
    kelvin = temperature_c + _KELVIN
    return saturation_pressure_pa(temperature_c) / (_VAPOUR_GAS_CONSTANT * kelvin)
