"""Thermal growth of tool and part between room and the temperature of lock-on."""

from itertools import product

from advisor.calculations.valid_range import positive, within

_LONGEST_M = 100.0


def _check_expansion(name: str, value: float) -> None:
    within(name, value, -5e-5, 5e-4, "1/K", "Was it given in um/(m K)?")


def _check_temperatures(lock_c: float, room_c: float) -> None:
    within("lock_c", lock_c, -50.0, 500.0, "degC", "Was it given in kelvin?")
    within("room_c", room_c, -50.0, 60.0, "degC", "Was it given in kelvin?")


def scale_factor(
    tool_expansion_per_k: float,
    part_expansion_per_k: float,
    lock_c: float,
    room_c: float = 20.0,
) -> float:
    """Return the factor by which to scale the part's drawing to cut the tool.

    ``S = (1 + a_p dT) / (1 + a_t dT)`` with ``dT = T_lock - T_room``: tool and part have
    the same length when the part locks on to the tool, and each then shrinks by itself.

    Parameters
    ----------
    tool_expansion_per_k : float
        Mean coefficient of linear expansion of the tool [1/K]
    part_expansion_per_k : float
        Mean coefficient of linear expansion of the cured part, in plane [1/K]
    lock_c : float
        Temperature at which the part sets and keeps the tool's length [degC]
    room_c : float
        Temperature at which the tool is cut and the part measured [degC]

    Returns
    -------
    float
        Size of the tool over size of the part, both at `room_c` [-]

    Raises
    ------
    ValueError
        If an expansion is outside -5e-5 to 5e-4 1/K, `lock_c` outside -50 to 500 degC or
        `room_c` outside -50 to 60 degC.

    Notes
    -----
    Linear, free and isotropic growth in the plane; constant coefficients.  Drying or
    cure shrinkage of the tool is not in it.  Where a free-standing post-cure follows,
    `lock_c` is the temperature of the first cure, not of the post-cure.

    Examples
    --------
    >>> round(scale_factor(23e-6, 2e-6, 120.0), 6)
    0.997905
    """
    _check_expansion("tool_expansion_per_k", tool_expansion_per_k)
    _check_expansion("part_expansion_per_k", part_expansion_per_k)
    _check_temperatures(lock_c, room_c)
    rise_k = lock_c - room_c
    return (1.0 + part_expansion_per_k * rise_k) / (1.0 + tool_expansion_per_k * rise_k)


def growth_mismatch_m(
    length_m: float,
    tool_expansion_per_k: float,
    part_expansion_per_k: float,
    lock_c: float,
    room_c: float = 20.0,
) -> float:
    """Return how much longer the part comes out if the tool is cut to nominal size.

    ``L (1/S - 1)``, where S is the result of `scale_factor`.

    Parameters
    ----------
    length_m : float
        Nominal length of the part, at room temperature [m]
    tool_expansion_per_k : float
        Mean coefficient of linear expansion of the tool [1/K]
    part_expansion_per_k : float
        Mean coefficient of linear expansion of the cured part, in plane [1/K]
    lock_c : float
        Temperature at which the part sets and keeps the tool's length [degC]
    room_c : float
        Temperature at which the tool is cut and the part measured [degC]

    Returns
    -------
    float
        Excess length of the part; negative if it comes out short [m]

    Raises
    ------
    ValueError
        If `length_m` is not above 0 and at most 100 m, or as for `scale_factor`.

    Notes
    -----
    Compare it with the tolerance of the length: below it, cutting to nominal size will
    do.

    Examples
    --------
    >>> round(growth_mismatch_m(1.0, 23e-6, 2e-6, 120.0), 6)
    0.0021
    """
    positive("length_m", length_m, _LONGEST_M, "m", "Was it given in millimetres?")
    scale = scale_factor(tool_expansion_per_k, part_expansion_per_k, lock_c, room_c)
    return length_m * (1.0 / scale - 1.0)


