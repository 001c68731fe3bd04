"""A bladder of rubber in a closed mould: what reaches a corner, growth, bolts."""

import math

from advisor.calculations.valid_range import positive, within

_ZERO_C = 273.15


def corner_pressure_pa(
    pressure_pa: float,
    modulus_pa: float,
    stretch: float,
    wall_m: float,
    radius_m: float,
) -> float:
    """Return the pressure that a stretched bladder brings into an inside corner.

    ``p - E e h / r``: its own tension keeps back what a thin ring of it would hold.

    Parameters
    ----------
    pressure_pa : float
        Pressure in the bladder over that outside [Pa]
    modulus_pa : float
        Stiffness of the rubber in tension [Pa]
    stretch : float
        Share by which it is stretched round the section [-]
    wall_m : float
        Wall of the bladder [m]
    radius_m : float
        Radius that the bladder takes in the corner [m]

    Returns
    -------
    float
        Pressure on the plies in the corner; below zero, the bladder bridges it [Pa]

    Raises
    ------
    ValueError
        If a pressure or modulus is not above 0 and at most 1e9 Pa, the stretch outside 0
        to 1, or a length not above 0 and at most 10 m.

    Notes
    -----
    A straight corner, stretch all round alike: friction on the plies keeps rubber from
    sliding into the corner and leaves less there.  Linear in the stretch, so for small
    ones only.

    Examples
    --------
    >>> round(corner_pressure_pa(90e3, 2.4e6, 0.05, 0.002, 0.01))
    66000

    References
    ----------
    Hoop stress of a thin ring, any textbook on the strength of materials; checked against
    a worked example, see the test.
    """
    positive("pressure_pa", pressure_pa, 1e9, "Pa", "Was it given in bar?")
    positive("modulus_pa", modulus_pa, 1e9, "Pa", "Was it given in MPa?")
    within("stretch", stretch, 0.0, 1.0, "", "Was it given in per cent?")
    positive("wall_m", wall_m, 10.0, "m", "Was it given in millimetres?")
    positive("radius_m", radius_m, 10.0, "m", "Was it given in millimetres?")
    return pressure_pa - modulus_pa * stretch * wall_m / radius_m


def growth_m(length_m: float, expansion_per_k: float, hot_c: float, room_c: float) -> float:
    """Return how much longer a bladder gets from room temperature to the cure.

    ``L a (T - T0)``.

    Parameters
    ----------
    length_m : float
        Length at room temperature [m]
    expansion_per_k : float
        Mean coefficient of linear expansion of the rubber [1/K]
    hot_c, room_c : float
        Temperature of the cure, and of the room [degC]

    Returns
    -------
    float
        Growth [m]

    Raises
    ------
    ValueError
        If the length is not above 0 and at most 100 m, the coefficient not above 0 and
        at most 1e-3 per K, or the cure colder than the room or above 400 degC.

    Examples
    --------
    >>> round(growth_m(1.0, 270e-6, 120.0, 20.0), 6)
    0.027

    References
    ----------
    Definition of the coefficient; derived here.
    """
    positive("length_m", length_m, 100.0, "m", "Was it given in millimetres?")
    positive("expansion_per_k", expansion_per_k, 1e-3, "1/K")
    within("hot_c", hot_c, room_c, 400.0, "degC")
    return length_m * expansion_per_k * (hot_c - room_c)


def shut_pressure_pa(
    gauge_pa: float, cold_c: float, hot_c: float, outside_pa: float
) -> float:
    """Return the gauge pressure of air shut in cold and heated: ``(p + p0) T / T0 - p0``.

    Parameters
    ----------
    gauge_pa : float
        Gauge pressure when it was shut in [Pa]
    cold_c, hot_c : float
        Temperature of the air then, and heated [degC]
    outside_pa : float
        Absolute pressure of the air outside [Pa]

    Returns
    -------
    float
        Gauge pressure when heated [Pa]

    Raises
    ------
    ValueError
        If a pressure is not above 0 and at most 2e6 Pa, the cold temperature outside -60
        to 60 degC, or the hot one below it or above 400 degC.

    Notes
    -----
    Ideal gas in a mould that does not give.

    Examples
    --------
    >>> round(shut_pressure_pa(300e3, 20.0, 120.0, 101325.0) / 1e3)
    437

    References
    ----------
    Gay-Lussac's law, any textbook of physics; checked against a worked example, see the
    test.
    """
    positive("gauge_pa", gauge_pa, 2e6, "Pa", "Was it given in bar?")
    positive("outside_pa", outside_pa, 2e6, "Pa", "Was it given in bar?")
    within("cold_c", cold_c, -60.0, 60.0, "degC")
    within("hot_c", hot_c, cold_c, 400.0, "degC")
    return (gauge_pa + outside_pa) * (hot_c + _ZERO_C) / (cold_c + _ZERO_C) - outside_pa


def bolts_along(length_m: float, pitch_m: float) -> int:
    """Return the bolts of a joint with a row on either side: ``2 (ceil(L / s) + 1)``.

    Parameters
    ----------
    length_m : float
        Length of the joint [m]
    pitch_m : float
        Distance between bolts, at most [m]

    Returns
    -------
    int
        Bolts, both rows [-]

    Raises
    ------
    ValueError
        If a length is not above 0 and at most 100 m.

    Examples
    --------
    >>> bolts_along(0.9, 0.1)
    20
    """
    positive("length_m", length_m, 100.0, "m", "Was it given in millimetres?")
    positive("pitch_m", pitch_m, 100.0, "m", "Was it given in millimetres?")
    return 2 * (math.ceil(length_m / pitch_m - 1e-9) + 1)


def proof_load_n(proof_stress_pa: float, stress_area_m2: float) -> float:
    """Return the load that a bolt takes without staying longer: ``F = S A``.

    Parameters
    ----------
    proof_stress_pa : float
        Proof stress of its class [Pa]
    stress_area_m2 : float
        Stress area of its thread [m2]

    Returns
    -------
    float
        Proof load [N]

    Raises
    ------
    ValueError
        If the stress is not above 0 and at most 3e9 Pa, or the area not above 0 and at
        most 0.1 m2.

    Examples
    --------
    >>> round(proof_load_n(580e6, 58.0e-6))
    33640

    References
    ----------
    ISO 898-1; checked against a worked example, see the test.
    """
    positive("proof_stress_pa", proof_stress_pa, 3e9, "Pa", "Was it given in MPa?")
    positive("stress_area_m2", stress_area_m2, 0.1, "m2", "Was it given in mm2?")
    return proof_stress_pa * stress_area_m2
