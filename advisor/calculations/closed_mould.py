"""Plies between two rigid tool halves: gap, stack, nip and what the gap makes of them."""

import math

from advisor.calculations.laminate import cured_ply_thickness_m
from advisor.calculations.valid_range import positive, whole, within

# Round fibres that touch one another all round: no laminate holds more.
CLOSEST_PACKING = math.pi / (2.0 * math.sqrt(3.0))


def _rise_k(hot_c: float, room_c: float) -> float:
    within("hot_c", hot_c, -50.0, 500.0, "degC", "Was it given in kelvin?")
    within("room_c", room_c, -50.0, 60.0, "degC", "Was it given in kelvin?")
    return hot_c - room_c


def _check_growth(*named: tuple[str, float]) -> None:
    for name, value in named:
        within(name, value, -5e-5, 5e-4, "1/K", "Was it given in um/(m K)?")


def _check_halves(upper_m: float, lower_m: float) -> None:
    within("upper_m", upper_m, -10.0, 10.0, "m", "Was it given in millimetres?")
    within("lower_m", lower_m, -10.0, 10.0, "m", "Was it given in millimetres?")


def _check_gap(name: str, gap_m: float) -> None:
    positive(name, gap_m, 1.5, "m", "Was it given in millimetres?")


def _halves_growth_m(
    upper_m: float,
    lower_m: float,
    upper_per_k: float,
    lower_per_k: float,
    stop_per_k: float,
    rise_k: float,
) -> float:
    """Return by how much the two halves grow less than a stop of their own height."""
    upper = upper_m * (stop_per_k - upper_per_k)
    return (upper + lower_m * (stop_per_k - lower_per_k)) * rise_k


def hot_gap_m(
    gap_m: float,
    upper_m: float,
    lower_m: float,
    upper_expansion_per_k: float,
    lower_expansion_per_k: float,
    stop_expansion_per_k: float,
    hot_c: float,
    room_c: float = 20.0,
) -> float:
    """Return the gap between the faces of two closed tool halves when they are hot.

    ``g = H (1 + a_s dT) - u (1 + a_u dT) - l (1 + a_l dT)`` with ``H = g0 + u + l`` and
    ``dT = T - T_room``: the stops of height H hold the seats apart, and what the halves
    fill of it is no gap.

    Parameters
    ----------
    gap_m : float
        Gap g0 between the faces, closed and cold [m]
    upper_m, lower_m : float
        Height u, l by which the face of each half stands proud of the seat of its stops;
        negative where the face is sunk below it [m]
    upper_expansion_per_k, lower_expansion_per_k : float
        Coefficient of linear expansion of each half [1/K]
    stop_expansion_per_k : float
        The same of the stops; where the lands of the halves meet there are none, and it
        does not count [1/K]
    hot_c : float
        Temperature at which the part sets [degC]
    room_c : float
        Temperature at which the gap was cut and measured [degC]

    Returns
    -------
    float
        Gap when hot [m]

    Raises
    ------
    ValueError
        If `gap_m` is not above 0 and at most 1.5 m, a height outside -10 to 10 m, an
        expansion outside -5e-5 to 5e-4 1/K, `hot_c` outside -50 to 500 degC, `room_c`
        outside -50 to 60 degC, the stops would be lower than nothing, or the faces would
        meet.

    Notes
    -----
    Rigid halves, evenly warm, closed on the stops: bowing between clamps opens the gap
    in the middle and is not in it.  Halves and stops of one material grow with the gap
    alone, by a few thousandths of it; a steel stop beside an aluminium plug 100 mm high
    takes a tenth of a millimetre off it at 120 degC.

    Examples
    --------
    >>> round(hot_gap_m(2e-3, 0.1, -0.102, 23e-6, 23e-6, 23e-6, 120.0) * 1e3, 4)
    2.0046
    >>> round(hot_gap_m(2e-3, 0.1, 0.0, 23e-6, 23e-6, 12e-6, 120.0) * 1e3, 4)
    1.8924

    References
    ----------
    Linear growth of each length; derived here, no published example found.
    """
    _check_gap("gap_m", gap_m)
    _check_halves(upper_m, lower_m)
    _check_growth(
        ("upper_expansion_per_k", upper_expansion_per_k),
        ("lower_expansion_per_k", lower_expansion_per_k),
        ("stop_expansion_per_k", stop_expansion_per_k),
    )
    rise_k = _rise_k(hot_c, room_c)
    within("gap_m + upper_m + lower_m", gap_m + upper_m + lower_m, -1e-12, 21.5, "m")
    grown = gap_m * (1.0 + stop_expansion_per_k * rise_k) + _halves_growth_m(
        upper_m,
        lower_m,
        upper_expansion_per_k,
        lower_expansion_per_k,
        stop_expansion_per_k,
        rise_k,
    )
    positive("the gap when hot", grown, 1.0, "m", "The faces meet before the stops.")
    return grown


