"""A slab in an oven: how far a plane in it lags behind the mean as the air changes."""

import math

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import positive, within

Values = NDArray[np.float64]

_TERMS = 300
_HALVINGS = 60
_LARGEST_BIOT = 1000.0
_SMALLEST_BIOT = 1e-5
_SOONEST, _LATEST, _INSTANTS = 1e-5, 3.0, 800  # Fourier numbers after the ramp


def eigenvalues(biot: float) -> Values:
    """Return the first 300 roots of ``z tan z = Bi``, rising [-].

    Parameters
    ----------
    biot : float
        Biot number, film coefficient times half thickness over conductivity [-]

    Returns
    -------
    numpy.ndarray
        One root in each interval from ``n pi`` to ``(n + 1/2) pi`` [-]

    Raises
    ------
    ValueError
        If `biot` is outside 1e-5 to 1000.

    Examples
    --------
    >>> round(float(eigenvalues(1.0)[0]), 4)
    0.8603
    """
    within("Biot number", biot, _SMALLEST_BIOT, _LARGEST_BIOT, "")
    whole_turns: Values = np.arange(_TERMS, dtype=np.float64) * np.float64(math.pi)
    low: Values = np.zeros(_TERMS)
    high: Values = np.full(_TERMS, math.pi / 2.0)
    for _ in range(_HALVINGS):
        middle: Values = (low + high) / 2.0
        below = (whole_turns + middle) * np.sin(middle) < biot * np.cos(middle)
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    roots: Values = whole_turns + (low + high) / 2.0
    return roots


def peak_lag_share(biot: float, ramp_fourier: float, depth_share: float) -> float:
    """Return the largest lag of a plane behind the mean, over the change of the air.

    A slab at one temperature, both faces in air that changes at a steady rate and then
    stays.  A step gives ``sum C cos(z x/L) exp(-z^2 Fo)`` with
    ``C = 4 sin z / (2 z + sin 2 z)`` [1]_, and ``sin z / z`` for the cosine in the mean;
    a ramp is the integral of steps, so each term becomes
    ``(exp(-z^2 (Fo - Fo_r)) - exp(-z^2 Fo)) / (z^2 Fo_r)`` from its end on.

    Parameters
    ----------
    biot : float
        Biot number, film coefficient times half thickness over conductivity [-]
    ramp_fourier : float
        Duration of the ramp as diffusivity times it over half the thickness squared; 0
        for a step [-]
    depth_share : float
        Distance of the plane from the middle over half the thickness: 0 for the core, 1
        for the face [-]

    Returns
    -------
    float
        Difference between the plane and the mean at its largest; positive where the plane
        lags, negative where it leads [-]

    Raises
    ------
    ValueError
        If `biot` is outside 1e-5 to 1000, `ramp_fourier` outside 0 to 1e6 or
        `depth_share` outside 0 to 1.

    Notes
    -----
    The core's difference grows during the whole ramp, as does the face's, so the peak is
    at its end or after it.

    Examples
    --------
    >>> round(peak_lag_share(12.5, 0.0, 0.0), 3), round(peak_lag_share(12.5, 0.0, 1.0), 3)
    (0.265, -0.628)

    References
    ----------
    .. [1] Incropera et al., Fundamentals of Heat and Mass Transfer, chapter 5 (from
       memory).
    """
    within("ramp_fourier", ramp_fourier, 0.0, 1e6, "")
    within("depth_share", depth_share, 0.0, 1.0, "")
    roots = eigenvalues(biot)
    weights = 4.0 * np.sin(roots) / (2.0 * roots + np.sin(2.0 * roots))
    weights *= np.cos(roots * depth_share) - np.sin(roots) / roots
    rates = roots**2
    ramp_part = np.maximum(rates * ramp_fourier, 1e-12)
    spread = -np.expm1(-ramp_part) / ramp_part  # 1 for a step
    # Of the time after the end of the ramp: from its end itself to long enough.
    after = np.concatenate(([0.0], np.geomspace(_SOONEST, _LATEST, _INSTANTS)))
    if ramp_fourier == 0.0:
        after = after[1:]
    differences = np.exp(-np.outer(after, rates)) @ (weights * spread)
    return float(differences[np.argmax(np.abs(differences))])


def biot_number(
    film_w_per_m2_k: float, half_thickness_m: float, conductivity_w_per_m_k: float
) -> float:
    """Return the resistance of a slab over that of its film of air.

    ``Bi = h L / k``.

    Parameters
    ----------
    film_w_per_m2_k : float
        Film coefficient at the faces, radiation in it [W/(m2 K)]
    half_thickness_m : float
        Half the thickness of a slab with two faces in the air; the whole thickness if one
        face is insulated [m]
    conductivity_w_per_m_k : float
        Conductivity of the slab [W/(m K)]

    Returns
    -------
    float
        Biot number [-]

    Raises
    ------
    ValueError
        If the film coefficient is not above 0 and at most 10 000 W/(m2 K), the half
        thickness not above 0 and at most 5 m or the conductivity not above 0 and at most
        3000 W/(m K).

    Examples
    --------
    >>> round(biot_number(20.0, 0.075, 0.12), 6)
    12.5
    """
    positive("film_w_per_m2_k", film_w_per_m2_k, 1e4, "W/(m2 K)")
    positive("half_thickness_m", half_thickness_m, 5.0, "m", "Was it in millimetres?")
    positive("conductivity_w_per_m_k", conductivity_w_per_m_k, 3e3, "W/(m K)")
    return film_w_per_m2_k * half_thickness_m / conductivity_w_per_m_k
