"""Spring-in: how far a bent part closes up as it cures and cools."""

from advisor.calculations.valid_range import positive, within


def _shares(
    in_plane_expansion_per_k: float,
    thickness_expansion_per_k: float,
    lock_c: float,
    room_c: float,
    in_plane_shrinkage: float,
    thickness_shrinkage: float,
) -> float:
    """Return by what share of its own swept angle a corner closes."""
    for name, value in (
        ("in_plane_expansion_per_k", in_plane_expansion_per_k),
        ("thickness_expansion_per_k", thickness_expansion_per_k),
    ):
        within(name, value, -5e-5, 5e-4, "1/K", "Was it given in um/(m K)?")
    within("lock_c", lock_c, -50.0, 500.0, "degC", "Was it given in kelvin?")
    within("room_c", room_c, -50.0, 60.0, "degC", "Was it given in kelvin?")
    for name, value in (
        ("in_plane_shrinkage", in_plane_shrinkage),
        ("thickness_shrinkage", thickness_shrinkage),
    ):
        within(name, value, 0.0, 0.1, "", "Was it given in per cent?")
    change_k = room_c - lock_c
    thermal = (in_plane_expansion_per_k - thickness_expansion_per_k) * change_k
    shrinkage = thickness_shrinkage - in_plane_shrinkage
    return thermal / (1.0 + thickness_expansion_per_k * change_k) + shrinkage / (
        1.0 - thickness_shrinkage
    )


def spring_in_deg(
    swept_deg: float,
    in_plane_expansion_per_k: float,
    thickness_expansion_per_k: float,
    lock_c: float,
    in_plane_shrinkage: float,
    thickness_shrinkage: float,
    room_c: float = 20.0,
) -> float:
    """Return by how much a corner of a part closes.

    ``d = theta [(a_I - a_R) dT / (1 + a_R dT) + (f_I - f_R) / (1 + f_R)]`` with
    ``dT = T_room - T_lock`` and the strains of cure ``f``, which are the shrinkages with
    a minus sign [1]_, [2]_.

    Parameters
    ----------
    swept_deg : float
        Angle that the bend sweeps, 180 less the angle between the flanges [degree]
    in_plane_expansion_per_k : float
        Expansion of the laminate in its plane, round the bend [1/K]
    thickness_expansion_per_k : float
        Expansion of the laminate through its thickness [1/K]
    lock_c : float
        Temperature at which the part sets [degC]
    in_plane_shrinkage, thickness_shrinkage : float
        Shrinkage of the laminate by cure after gelation, positive, in plane and through
        the thickness [-]
    room_c : float
        Temperature at which the part is measured [degC]

    Returns
    -------
    float
        Spring-in; positive: the flanges move towards each other [degree]

    Raises
    ------
    ValueError
        If `swept_deg` is not above 0 and at most 180 degrees, an expansion outside -5e-5
        to 5e-4 1/K, `lock_c` outside -50 to 500 degC, `room_c` outside -50 to 60 degC or
        a shrinkage outside 0 to 0.1.

    Notes
    -----
    Even thickness, symmetric lay-up, flat flanges, no drag on the tool.  Does not depend
    on the radius.  With typical figures take it as right to about half its value, and
    correct the tool after the first part.

    Examples
    --------
    >>> round(spring_in_deg(90.0, 2e-6, 45e-6, 120.0, 0.0, 0.005), 2)
    0.84

    References
    ----------
    .. [1] Nelson, Cairns: Prediction of dimensional changes in composite laminates during
       cure, 1989 (from memory).
    .. [2] Radford, Rennick: Separating sources of manufacturing distortion in laminated
       composites, Journal of Reinforced Plastics and Composites, 2000 (from memory).
    """
    positive("swept_deg", swept_deg, 180.0, "degrees")
    return swept_deg * _shares(
        in_plane_expansion_per_k,
        thickness_expansion_per_k,
        lock_c,
        room_c,
        in_plane_shrinkage,
        thickness_shrinkage,
    )


def tool_angle_deg(
    part_angle_deg: float,
    in_plane_expansion_per_k: float,
    thickness_expansion_per_k: float,
    lock_c: float,
    in_plane_shrinkage: float,
    thickness_shrinkage: float,
    room_c: float = 20.0,
) -> float:
    """Return the angle to cut a corner of the tool to.

    ``180 - (180 - part) / (1 + s)``, s the spring-in over the swept angle: the tool's
    bend sweeps less than the part's, and the part closes the rest.

    Parameters
    ----------
    part_angle_deg : float
        Angle wanted between the flanges of the part [degree]
    in_plane_expansion_per_k : float
        Expansion of the laminate in its plane, round the bend [1/K]
    thickness_expansion_per_k : float
        Expansion of the laminate through its thickness [1/K]
    lock_c : float
        Temperature at which the part sets [degC]
    in_plane_shrinkage, thickness_shrinkage : float
        Shrinkage of the laminate by cure after gelation, positive, in plane and through
        the thickness [-]
    room_c : float
        Temperature at which the part is measured [degC]

    Returns
    -------
    float
        Angle between the flanges of the tool [degree]

    Raises
    ------
    ValueError
        If `part_angle_deg` is not from 0 to below 180 degrees, or as for
        `spring_in_deg`.

    Notes
    -----
    The tool's own growth does not change its angles, if it is of one material.

    Examples
    --------
    >>> round(tool_angle_deg(90.0, 2e-6, 45e-6, 120.0, 0.0, 0.005), 2)
    90.83
    """
    within("part_angle_deg", part_angle_deg, 0.0, 179.999, "degrees")
    share = _shares(
        in_plane_expansion_per_k,
        thickness_expansion_per_k,
        lock_c,
        room_c,
        in_plane_shrinkage,
        thickness_shrinkage,
    )
    return 180.0 - (180.0 - part_angle_deg) / (1.0 + share)
