"""How far a release film sinks into open pores under pressure, hot or cold."""

import math

from advisor.calculations.bisection import rising_root
from advisor.calculations.valid_range import positive, within

_WIDEST_PORE_M = 0.05
_DEEPEST_SINK_SHARE = 0.25
# Factors of the held circular plate: 64/12, printed 5.33, and 2.6, over 1 - nu^2.
_BENDING = 16.0 / 3.0
_STRETCHING = 2.6
_SHEAR_FACTOR = 5.0 / 6.0


def _check_film(
    film_thickness_m: float, pressure_pa: float, modulus_pa: float, poisson_ratio: float
) -> None:
    positive(
        "film_thickness_m", film_thickness_m, 0.01, "m", "Was it given in millimetres?"
    )
    positive("pressure_pa", pressure_pa, 5e6, "Pa")
    within("modulus_pa", modulus_pa, 1e6, 1e12, "Pa", "Was it given in MPa?")
    within("poisson_ratio", poisson_ratio, 0.0, 0.5, "")


def _sink_m(
    pore_diameter_m: float,
    film_thickness_m: float,
    pressure_pa: float,
    modulus_pa: float,
    poisson_ratio: float,
) -> float:
    """Return the sink by bending and stretching plus that by shear."""
    slenderness = pore_diameter_m / 2.0 / film_thickness_m
    load = pressure_pa / modulus_pa * slenderness**4
    plane = 1.0 - poisson_ratio**2
    # K1 x + K2 x^3 = load has one real root, here in closed form.
    linear = _BENDING / _STRETCHING
    constant = load * plane / _STRETCHING
    root = 2.0 * math.sqrt(linear / 3.0)
    bent = root * math.sinh(math.asinh(3.0 * constant / (linear * root)) / 3.0)
    shear_modulus_pa = modulus_pa / (2.0 * (1.0 + poisson_ratio))
    sheared = pressure_pa * slenderness**2 / (4.0 * _SHEAR_FACTOR * shear_modulus_pa)
    return (bent + sheared) * film_thickness_m


def film_modulus_pa(
    temperature_c: float,
    cool_c: float,
    cool_modulus_pa: float,
    warm_c: float,
    warm_modulus_pa: float,
) -> float:
    """Return the modulus of a film between two temperatures at which it is known.

    ``ln E`` falls in a straight line from one to the other.

    Parameters
    ----------
    temperature_c : float
        Temperature of the film under pressure [degC]
    cool_c, warm_c : float
        Temperatures at which the modulus is known [degC]
    cool_modulus_pa, warm_modulus_pa : float
        Young's modulus at these [Pa]

    Returns
    -------
    float
        Young's modulus [Pa]

    Raises
    ------
    ValueError
        If `warm_c` is not above `cool_c` and at most 400 degC, `cool_c` is below -100
        degC, `temperature_c` is not between them, a modulus is outside 1e6 to 1e12 Pa or
        the film is stiffer warm than cool.

    Notes
    -----
    A rule for interpolation, not a law: a glass transition between the two temperatures
    makes a step that it misses.  Creep under hours of pressure acts as a lower modulus,
    so take the low end of what is known.  It is not carried beyond the two temperatures.

    Examples
    --------
    >>> round(film_modulus_pa(60.0, 20.0, 500e6, 100.0, 150e6) / 1e6)
    274
    """
    within("cool_c", cool_c, -100.0, 400.0, "degC", "Was it given in kelvin?")
    within("warm_c", warm_c, math.nextafter(cool_c, math.inf), 400.0, "degC")
    within("temperature_c", temperature_c, cool_c, warm_c, "degC")
    within("cool_modulus_pa", cool_modulus_pa, 1e6, 1e12, "Pa", "Was it given in MPa?")
    within("warm_modulus_pa", warm_modulus_pa, 1e6, cool_modulus_pa, "Pa")
    share = (temperature_c - cool_c) / (warm_c - cool_c)
    return cool_modulus_pa * math.exp(share * math.log(warm_modulus_pa / cool_modulus_pa))


