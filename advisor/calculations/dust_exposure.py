"""Dust in a well-mixed room.  A screening estimate: measure, do not rely on it.

Nothing here can show that work is without danger, nor take the place of source capture.
"""

import math

from advisor.calculations.valid_range import positive, within

_LARGEST_ROOM_M3 = 1e5
_LARGEST_FLOW_M3_S = 1e4
_LARGEST_KG_M3 = 0.1
_UNITS = "Was it given in mg/m3?"


def _check_room(airflow_m3_s: float, volume_m3: float, mixing: float) -> None:
    positive("airflow_m3_s", airflow_m3_s, _LARGEST_FLOW_M3_S, "m3/s", "Per hour?")
    positive("volume_m3", volume_m3, _LARGEST_ROOM_M3, "m3")
    within("mixing", mixing, 0.05, 1.0, "")


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


def room_concentration_kg_m3(
    generation_kg_s: float,
    airflow_m3_s: float,
    volume_m3: float,
    time_s: float,
    start_kg_m3: float = 0.0,
    mixing: float = 1.0,
) -> float:
    """Return the concentration in a well-mixed room.

    ``C = C0 exp(-m Q t / V) + G / (m Q) (1 - exp(-m Q t / V))``, the balance of
    mass.  A screening estimate: measure, do not rely on it.

    Parameters
    ----------
    generation_kg_s : float
        Dust set free, steadily [kg/s]
    airflow_m3_s : float
        Clean air through the room [m3/s]
    volume_m3 : float
        Volume of the room [m3]
    time_s : float
        Time since the start; infinite for the steady state [s]
    start_kg_m3 : float
        Concentration at the start [kg/m3]
    mixing : float
        Share of the airflow that takes part; 1 only if air reaches every corner [-]

    Returns
    -------
    float
        Concentration away from the source [kg/m3]

    Raises
    ------
    ValueError
        If the generation is outside 0 to 1 kg/s, the airflow not above 0 and at most 10 000
        m3/s, the volume not above 0 and at most 1e5 m3, the time below 0, the start
        outside 0 to 0.1 kg/m3, or the mixing outside 0.05 to 1.

    Notes
    -----
    Whoever cuts breathes more than this.

    Examples
    --------
    >>> steady = room_concentration_kg_m3(0.3125e-6 / 60, 5.0 / 60, 100.0, math.inf)
    >>> round(steady * 1e6, 4)  # mg/m3
    0.0625
    """
    within("generation_kg_s", generation_kg_s, 0.0, 1.0, "kg/s")
    _check_room(airflow_m3_s, volume_m3, mixing)
    within("time_s", time_s, 0.0, math.inf, "s")
    within("start_kg_m3", start_kg_m3, 0.0, _LARGEST_KG_M3, "kg/m3", _UNITS)
    flow_m3_s = mixing * airflow_m3_s
    changes = flow_m3_s * time_s / volume_m3
    gained = generation_kg_s / flow_m3_s * -math.expm1(-changes)
    return start_kg_m3 * math.exp(-changes) + gained


def time_to_reach_s(
    generation_kg_s: float,
    airflow_m3_s: float,
    volume_m3: float,
    target_kg_m3: float,
    mixing: float = 1.0,
) -> float:
    """Return how soon a clean room reaches a concentration.

    ``t = -V / (m Q) ln(1 - C m Q / G)``.  A screening estimate: measure, do not rely on
    it.

    Parameters
    ----------
    generation_kg_s : float
        Dust set free, steadily [kg/s]
    airflow_m3_s : float
        Clean air through the room [m3/s]
    volume_m3 : float
        Volume of the room [m3]
    target_kg_m3 : float
        Concentration asked for [kg/m3]
    mixing : float
        Share of the airflow that takes part [-]

    Returns
    -------
    float
        Time; infinite if this model never reaches it [s]

    Raises
    ------
    ValueError
        If the generation is not above 0 and at most 1 kg/s, the target not above 0 and at
        most 0.1 kg/m3, or as for `room_concentration_kg_m3`.

    Notes
    -----
    An infinite time says nothing about the breathing zone of whoever cuts.

    Examples
    --------
    >>> round(time_to_reach_s(1e-8, 0.1, 100.0, 0.05e-6) / 60.0, 1)
    11.6
    """
    positive("generation_kg_s", generation_kg_s, 1.0, "kg/s")
    _check_room(airflow_m3_s, volume_m3, mixing)
    positive("target_kg_m3", target_kg_m3, _LARGEST_KG_M3, "kg/m3", _UNITS)
    flow_m3_s = mixing * airflow_m3_s
    share = target_kg_m3 * flow_m3_s / generation_kg_s
    return math.inf if share >= 1.0 else -volume_m3 / flow_m3_s * math.log1p(-share)


def purge_time_s(
    airflow_m3_s: float, volume_m3: float, left_share: float, mixing: float = 1.0
) -> float:
    """Return how long to wait after the work before opening up or going in.

    ``t = V / (m Q) ln(C / C_target)``.  A screening estimate: measure, do not rely on it.

    Parameters
    ----------
    airflow_m3_s : float
        Clean air through the room or enclosure [m3/s]
    volume_m3 : float
        Volume of the room or enclosure [m3]
    left_share : float
        Concentration wanted over that at the end of the work [-]
    mixing : float
        Share of the airflow that takes part [-]

    Returns
    -------
    float
        Time with the airflow running and no more dust set free [s]

    Raises
    ------
    ValueError
        If `left_share` is not above 0 and at most 1, or as for `room_concentration_kg_m3`.

    Notes
    -----
    Dust on ledges, clothes and the floor is not in it.

    Examples
    --------
    >>> round(purge_time_s(5.0 / 60.0, 100.0, 0.1) / 60.0)
    46
    """
    _check_room(airflow_m3_s, volume_m3, mixing)
    positive("left_share", left_share, 1.0, "", "Was it given in per cent?")
    return -volume_m3 / (mixing * airflow_m3_s) * math.log(left_share)
