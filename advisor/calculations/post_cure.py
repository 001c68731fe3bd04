"""Steps of a post-cure that walks the glass transition of a laminate up."""

import math

from advisor.calculations.valid_range import positive, within


def stairs_c(first_c: float, last_c: float, step_k: float) -> tuple[float, ...]:
    """Return the temperatures to hold at, even steps from above the first to the last.

    Parameters
    ----------
    first_c : float
        Temperature the laminate has been cured at [degC]
    last_c : float
        Last temperature to hold [degC]
    step_k : float
        Largest step between two holds [K]

    Returns
    -------
    tuple of float
        Temperatures to hold at, the last one included [degC]

    Raises
    ------
    ValueError
        If a temperature is outside 0 to 400 degC, the last below the first, or the step
        not above 0 and at most 100 K.

    Examples
    --------
    >>> stairs_c(65.0, 105.0, 20.0)
    (85.0, 105.0)

    References
    ----------
    Equal division; derived here.
    """
    within("first_c", first_c, 0.0, 400.0, "degC", "Was it given in degrees F?")
    within("last_c", last_c, first_c, 400.0, "degC", "Was it given in degrees F?")
    positive("step_k", step_k, 100.0, "K")
    count = max(1, math.ceil((last_c - first_c) / step_k - 1e-9))
    return tuple(first_c + (last_c - first_c) * n / count for n in range(1, count + 1))


def hours_in_oven(
    room_c: float,
    first_c: float,
    last_c: float,
    step_k: float,
    hold_h: float,
    ramp_k_min: float,
) -> float:
    """Return the hours of the whole cycle, from a cold oven to a cold oven.

    ``t = n h + 2 (T_n - T_room) / (60 r)``: up, a hold at each of n steps, and down.

    Parameters
    ----------
    room_c : float
        Temperature at which the heating starts and the cooling ends [degC]
    first_c, last_c, step_k : float
        As for `stairs_c`; the first is passed on the way up, without a hold
    hold_h : float
        Hold at each step, the last one included [h]
    ramp_k_min : float
        Rate of heating and of cooling [K/min]

    Returns
    -------
    float
        Time by the clock [h]

    Raises
    ------
    ValueError
        As `stairs_c`, or if the room is outside 0 degC to the first temperature, the hold
        outside 0 to 100 h, or the ramp not above 0 and at most 20 K/min.

    Examples
    --------
    >>> round(hours_in_oven(20.0, 60.0, 120.0, 20.0, 1.0, 0.5), 2)
    9.67

    References
    ----------
    Derived here.
    """
    stairs = stairs_c(first_c, last_c, step_k)
    within("room_c", room_c, 0.0, first_c, "degC")
    within("hold_h", hold_h, 0.0, 100.0, "h")
    positive("ramp_k_min", ramp_k_min, 20.0, "K/min")
    return len(stairs) * hold_h + 2.0 * (last_c - room_c) / (60.0 * ramp_k_min)
