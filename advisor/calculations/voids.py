"""Voids from moisture: the resin pressure they need against the pressure there is."""

from advisor.calculations.steam import saturation_pressure_pa
from advisor.calculations.valid_range import positive, within


def _check_humidity(humidity: float) -> None:
    positive("humidity", humidity, 1.0, "", "Was it given in per cent?")


def least_resin_pressure_pa(temperature_c: float, humidity: float) -> float:
    """Return the resin pressure below which water vapour makes voids grow.

    ``p = RH p_sat(T)``: the vapour pressure of the water that the resin took up at the
    humidity RH, at the temperature of the cure.  The fit of Kardos, Dudukovic and Dave
    [1]_, ``4962 exp(-4892 / T) RH`` in atm with RH in per cent, is the same with a fitted
    saturation pressure.

    Parameters
    ----------
    temperature_c : float
        Highest temperature while the resin is still liquid [degC]
    humidity : float
        Relative humidity with which the prepreg is in equilibrium, 0 to 1 [-]

    Returns
    -------
    float
        Least pressure in the resin that holds the water dissolved [Pa]

    Raises
    ------
    ValueError
        If `temperature_c` is outside 0 to 250 degC or `humidity` not above 0 and at most
        1.

    Notes
    -----
    A bound, not a rate: it says that a void can grow, not how far.  Solvents and air shut
    in between plies are not in it.  `humidity` is that of the room where the prepreg lay
    unpacked, if it lay there long.

    Examples
    --------
    >>> round(least_resin_pressure_pa(120.0, 0.5) / 1e3, 1)
    99.3

    References
    ----------
    .. [1] Kardos, Dudukovic, Dave: Void Growth and Resin Transport During Processing of
       Thermosetting-Matrix Composites, Advances in Polymer Science, 1986 (constants from
       memory).
    """
    within("temperature_c", temperature_c, 0.0, 250.0, "degC", "Was it given in kelvin?")
    _check_humidity(humidity)
    return humidity * saturation_pressure_pa(temperature_c)


def highest_humidity(temperature_c: float, pressure_pa: float) -> float:
    """Return the humidity up to which the prepreg may be kept without voids.

    ``p / p_sat(T)``, at most 1.

    Parameters
    ----------
    temperature_c : float
        Highest temperature while the resin is still liquid [degC]
    pressure_pa : float
        Pressure in the resin [Pa]

    Returns
    -------
    float
        Relative humidity with which the prepreg may be in equilibrium, 0 to 1 [-]

    Raises
    ------
    ValueError
        If `temperature_c` is outside 0 to 250 degC or `pressure_pa` not above 0 and at
        most 3 MPa.

    Examples
    --------
    >>> round(highest_humidity(120.0, 70e3), 2)
    0.35
    """
    within("temperature_c", temperature_c, 0.0, 250.0, "degC", "Was it given in kelvin?")
    positive("pressure_pa", pressure_pa, 3e6, "Pa")
    return min(1.0, pressure_pa / saturation_pressure_pa(temperature_c))


def pressure_margin(
    temperature_c: float, humidity: float, available_pressure_pa: float
) -> float:
    """Return the resin pressure there is over the least one needed.

    Parameters
    ----------
    temperature_c : float
        Highest temperature while the resin is still liquid [degC]
    humidity : float
        Relative humidity with which the prepreg is in equilibrium, 0 to 1 [-]
    available_pressure_pa : float
        Pressure in the resin [Pa]

    Returns
    -------
    float
        Ratio; below 1 voids can grow [-]

    Raises
    ------
    ValueError
        If `available_pressure_pa` is outside 0 to 3 MPa, or as for
        `least_resin_pressure_pa`.

    Examples
    --------
    >>> round(pressure_margin(80.0, 0.5, 90e3), 1)
    3.8
    """
    within("available_pressure_pa", available_pressure_pa, 0.0, 3e6, "Pa")
    return available_pressure_pa / least_resin_pressure_pa(temperature_c, humidity)
