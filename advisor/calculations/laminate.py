"""Thickness and mass of a laminate from the data of its prepreg."""

from advisor.calculations.valid_range import positive, whole, within


def _check_areal(fibre_areal_kg_m2: float) -> None:
    positive("fibre_areal_kg_m2", fibre_areal_kg_m2, 5.0, "kg/m2", "Was it given in g/m2?")


def _check_resin(name: str, resin_mass_fraction: float) -> None:
    within(name, resin_mass_fraction, 0.01, 0.95, "", "Was it given in per cent?")


def _check_density(name: str, density_kg_m3: float) -> None:
    within(name, density_kg_m3, 500.0, 10_000.0, "kg/m3", "Was it given in g/cm3?")


def fibre_volume_fraction(
    resin_mass_fraction: float, fibre_density_kg_m3: float, resin_density_kg_m3: float
) -> float:
    """Return the share of the laminate's volume that is fibre.

    ``V_f = v_f / (v_f + v_r)`` with ``v_f = (1 - W_r) / rho_f`` and ``v_r = W_r / rho_r``.

    Parameters
    ----------
    resin_mass_fraction : float
        Share of the laminate's mass that is resin, after any bleed [-]
    fibre_density_kg_m3 : float
        Density of the fibre [kg/m3]
    resin_density_kg_m3 : float
        Density of the cured resin [kg/m3]

    Returns
    -------
    float
        Fibre volume fraction, 0 to 1 [-]

    Raises
    ------
    ValueError
        If the resin's share is outside 0.01 to 0.95 or a density outside 500 to
        10 000 kg/m3.

    Notes
    -----
    No voids.

    Examples
    --------
    >>> round(fibre_volume_fraction(0.35, 1790.0, 1300.0), 4)
    0.5742
    """
    _check_resin("resin_mass_fraction", resin_mass_fraction)
    _check_density("fibre_density_kg_m3", fibre_density_kg_m3)
    _check_density("resin_density_kg_m3", resin_density_kg_m3)
    fibre = (1.0 - resin_mass_fraction) / fibre_density_kg_m3
    return fibre / (fibre + resin_mass_fraction / resin_density_kg_m3)


def resin_share_of_volume(
    fibre_share: float, fibre_density_kg_m3: float, resin_density_kg_m3: float
) -> float:
    """Return the share of a laminate's mass that is resin, from its fibre by volume.

    ``(1 - V_f) rho_r / (V_f rho_f + (1 - V_f) rho_r)``, the inverse of
    `fibre_volume_fraction`.

    Parameters
    ----------
    fibre_share : float
        Share of fibre in the volume [-]
    fibre_density_kg_m3, resin_density_kg_m3 : float
        Densities [kg/m3]

    Returns
    -------
    float
        Share of resin in the mass [-]

    Raises
    ------
    ValueError
        If `fibre_share` is outside 0.05 to 0.95, or a density as for
        `fibre_volume_fraction`.

    Examples
    --------
    >>> round(resin_share_of_volume(0.5586, 1790.0, 1220.0), 3)
    0.35
    """
    within("fibre_share", fibre_share, 0.05, 0.95, "", "Was it given in per cent?")
    _check_density("fibre_density_kg_m3", fibre_density_kg_m3)
    _check_density("resin_density_kg_m3", resin_density_kg_m3)
    resin = (1.0 - fibre_share) * resin_density_kg_m3
    return resin / (resin + fibre_share * fibre_density_kg_m3)


def cured_ply_thickness_m(
    fibre_areal_kg_m2: float,
    resin_mass_fraction: float,
    fibre_density_kg_m3: float,
    resin_density_kg_m3: float,
) -> float:
    """Return the thickness of one cured ply.

    ``t = FAW / (rho_f V_f)``, FAW the fibre's mass per area.

    Parameters
    ----------
    fibre_areal_kg_m2 : float
        Mass of fibre per area of a ply [kg/m2]
    resin_mass_fraction : float
        Share of the laminate's mass that is resin, after any bleed [-]
    fibre_density_kg_m3 : float
        Density of the fibre [kg/m3]
    resin_density_kg_m3 : float
        Density of the cured resin [kg/m3]

    Returns
    -------
    float
        Cured ply thickness [m]

    Raises
    ------
    ValueError
        If `fibre_areal_kg_m2` is not above 0 and at most 5 kg/m2, or as for
        `fibre_volume_fraction`.

    Notes
    -----
    No voids: voids make the ply thicker.

    Examples
    --------
    >>> round(cured_ply_thickness_m(0.134, 0.35, 1790.0, 1300.0) * 1000, 3)
    0.13
    """
    _check_areal(fibre_areal_kg_m2)
    share = fibre_volume_fraction(
        resin_mass_fraction, fibre_density_kg_m3, resin_density_kg_m3
    )
    return fibre_areal_kg_m2 / (fibre_density_kg_m3 * share)