def cold_gap_m(
    hot_gap_m: float,
    upper_m: float,
    lower_m: float,
    upper_expansion_per_k: float,
    lower_expansion_per_k: float,
    stop_expansion_per_k: float,
    hot_c: float,
    room_c: float = 20.0,
) -> float:
    """Return the gap to cut cold for a gap wanted hot: the inverse of `hot_gap_m`.

    ``g0 = [g - (u (a_s - a_u) + l (a_s - a_l)) dT] / (1 + a_s dT)``.

    Parameters
    ----------
    hot_gap_m : float
        Gap g wanted at the temperature at which the part sets [m]
    upper_m, lower_m : float
        As for `hot_gap_m` [m]
    upper_expansion_per_k, lower_expansion_per_k, stop_expansion_per_k : float
        As for `hot_gap_m` [1/K]
    hot_c, room_c : float
        As for `hot_gap_m` [degC]

    Returns
    -------
    float
        Gap to cut [m]

    Raises
    ------
    ValueError
        As for `hot_gap_m`, of either gap.

    Examples
    --------
    >>> round(cold_gap_m(1.8924e-3, 0.1, 0.0, 23e-6, 23e-6, 12e-6, 120.0) * 1e3, 3)
    2.0

    References
    ----------
    As for `hot_gap_m`.
    """
    _check_gap("hot_gap_m", hot_gap_m)
    _check_halves(upper_m, lower_m)
    _check_growth(
        ("upper_expansion_per_k", upper_expansion_per_k),
        ("lower_expansion_per_k", lower_expansion_per_k),
        ("stop_expansion_per_k", stop_expansion_per_k),
    )
    rise_k = _rise_k(hot_c, room_c)
    halves = _halves_growth_m(
        upper_m,
        lower_m,
        upper_expansion_per_k,
        lower_expansion_per_k,
        stop_expansion_per_k,
        rise_k,
    )
    gap = (hot_gap_m - halves) / (1.0 + stop_expansion_per_k * rise_k)
    _check_gap("the gap when cold", gap)
    return gap


def part_thickness_m(
    hot_gap_m: float,
    thickness_expansion_per_k: float,
    thickness_shrinkage: float,
    hot_c: float,
    room_c: float = 20.0,
) -> float:
    """Return the thickness, cold, of a part that filled a gap when it set.

    ``t = g (1 - f) / (1 + a_z dT)``, f the shrinkage by cure after the resin has set.

    Parameters
    ----------
    hot_gap_m : float
        Gap g at the temperature at which the part sets [m]
    thickness_expansion_per_k : float
        Expansion of the laminate through its thickness [1/K]
    thickness_shrinkage : float
        Shrinkage of the laminate through its thickness after it has set, positive [-]
    hot_c, room_c : float
        Temperature at which it sets, and at which it is measured [degC]

    Returns
    -------
    float
        Thickness of the part at `room_c` [m]

    Raises
    ------
    ValueError
        If the gap is not above 0 and at most 1.5 m, the expansion outside -5e-5 to
        5e-4 1/K, the shrinkage outside 0 to 0.1 or a temperature as for `hot_gap_m`.

    Notes
    -----
    The plies fill the gap all over; where they do not, the part is thinner and porous.

    Examples
    --------
    >>> round(part_thickness_m(2e-3, 45e-6, 0.005, 120.0) * 1e3, 3)
    1.981

    References
    ----------
    Linear growth and shrinkage; derived here.
    """
    _check_gap("hot_gap_m", hot_gap_m)
    return hot_gap_m * _set_to_cold(
        thickness_expansion_per_k, thickness_shrinkage, hot_c, room_c
    )


