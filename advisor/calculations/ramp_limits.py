"""How fast an oven may heat and cool a brittle tool without cracking it."""

import math

from advisor.calculations.thermal_stress import BrittleSlab, peak_stress_pa
from advisor.calculations.valid_range import positive

_HALVINGS = 14  # the rate to a ten-thousandth


def fastest_steady_rates_k_per_s(
    slab: BrittleSlab, allowable_pa: float
) -> tuple[float, float]:
    """Return the rates of heating and of cooling that any length of ramp allows.

    ``6 a R / L^2`` and ``3 a R / L^2`` with ``R = sigma / (E a / (1 - nu))``: on heating
    the core is in tension with a third of the difference, on cooling the faces with two
    thirds.

    Parameters
    ----------
    slab : BrittleSlab
        Slab
    allowable_pa : float
        Tensile stress allowed, safety factor already taken off [Pa]

    Returns
    -------
    tuple of float
        Rate of heating, then of cooling [K/s]

    Raises
    ------
    ValueError
        If `allowable_pa` is not above 0 and at most 10 GPa.

    Notes
    -----
    On the safe side for a short ramp: see `fastest_heating_k_per_s` and
    `fastest_cooling_k_per_s`.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> [round(rate * 60.0, 2) for rate in fastest_steady_rates_k_per_s(block, 0.5e6)]
    [0.44, 0.22]
    """
    positive("allowable_pa", allowable_pa, 1e10, "Pa", "Was it given in MPa?")
    resistance_k = allowable_pa / slab.stress_pa_per_k
    cooling = 3.0 * slab.diffusivity_m2_per_s * resistance_k / slab.half_thickness_m**2
    return 2.0 * cooling, cooling


def _fastest(
    slab: BrittleSlab,
    change_k: float,
    film_w_per_m2_k: float,
    allowable_pa: float,
    depth_share: float,
) -> float:
    positive("allowable_pa", allowable_pa, 1e10, "Pa", "Was it given in MPa?")
    if (
        peak_stress_pa(slab, change_k, math.inf, film_w_per_m2_k, depth_share)
        <= allowable_pa
    ):
        return math.inf
    # The rate that even an endless ramp allows is never too fast.
    low = fastest_steady_rates_k_per_s(slab, allowable_pa)[depth_share > 0.0]
    high = 2.0 * low
    while (
        peak_stress_pa(slab, change_k, high, film_w_per_m2_k, depth_share) <= allowable_pa
    ):
        low, high = high, 2.0 * high
    for _ in range(_HALVINGS):
        middle = math.sqrt(low * high)
        stress_pa = peak_stress_pa(slab, change_k, middle, film_w_per_m2_k, depth_share)
        low, high = (middle, high) if stress_pa <= allowable_pa else (low, middle)
    return low


def fastest_heating_k_per_s(
    slab: BrittleSlab, change_k: float, film_w_per_m2_k: float, allowable_pa: float
) -> float:
    """Return the fastest rise of the oven air that leaves the core whole.

    Parameters
    ----------
    slab : BrittleSlab
        Slab, at one temperature to begin with
    change_k : float
        Rise of the air [K]
    film_w_per_m2_k : float
        Film coefficient at the faces, radiation in it [W/(m2 K)]
    allowable_pa : float
        Tensile stress allowed, safety factor already taken off [Pa]

    Returns
    -------
    float
        Rate of the air; infinite if the slab may be put into the hot oven [K/s]

    Raises
    ------
    ValueError
        If `allowable_pa` is not above 0 and at most 10 GPa, or as for
        `thermal_stress.heating_core_tension_pa`.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> round(fastest_heating_k_per_s(block, 80.0, 20.0, 0.3e6) * 60.0, 2)
    0.46
    """
    return _fastest(slab, change_k, film_w_per_m2_k, allowable_pa, 0.0)


def fastest_cooling_k_per_s(
    slab: BrittleSlab, change_k: float, film_w_per_m2_k: float, allowable_pa: float
) -> float:
    """Return the fastest fall of the oven air that leaves the faces whole.

    Parameters
    ----------
    slab : BrittleSlab
        Slab, at one temperature to begin with
    change_k : float
        Fall of the air, without sign [K]
    film_w_per_m2_k : float
        Film coefficient at the faces, radiation in it [W/(m2 K)]
    allowable_pa : float
        Tensile stress allowed, safety factor already taken off [Pa]

    Returns
    -------
    float
        Rate of the air, without sign; infinite if the slab may be taken out hot [K/s]

    Raises
    ------
    ValueError
        If `allowable_pa` is not above 0 and at most 10 GPa, or as for
        `thermal_stress.heating_core_tension_pa`.

    Examples
    --------
    >>> block = BrittleSlab(0.075, 0.12, 500.0, 1000.0, 1.75e9, 8e-6, 0.2)
    >>> round(fastest_cooling_k_per_s(block, 80.0, 20.0, 0.45e6) * 60.0, 2)
    0.24
    """
    return _fastest(slab, change_k, film_w_per_m2_k, allowable_pa, 1.0)