def laminate_density_kg_m3(
    resin_mass_fraction: float, fibre_density_kg_m3: float, resin_density_kg_m3: float
) -> float:
    """Return the density of the cured laminate.

    ``rho = V_f rho_f + (1 - V_f) rho_r``.

    Parameters
    ----------
    resin_mass_fraction : float
        Share of the laminate's mass that is resin, after any bleed [-]
    fibre_density_kg_m3 : float
        Density of the fibre [kg/m3]
    resin_density_kg_m3 : float
        Density of the cured resin [kg/m3]

    Returns
    -------
    float
        Density of the laminate [kg/m3]

    Raises
    ------
    ValueError
        As for `fibre_volume_fraction`.

    Notes
    -----
    No voids.

    Examples
    --------
    >>> round(laminate_density_kg_m3(0.35, 1790.0, 1300.0))
    1581
    """
    share = fibre_volume_fraction(
        resin_mass_fraction, fibre_density_kg_m3, resin_density_kg_m3
    )
    return share * fibre_density_kg_m3 + (1.0 - share) * resin_density_kg_m3


def prepreg_areal_kg_m2(fibre_areal_kg_m2: float, resin_mass_fraction: float) -> float:
    """Return the mass per area of one ply of prepreg.

    ``FAW / (1 - W_r)``.

    Parameters
    ----------
    fibre_areal_kg_m2 : float
        Mass of fibre per area of a ply [kg/m2]
    resin_mass_fraction : float
        Share of the prepreg's mass that is resin [-]

    Returns
    -------
    float
        Mass of prepreg per area, backing films not counted [kg/m2]

    Raises
    ------
    ValueError
        If `fibre_areal_kg_m2` is not above 0 and at most 5 kg/m2 or the resin's share is
        outside 0.01 to 0.95.

    Examples
    --------
    >>> round(prepreg_areal_kg_m2(0.200, 0.42), 4)
    0.3448
    """
    _check_areal(fibre_areal_kg_m2)
    _check_resin("resin_mass_fraction", resin_mass_fraction)
    return fibre_areal_kg_m2 / (1.0 - resin_mass_fraction)


def bleed_areal_kg_m2(
    fibre_areal_kg_m2: float, resin_fraction_before: float, resin_fraction_after: float
) -> float:
    """Return the resin that each ply loses to the bleeder, per area.

    ``FAW [W0 / (1 - W0) - W1 / (1 - W1)]``.

    Parameters
    ----------
    fibre_areal_kg_m2 : float
        Mass of fibre per area of a ply [kg/m2]
    resin_fraction_before : float
        Share of the prepreg's mass that is resin, as delivered [-]
    resin_fraction_after : float
        Share of the laminate's mass that is resin, cured [-]

    Returns
    -------
    float
        Resin lost per area of one ply [kg/m2]

    Raises
    ------
    ValueError
        If `resin_fraction_after` is above `resin_fraction_before`, or as for
        `prepreg_areal_kg_m2`.

    Examples
    --------
    >>> round(bleed_areal_kg_m2(0.200, 0.42, 0.35), 4)
    0.0371
    """
    _check_areal(fibre_areal_kg_m2)
    _check_resin("resin_fraction_before", resin_fraction_before)
    _check_resin("resin_fraction_after", resin_fraction_after)
    within("resin_fraction_after", resin_fraction_after, 0.0, resin_fraction_before, "")
    before, after = (
        share / (1.0 - share) for share in (resin_fraction_before, resin_fraction_after)
    )
    return fibre_areal_kg_m2 * (before - after)


def laminate_mass_kg(
    area_m2: float, plies: int, fibre_areal_kg_m2: float, resin_mass_fraction: float
) -> float:
    """Return the mass of the cured laminate.

    ``A n FAW / (1 - W_r)``.

    Parameters
    ----------
    area_m2 : float
        Developed area of the laminate [m2]
    plies : int
        Number of plies [-]
    fibre_areal_kg_m2 : float
        Mass of fibre per area of a ply [kg/m2]
    resin_mass_fraction : float
        Share of the laminate's mass that is resin, after any bleed [-]

    Returns
    -------
    float
        Mass of the laminate [kg]

    Raises
    ------
    ValueError
        If `area_m2` is not above 0 and at most 1000 m2, `plies` not a whole number of at
        least 1, or as for `prepreg_areal_kg_m2`.

    Examples
    --------
    >>> round(laminate_mass_kg(0.5, 4, 0.200, 0.42), 3)
    0.69
    """
    positive("area_m2", area_m2, 1000.0, "m2", "Was it given in square millimetres?")
    whole("plies", plies, 1)
    return area_m2 * plies * prepreg_areal_kg_m2(fibre_areal_kg_m2, resin_mass_fraction)
