"""Drying of a porous block: how long, when to accept it, how much water is left."""

import math

from advisor.calculations.steam import latent_heat_j_kg, saturation_pressure_pa
from advisor.calculations.valid_range import positive, within

_KELVIN = 273.15
_TERMS = 60
_HALVINGS = 200
_LEAST_SHARE = 1e-6
_LEAST_FOURIER = 1e-3


def _check_half_thickness(half_thickness_m: float) -> None:
    positive("half_thickness_m", half_thickness_m, 5.0, "m", "Was it in millimetres?")


def water_left_share(fourier: float) -> float:
    """Return the share of the water that a slab still holds.

    ``E = (8 / pi^2) sum exp(-(2n+1)^2 pi^2 Fo / 4) / (2n+1)^2`` with ``Fo = D t / l^2``,
    the mean over a slab whose faces are dry from the start [1]_.

    Parameters
    ----------
    fourier : float
        Diffusivity of the moisture times time over half the thickness squared [-]

    Returns
    -------
    float
        Mean excess over the final moisture, over that at the start, 0 to 1 [-]

    Raises
    ------
    ValueError
        If `fourier` is below 0 or not a number.

    Notes
    -----
    Constant diffusivity, one way, no resistance at the face: order of magnitude.

    Examples
    --------
    >>> round(water_left_share(0.8481), 3)
    0.1

    References
    ----------
    .. [1] Crank: The Mathematics of Diffusion (from memory).
    """
    within("fourier", fourier, 0.0, math.inf, "")
    if fourier < _LEAST_FOURIER:  # before the cores are felt the faces draw as endless ones
        return 1.0 - 2.0 * math.sqrt(fourier / math.pi)
    odds = (2 * n + 1 for n in range(_TERMS))
    terms = (math.exp(-odd * odd * math.pi**2 * fourier / 4.0) / odd**2 for odd in odds)
    return 8.0 / math.pi**2 * sum(terms)


def drying_time_s(
    left_share: float, half_thickness_m: float, diffusivity_m2_per_s: float
) -> float:
    """Return how long a slab takes to dry to a share of its water.

    `water_left_share` turned round, times ``l^2 / D``.

    Parameters
    ----------
    left_share : float
        Share of the water that may stay, 1e-6 to 1 [-]
    half_thickness_m : float
        Half the thickness, if it dries by two faces; the whole if by one [m]
    diffusivity_m2_per_s : float
        Diffusivity of the moisture at the drying temperature [m2/s]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    ValueError
        If `left_share` is outside 1e-6 to 1, `half_thickness_m` not above 0 and at most
        5 m or `diffusivity_m2_per_s` not above 0 and at most 1e-4 m2/s.

    Notes
    -----
    The diffusivity changes tenfold as the block dries.  Order of magnitude: plan with it,
    accept by weighing.

    Examples
    --------
    >>> round(drying_time_s(0.1, 0.075, 1e-9) / 86400.0)
    55
    """
    within("left_share", left_share, _LEAST_SHARE, 1.0, "", "Was it given in per cent?")
    _check_half_thickness(half_thickness_m)
    positive("diffusivity_m2_per_s", diffusivity_m2_per_s, 1e-4, "m2/s", "Is it in mm2/s?")
    low, high = 0.0, 10.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        wet = water_left_share(middle) > left_share
        low, high = (middle, high) if wet else (low, middle)
    return high * half_thickness_m**2 / diffusivity_m2_per_s


def moisture_diffusivity_m2_per_s(
    sorptivity_m_per_sqrt_s: float, water_taken_share: float
) -> float:
    """Return a diffusivity of moisture from how fast a block sucks up water.

    ``D = (pi / 4) (S / theta)^2``: a half-space that takes up ``2 theta sqrt(D t / pi)``.

    Parameters
    ----------
    sorptivity_m_per_sqrt_s : float
        Water taken up, as depth of water, over the root of time [m/s^0.5]
    water_taken_share : float
        Water over the volume it fills behind the front, 0 to 1 [-]

    Returns
    -------
    float
        Diffusivity [m2/s]

    Raises
    ------
    ValueError
        If the sorptivity is not above 0 and at most 0.01 m/s^0.5 or the share not above 0
        and at most 1.

    Notes
    -----
    That of wetting; drying is several times slower at the end, when only vapour moves.

    Examples
    --------
    >>> s = 0.23e-3 / 60.0**0.5
    >>> round(moisture_diffusivity_m2_per_s(s, 0.25) * 1e8, 2)
    1.11
    """
    positive("sorptivity_m_per_sqrt_s", sorptivity_m_per_sqrt_s, 0.01, "m/s^0.5")
    positive("water_taken_share", water_taken_share, 1.0, "", "Is it in per cent?")
    return math.pi / 4.0 * (sorptivity_m_per_sqrt_s / water_taken_share) ** 2