def hot_gap_for_part_m(
    thickness_m: float,
    thickness_expansion_per_k: float,
    thickness_shrinkage: float,
    hot_c: float,
    room_c: float = 20.0,
) -> float:
    """Return the gap wanted hot for a part of a thickness: `part_thickness_m` inverted.

    ``g = t (1 + a_z dT) / (1 - f)``.

    Parameters
    ----------
    thickness_m : float
        Thickness t of the part at `room_c` [m]
    thickness_expansion_per_k : float
        As for `part_thickness_m` [1/K]
    thickness_shrinkage : float
        As for `part_thickness_m` [-]
    hot_c, room_c : float
        As for `part_thickness_m` [degC]

    Returns
    -------
    float
        Gap at the temperature at which the part sets [m]

    Raises
    ------
    ValueError
        As for `part_thickness_m`, of the thickness.

    Examples
    --------
    >>> round(hot_gap_for_part_m(2e-3, 45e-6, 0.005, 120.0) * 1e3, 3)
    2.019

    References
    ----------
    As for `part_thickness_m`.
    """
    _check_gap("thickness_m", thickness_m)
    return thickness_m / _set_to_cold(
        thickness_expansion_per_k, thickness_shrinkage, hot_c, room_c
    )


def _set_to_cold(
    expansion_per_k: float, shrinkage: float, hot_c: float, room_c: float
) -> float:
    _check_growth(("thickness_expansion_per_k", expansion_per_k))
    within("thickness_shrinkage", shrinkage, 0.0, 0.1, "", "Was it given in per cent?")
    return (1.0 - shrinkage) / (1.0 + expansion_per_k * _rise_k(hot_c, room_c))


def laid_stack_m(plies: int, ply_thickness_m: float, bulk_factor: float) -> float:
    """Return the height of a stack of plies as laid.

    ``B n t``.

    Parameters
    ----------
    plies : int
        Number of plies n [-]
    ply_thickness_m : float
        Thickness t of a ply cured with all its resin [m]
    bulk_factor : float
        Thickness as laid over thickness cured, B [-]

    Returns
    -------
    float
        Height of the stack [m]

    Raises
    ------
    ValueError
        If `plies` is not a whole number of at least 1, `ply_thickness_m` not above 0 and
        at most 0.02 m, or `bulk_factor` outside 1 to 3.

    Notes
    -----
    The bulk factor is the plies' own and is measured on a debulked stack; air between
    the plies is most of it.

    Examples
    --------
    >>> round(laid_stack_m(8, 0.25e-3, 1.15) * 1e3, 3)
    2.3

    References
    ----------
    Definition of the bulk factor.
    """
    whole("plies", plies, 1)
    positive("ply_thickness_m", ply_thickness_m, 0.02, "m", "Was it given in millimetres?")
    within("bulk_factor", bulk_factor, 1.0, 3.0, "", "Was it given in per cent?")
    return bulk_factor * plies * ply_thickness_m


def nip_m(stack_m: float, gap_m: float) -> float:
    """Return how far the halves stand open when they first touch the plies.

    ``h - g``: negative where the plies are too few to touch both faces, and then they
    are pressed by nothing.

    Parameters
    ----------
    stack_m : float
        Height h of the stack as it goes in [m]
    gap_m : float
        Gap g, closed [m]

    Returns
    -------
    float
        Travel left until the stops meet [m]

    Raises
    ------
    ValueError
        If either is not above 0 and at most 1.5 m.

    Examples
    --------
    >>> round(nip_m(2.3e-3, 1.95e-3) * 1e3, 3)
    0.35

    References
    ----------
    Geometry.
    """
    _check_gap("stack_m", stack_m)
    _check_gap("gap_m", gap_m)
    return stack_m - gap_m


def wall_travel_m(nip_m: float, draft_deg: float) -> float:
    """Return how far the plies on a wall are rubbed while the halves close.

    ``s / sin(d)``: closing by x along the draw brings the faces of a wall of draft d only
    ``x sin(d)`` nearer, so the wall's plies touch first.

    Parameters
    ----------
    nip_m : float
        Nip s of the plies, as on a face square to the draw [m]
    draft_deg : float
        Angle of the wall to the draw [degree]

    Returns
    -------
    float
        Travel from the first touch on the wall to closed [m]

    Raises
    ------
    ValueError
        If `nip_m` is outside 0 to 1.5 m or `draft_deg` not above 0 and at most
        90 degrees: an upright wall is rubbed all the way.

    Notes
    -----
    More than the height of the wall means that the plies touch both faces as the wall
    goes in.

    Examples
    --------
    >>> round(wall_travel_m(0.35e-3, 3.0) * 1e3, 1)
    6.7

    References
    ----------
    Geometry.
    """
    within("nip_m", nip_m, 0.0, 1.5, "m", "Was it given in millimetres?")
    positive("draft_deg", draft_deg, 90.0, "degrees", "Was it given in radians?")
    return nip_m / math.sin(math.radians(draft_deg))


