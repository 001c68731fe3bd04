"""Cracking of a brittle tool by its own temperature differences, in an oven."""

import math
from dataclasses import dataclass

from advisor.calculations.slab_heating import biot_number, peak_lag_share
from advisor.calculations.valid_range import positive, within

_FASTEST_K_PER_S = 10.0


@dataclass(frozen=True)
class BrittleSlab:
    """A slab of a brittle tool, in the open air of an oven with both faces.

    Attributes
    ----------
    half_thickness_m : float
        Half its thickness; the whole thickness if one face is insulated [m]
    conductivity_w_per_m_k : float
        Conductivity [W/(m K)]
    density_kg_m3 : float
        Density [kg/m3]
    heat_capacity_j_per_kg_k : float
        Specific heat capacity [J/(kg K)]
    modulus_pa : float
        Young's modulus [Pa]
    expansion_per_k : float
        Expansion [1/K]
    poisson_ratio : float
        Poisson's ratio [-]

    Raises
    ------
    ValueError
        If a value is not above 0 (Poisson's ratio: is outside 0 to 0.5) or beyond what
        solids have.
    """

    half_thickness_m: float
    conductivity_w_per_m_k: float
    density_kg_m3: float
    heat_capacity_j_per_kg_k: float
    modulus_pa: float
    expansion_per_k: float
    poisson_ratio: float

    def __post_init__(self) -> None:
        """Refuse a slab that cannot be."""
        hint = "Was it given in millimetres?"
        positive("half_thickness_m", self.half_thickness_m, 5.0, "m", hint)
        positive("conductivity_w_per_m_k", self.conductivity_w_per_m_k, 3e3, "W/(m K)")
        positive("density_kg_m3", self.density_kg_m3, 2.5e4, "kg/m3")
        positive("heat_capacity_j_per_kg_k", self.heat_capacity_j_per_kg_k, 1e4, "J/(kg K)")
        positive("modulus_pa", self.modulus_pa, 2e12, "Pa")
        positive("expansion_per_k", self.expansion_per_k, 5e-4, "1/K")
        within("poisson_ratio", self.poisson_ratio, 0.0, 0.5, "")

    @property
    def diffusivity_m2_per_s(self) -> float:
        """Thermal diffusivity ``k / (rho c)`` [m2/s]."""
        capacity = self.density_kg_m3 * self.heat_capacity_j_per_kg_k
        return self.conductivity_w_per_m_k / capacity

    @property
    def stress_pa_per_k(self) -> float:
        """Stress of a degree of difference from the mean, ``E a / (1 - nu)`` [Pa/K]."""
        return self.modulus_pa * self.expansion_per_k / (1.0 - self.poisson_ratio)


def shock_resistance_k(
    strength_pa: float, modulus_pa: float, expansion_per_k: float, poisson_ratio: float
) -> float:
    """Return the sudden change of face temperature that cracks a brittle plate.

    ``R = sigma (1 - nu) / (E a)``, the first thermal-shock parameter [1]_.

    Parameters
    ----------
    strength_pa : float
        Tensile or bending strength [Pa]
    modulus_pa : float
        Young's modulus [Pa]
    expansion_per_k : float
        Expansion [1/K]
    poisson_ratio : float
        Poisson's ratio; 0 gives the form for a rod, ``sigma / (E a)`` [-]

    Returns
    -------
    float
        Difference between face and mean at which the face cracks [K]

    Raises
    ------
    ValueError
        If `strength_pa` is not above 0 and at most 10 GPa, `modulus_pa` not above 0 and at
        most 2 TPa, `expansion_per_k` not above 0 and at most 5e-4 1/K or `poisson_ratio`
        outside 0 to 0.5.

    Notes
    -----
    For a face cooled at once; a face heated at once may see about 3.2 times as much,
    for then the core is in tension.

    Examples
    --------
    >>> round(shock_resistance_k(0.5e6, 1.75e9, 8e-6, 0.2), 1)
    28.6

    References
    ----------
    .. [1] Kingery: Factors Affecting Thermal Stress Resistance of Ceramic Materials,
       1955 (from memory).
    """
    positive("strength_pa", strength_pa, 1e10, "Pa", "Was it given in MPa?")
    positive("modulus_pa", modulus_pa, 2e12, "Pa")
    positive("expansion_per_k", expansion_per_k, 5e-4, "1/K")
    within("poisson_ratio", poisson_ratio, 0.0, 0.5, "")
    return strength_pa * (1.0 - poisson_ratio) / (modulus_pa * expansion_per_k)


