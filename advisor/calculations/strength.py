"""Crushing and bending of a tool under unbalanced pressure."""

import math

from advisor.calculations.valid_range import positive, within

_HIGHEST_PRESSURE_PA = 1e8
_HIGHEST_STRESS_PA = 1e10
_LONGEST_M = 100.0
_TERMS = 200  # odd harmonics; the sum is then right to eight digits
_STRIP = 0.75  # stress coefficient of the infinitely long plate


def bearing_safety_factor(pressure_pa: float, strength_pa: float) -> float:
    """Return how many times the pressure the material bears in compression.

    Parameters
    ----------
    pressure_pa : float
        Pressure on the face [Pa]
    strength_pa : float
        Compressive strength of the tool material, at the temperature of use [Pa]

    Returns
    -------
    float
        Strength over pressure [-]

    Raises
    ------
    ValueError
        If `pressure_pa` is not above 0 and at most 100 MPa, or `strength_pa` not above 0
        and at most 10 GPa.

    Notes
    -----
    Pressure spread evenly.  Edges, pins and clamps press locally and govern first.

    Examples
    --------
    >>> bearing_safety_factor(1e5, 2.5e6)
    25.0
    """
    positive("pressure_pa", pressure_pa, _HIGHEST_PRESSURE_PA, "Pa")
    positive("strength_pa", strength_pa, _HIGHEST_STRESS_PA, "Pa")
    return strength_pa / pressure_pa


def strength_when_hot_pa(
    cold_pa: float, temperature_c: float, room_c: float, limit_c: float, left_share: float
) -> float:
    """Return the strength that a body keeps as it warms to its limit.

    A straight line from its cold strength at room temperature to a share of it at the
    limit of its use (common practice, no source).

    Parameters
    ----------
    cold_pa : float
        Strength at room temperature [Pa]
    temperature_c, room_c, limit_c : float
        Temperature of use, room temperature and limit of the body [degC]
    left_share : float
        Share of the strength left at the limit [-]

    Returns
    -------
    float
        Strength; that at the limit above it, the cold one below room temperature [Pa]

    Raises
    ------
    ValueError
        If `cold_pa` is not above 0 and at most 10 GPa, `limit_c` not above `room_c`, or
        `left_share` outside 0 to 1.

    Examples
    --------
    >>> strength_when_hot_pa(8e6, 60.0, 20.0, 100.0, 0.5) / 1e6
    6.0
    """
    positive("cold_pa", cold_pa, 1e10, "Pa", "Was it given in MPa?")
    positive("limit_c - room_c", limit_c - room_c, 3000.0, "K")
    within("left_share", left_share, 0.0, 1.0, "", "Was it given in per cent?")
    share = min(1.0, max(0.0, (temperature_c - room_c) / (limit_c - room_c)))
    return cold_pa * (1.0 - (1.0 - left_share) * share)


def _levy_terms(aspect: float) -> list[tuple[float, float, float]]:
    """Return the terms of the series for the plate's centre, `aspect` long over short.

    Each is the wave number with the sign of its sine, then what curves across the short
    side and what curves along the long side, both over that of an endless plate.
    """
    terms = []
    for index in range(_TERMS):
        wave = (2 * index + 1) * math.pi
        half = wave * aspect / 2.0
        fade = 1.0 / math.cosh(half) if half < 300.0 else 0.0
        along = -half * math.tanh(half) * fade / 2.0
        terms.append((-wave if index % 2 else wave, 1.0 - fade + along, along))
    return terms


def _check_plate(
    pressure_pa: float,
    span_m: float,
    width_m: float,
    thickness_m: float,
    poisson_ratio: float,
) -> tuple[float, float]:
    """Return the short side and the long side over the short, of a valid plate."""
    positive("pressure_pa", pressure_pa, _HIGHEST_PRESSURE_PA, "Pa")
    for name, value in (
        ("span_m", span_m),
        ("width_m", width_m),
        ("thickness_m", thickness_m),
    ):
        positive(name, value, _LONGEST_M, "m", "Was it given in millimetres?")
    within("poisson_ratio", poisson_ratio, 0.0, 0.5, "")
    short_m, long_m = sorted((span_m, width_m))
    return short_m, long_m / short_m