def residual_mismatch_m(
    length_m: float,
    tool_expansion_low_per_k: float,
    tool_expansion_high_per_k: float,
    tool_expansion_per_k: float,
    part_expansion_low_per_k: float,
    part_expansion_high_per_k: float,
    part_expansion_per_k: float,
    lock_c: float,
    lock_uncertainty_k: float,
    room_c: float = 20.0,
) -> float:
    """Return the largest error of length left after cutting the tool to scale.

    The tool is cut to ``S L`` with the stated values; the part then comes out at
    ``S L (1 + a_t dT) / (1 + a_p dT)`` with the true ones.  The error is taken at all
    combinations of the ends of the three ranges.  It changes in one sense only with each
    of the three, so no combination inside the ranges is worse.

    Parameters
    ----------
    length_m : float
        Nominal length of the part, at room temperature [m]
    tool_expansion_low_per_k, tool_expansion_high_per_k : float
        Ends of the range of the tool's expansion [1/K]
    tool_expansion_per_k : float
        Expansion of the tool that the scale factor was made with [1/K]
    part_expansion_low_per_k, part_expansion_high_per_k : float
        Ends of the range of the part's expansion [1/K]
    part_expansion_per_k : float
        Expansion of the part that the scale factor was made with [1/K]
    lock_c : float
        Temperature of lock-on that the scale factor was made with [degC]
    lock_uncertainty_k : float
        By how much the true temperature of lock-on may differ, either way [K]
    room_c : float
        Temperature at which the tool is cut and the part measured [degC]

    Returns
    -------
    float
        Largest difference from the nominal length, without sign [m]

    Raises
    ------
    ValueError
        If a stated expansion is outside its own range, `lock_uncertainty_k` is outside 0
        to 100 K, or as for `growth_mismatch_m`.

    Notes
    -----
    Errs on the large side: all three uncertainties are taken at their worst together.

    Examples
    --------
    >>> error_m = residual_mismatch_m(
    ...     1.0, 20e-6, 24e-6, 23e-6, 1e-6, 3e-6, 2e-6, lock_c=80.0, lock_uncertainty_k=10.0
    ... )
    >>> round(error_m, 6)
    0.00041
    """
    positive("length_m", length_m, _LONGEST_M, "m", "Was it given in millimetres?")
    for side, low, value, high in (
        ("tool", tool_expansion_low_per_k, tool_expansion_per_k, tool_expansion_high_per_k),
        ("part", part_expansion_low_per_k, part_expansion_per_k, part_expansion_high_per_k),
    ):
        _check_expansion(f"{side}_expansion_low_per_k", low)
        _check_expansion(f"{side}_expansion_high_per_k", high)
        within(f"{side}_expansion_per_k", value, low, high, "1/K")
    within("lock_uncertainty_k", lock_uncertainty_k, 0.0, 100.0, "K")
    scale = scale_factor(tool_expansion_per_k, part_expansion_per_k, lock_c, room_c)
    rise_k = lock_c - room_c
    corners = product(
        (tool_expansion_low_per_k, tool_expansion_high_per_k),
        (part_expansion_low_per_k, part_expansion_high_per_k),
        (rise_k - lock_uncertainty_k, rise_k + lock_uncertainty_k),
    )
    return max(
        abs(length_m * (scale * (1.0 + tool * rise) / (1.0 + part * rise) - 1.0))
        for tool, part, rise in corners
    )


def cooling_fit_m(
    diameter_or_width_m: float,
    tool_expansion_per_k: float,
    part_expansion_per_k: float,
    lock_c: float,
    room_c: float = 20.0,
) -> float:
    """Return the clearance that opens between a part and a male tool on cool-down.

    ``D ((1 + a_t dT) / (1 + a_p dT) - 1)``, close to ``D (a_t - a_p) dT``: tool and part
    have one size at lock-on, and each then shrinks by itself.

    Parameters
    ----------
    diameter_or_width_m : float
        Diameter of the tool, or its width between walls, at room temperature [m]
    tool_expansion_per_k : float
        Mean coefficient of linear expansion of the tool [1/K]
    part_expansion_per_k : float
        Mean coefficient of linear expansion of the cured part, in plane [1/K]
    lock_c : float
        Temperature at which the part sets and keeps the tool's size [degC]
    room_c : float
        Temperature at which the part is taken off [degC]

    Returns
    -------
    float
        Positive: total clearance on a male tool, which has shrunk more than the part;
        negative: the part grips the male tool by so much [m]

    Raises
    ------
    ValueError
        If `diameter_or_width_m` is not above 0 and at most 100 m, or as for
        `scale_factor`.

    Notes
    -----
    For a female tool the sense is reversed: a positive value is the interference by
    which the tool grips the part from outside, a negative one is clearance.  The value is
    on the diameter, so half of it stands at each wall.  Spring-in of corners, which
    closes a part on a male tool, is not in it.

    Examples
    --------
    >>> round(cooling_fit_m(0.2, 8e-6, 2e-6, 80.0) * 1e6)
    72
    """
    positive(
        "diameter_or_width_m",
        diameter_or_width_m,
        _LONGEST_M,
        "m",
        "Was it given in millimetres?",
    )
    return growth_mismatch_m(
        diameter_or_width_m, tool_expansion_per_k, part_expansion_per_k, lock_c, room_c
    )
