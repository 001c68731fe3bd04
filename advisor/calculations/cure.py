"""Heat that the cure of a laminate sets free."""

from advisor.calculations.valid_range import within


def heat_of_cure_j_per_m3(
    heat_of_reaction_j_per_kg: float, resin_density_kg_per_m3: float, fibre_share: float
) -> float:
    """Return the heat that full cure sets free in a volume of laminate.

    ``(1 - V_f) rho_r H``.

    Parameters
    ----------
    heat_of_reaction_j_per_kg : float
        Heat of reaction of the resin [J/kg]
    resin_density_kg_per_m3 : float
        Density of the resin [kg/m3]
    fibre_share : float
        Share of fibre in the volume [-]

    Returns
    -------
    float
        Heat of cure of the laminate [J/m3]

    Raises
    ------
    ValueError
        If the heat is not above 0 and at most 1e6 J/kg, the density not above 0 and at
        most 2500 kg/m3, or `fibre_share` outside 0 to 0.9.

    Examples
    --------
    >>> round(heat_of_cure_j_per_m3(473.6e3, 1272.0, 0.52) / 1e6, 2)
    289.16
    """
    hint = "Was it given in kJ/kg or J/g?"
    within("heat_of_reaction_j_per_kg", heat_of_reaction_j_per_kg, 1e4, 1e6, "J/kg", hint)
    within(
        "resin_density_kg_per_m3",
        resin_density_kg_per_m3,
        500.0,
        2500.0,
        "kg/m3",
        "Was it given in g/cm3?",
    )
    within("fibre_share", fibre_share, 0.0, 0.9, "", "Was it given in per cent?")
    return (1.0 - fibre_share) * resin_density_kg_per_m3 * heat_of_reaction_j_per_kg
