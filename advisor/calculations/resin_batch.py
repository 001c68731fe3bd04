"""How much resin to mix at once and how deep to pour it, for its heat to get away."""

import math

from advisor.calculations.valid_range import positive, within

_GAS_CONSTANT = 8.314  # J/(mol K)
_KELVIN = 273.15
_SLAB_LIMIT = 0.878  # critical parameter of a slab, both faces cooled


def runaway_depth_m(
    gel_time_s: float,
    gel_conversion: float,
    rise_k: float,
    diffusivity_m2_per_s: float,
    activation_j_per_mol: float,
    start_c: float,
) -> float:
    """Return the depth up to which a pour cannot heat itself faster than it cools.

    ``L = sqrt(0.878 a (R T^2 / E) t_gel / (dT x_gel))``: the limit of Frank-Kamenetskii
    for a layer with one face held at the start temperature and the other insulated, or
    for half a layer with both held [1]_.

    Parameters
    ----------
    gel_time_s : float
        Gel time of a thin layer at the start temperature, that stays cool [s]
    gel_conversion : float
        Conversion at gelation, which gives the mean rate until then [-]
    rise_k : float
        Adiabatic rise of the mix [K]
    diffusivity_m2_per_s : float
        Thermal diffusivity of the mix [m2/s]
    activation_j_per_mol : float
        Activation energy of the cure [J/mol]
    start_c : float
        Temperature of the mix and of what cools it [degC]

    Returns
    -------
    float
        Depth [m]

    Raises
    ------
    ValueError
        If `gel_time_s` is not above 0 and at most a week, `gel_conversion` outside 0.05
        to 1, `rise_k` outside 1 to 1000 K, the diffusivity outside 1e-8 to 1e-4 m2/s, the
        activation energy outside 10 to 200 kJ/mol or `start_c` outside -20 to 100 degC.

    Notes
    -----
    Errs small by leaving out that the resin is used up; errs large where the face is only
    in still air, or where the cure speeds up before gelation.  The gel time printed for a
    pot is shorter, for the pot heats itself: it gives a smaller depth.

    Examples
    --------
    >>> depth_m = runaway_depth_m(3600.0, 0.6, 237.0, 1e-7, 60e3, 25.0)
    >>> round(depth_m * 1e3, 1)
    5.2

    References
    ----------
    .. [1] Frank-Kamenetskii: Diffusion and Heat Transfer in Chemical Kinetics (from
       memory).
    """
    positive("gel_time_s", gel_time_s, 604_800.0, "s")
    within("gel_conversion", gel_conversion, 0.05, 1.0, "", "Was it given in per cent?")
    within("rise_k", rise_k, 1.0, 1000.0, "K")
    within("diffusivity_m2_per_s", diffusivity_m2_per_s, 1e-8, 1e-4, "m2/s")
    within("activation_j_per_mol", activation_j_per_mol, 1e4, 2e5, "J/mol", "Is it in kJ?")
    within("start_c", start_c, -20.0, 100.0, "degC", "Was it given in kelvin?")
    kelvin = start_c + _KELVIN
    steep_k = _GAS_CONSTANT * kelvin**2 / activation_j_per_mol
    warming_k_per_s = rise_k * gel_conversion / gel_time_s
    return math.sqrt(_SLAB_LIMIT * diffusivity_m2_per_s * steep_k / warming_k_per_s)


def largest_batch_kg(
    tray_area_m2: float,
    depth_m: float,
    density_kg_m3: float,
    spreading_kg_per_s: float,
    pot_life_s: float,
    pot_life_share: float,
) -> float:
    """Return the largest batch to mix at once.

    The smaller of what lies in the tray no deeper than allowed, and of what is spread
    within a share of the pot life.

    Parameters
    ----------
    tray_area_m2 : float
        Bottom of the mixing tray [m2]
    depth_m : float
        Depth allowed in the tray, as from `runaway_depth_m` [m]
    density_kg_m3 : float
        Density of the mix [kg/m3]
    spreading_kg_per_s : float
        How fast the mix is used [kg/s]
    pot_life_s : float
        Pot life printed for the mix [s]
    pot_life_share : float
        Share of the pot life within which it must be used, 0 to 1 [-]

    Returns
    -------
    float
        Mass of the batch, filler in it [kg]

    Raises
    ------
    ValueError
        If the area is not above 0 and at most 100 m2, the depth not above 0 and at most
        1 m, the density outside 100 to 5000 kg/m3, the spreading not above 0 and at most
        10 kg/s, the pot life not above 0 and at most a week or the share not above 0 and
        at most 1.

    Notes
    -----
    A printed pot life holds for a stated mass, often 0.1 kg; a larger pot has less.

    Examples
    --------
    >>> round(largest_batch_kg(0.06, 0.005, 1100.0, 0.02 / 60.0, 1800.0, 0.5), 2)
    0.3
    """
    positive("tray_area_m2", tray_area_m2, 100.0, "m2", "Was it given in cm2?")
    positive("depth_m", depth_m, 1.0, "m", "Was it given in millimetres?")
    within("density_kg_m3", density_kg_m3, 100.0, 5000.0, "kg/m3", "Is it in g/cm3?")
    positive("spreading_kg_per_s", spreading_kg_per_s, 10.0, "kg/s", "Is it in kg/min?")
    positive("pot_life_s", pot_life_s, 604_800.0, "s")
    positive("pot_life_share", pot_life_share, 1.0, "", "Was it given in per cent?")
    in_tray_kg = tray_area_m2 * depth_m * density_kg_m3
    return min(in_tray_kg, spreading_kg_per_s * pot_life_s * pot_life_share)