def steady_difference_k(slab: BrittleSlab, rate_k_per_s: float) -> float:
    """Return how far the core of a slab lags behind its faces in a long, steady ramp.

    ``q L^2 / (2 a)`` [1]_.  Two thirds of it lie between the faces and the mean, one third
    between the mean and the core.

    Parameters
    ----------
    slab : BrittleSlab
        Slab
    rate_k_per_s : float
        Rate of heating or cooling, without sign [K/s]

    Returns
    -------
    float
        Difference between faces and core [K]

    Raises
    ------
    ValueError
        If `rate_k_per_s` is not above 0 and at most 10 K/s.

    Notes
    -----
    Reached after about ``L^2 / (2 a)``; in a shorter ramp the difference is smaller.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> round(steady_difference_k(block, 0.1 / 60.0), 1)
    19.5

    References
    ----------
    .. [1] Carslaw, Jaeger: Conduction of Heat in Solids (from memory).
    """
    positive("rate_k_per_s", rate_k_per_s, _FASTEST_K_PER_S, "K/s", "Is it in K/min?")
    return rate_k_per_s * slab.half_thickness_m**2 / (2.0 * slab.diffusivity_m2_per_s)


def peak_stress_pa(
    slab: BrittleSlab,
    change_k: float,
    rate_k_per_s: float,
    film_w_per_m2_k: float,
    depth_share: float,
) -> float:
    """Return the largest stress in a plane of the slab, of whatever sign.

    ``E a (T_mean - T) / (1 - nu)`` at its largest: tension in the core on heating and in
    the faces on cooling, compression the other way round.

    Parameters
    ----------
    slab : BrittleSlab
        Slab, at one temperature to begin with
    change_k : float
        Change of the air, without sign [K]
    rate_k_per_s : float
        Rate of the air, without sign; infinite for a step [K/s]
    film_w_per_m2_k : float
        Film coefficient at the faces, radiation in it [W/(m2 K)]
    depth_share : float
        Distance of the plane from the middle over half the thickness: 0 for the core, 1
        for the face [-]

    Returns
    -------
    float
        Stress, without sign [Pa]

    Raises
    ------
    ValueError
        As for `heating_core_tension_pa`, or if `depth_share` is outside 0 to 1.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> round(peak_stress_pa(block, 80.0, math.inf, 20.0, 1.0) / 1e6, 2)
    0.88
    """
    within("change_k", change_k, 0.0, 1500.0, "K")
    positive("rate_k_per_s", rate_k_per_s, math.inf, "K/s")
    biot = biot_number(film_w_per_m2_k, slab.half_thickness_m, slab.conductivity_w_per_m_k)
    duration_s = change_k / rate_k_per_s
    fourier = slab.diffusivity_m2_per_s * duration_s / slab.half_thickness_m**2
    share = abs(peak_lag_share(biot, fourier, depth_share))
    return slab.stress_pa_per_k * change_k * share


def heating_core_tension_pa(
    slab: BrittleSlab, change_k: float, rate_k_per_s: float, film_w_per_m2_k: float
) -> float:
    """Return the largest tension in the core while the slab is heated.

    ``E a (T_mean - T_core) / (1 - nu)`` at its largest, for oven air that rises at a
    steady rate and then stays.

    Parameters
    ----------
    slab : BrittleSlab
        Slab, at one temperature to begin with
    change_k : float
        Rise of the air [K]
    rate_k_per_s : float
        Rate of the air; infinite for a slab put into the hot oven [K/s]
    film_w_per_m2_k : float
        Film coefficient at the faces, radiation in it [W/(m2 K)]

    Returns
    -------
    float
        Tensile stress [Pa]

    Raises
    ------
    ValueError
        If `change_k` is outside 0 to 1500 K, `rate_k_per_s` not above 0, the film
        coefficient not above 0 and at most 10 000 W/(m2 K), the Biot number outside 1e-5
        to 1000 or the ramp longer than a million times ``L^2 / a``.

    Notes
    -----
    Free, dry, elastic plate; constant properties.  Drying shrinkage and steam come on top
    in a wet block; a hole, an inside corner or a joint raises the stress.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> round(heating_core_tension_pa(block, 80.0, 1.0 / 60.0, 20.0) / 1e6, 2)
    0.35
    """
    return peak_stress_pa(slab, change_k, rate_k_per_s, film_w_per_m2_k, 0.0)


def cooling_face_tension_pa(
    slab: BrittleSlab, change_k: float, rate_k_per_s: float, film_w_per_m2_k: float
) -> float:
    """Return the largest tension in the faces while the slab is cooled.

    ``E a (T_mean - T_face) / (1 - nu)`` at its largest, for oven air that falls at a
    steady rate and then stays.

    Parameters
    ----------
    slab : BrittleSlab
        Slab, at one temperature to begin with
    change_k : float
        Fall of the air, without sign [K]
    rate_k_per_s : float
        Rate of the air, without sign; infinite for a slab put into the cold [K/s]
    film_w_per_m2_k : float
        Film coefficient at the faces, radiation in it [W/(m2 K)]

    Returns
    -------
    float
        Tensile stress [Pa]

    Raises
    ------
    ValueError
        As for `heating_core_tension_pa`.

    Notes
    -----
    About twice the stress of heating at the same rate, and at the faces, where flaws are:
    cooling governs.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> round(cooling_face_tension_pa(block, 80.0, 1.0 / 60.0, 20.0) / 1e6, 2)
    0.78
    """
    return peak_stress_pa(slab, change_k, rate_k_per_s, film_w_per_m2_k, 1.0)
