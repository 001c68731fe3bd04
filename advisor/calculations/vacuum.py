"""Vacuum under a bag: what the gauge should show, leaks and pump-down."""

import math

from advisor.calculations.atmosphere import pressure_at_altitude_pa
from advisor.calculations.valid_range import positive, within

STANDARD_PA = 101_325.0
_HIGHEST_PA = 150_000.0


def _check_volume(volume_m3: float) -> None:
    positive("volume_m3", volume_m3, 100.0, "m3", "Was it given in litres?")


def _check_pump(pump_m3_per_s: float) -> None:
    positive("pump_m3_per_s", pump_m3_per_s, 10.0, "m3/s", "Was it given in m3/h?")


def expected_gauge_pa(altitude_m: float, bag_pressure_pa: float) -> float:
    """Return what a vacuum gauge shows at the shop's height.

    ``p_atm - p_bag`` with the standard atmosphere: a gauge reads against the air round
    it, which is also all that presses on the bag.

    Parameters
    ----------
    altitude_m : float
        Height of the shop above sea level [m]
    bag_pressure_pa : float
        Absolute pressure under the bag, such as the pump's ultimate [Pa]

    Returns
    -------
    float
        Reading below the atmosphere, positive [Pa]

    Raises
    ------
    ValueError
        If `altitude_m` is outside -430 to 11 000 m or `bag_pressure_pa` outside 0 to the
        pressure of the air there.

    Notes
    -----
    The weather moves it by a few per cent of an atmosphere.

    Examples
    --------
    >>> round(expected_gauge_pa(1500.0, 2000.0) / 1e3, 1)
    82.6
    """
    outside_pa = pressure_at_altitude_pa(altitude_m)
    within("bag_pressure_pa", bag_pressure_pa, 0.0, outside_pa, "Pa")
    return outside_pa - bag_pressure_pa


def pressure_from_gauge_pa(gauge_pa: float, barometer_pa: float) -> float:
    """Return the absolute pressure under a bag from its gauge.

    Parameters
    ----------
    gauge_pa : float
        Reading below the atmosphere, positive [Pa]
    barometer_pa : float
        Pressure of the air in the shop, not brought to sea level [Pa]

    Returns
    -------
    float
        Absolute pressure [Pa]

    Raises
    ------
    ValueError
        If `barometer_pa` is outside 20 to 150 kPa or `gauge_pa` outside 0 to
        `barometer_pa`.

    Examples
    --------
    >>> pressure_from_gauge_pa(80e3, 84.5e3)
    4500.0
    """
    within("barometer_pa", barometer_pa, 2e4, _HIGHEST_PA, "Pa", "Was it in mbar?")
    within("gauge_pa", gauge_pa, 0.0, barometer_pa, "Pa", "Is the gauge right?")
    return barometer_pa - gauge_pa


def pressure_rise_pa_per_s(start_pa: float, end_pa: float, duration_s: float) -> float:
    """Return how fast the pressure under a shut-off bag rises.

    Parameters
    ----------
    start_pa, end_pa : float
        Absolute pressure at the start and at the end [Pa]
    duration_s : float
        Time between the two readings, pump shut off [s]

    Returns
    -------
    float
        Mean rise; negative where the pressure fell [Pa/s]

    Raises
    ------
    ValueError
        If a pressure is outside 0 to 150 kPa or `duration_s` not above 0 and at most a
        week.

    Notes
    -----
    In absolute units, for a limit in per cent of the vacuum means less air in a shop high
    up.  Read both at one temperature, after the pressure has settled.

    Examples
    --------
    >>> round(pressure_rise_pa_per_s(3e3, 5.5e3, 300.0), 2)
    8.33
    """
    for name, value in (("start_pa", start_pa), ("end_pa", end_pa)):
        within(name, value, 0.0, _HIGHEST_PA, "Pa", "Is it a gauge reading?")
    positive("duration_s", duration_s, 604_800.0, "s", "Was it given in minutes?")
    return (end_pa - start_pa) / duration_s


def leak_accepted(
    start_pa: float,
    end_pa: float,
    duration_s: float,
    highest_start_pa: float,
    highest_rise_pa_per_s: float,
) -> bool:
    """Return whether a bag passes its leak test.

    Parameters
    ----------
    start_pa, end_pa : float
        Absolute pressure at the start and at the end [Pa]
    duration_s : float
        Time between the two readings, pump shut off [s]
    highest_start_pa : float
        Highest absolute pressure at which the test may start [Pa]
    highest_rise_pa_per_s : float
        Highest rise allowed [Pa/s]

    Returns
    -------
    bool
        True if it starts low enough and rises slowly enough [-]

    Raises
    ------
    ValueError
        If a limit is not above 0 and at most 150 kPa (kPa/s), or as for
        `pressure_rise_pa_per_s`.

    Notes
    -----
    Blind to a leak that a porous tool soaks up: see `leak_free_air_m3_per_s`.

    Examples
    --------
    >>> leak_accepted(4e3, 5.5e3, 300.0, 5e3, 5.0 * 100.0 / 60.0)
    True
    """
    positive("highest_start_pa", highest_start_pa, _HIGHEST_PA, "Pa")
    positive("highest_rise_pa_per_s", highest_rise_pa_per_s, _HIGHEST_PA, "Pa/s")
    rise = pressure_rise_pa_per_s(start_pa, end_pa, duration_s)
    return start_pa <= highest_start_pa and rise <= highest_rise_pa_per_s


