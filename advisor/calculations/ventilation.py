"""Air to thin solvent vapour, for fire and for health, and solvent in a closed oven.

Screening estimates: measure, and let the oven's rating plate and local law rule.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from advisor.calculations.valid_range import positive, within

_GAS_CONSTANT = 8.314462618
_STANDARD_PA = 101325.0
_ROOM_C = 21.0
_SHARE_OF_LOWER_LIMIT = 0.25
# The lower limit falls in the heat: factor on the air from 250 degF, here from 120 degC.
_HOT_FACTOR = 1.4
_HOT_FROM_C = 120.0
# Least exhaust of a batch oven, 440 standard ft3/min per US gallon of solvent [1/s].
_BATCH_EXHAUST_PER_S = 3.29 * 1000.0 / 60.0


@dataclass(frozen=True)
class DilutionAir:
    """Clean air that brings a vapour down to its limits.

    Attributes
    ----------
    fire : float
        To a quarter of the lower explosive limit [m3 or m3/s]
    health : float
        To the limit of exposure [m3 or m3/s]
    """

    fire: float
    health: float

    @property
    def needed(self) -> float:
        """The larger of the two [m3 or m3/s]."""
        return max(self.fire, self.health)


def _check_vapour(molar_mass_kg_mol: float, temperature_c: float) -> None:
    within(
        "molar_mass_kg_mol",
        molar_mass_kg_mol,
        0.002,
        1.0,
        "kg/mol",
        "Was it given in g/mol?",
    )
    within("temperature_c", temperature_c, 0.0, 300.0, "degC", "Was it given in kelvin?")


def _check_lower_limit(lower_limit: float) -> None:
    positive("lower_limit", lower_limit, 0.5, "", "Was it given in per cent?")


def _hot_factor(temperature_c: float) -> float:
    return _HOT_FACTOR if temperature_c >= _HOT_FROM_C else 1.0


def lowest_known_limit(limits: Sequence[float | None]) -> float:
    """Return the lowest of the limits that sources give for a substance.

    Parameters
    ----------
    limits : sequence of float or None
        Limits by source; None where a source has none [-]

    Returns
    -------
    float
        Lowest limit, in the unit of the limits [-]

    Raises
    ------
    ValueError
        If no source gives one, or one is not above 0.

    Notes
    -----
    No limit means unknown, not harmless: the work stops until the safety data sheet is
    there.

    Examples
    --------
    >>> lowest_known_limit([0.010, 0.009, None])
    0.009
    """
    known = [limit for limit in limits if limit is not None]
    if not known:
        raise ValueError("no limit is known; unknown is not harmless. Get the data sheet.")
    for limit in known:
        positive("a limit", limit, math.inf, "")
    return min(known)


def vapour_volume_m3(
    liquid_kg: float, molar_mass_kg_mol: float, temperature_c: float = _ROOM_C
) -> float:
    """Return the volume of the vapour that a liquid turns into.

    ``m R T / (M p)``: 24.1 litres a mole at 21 degC.

    Parameters
    ----------
    liquid_kg : float
        Mass of the liquid that evaporates [kg]
    molar_mass_kg_mol : float
        Molar mass [kg/mol]
    temperature_c : float
        Temperature of the vapour [degC]

    Returns
    -------
    float
        Volume of the vapour alone at 101325 Pa [m3]

    Raises
    ------
    ValueError
        If the mass is outside 0 to 1e5 kg, the molar mass outside 0.002 to 1 kg/mol or the
        temperature outside 0 to 300 degC.

    Notes
    -----
    All of it evaporates: the largest amount of vapour that can be.

    Examples
    --------
    >>> round(vapour_volume_m3(0.125, 0.10415) * 1e3, 1)
    29.0
    """
    within("liquid_kg", liquid_kg, 0.0, 1e5, "kg", "Was it given in grams?")
    _check_vapour(molar_mass_kg_mol, temperature_c)
    moles = liquid_kg / molar_mass_kg_mol
    return moles * _GAS_CONSTANT * (temperature_c + 273.15) / _STANDARD_PA


def dilution_air_m3(
    liquid_kg: float,
    molar_mass_kg_mol: float,
    lower_limit: float,
    exposure_limit: float,
    temperature_c: float = _ROOM_C,
) -> DilutionAir:
    """Return the air that thins the vapour of a liquid, for fire and for health.

    ``v / (0.25 LEL)``, times 1.4 from 120 degC up, and ``v / limit``, with v of
    `vapour_volume_m3` at 21 degC.

    Parameters
    ----------
    liquid_kg : float
        Mass of the liquid that evaporates [kg]
    molar_mass_kg_mol : float
        Molar mass [kg/mol]
    lower_limit : float
        Lower explosive limit, the lowest known, as a share of volume [-]
    exposure_limit : float
        Limit of exposure, the lowest known, as a share of volume: ppm times 1e-6 [-]
    temperature_c : float
        Hottest that the vapour gets [degC]

    Returns
    -------
    DilutionAir
        Air at 21 degC [m3]

    Raises
    ------
    ValueError
        If the lower explosive limit is not above 0 and at most 0.5, the exposure limit not
        above 0 and at most 0.01, or as for `vapour_volume_m3`.

    Notes
    -----
    The fire figure is no limit for people, and an exposure limit is no safe level.  Air
    must pass where the vapour is: vapour lies low and in corners.

    Examples
    --------
    >>> air = dilution_air_m3(0.125, 0.10415, lower_limit=0.009, exposure_limit=20e-6)
    >>> round(air.fire, 1), round(air.health)
    (12.9, 1448)
    """
    _check_lower_limit(lower_limit)
    positive("exposure_limit", exposure_limit, 0.01, "", "Was it given in ppm?")
    _check_vapour(molar_mass_kg_mol, temperature_c)
    vapour_m3 = vapour_volume_m3(liquid_kg, molar_mass_kg_mol)
    fire_m3 = vapour_m3 / (_SHARE_OF_LOWER_LIMIT * lower_limit)
    return DilutionAir(fire_m3 * _hot_factor(temperature_c), vapour_m3 / exposure_limit)


def batch_oven_exhaust_m3_s(liquid_m3: float) -> float:
    """Return the least exhaust of a batch oven by the volume of solvent in its load.

    3.29 m3/min a litre, which is 440 ft3/min a US gallon, at 21 degC.

    Parameters
    ----------
    liquid_m3 : float
        Solvent in the load [m3]

    Returns
    -------
    float
        Exhaust of air at 21 degC [m3/s]

    Raises
    ------
    ValueError
        If the volume is outside 0 to 1 m3.

    Notes
    -----
    From memory of a fire code that must be read before it is relied on.  Use the larger of
    this and `dilution_airflow_m3_s` at the peak of evaporation.

    Examples
    --------
    >>> round(batch_oven_exhaust_m3_s(1e-3) * 60.0, 2)
    3.29
    """
    within("liquid_m3", liquid_m3, 0.0, 1.0, "m3", "Was it given in litres?")
    return _BATCH_EXHAUST_PER_S * liquid_m3


def largest_liquid_in_closed_oven_kg(
    oven_m3: float,
    molar_mass_kg_mol: float,
    lower_limit: float,
    temperature_c: float = _ROOM_C,
) -> float:
    """Return the liquid whose vapour fills a closed oven to a quarter of the limit.

    ``0.25 LEL V p M / (R T)``, over 1.4 from 120 degC up.

    Parameters
    ----------
    oven_m3 : float
        Inner volume of the oven less its load [m3]
    molar_mass_kg_mol : float
        Molar mass [kg/mol]
    lower_limit : float
        Lower explosive limit, the lowest known, as a share of volume [-]
    temperature_c : float
        Temperature of the oven [degC]

    Returns
    -------
    float
        Mass of liquid left on or in the load [kg]

    Raises
    ------
    ValueError
        If the oven is not above 0 and at most 1000 m3, the lower explosive limit not above
        0 and at most 0.5, the molar mass outside 0.002 to 1 kg/mol or the temperature
        outside 0 to 300 degC.

    Notes
    -----
    The vapour is taken as evenly mixed; near the load it is not.  No allowance to put
    solvent into an oven: it shows how few grams are too many.

    Examples
    --------
    >>> round(largest_liquid_in_closed_oven_kg(0.5, 0.05808, 0.025, 100.0) * 1e3, 1)
    5.9
    """
    positive("oven_m3", oven_m3, 1000.0, "m3", "Was it given in litres?")
    _check_lower_limit(lower_limit)
    per_kg_m3 = vapour_volume_m3(1.0, molar_mass_kg_mol, temperature_c)
    share = _SHARE_OF_LOWER_LIMIT * lower_limit / _hot_factor(temperature_c)
    return share * oven_m3 / per_kg_m3
