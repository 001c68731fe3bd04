"""Drying of a porous block: how long its water takes to leave as vapour."""

from advisor.calculations.steam import saturation_pressure_pa
from advisor.calculations.valid_range import positive, within

_KELVIN = 273.15


def _check_half_thickness(half_thickness_m: float) -> None:
    positive("half_thickness_m", half_thickness_m, 5.0, "m", "Was it in millimetres?")


def vapour_permeability_kg_per_m_s_pa(temperature_c: float, pressure_pa: float) -> float:
    """Return the permeability of still air to water vapour.

    ``2.0e-7 T^0.81 / p`` [1]_.

    Parameters
    ----------
    temperature_c : float
        Temperature of the air [degC]
    pressure_pa : float
        Absolute pressure of the air [Pa]

    Returns
    -------
    float
        Permeability [kg/(m s Pa)]

    Raises
    ------
    ValueError
        If `temperature_c` is outside -20 to 120 degC or `pressure_pa` outside 20 to
        150 kPa.

    Examples
    --------
    >>> round(vapour_permeability_kg_per_m_s_pa(20.0, 101325.0) * 1e10, 2)
    1.97

    References
    ----------
    .. [1] Kuenzel: Simultaneous Heat and Moisture Transport in Building Components (from
       memory).
    """
    within("temperature_c", temperature_c, -20.0, 120.0, "degC", "Is it in kelvin?")
    within("pressure_pa", pressure_pa, 2e4, 1.5e5, "Pa", "Was it given in mbar?")
    return float(2.0e-7 * (temperature_c + _KELVIN) ** 0.81 / pressure_pa)


def front_drying_time_s(
    water_kg_m3: float,
    half_thickness_m: float,
    temperature_c: float,
    vapour_factor: float,
    air_vapour_pa: float,
    pressure_pa: float = 101_325.0,
) -> float:
    """Return how long a slab dries whose vapour comes from a front that draws back.

    ``t = w l^2 / (2 (d_a / mu) (p_sat - p_air))``, d_a the vapour permeability of air.

    Parameters
    ----------
    water_kg_m3 : float
        Water to be driven out of a cubic metre of block [kg/m3]
    half_thickness_m : float
        Half the thickness, if it dries by two faces; the whole if by one [m]
    temperature_c : float
        Temperature of the block [degC]
    vapour_factor : float
        How many times less the block lets through than still air, mu [-]
    air_vapour_pa : float
        Pressure of the water vapour in the air round it [Pa]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    ValueError
        If `water_kg_m3` is not above 0 and at most 1000 kg/m3, `half_thickness_m` not
        above 0 and at most 5 m, `temperature_c` outside 0 to 95 degC, `vapour_factor`
        outside 1 to 1e6, `pressure_pa` outside 50 to 150 kPa or `air_vapour_pa` outside 0
        to 99 % of the saturation pressure.

    Notes
    -----
    The end stage, without suction of water to the face: errs long for a wet block.  It
    asks that the oven brings the heat and takes the vapour away.
    From 100 degC on the water boils, steam is driven by its own pressure and this does not
    hold.

    Examples
    --------
    >>> round(front_drying_time_s(100.0, 0.075, 60.0, 10.0, 1200.0) / 86400.0, 1)
    8.0
    """
    positive("water_kg_m3", water_kg_m3, 1e3, "kg/m3")
    _check_half_thickness(half_thickness_m)
    within("temperature_c", temperature_c, 0.0, 95.0, "degC", "Was it given in kelvin?")
    within("vapour_factor", vapour_factor, 1.0, 1e6, "")
    within("pressure_pa", pressure_pa, 5e4, 1.5e5, "Pa", "Was it given in mbar?")
    saturated_pa = saturation_pressure_pa(temperature_c)
    within("air_vapour_pa", air_vapour_pa, 0.0, 0.99 * saturated_pa, "Pa")
    air = vapour_permeability_kg_per_m_s_pa(temperature_c, pressure_pa)
    driven = 2.0 * air / vapour_factor * (saturated_pa - air_vapour_pa)
    return water_kg_m3 * half_thickness_m**2 / driven


def front_loss_share_per_s(water_share: float, drying_time_s: float) -> float:
    """Return the share of its dry mass that a block loses a second as its last water goes.

    ``w / (2 t)``: with the front of `front_drying_time_s` the loss grows with the root
    of the time, so at its end the rate is half the mean.

    Parameters
    ----------
    water_share : float
        Water at the start over the dry mass [-]
    drying_time_s : float
        Time of drying from that water [s]

    Returns
    -------
    float
        Share of the dry mass [1/s]

    Raises
    ------
    ValueError
        If the water is outside 0 to 2 or the time not above 0 and at most ten years.

    Examples
    --------
    >>> round(front_loss_share_per_s(0.3, 50 * 3600.0) * 3600.0, 4)
    0.003
    """
    within("water_share", water_share, 0.0, 2.0, "", "Was it given in per cent?")
    positive("drying_time_s", drying_time_s, 3.2e8, "s")
    return water_share / (2.0 * drying_time_s)
