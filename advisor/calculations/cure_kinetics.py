"""Rate of cure of two epoxy resins whose constants are published."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from advisor.calculations.valid_range import within

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]

GAS_CONSTANT_J_PER_MOL_K = 8.314
# Beyond this an exponent of the diffusion factor no longer changes the rate.
_LARGEST_EXPONENT = 80.0


class Kinetics(Protocol):
    """What kinetics must offer to be followed over time."""

    @property
    def breaks_at(self) -> float:
        """Degree of cure at which the rate jumps; above 1 if it does not [-]."""

    @property
    def smallest_start(self) -> float:
        """Smallest degree of cure from which they can start [-]."""

    def rate_per_s(
        self, temperature_k: FloatArray, cure: FloatArray, past_break: BoolArray
    ) -> FloatArray:
        """Return the rate of cure, on the side of the break that is asked for [1/s]."""


@dataclass(frozen=True)
class TwoStageKinetics:
    """Kinetics with one rate up to a degree of cure and another above it.

    Up to the break ``(K1 + K2 a) (1 - a) (B - a)``, above it ``K3 (1 - a)``, with
    ``K = A exp(-E / (R T))``: the form of [1]_.

    Attributes
    ----------
    factors_per_s : tuple of float
        Factors A1, A2 and A3 [1/s]
    energies_j_per_mol : tuple of float
        Activation energies E1, E2 and E3 [J/mol]
    limit : float
        Degree of cure B at which the first stage would stop [-]
    breaks_at : float
        Degree of cure at which the second stage takes over [-]
    smallest_start : float
        Smallest degree of cure from which they can start [-]

    Notes
    -----
    The rate jumps at the break.  There is no vitrification in it: it reaches full cure at
    any temperature, given time, so it errs on the side of too much cure where the cure
    is cool.

    References
    ----------
    .. [1] W. I. Lee, A. C. Loos, G. S. Springer, J. Compos. Mater. 16 (1982) 510.
    """

    factors_per_s: tuple[float, float, float]
    energies_j_per_mol: tuple[float, float, float]
    limit: float
    breaks_at: float
    smallest_start: float = 0.0

    def rate_per_s(
        self, temperature_k: FloatArray, cure: FloatArray, past_break: BoolArray
    ) -> FloatArray:
        """Return the rate of cure, on the side of the break that is asked for [1/s]."""
        inverse = -1.0 / (GAS_CONSTANT_J_PER_MOL_K * temperature_k)
        first_j, second_j, third_j = self.energies_j_per_mol
        left = 1.0 - cure
        if past_break.all():
            return np.asarray(self.factors_per_s[2] * np.exp(third_j * inverse) * left)
        early = (
            self.factors_per_s[0] * np.exp(first_j * inverse)
            + self.factors_per_s[1] * np.exp(second_j * inverse) * cure
        ) * (left * (self.limit - cure))
        early = np.maximum(early, 0.0)
        if not past_break.any():
            return early
        late = self.factors_per_s[2] * np.exp(third_j * inverse) * left
        return np.where(past_break, late, early)


@dataclass(frozen=True)
class DiffusionLimitedKinetics:
    """Autocatalytic kinetics that a diffusion factor brings to a stop.

    ``A exp(-E / (R T)) a^m (1 - a)^n / (1 + exp(C (a - a_C)))`` with
    ``a_C = a_0 + a_T T``: the form of [1]_.

    Attributes
    ----------
    factor_per_s : float
        Factor A [1/s]
    energy_j_per_mol : float
        Activation energy E [J/mol]
    first_exponent, second_exponent : float
        Exponents m and n [-]
    sharpness : float
        Constant C of the diffusion factor [-]
    stop_at_zero_k : float
        Constant a_0 of the degree of cure at which diffusion takes over [-]
    stop_per_k : float
        Its rise with temperature a_T [1/K]
    breaks_at : float
        Above 1: the rate has no jump [-]
    smallest_start : float
        Smallest degree of cure from which they can start [-]

    Notes
    -----
    The rate is zero at no cure, so a start of 0.01 to 0.05 must be given; the early cure
    depends on that choice.

    References
    ----------
    .. [1] P. Hubert, A. Johnston, A. Poursartip, K. Nelson, 46th SAMPE Symposium (2001)
       (from memory).
    """

    factor_per_s: float
    energy_j_per_mol: float
    first_exponent: float
    second_exponent: float
    sharpness: float
    stop_at_zero_k: float
    stop_per_k: float
    breaks_at: float = 2.0
    smallest_start: float = 1e-3

    def stops_near(self, temperature_k: float) -> float:
        """Return the degree of cure at which diffusion halves the rate [-]."""
        return self.stop_at_zero_k + self.stop_per_k * temperature_k

    def rate_per_s(
        self, temperature_k: FloatArray, cure: FloatArray, past_break: BoolArray
    ) -> FloatArray:
        """Return the rate of cure; there is no break, so its side does not matter [1/s]."""
        inverse = -1.0 / (GAS_CONSTANT_J_PER_MOL_K * temperature_k)
        beyond = cure - self.stop_at_zero_k - self.stop_per_k * temperature_k
        slowed = 1.0 + np.exp(np.minimum(self.sharpness * beyond, _LARGEST_EXPONENT))
        done, left = np.maximum(cure, 0.0), np.maximum(1.0 - cure, 0.0)
        powers = done**self.first_exponent * left**self.second_exponent
        free = self.factor_per_s * np.exp(self.energy_j_per_mol * inverse)
        return np.asarray(free * powers / slowed)


@dataclass(frozen=True)
class PublishedResin:
    """A resin whose kinetics and heat of reaction are published.

    Attributes
    ----------
    kinetics : Kinetics
        How fast it cures [-]
    heat_of_reaction_j_per_kg : float
        Heat that full cure sets free [J/kg of resin]
    density_kg_per_m3 : float
        Density of the resin [kg/m3]
    """

    kinetics: Kinetics
    heat_of_reaction_j_per_kg: float
    density_kg_per_m3: float


# Lee, Loos and Springer (1982), fitted from about 100 to 180 degC; the factors are
# printed per minute.
RESIN_OF_1982 = PublishedResin(
    TwoStageKinetics(
        factors_per_s=(2.101e9 / 60.0, -2.014e9 / 60.0, 1.960e5 / 60.0),
        energies_j_per_mol=(8.07e4, 7.78e4, 5.66e4),
        limit=0.47,
        breaks_at=0.3,
    ),
    heat_of_reaction_j_per_kg=473.6e3,
    density_kg_per_m3=1272.0,
)

# Toughened resin for a cure at 180 degC, in the form of Hubert, Johnston and others.
TOUGHENED_RESIN_180C = PublishedResin(
    DiffusionLimitedKinetics(
        factor_per_s=1.528e5,
        energy_j_per_mol=66_500.0,
        first_exponent=0.8129,
        second_exponent=2.736,
        sharpness=43.09,
        stop_at_zero_k=-1.684,
        stop_per_k=5.475e-3,
    ),
    heat_of_reaction_j_per_kg=540.0e3,
    density_kg_per_m3=1300.0,
)


def cure_rate_per_s(kinetics: Kinetics, temperature_c: float, cure: float) -> float:
    """Return the rate of cure of a resin at one temperature and degree of cure.

    By `kinetics`; at a break, the side below it.

    Parameters
    ----------
    kinetics : Kinetics
        Kinetics of its resin [-]
    temperature_c : float
        Temperature of the resin [degC]
    cure : float
        Degree of cure [-]

    Returns
    -------
    float
        Rate of cure [1/s]

    Raises
    ------
    ValueError
        If `temperature_c` is outside -40 to 250 degC or `cure` outside 0 to 1.

    Examples
    --------
    >>> round(cure_rate_per_s(RESIN_OF_1982.kinetics, 120.0, 0.5) * 3600, 3)
    0.177
    """
    check_cure_temperature("temperature_c", temperature_c)
    within("cure", cure, 0.0, 1.0, "")
    rate = kinetics.rate_per_s(
        np.array([temperature_c + 273.15]),
        np.array([cure]),
        np.array([cure > kinetics.breaks_at]),
    )
    return float(rate[0])


def check_cure_temperature(name: str, value_c: float) -> None:
    """Refuse a temperature at which the resin is frozen or starts to break down.

    Parameters
    ----------
    name : str
        Name of the parameter, as the caller wrote it [-]
    value_c : float
        Temperature [degC]

    Raises
    ------
    ValueError
        Outside -40 to 250 degC.

    Examples
    --------
    >>> check_cure_temperature("peak_c", 300.0)
    Traceback (most recent call last):
        ...
    ValueError: peak_c is 300.0 degC; it must be from -40.0 degC to 250.0 degC.
    """
    within(name, value_c, -40.0, 250.0, "degC")