def vapour_permeability_kg_per_m_s_pa(temperature_c: float, pressure_pa: float) -> float:
    """Return the permeability of still air to water vapour.

    ``2.0e-7 T^0.81 / p`` [1]_.

    Parameters
    ----------
    temperature_c : float
        Temperature of the air [degC]
    pressure_pa : float
        Absolute pressure of the air [Pa]

    Returns
    -------
    float
        Permeability [kg/(m s Pa)]

    Raises
    ------
    ValueError
        If `temperature_c` is outside -20 to 120 degC or `pressure_pa` outside 20 to
        150 kPa.

    Examples
    --------
    >>> round(vapour_permeability_kg_per_m_s_pa(20.0, 101325.0) * 1e10, 2)
    1.97

    References
    ----------
    .. [1] Kuenzel: Simultaneous Heat and Moisture Transport in Building Components (from
       memory).
    """
    within("temperature_c", temperature_c, -20.0, 120.0, "degC", "Is it in kelvin?")
    within("pressure_pa", pressure_pa, 2e4, 1.5e5, "Pa", "Was it given in mbar?")
    return float(2.0e-7 * (temperature_c + _KELVIN) ** 0.81 / pressure_pa)


def front_drying_time_s(
    water_kg_m3: float,
    half_thickness_m: float,
    temperature_c: float,
    vapour_factor: float,
    air_vapour_pa: float,
    pressure_pa: float = 101_325.0,
) -> float:
    """Return how long a slab dries whose vapour comes from a front that draws back.

    ``t = w l^2 / (2 (d_a / mu) (p_sat - p_air))``, d_a the vapour permeability of air.

    Parameters
    ----------
    water_kg_m3 : float
        Water to be driven out of a cubic metre of block [kg/m3]
    half_thickness_m : float
        Half the thickness, if it dries by two faces; the whole if by one [m]
    temperature_c : float
        Temperature of the block [degC]
    vapour_factor : float
        How many times less the block lets through than still air, mu [-]
    air_vapour_pa : float
        Pressure of the water vapour in the air round it [Pa]
    pressure_pa : float
        Pressure of the air [Pa]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    ValueError
        If `water_kg_m3` is not above 0 and at most 1000 kg/m3, `half_thickness_m` not
        above 0 and at most 5 m, `temperature_c` outside 0 to 95 degC, `vapour_factor`
        outside 1 to 1e6, `pressure_pa` outside 50 to 150 kPa or `air_vapour_pa` outside 0
        to 99 % of the saturation pressure.

    Notes
    -----
    The end stage, without suction of water to the face: errs long for a wet block.  It
    asks that the oven brings the heat (`evaporation_time_s`) and takes the vapour away.
    From 100 degC on the water boils, steam is driven by its own pressure and this does not
    hold.

    Examples
    --------
    >>> round(front_drying_time_s(100.0, 0.075, 60.0, 10.0, 1200.0) / 86400.0, 1)
    8.0
    """
    positive("water_kg_m3", water_kg_m3, 1e3, "kg/m3")
    _check_half_thickness(half_thickness_m)
    within("temperature_c", temperature_c, 0.0, 95.0, "degC", "Was it given in kelvin?")
    within("vapour_factor", vapour_factor, 1.0, 1e6, "")
    within("pressure_pa", pressure_pa, 5e4, 1.5e5, "Pa", "Was it given in mbar?")
    saturated_pa = saturation_pressure_pa(temperature_c)
    within("air_vapour_pa", air_vapour_pa, 0.0, 0.99 * saturated_pa, "Pa")
    air = vapour_permeability_kg_per_m_s_pa(temperature_c, pressure_pa)
    driven = 2.0 * air / vapour_factor * (saturated_pa - air_vapour_pa)
    return water_kg_m3 * half_thickness_m**2 / driven


def evaporation_time_s(
    water_kg: float,
    area_m2: float,
    film_w_per_m2_k: float,
    air_c: float,
    face_c: float,
) -> float:
    """Return the time in which the air brings the heat that the water needs to leave.

    ``t = m r / (h A (T_air - T_face))``: no block dries faster than that.

    Parameters
    ----------
    water_kg : float
        Water to be driven out [kg]
    area_m2 : float
        Faces in the air [m2]
    film_w_per_m2_k : float
        Film coefficient at the faces [W/(m2 K)]
    air_c : float
        Temperature of the air [degC]
    face_c : float
        Temperature of the wet face [degC]

    Returns
    -------
    float
        Time [s]

    Raises
    ------
    ValueError
        If `water_kg` is not above 0 and at most 10 000 kg, `area_m2` not above 0 and at
        most 1000 m2, the film coefficient not above 0 and at most 1000 W/(m2 K), `face_c`
        outside 0 to 100 degC or `air_c` not above it and at most 250 degC.

    Examples
    --------
    >>> round(evaporation_time_s(3.6, 0.78, 20.0, 90.0, 60.0) / 3600.0, 1)
    5.0
    """
    positive("water_kg", water_kg, 1e4, "kg")
    positive("area_m2", area_m2, 1e3, "m2")
    positive("film_w_per_m2_k", film_w_per_m2_k, 1e3, "W/(m2 K)")
    within("face_c", face_c, 0.0, 100.0, "degC", "Was it given in kelvin?")
    positive("air_c less face_c", air_c - face_c, 250.0, "K")
    heat_w = film_w_per_m2_k * area_m2 * (air_c - face_c)
    return water_kg * latent_heat_j_kg(face_c) / heat_w
