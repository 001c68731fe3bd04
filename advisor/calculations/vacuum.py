"""Vacuum under a bag: what the gauge should show, leaks and pump-down."""

import math

from advisor.calculations.atmosphere import pressure_at_altitude_pa
from advisor.calculations.valid_range import positive, within

STANDARD_PA = 101_325.0
_HIGHEST_PA = 150_000.0


def _check_volume(volume_m3: float) -> None:
    positive("volume_m3", volume_m3, 1000.0, "m3", "Was it given in litres?")


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


def pull_down_time_s(
    volume_m3: float, pump_m3_per_s: float, start_pa: float, end_pa: float
) -> float:
    """Return how long a pump needs to empty a tight bag.

    ``V / S ln(p0 / p1)`` [1]_.

    Parameters
    ----------
    volume_m3 : float
        Air under the bag, pores of the tool included [m3]
    pump_m3_per_s : float
        Flow of the pump at its inlet [m3/s]
    start_pa, end_pa : float
        Absolute pressure before and after [Pa]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    ValueError
        If the volume is not above 0 and at most 1000 m3, the pump not above 0 and at most
        10 m3/s, a pressure outside 0 to 150 kPa, or `end_pa` not above 0 and below
        `start_pa`.

    Notes
    -----
    Without leaks, hose or the slowing of the pump near its best: a real bag takes two or
    three times as long, and pores let go of their air more slowly still.

    Examples
    --------
    >>> round(pull_down_time_s(0.06, 10.0 / 3600.0, 101_325.0, 5_000.0))
    65

    References
    ----------
    .. [1] Evacuation of a vessel at constant pumping speed (from memory).
    """
    _check_volume(volume_m3)
    _check_pump(pump_m3_per_s)
    within("start_pa", start_pa, 0.0, _HIGHEST_PA, "Pa", "Is it a gauge reading?")
    positive("end_pa", end_pa, start_pa, "Pa", "Is it a gauge reading?")
    return volume_m3 / pump_m3_per_s * math.log(start_pa / end_pa)


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
    Blind to a leak that a porous tool soaks up.

    Examples
    --------
    >>> leak_accepted(4e3, 5.5e3, 300.0, 5e3, 5.0 * 100.0 / 60.0)
    True
    """
    positive("highest_start_pa", highest_start_pa, _HIGHEST_PA, "Pa")
    positive("highest_rise_pa_per_s", highest_rise_pa_per_s, _HIGHEST_PA, "Pa/s")
    rise = pressure_rise_pa_per_s(start_pa, end_pa, duration_s)
    return start_pa <= highest_start_pa and rise <= highest_rise_pa_per_s
