"""Peeling of a stiff skin off a body that grows otherwise: the energy that drives it."""

from advisor.calculations.valid_range import positive, within


def peel_energy_j_m2(
    skin_modulus_pa: float,
    skin_poisson: float,
    skin_thickness_m: float,
    mismatch_strain: float,
) -> float:
    """Return the energy set free for each area over which a strained skin peels.

    ``G = (1 - v^2) s^2 h / (2 E)`` with the stress ``s = E e / (1 - v)`` of a skin held
    in both directions, so ``G = E h e^2 (1 + v) / (2 (1 - v))``: at the front the skin
    lets go of its strain across the front and keeps that along it.

    Parameters
    ----------
    skin_modulus_pa : float
        Young's modulus of the skin, the same in all directions of its plane [Pa]
    skin_poisson : float
        Poisson's ratio of the skin [-]
    skin_thickness_m : float
        Thickness of the skin [m]
    mismatch_strain : float
        Difference of free growth between body and skin, of either sign [-]

    Returns
    -------
    float
        Energy for each area peeled, never negative [J/m2]

    Raises
    ------
    ValueError
        If the modulus is not above 0 and at most 1e12 Pa, Poisson's ratio is outside 0 to
        0.5, the thickness is not above 0 and at most 0.1 m, or the strain is outside -0.05
        to 0.05.

    Notes
    -----
    The skin peels where this exceeds the fracture energy of the weaker of body and bond.
    It holds once the peeled length is several times the thickness, whatever the length of
    the skin; a first crack at a sound edge needs more.  The body is taken as much thicker
    and stiffer in bulk than the skin, and nothing creeps: it errs on the large side.

    Examples
    --------
    >>> round(peel_energy_j_m2(50e9, 0.3, 3e-3, 6e-4), 1)
    50.1

    References
    ----------
    J. W. Hutchinson and Z. Suo, Mixed mode cracking in layered materials, Advances in
    Applied Mechanics 29 (1992), films under residual stress; from memory.
    """
    positive("skin_modulus_pa", skin_modulus_pa, 1e12, "Pa", "Was it given in GPa?")
    within("skin_poisson", skin_poisson, 0.0, 0.5, "")
    positive("skin_thickness_m", skin_thickness_m, 0.1, "m", "Was it given in millimetres?")
    within("mismatch_strain", mismatch_strain, -0.05, 0.05, "", "Was it given in per cent?")
    held = (1.0 + skin_poisson) / (1.0 - skin_poisson)
    return 0.5 * skin_modulus_pa * skin_thickness_m * mismatch_strain**2 * held


def peel_energy_span_j_m2(
    skin_modulus_span_pa: tuple[float, float],
    skin_poisson: float,
    skin_thickness_m: float,
    skin_expansion_span: tuple[float, float],
    body_expansion_span: tuple[float, float],
    change_k: float,
) -> tuple[float, float]:
    """Return the least and the most energy that a skin of uncertain figures may free.

    ``peel_energy_j_m2`` with the softest skin and the growths that lie nearest, and with
    the stiffest skin and the growths that lie farthest apart.

    Parameters
    ----------
    skin_modulus_span_pa : tuple of float
        Lowest and highest Young's modulus of the skin [Pa]
    skin_poisson : float
        Poisson's ratio of the skin [-]
    skin_thickness_m : float
        Thickness of the skin [m]
    skin_expansion_span, body_expansion_span : tuple of float
        Lowest and highest expansion of skin and body [1/K]
    change_k : float
        Change of temperature since the skin was free of strain [K]

    Returns
    -------
    tuple of float
        Least and most energy for each area peeled [J/m2]

    Raises
    ------
    ValueError
        As for `peel_energy_j_m2`, or if a span does not rise.

    Notes
    -----
    Nothing is freed at the low end where the spans of growth overlap.

    Examples
    --------
    >>> low, high = peel_energy_span_j_m2(
    ...     (10e9, 20e9), 0.3, 1e-3, (10e-6, 18e-6), (7e-6, 9e-6), 50.0
    ... )
    >>> round(low, 3), round(high, 1)
    (0.023, 5.6)

    References
    ----------
    As for `peel_energy_j_m2`.
    """
    for name, (low, high) in (
        ("skin_modulus_span_pa", skin_modulus_span_pa),
        ("skin_expansion_span", skin_expansion_span),
        ("body_expansion_span", body_expansion_span),
    ):
        if low > high:
            raise ValueError(f"{name} is {low} to {high}; the lower end comes first")
    skin_low, skin_high = skin_expansion_span
    body_low, body_high = body_expansion_span
    nearest = max(0.0, skin_low - body_high, body_low - skin_high)
    farthest = max(skin_high - body_low, body_high - skin_low)
    soft, stiff = skin_modulus_span_pa
    return (
        peel_energy_j_m2(soft, skin_poisson, skin_thickness_m, nearest * change_k),
        peel_energy_j_m2(stiff, skin_poisson, skin_thickness_m, farthest * change_k),
    )