def fibre_share(
    plies: int, fibre_areal_kg_m2: float, fibre_density_kg_m3: float, thickness_m: float
) -> float:
    """Return the share of fibre in a laminate of a thickness that a gap has set.

    ``V_f = n FAW / (rho_f t)``: fibre does not leave the mould.

    Parameters
    ----------
    plies : int
        Number of plies n [-]
    fibre_areal_kg_m2 : float
        Mass FAW of fibre per area of a ply [kg/m2]
    fibre_density_kg_m3 : float
        Density of the fibre [kg/m3]
    thickness_m : float
        Thickness t of the part [m]

    Returns
    -------
    float
        Fibre volume fraction [-]

    Raises
    ------
    ValueError
        If `plies` is not a whole number of at least 1, `fibre_areal_kg_m2` not above 0
        and at most 5 kg/m2, the density outside 500 to 10 000 kg/m3, `thickness_m` not
        above 0 and at most 1.5 m, or the share above 0.907, where round fibres touch
        one another all round and the mould does not close.

    Examples
    --------
    >>> round(fibre_share(8, 0.2, 1790.0, 1.8e-3), 4)
    0.4966

    References
    ----------
    Balance of mass, as `advisor.calculations.laminate.cured_ply_thickness_m`.
    """
    whole("plies", plies, 1)
    positive("fibre_areal_kg_m2", fibre_areal_kg_m2, 5.0, "kg/m2", "Was it given in g/m2?")
    hint = "Was it given in g/cm3?"
    within("fibre_density_kg_m3", fibre_density_kg_m3, 500.0, 10_000.0, "kg/m3", hint)
    _check_gap("thickness_m", thickness_m)
    share = plies * fibre_areal_kg_m2 / (fibre_density_kg_m3 * thickness_m)
    within("the share of fibre", share, 0.0, CLOSEST_PACKING, "", "The mould cannot close.")
    return share


def spare_resin_kg_m2(
    plies: int,
    fibre_areal_kg_m2: float,
    resin_mass_fraction: float,
    fibre_density_kg_m3: float,
    resin_density_kg_m3: float,
    thickness_m: float,
) -> float:
    """Return the resin that a gap squeezes out of the plies, per area of the part.

    ``rho_r (n t_0 - t)``, t_0 the thickness of a ply that keeps all its resin.

    Parameters
    ----------
    plies : int
        Number of plies n [-]
    fibre_areal_kg_m2 : float
        Mass of fibre per area of a ply [kg/m2]
    resin_mass_fraction : float
        Share of the prepreg's mass that is resin [-]
    fibre_density_kg_m3, resin_density_kg_m3 : float
        Densities of the fibre and of the cured resin [kg/m3]
    thickness_m : float
        Thickness t of the part [m]

    Returns
    -------
    float
        Resin that leaves at the edge; negative: resin that lacks to fill the gap, so that
        part of the face is pressed by nothing [kg/m2]

    Raises
    ------
    ValueError
        As for `fibre_share` and
        `advisor.calculations.laminate.cured_ply_thickness_m`.

    Notes
    -----
    No voids.  Resin flows along the plies only a little way, so what is spare in the
    middle of a large face stays there and holds the halves open.

    Examples
    --------
    >>> round(spare_resin_kg_m2(8, 0.2, 0.42, 1790.0, 1220.0, 1.8e-3), 4)
    0.0531

    References
    ----------
    Balance of volume.
    """
    whole("plies", plies, 1)
    ply_m = cured_ply_thickness_m(
        fibre_areal_kg_m2, resin_mass_fraction, fibre_density_kg_m3, resin_density_kg_m3
    )
    fibre_share(plies, fibre_areal_kg_m2, fibre_density_kg_m3, thickness_m)
    return resin_density_kg_m3 * (plies * ply_m - thickness_m)