def leak_free_air_m3_per_s(volume_m3: float, rise_pa_per_s: float) -> float:
    """Return the flow of outside air that makes the pressure under a bag rise.

    ``Q = V (dp/dt) / p_std``.

    Parameters
    ----------
    volume_m3 : float
        Gas under the bag: breather, hoses, and the pores of a tool inside it [m3]
    rise_pa_per_s : float
        Rise of the pressure, pump shut off [Pa/s]

    Returns
    -------
    float
        Leak as air of 101 325 Pa [m3/s]

    Raises
    ------
    ValueError
        If `volume_m3` is not above 0 and at most 100 m3 or the rise outside 0 to
        150 kPa/s.

    Notes
    -----
    Steady temperature.  The same rise means so much more leak as the volume is larger: a
    porous block inside the bag hides one.

    Examples
    --------
    >>> litres_per_min = leak_free_air_m3_per_s(5e-3, 3390.0 / 60.0) * 6e4
    >>> round(litres_per_min, 3)
    0.167
    """
    _check_volume(volume_m3)
    within("rise_pa_per_s", rise_pa_per_s, 0.0, _HIGHEST_PA, "Pa/s")
    return volume_m3 * rise_pa_per_s / STANDARD_PA


def leak_rise_pa_per_s(volume_m3: float, free_air_m3_per_s: float) -> float:
    """Return how fast a leak makes the pressure under a shut-off bag rise.

    ``dp/dt = Q p_std / V``.

    Parameters
    ----------
    volume_m3 : float
        Gas under the bag [m3]
    free_air_m3_per_s : float
        Leak as air of 101 325 Pa [m3/s]

    Returns
    -------
    float
        Rise of the pressure while it is still low [Pa/s]

    Raises
    ------
    ValueError
        If `volume_m3` is not above 0 and at most 100 m3 or the flow outside 0 to 10 m3/s.

    Examples
    --------
    >>> round(leak_rise_pa_per_s(5e-3, 1.11e-3 / 60.0) * 60.0 / 100.0)
    225
    """
    _check_volume(volume_m3)
    within("free_air_m3_per_s", free_air_m3_per_s, 0.0, 10.0, "m3/s", "Is it in l/min?")
    return free_air_m3_per_s * STANDARD_PA / volume_m3


def pump_down_s(
    volume_m3: float,
    pump_m3_per_s: float,
    start_pa: float,
    end_pa: float,
    ultimate_pa: float = 0.0,
) -> float:
    """Return how long a pump takes to empty a volume.

    ``t = V / S ln((p0 - pu) / (p1 - pu))`` for a pump of steady speed S that ends at pu.

    Parameters
    ----------
    volume_m3 : float
        Gas under the bag, with the pores of a tool inside it [m3]
    pump_m3_per_s : float
        Speed of the pump, as volume at its inlet [m3/s]
    start_pa, end_pa : float
        Absolute pressure at the start and at the end [Pa]
    ultimate_pa : float
        Absolute pressure at which the pump stands still, leaks counted in [Pa]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    ValueError
        If `volume_m3` is not above 0 and at most 100 m3, `pump_m3_per_s` not above 0 and
        at most 10 m3/s, `start_pa` not above 0 and at most 150 kPa, `ultimate_pa` outside
        0 to `start_pa` or `end_pa` not above `ultimate_pa` and at most `start_pa`.

    Notes
    -----
    A lower bound: hoses throttle, speed falls towards the ultimate, water boils off and
    pores give up their air slowly (`permeable_block.equalising_s`).

    Examples
    --------
    >>> round(pump_down_s(0.06, 10.0 / 3600.0, 101325.0, 5e3))
    65
    """
    _check_volume(volume_m3)
    _check_pump(pump_m3_per_s)
    positive("start_pa", start_pa, _HIGHEST_PA, "Pa", "Was it given in bar?")
    within("ultimate_pa", ultimate_pa, 0.0, start_pa, "Pa")
    positive("end_pa less ultimate_pa", end_pa - ultimate_pa, start_pa - ultimate_pa, "Pa")
    ratio = (start_pa - ultimate_pa) / (end_pa - ultimate_pa)
    return volume_m3 / pump_m3_per_s * math.log(ratio)
