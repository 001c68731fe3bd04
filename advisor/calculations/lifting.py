"""Weight that one person may lift by hand: the revised NIOSH lifting equation."""

import math
from typing import Literal

from advisor.calculations.valid_range import one_of, positive, within

Coupling = Literal["good", "fair", "poor"]

_LOAD_CONSTANT_KG = 23.0
_COUPLINGS = ("good", "fair", "poor")
# Below the height at which the equation's table of couplings changes, and from it up.
_COUPLING_HEIGHT_M = 0.75
_COUPLING_FACTORS = {"good": (1.0, 1.0), "fair": (0.95, 1.0), "poor": (0.90, 0.90)}

# Lifts a minute, up to; then three pairs (below 0.75 m, from 0.75 m up) for up to 1 h,
# up to 2 h and up to 8 h of lifting: Table 5.
_FREQUENCY_TABLE = (
    (0.2, (1.00, 1.00), (0.95, 0.95), (0.85, 0.85)),
    (0.5, (0.97, 0.97), (0.92, 0.92), (0.81, 0.81)),
    (1.0, (0.94, 0.94), (0.88, 0.88), (0.75, 0.75)),
    (2.0, (0.91, 0.91), (0.84, 0.84), (0.65, 0.65)),
    (3.0, (0.88, 0.88), (0.79, 0.79), (0.55, 0.55)),
    (4.0, (0.84, 0.84), (0.72, 0.72), (0.45, 0.45)),
    (5.0, (0.80, 0.80), (0.60, 0.60), (0.35, 0.35)),
    (6.0, (0.75, 0.75), (0.50, 0.50), (0.27, 0.27)),
    (7.0, (0.70, 0.70), (0.42, 0.42), (0.22, 0.22)),
    (8.0, (0.60, 0.60), (0.35, 0.35), (0.18, 0.18)),
    (9.0, (0.52, 0.52), (0.30, 0.30), (0.00, 0.15)),
    (10.0, (0.45, 0.45), (0.26, 0.26), (0.00, 0.13)),
    (11.0, (0.41, 0.41), (0.00, 0.23), (0.00, 0.00)),
    (12.0, (0.37, 0.37), (0.00, 0.21), (0.00, 0.00)),
    (13.0, (0.00, 0.34), (0.00, 0.00), (0.00, 0.00)),
    (14.0, (0.00, 0.31), (0.00, 0.00), (0.00, 0.00)),
    (15.0, (0.00, 0.28), (0.00, 0.00), (0.00, 0.00)),
)


def _check_distance(name: str, value: float) -> None:
    within(name, value, 0.0, 3.0, "m", "Was it given in centimetres?")


def horizontal_multiplier(horizontal_m: float) -> float:
    """Return the multiplier for the reach from the ankles to the hands.

    ``HM = 25 / H`` with H in centimetres; 1 below 25 cm, 0 above 63 cm [1]_.

    Parameters
    ----------
    horizontal_m : float
        Distance from the mid-point between the ankles to that between the hands [m]

    Returns
    -------
    float
        Horizontal multiplier, 0 to 1 [-]

    Raises
    ------
    ValueError
        Outside 0 to 3 m.

    Examples
    --------
    >>> horizontal_multiplier(0.50)
    0.5

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    _check_distance("horizontal_m", horizontal_m)
    if horizontal_m > 0.63:
        return 0.0
    return min(1.0, 0.25 / horizontal_m) if horizontal_m > 0.0 else 1.0


def vertical_multiplier(vertical_m: float) -> float:
    """Return the multiplier for the height of the hands.

    ``VM = 1 - 0.003 |V - 75|`` with V in centimetres; 0 above 175 cm [1]_.

    Parameters
    ----------
    vertical_m : float
        Height of the hands above the floor [m]

    Returns
    -------
    float
        Vertical multiplier, 0 to 1 [-]

    Raises
    ------
    ValueError
        Outside 0 to 3 m.

    Examples
    --------
    >>> round(vertical_multiplier(0.55), 3)
    0.94

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    _check_distance("vertical_m", vertical_m)
    return 0.0 if vertical_m > 1.75 else 1.0 - 0.3 * abs(vertical_m - 0.75)


