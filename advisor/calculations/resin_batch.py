"""How much resin to mix at once and how deep to pour it, for its heat to get away."""

import math

from scipy.optimize import brentq  # type: ignore[import-untyped]

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
    film_w_per_m2_k: float = math.inf,
    conductivity_w_per_m_k: float = 0.2,
) -> float:
    """Return the depth up to which a pour cannot heat itself faster than it cools.

    ``L^2 = d(Bi) a (R T^2 / E) t_gel / (dT x_gel)``: the limit of Frank-Kamenetskii for a
    layer that is insulated below and cooled above, ``d = 0.878`` for a face held at the
    start temperature [1]_.  Behind a film ``Bi = h L / k`` and ``d = 0.878 (Bi / 2)
    (s - Bi) exp((s - Bi - 2) / Bi)`` with ``s = sqrt(Bi^2 + 4)``, about ``0.878 Bi / e``
    for a thin layer [2]_.

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
    film_w_per_m2_k : float
        Coefficient of heat transfer from the open face; infinite for a face that is held
        cold [W/(m2 K)]
    conductivity_w_per_m_k : float
        Conductivity of the mix, of use with a film [W/(m K)]

    Returns
    -------
    float
        Depth [m]

    Raises
    ------
    ValueError
        If `gel_time_s` is not above 0 and at most a week, `gel_conversion` outside 0.05
        to 1, `rise_k` outside 1 to 1000 K, the diffusivity outside 1e-8 to 1e-4 m2/s, the
        activation energy outside 10 to 200 kJ/mol, `start_c` outside -20 to 100 degC, the
        film not above 0 or the conductivity outside 0.01 to 100 W/(m K).

    Notes
    -----
    Errs small by leaving out that the resin is used up; errs large where the cure speeds
    up before gelation.  The gel time printed for a
    pot is shorter, for the pot heats itself: it gives a smaller depth.

    Examples
    --------
    >>> depth_m = runaway_depth_m(3600.0, 0.6, 237.0, 1e-7, 60e3, 25.0)
    >>> round(depth_m * 1e3, 1)
    5.2
    >>> air_m = runaway_depth_m(3600.0, 0.6, 237.0, 1e-7, 60e3, 25.0, 10.0, 0.2)
    >>> round(air_m * 1e3, 1)
    0.5

    References
    ----------
    .. [1] Frank-Kamenetskii: Diffusion and Heat Transfer in Chemical Kinetics (from
       memory).
    .. [2] Barzykin and Merzhanov: critical parameter with heat transfer at the face, as
       in textbooks on thermal explosion (from memory).
    """
    positive("gel_time_s", gel_time_s, 604_800.0, "s")
    within("gel_conversion", gel_conversion, 0.05, 1.0, "", "Was it given in per cent?")
    within("rise_k", rise_k, 1.0, 1000.0, "K")
    within("diffusivity_m2_per_s", diffusivity_m2_per_s, 1e-8, 1e-4, "m2/s")
    within("activation_j_per_mol", activation_j_per_mol, 1e4, 2e5, "J/mol", "Is it in kJ?")
    within("start_c", start_c, -20.0, 100.0, "degC", "Was it given in kelvin?")
    positive("film_w_per_m2_k", film_w_per_m2_k, math.inf, "W/(m2 K)")
    within("conductivity_w_per_m_k", conductivity_w_per_m_k, 0.01, 100.0, "W/(m K)")
    kelvin = start_c + _KELVIN
    steep_k = _GAS_CONSTANT * kelvin**2 / activation_j_per_mol
    warming_k_per_s = rise_k * gel_conversion / gel_time_s
    scale_m2 = diffusivity_m2_per_s * steep_k / warming_k_per_s
    held_m = math.sqrt(_SLAB_LIMIT * scale_m2)
    if math.isinf(film_w_per_m2_k):
        return held_m

    def beyond(depth_m: float) -> float:
        biot = film_w_per_m2_k * depth_m / conductivity_w_per_m_k
        return depth_m**2 - _critical(biot) * scale_m2

    return float(brentq(beyond, 1e-9 * held_m, held_m))


def _critical(biot: float) -> float:
    """Return the critical parameter of a layer behind a film."""
    rest = 4.0 / (math.sqrt(biot**2 + 4.0) + biot)  # sqrt(Bi^2 + 4) - Bi, kept exact
    return _SLAB_LIMIT * biot / 2.0 * rest * math.exp((rest - 2.0) / biot)


def largest_batch_kg(
    spreading_kg_per_s: float, pot_life_s: float, pot_life_share: float
) -> float:
    """Return the largest batch to mix at once: what is spread in a share of its life.

    Parameters
    ----------
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
        If the spreading is not above 0 and at most 10 kg/s, the pot life not above 0 and
        at most a week or the share not above 0 and at most 1.

    Notes
    -----
    A printed pot life holds for a stated mass, often 0.1 kg; a larger pot has less.

    Examples
    --------
    >>> round(largest_batch_kg(0.02 / 60.0, 1800.0, 0.5), 2)
    0.3
    """
    positive("spreading_kg_per_s", spreading_kg_per_s, 10.0, "kg/s", "Is it in kg/min?")
    positive("pot_life_s", pot_life_s, 604_800.0, "s")
    positive("pot_life_share", pot_life_share, 1.0, "", "Was it given in per cent?")
    return spreading_kg_per_s * pot_life_s * pot_life_share