def print_through_m(
    pore_diameter_m: float,
    film_thickness_m: float,
    pressure_pa: float,
    modulus_pa: float,
    poisson_ratio: float,
) -> float:
    """Return how far a film sinks into an open pore: the height of the pimple it leaves.

    ``q a^4 / (E t^4) = K1 y/t + K2 (y/t)^3`` with ``K1 = 5.33 / (1 - nu^2)`` and
    ``K2 = 2.6 / (1 - nu^2)`` for a circular plate fixed and held at its edge [1]_, plus
    ``q a^2 / (4 k G t)`` by shear, ``k = 5/6``, which rules over pores narrower than about
    three films.

    Parameters
    ----------
    pore_diameter_m : float
        Width of the pore's mouth [m]
    film_thickness_m : float
        Thickness of the film without its adhesive [m]
    pressure_pa : float
        Pressure on the film over that in the pore [Pa]
    modulus_pa : float
        Young's modulus of the film at the temperature of the cure, crept [Pa]
    poisson_ratio : float
        Poisson's ratio of the film [-]

    Returns
    -------
    float
        Sink at the middle of the pore [m]

    Raises
    ------
    ValueError
        If a size is not above 0 or the pore is wider than 50 mm, the film thicker than 10
        mm, the pressure not above 0 and at most 5 MPa, the modulus outside 1e6 to 1e12
        Pa, Poisson's ratio outside 0 to 0.5, or the sink more than a quarter of the pore,
        where the formula for shallow bulges does not hold.

    Notes
    -----
    Adhesive, fluid resin and the rounded edge of the pore are not in it: an order of
    magnitude.  The film is taken as elastic; the two shares are added, which is somewhat
    high for thin films over wide pores.

    Examples
    --------
    >>> round(print_through_m(1e-3, 0.13e-3, 1e5, 150e6, 0.46) * 1e6, 1)
    3.9

    References
    ----------
    .. [1] Roark's Formulas for Stress and Strain, 7th ed., section 11.11.
    """
    positive(
        "pore_diameter_m",
        pore_diameter_m,
        _WIDEST_PORE_M,
        "m",
        "Was it given in millimetres?",
    )
    _check_film(film_thickness_m, pressure_pa, modulus_pa, poisson_ratio)
    sink_m = _sink_m(
        pore_diameter_m, film_thickness_m, pressure_pa, modulus_pa, poisson_ratio
    )
    within(
        "the sink",
        sink_m,
        0.0,
        _DEEPEST_SINK_SHARE * pore_diameter_m,
        "m",
        "Fill the pore.",
    )
    return sink_m


def largest_unfilled_pore_m(
    allowed_print_m: float,
    film_thickness_m: float,
    pressure_pa: float,
    modulus_pa: float,
    poisson_ratio: float,
) -> float:
    """Return the widest pore that may stay open under a film for a finish.

    The diameter at which `print_through_m` is the print allowed.

    Parameters
    ----------
    allowed_print_m : float
        Height of pimple that the finish allows [m]
    film_thickness_m : float
        Thickness of the film without its adhesive [m]
    pressure_pa : float
        Pressure on the film over that in the pore [Pa]
    modulus_pa : float
        Young's modulus of the film at the temperature of the cure, crept [Pa]
    poisson_ratio : float
        Poisson's ratio of the film [-]

    Returns
    -------
    float
        Diameter of the pore; 50 mm where even that prints less [m]

    Raises
    ------
    ValueError
        If `allowed_print_m` is not above 0 and at most 1 mm, or more than a quarter of
        the pore found, or as for `print_through_m`.

    Notes
    -----
    Pores wider than this are filled before the film goes on.  See `print_through_m` for
    what is left out.

    Examples
    --------
    >>> round(largest_unfilled_pore_m(5e-6, 0.13e-3, 1e5, 150e6, 0.46) * 1e3, 2)
    1.07
    """
    positive("allowed_print_m", allowed_print_m, 1e-3, "m", "Was it given in micrometres?")
    _check_film(film_thickness_m, pressure_pa, modulus_pa, poisson_ratio)

    def excess_m(pore_diameter_m: float) -> float:
        return (
            _sink_m(
                pore_diameter_m, film_thickness_m, pressure_pa, modulus_pa, poisson_ratio
            )
            - allowed_print_m
        )

    if excess_m(_WIDEST_PORE_M) <= 0.0:
        return _WIDEST_PORE_M
    pore_m = rising_root(excess_m, 0.0, _WIDEST_PORE_M)
    within("allowed_print_m", allowed_print_m, 0.0, _DEEPEST_SINK_SHARE * pore_m, "m")
    return pore_m