def distance_multiplier(travel_m: float) -> float:
    """Return the multiplier for the height through which the load is moved.

    ``DM = 0.82 + 4.5 / D`` with D in centimetres; 1 below 25 cm, 0 above 175 cm [1]_.

    Parameters
    ----------
    travel_m : float
        Height between the origin and the destination of the lift, up or down [m]

    Returns
    -------
    float
        Distance multiplier, 0 to 1 [-]

    Raises
    ------
    ValueError
        Outside 0 to 3 m.

    Examples
    --------
    >>> round(distance_multiplier(0.95), 3)
    0.867

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    _check_distance("travel_m", travel_m)
    if travel_m > 1.75:
        return 0.0
    return min(1.0, 0.82 + 0.045 / travel_m) if travel_m > 0.0 else 1.0


def asymmetry_multiplier(asymmetry_deg: float) -> float:
    """Return the multiplier for the twist of the body.

    ``AM = 1 - 0.0032 A``; 0 above 135 degrees [1]_.

    Parameters
    ----------
    asymmetry_deg : float
        Angle of the load from straight ahead, to either side [degree]

    Returns
    -------
    float
        Asymmetry multiplier, 0 to 1 [-]

    Raises
    ------
    ValueError
        Outside 0 to 180 degrees.

    Examples
    --------
    >>> round(asymmetry_multiplier(30.0), 3)
    0.904

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    within("asymmetry_deg", asymmetry_deg, 0.0, 180.0, "degrees")
    return 0.0 if asymmetry_deg > 135.0 else 1.0 - 0.0032 * asymmetry_deg


def frequency_multiplier(lifts_per_minute: float, hours: float, vertical_m: float) -> float:
    """Return the multiplier for how often and how long lifting goes on.

    Table 5 of [1]_, without interpolation: the row of the next higher frequency.

    Parameters
    ----------
    lifts_per_minute : float
        Mean number of lifts [1/min]
    hours : float
        Duration of the lifting work [h]
    vertical_m : float
        Height of the hands above the floor [m]

    Returns
    -------
    float
        Frequency multiplier, 0 to 1 [-]

    Raises
    ------
    ValueError
        If `lifts_per_minute` is outside 0 to 60, `hours` is not above 0 and at most 8, or
        `vertical_m` is outside 0 to 3 m.

    Notes
    -----
    Above 15 lifts a minute it is 0.  The table's durations also ask for a time of light
    work after the lifting, which is not checked here.

    Examples
    --------
    >>> frequency_multiplier(2.4, 8.0, 0.15)
    0.55

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    within("lifts_per_minute", lifts_per_minute, 0.0, 60.0, "1/min")
    positive("hours", hours, 8.0, "h", "The equation does not cover longer work.")
    _check_distance("vertical_m", vertical_m)
    height = 0 if vertical_m < _COUPLING_HEIGHT_M else 1
    for limit, hour, two_hours, day in _FREQUENCY_TABLE:
        if lifts_per_minute <= limit:
            column = hour if hours <= 1.0 else two_hours if hours <= 2.0 else day
            return column[height]
    return 0.0


def coupling_multiplier(coupling: Coupling, vertical_m: float) -> float:
    """Return the multiplier for the hold that the hands have.

    Good 1; fair 0.95 below 75 cm and 1 from there up; poor 0.90 [1]_.

    Parameters
    ----------
    coupling : {"good", "fair", "poor"}
        Handles or cut-outs of good shape; lesser handles, or fingers bent under; none [-]
    vertical_m : float
        Height of the hands above the floor [m]

    Returns
    -------
    float
        Coupling multiplier, 0.90 to 1 [-]

    Raises
    ------
    ValueError
        If `coupling` is another word, or `vertical_m` is outside 0 to 3 m.

    Examples
    --------
    >>> coupling_multiplier("fair", 0.30)
    0.95

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    one_of("coupling", coupling, _COUPLINGS)
    _check_distance("vertical_m", vertical_m)
    low, high = _COUPLING_FACTORS[coupling]
    return low if vertical_m < _COUPLING_HEIGHT_M else high


def weight_limit_of_lift_kg(
    horizontal_m: float,
    low_m: float,
    travel_m: float,
    asymmetry_deg: float,
    lifts_per_minute: float,
    hours: float,
    coupling: Coupling,
) -> float:
    """Return the lower of the recommended weight limits at both ends of a lift.

    Parameters
    ----------
    horizontal_m, travel_m, asymmetry_deg, lifts_per_minute, hours, coupling
        As for `recommended_weight_limit_kg`
    low_m : float
        Height of the hands at the lower end of the lift [m]

    Returns
    -------
    float
        Recommended weight limit, 0 to 23 [kg]

    Raises
    ------
    ValueError
        As for `recommended_weight_limit_kg`.

    Examples
    --------
    >>> round(weight_limit_of_lift_kg(0.4, 0.75, 0.4, 0.0, 0.2, 1.0, "poor"), 1)
    10.6
    """
    return min(
        recommended_weight_limit_kg(
            horizontal_m,
            hands_m,
            travel_m,
            asymmetry_deg,
            lifts_per_minute,
            hours,
            coupling,
        )
        for hands_m in (low_m, low_m + travel_m)
    )


