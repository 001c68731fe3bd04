"""Heat of a mixed batch of resin, and how hot it may get."""

from advisor.calculations.valid_range import positive, within


def _check_heat(reaction_heat_j_kg: float) -> None:
    positive("reaction_heat_j_kg", reaction_heat_j_kg, 2e6, "J/kg", "Was it in J/g?")


def _check_capacity(name: str, value: float) -> None:
    within(name, value, 100.0, 5000.0, "J/(kg K)", "Was it given in J/(g K)?")


def heat_of_reaction_j_kg(
    ring_heat_j_per_eq: float, epoxide_kg_per_eq: float, amine_kg_per_eq: float
) -> float:
    """Return the heat that a kilogram of mixed epoxy and amine gives off.

    ``H = dH / (EEW + AHEW)``: one epoxide ring and one amine hydrogen react together.

    Parameters
    ----------
    ring_heat_j_per_eq : float
        Heat of one equivalent of epoxide rings [J/eq]
    epoxide_kg_per_eq : float
        Resin that holds one equivalent of epoxide, EEW [kg/eq]
    amine_kg_per_eq : float
        Hardener that holds one equivalent of amine hydrogen, AHEW [kg/eq]

    Returns
    -------
    float
        Heat of reaction of the mix in its right ratio [J/kg]

    Raises
    ------
    ValueError
        If the heat is outside 10 to 200 kJ/eq or a mass outside 0.01 to 5 kg/eq.

    Notes
    -----
    Full conversion; a cold cure stops short of it.

    Examples
    --------
    >>> round(heat_of_reaction_j_kg(100e3, 0.185, 0.040) / 1e3)
    444
    """
    within("ring_heat_j_per_eq", ring_heat_j_per_eq, 1e4, 2e5, "J/eq", "Is it in kJ?")
    for name, value in (
        ("epoxide_kg_per_eq", epoxide_kg_per_eq),
        ("amine_kg_per_eq", amine_kg_per_eq),
    ):
        within(name, value, 0.01, 5.0, "kg/eq", "Was it given in g/eq?")
    return ring_heat_j_per_eq / (epoxide_kg_per_eq + amine_kg_per_eq)


def adiabatic_rise_k(
    reaction_heat_j_kg: float,
    resin_capacity_j_per_kg_k: float,
    filler_share: float,
    filler_capacity_j_per_kg_k: float,
) -> float:
    """Return by how much a batch warms if it keeps all its heat.

    ``dT = (1 - f) H / ((1 - f) c_r + f c_f)``.

    Parameters
    ----------
    reaction_heat_j_kg : float
        Heat of reaction of the mixed resin without filler [J/kg]
    resin_capacity_j_per_kg_k : float
        Specific heat capacity of the resin [J/(kg K)]
    filler_share : float
        Filler over the mass of the filled mix, 0 to below 1 [-]
    filler_capacity_j_per_kg_k : float
        Specific heat capacity of the filler [J/(kg K)]

    Returns
    -------
    float
        Rise over the temperature at mixing [K]

    Raises
    ------
    ValueError
        If the heat is not above 0 and at most 2 MJ/kg, a capacity outside 100 to
        5000 J/(kg K) or the share outside 0 to 0.99.

    Notes
    -----
    An upper bound for the cure: no heat lost, full conversion.  Decomposition of a batch
    that got too hot, or the oven it was left in, adds heat of its own.  A light filler
    takes up little heat and insulates, so by volume it hardly helps.

    Examples
    --------
    >>> round(adiabatic_rise_k(450e3, 1900.0, 0.0, 850.0))
    237
    >>> round(adiabatic_rise_k(450e3, 1900.0, 0.5, 850.0))
    164
    """
    _check_heat(reaction_heat_j_kg)
    _check_capacity("resin_capacity_j_per_kg_k", resin_capacity_j_per_kg_k)
    _check_capacity("filler_capacity_j_per_kg_k", filler_capacity_j_per_kg_k)
    within("filler_share", filler_share, 0.0, 0.99, "", "Was it given in per cent?")
    resin_share = 1.0 - filler_share
    capacity = (
        resin_share * resin_capacity_j_per_kg_k + filler_share * filler_capacity_j_per_kg_k
    )
    return resin_share * reaction_heat_j_kg / capacity