def plate_bending_stress_pa(
    pressure_pa: float,
    span_m: float,
    width_m: float,
    thickness_m: float,
    poisson_ratio: float = 0.3,
) -> float:
    """Return the bending stress at the centre of a plate that rests on four edges.

    ``sigma = beta q b^2 / t^2`` with b the shorter side: case 1a of Table 11.4 of [1]_.
    beta is six times the centre moment across the short side, from the single series of
    Levy for a simply supported rectangular plate [2]_.

    Parameters
    ----------
    pressure_pa : float
        Unbalanced pressure on the plate, uniform [Pa]
    span_m, width_m : float
        Sides between the supports, in either order [m]
    thickness_m : float
        Thickness of the plate [m]
    poisson_ratio : float
        Poisson's ratio; the printed table is for 0.3 [-]

    Returns
    -------
    float
        Largest bending stress [Pa]

    Raises
    ------
    ValueError
        If `pressure_pa` is not above 0 and at most 100 MPa, a length not above 0 and at
        most 100 m, or `poisson_ratio` outside 0 to 0.5.

    Notes
    -----
    Pressure that acts alike on both sides, as in an envelope bag or on a block that beds
    on its whole underside, does not bend.  0.3 errs on the high side for a stiff, brittle
    block with a lower ratio.  Theory of thin plates: for one thicker than about a quarter
    of its span take the result as an estimate, for shear then counts too.

    Examples
    --------
    >>> round(plate_bending_stress_pa(1e5, 0.4, 0.4, 0.1) / 1e6, 2)
    0.46

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, Table 11.4, case 1a.
    .. [2] Timoshenko, Woinowsky-Krieger: Theory of Plates and Shells.
    """
    short_m, aspect = _check_plate(pressure_pa, span_m, width_m, thickness_m, poisson_ratio)
    moment = sum(
        4.0 / wave**3 * (across - poisson_ratio * along)
        for wave, across, along in _levy_terms(aspect)
    )
    return 6.0 * moment * pressure_pa * (short_m / thickness_m) ** 2


def plate_deflection_m(
    pressure_pa: float,
    span_m: float,
    width_m: float,
    thickness_m: float,
    modulus_pa: float,
    poisson_ratio: float = 0.3,
) -> float:
    """Return how far the centre of a plate that rests on four edges sinks.

    ``y = alpha q b^4 / (E t^3)`` with b the shorter side: case 1a of Table 11.4 of [1]_.
    alpha is ``12 (1 - nu^2)`` times the sum of the single series of Levy [2]_.

    Parameters
    ----------
    pressure_pa : float
        Unbalanced pressure on the plate, uniform [Pa]
    span_m, width_m : float
        Sides between the supports, in either order [m]
    thickness_m : float
        Thickness of the plate [m]
    modulus_pa : float
        Young's modulus of the plate [Pa]
    poisson_ratio : float
        Poisson's ratio; the printed table is for 0.3 [-]

    Returns
    -------
    float
        Deflection of the centre [m]

    Raises
    ------
    ValueError
        If `modulus_pa` is not above 0 and at most 2 TPa, or as for
        `plate_bending_stress_pa`.

    Notes
    -----
    Holds for thin plates that sink by less than half their thickness; shear, which is
    left out, adds to it in thick ones.

    Examples
    --------
    >>> round(plate_deflection_m(1e5, 0.3, 0.3, 0.01, 70e9) * 1000, 2)
    0.51

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, Table 11.4, case 1a.
    .. [2] Timoshenko, Woinowsky-Krieger: Theory of Plates and Shells.
    """
    positive("modulus_pa", modulus_pa, 2e12, "Pa")
    short_m, aspect = _check_plate(pressure_pa, span_m, width_m, thickness_m, poisson_ratio)
    sink = sum(4.0 / wave**5 * across for wave, across, _ in _levy_terms(aspect))
    stiffness = modulus_pa * thickness_m**3 / (12.0 * (1.0 - poisson_ratio**2))
    return sink * pressure_pa * short_m**4 / stiffness


def longest_span_m(pressure_pa: float, thickness_m: float, allowable_pa: float) -> float:
    """Return the widest gap that a long strip may span freely.

    ``b = t sqrt(sigma / (0.75 q))``: case 1a of Table 11.4 of [1]_, the plate endless.

    Parameters
    ----------
    pressure_pa : float
        Unbalanced pressure on the strip, uniform [Pa]
    thickness_m : float
        Thickness of the strip [m]
    allowable_pa : float
        Bending stress allowed, safety factor already taken off [Pa]

    Returns
    -------
    float
        Distance between the two supports [m]

    Raises
    ------
    ValueError
        If `pressure_pa` is not above 0 and at most 100 MPa, `thickness_m` not above 0 and
        at most 100 m, or `allowable_pa` not above 0 and at most 10 GPa.

    Notes
    -----
    Errs on the short side for a plate held on four edges: a square one may span 1.6
    times as far.

    Examples
    --------
    >>> round(longest_span_m(1e5, 0.1, 0.2e6), 3)
    0.163

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, Table 11.4, case 1a.
    """
    positive("pressure_pa", pressure_pa, _HIGHEST_PRESSURE_PA, "Pa")
    positive("thickness_m", thickness_m, _LONGEST_M, "m", "Was it given in millimetres?")
    positive("allowable_pa", allowable_pa, _HIGHEST_STRESS_PA, "Pa")
    return thickness_m * math.sqrt(allowable_pa / (_STRIP * pressure_pa))