def recommended_weight_limit_kg(
    horizontal_m: float,
    vertical_m: float,
    travel_m: float,
    asymmetry_deg: float,
    lifts_per_minute: float,
    hours: float,
    coupling: Coupling,
) -> float:
    """Return the weight that nearly all healthy workers may lift with both hands.

    ``RWL = 23 kg HM VM DM AM FM CM``, the revised NIOSH equation in metric form [1]_.

    Parameters
    ----------
    horizontal_m : float
        Distance from the mid-point between the ankles to that between the hands [m]
    vertical_m : float
        Height of the hands above the floor [m]
    travel_m : float
        Height between the origin and the destination of the lift, up or down [m]
    asymmetry_deg : float
        Angle of the load from straight ahead, to either side [degree]
    lifts_per_minute : float
        Mean number of lifts [1/min]
    hours : float
        Duration of the lifting work, at most 8 [h]
    coupling : {"good", "fair", "poor"}
        Hold that the hands have [-]

    Returns
    -------
    float
        Recommended weight limit, 0 to 23; 0 where the equation allows no lift [kg]

    Raises
    ------
    ValueError
        If a distance is outside 0 to 3 m, the angle outside 0 to 180 degrees, the
        frequency outside 0 to 60 a minute, the duration not above 0 and at most 8 h, or
        the coupling another word.

    Notes
    -----
    Work it out at the origin and at the destination and use the lower.  It does not hold
    for lifting with one hand, seated or kneeling, in a restricted space, of unstable or
    hot loads, by two people, nor for carrying.  The form in inches has rounded constants
    and gives up to about 4 % more.

    Examples
    --------
    >>> round(recommended_weight_limit_kg(0.25, 0.55, 0.95, 0.0, 3.0, 0.75, "fair"), 1)
    15.7

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    return (
        _LOAD_CONSTANT_KG
        * horizontal_multiplier(horizontal_m)
        * vertical_multiplier(vertical_m)
        * distance_multiplier(travel_m)
        * asymmetry_multiplier(asymmetry_deg)
        * frequency_multiplier(lifts_per_minute, hours, vertical_m)
        * coupling_multiplier(coupling, vertical_m)
    )


def lifting_index(
    load_kg: float,
    horizontal_m: float,
    vertical_m: float,
    travel_m: float,
    asymmetry_deg: float,
    lifts_per_minute: float,
    hours: float,
    coupling: Coupling,
) -> float:
    """Return the load over its recommended limit.

    ``LI = load / RWL`` [1]_.

    Parameters
    ----------
    load_kg : float
        Mass of the load as lifted, with the water in it [kg]
    horizontal_m : float
        Distance from the mid-point between the ankles to that between the hands [m]
    vertical_m : float
        Height of the hands above the floor [m]
    travel_m : float
        Height between the origin and the destination of the lift, up or down [m]
    asymmetry_deg : float
        Angle of the load from straight ahead, to either side [degree]
    lifts_per_minute : float
        Mean number of lifts [1/min]
    hours : float
        Duration of the lifting work, at most 8 [h]
    coupling : {"good", "fair", "poor"}
        Hold that the hands have [-]

    Returns
    -------
    float
        Lifting index; infinite where the recommended limit is 0 [-]

    Raises
    ------
    ValueError
        If `load_kg` is not above 0 and at most 100000 kg, or as for
        `recommended_weight_limit_kg`.

    Notes
    -----
    Up to 1 is within the limit.  It is not defined for a lift by two people.

    Examples
    --------
    >>> round(lifting_index(15.0, 0.40, 0.30, 0.60, 30.0, 0.1, 0.5, "fair"), 2)
    1.57

    References
    ----------
    .. [1] Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting
       Equation, DHHS (NIOSH) 94-110, rev. 2021.
    """
    positive("load_kg", load_kg, 1e5, "kg")
    limit_kg = recommended_weight_limit_kg(
        horizontal_m, vertical_m, travel_m, asymmetry_deg, lifts_per_minute, hours, coupling
    )
    return load_kg / limit_kg if limit_kg > 0.0 else math.inf
