"""Heat flow in one step of a cure, exact for a rate of cure that is a polynomial."""

from math import factorial
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

# Lobatto points of a step: an integral over the step is exact to degree 7.
POINTS = np.array([0.0, 0.5 - np.sqrt(3.0 / 28.0), 0.5, 0.5 + np.sqrt(3.0 / 28.0), 1.0])
LATER = POINTS[1:, None]
POWERS = np.arange(POINTS.size)
# Coefficients (columns) of the polynomial that is 1 at one point and 0 at others (rows).
BASIS = np.linalg.inv(np.vander(POINTS, increasing=True)).T
# Integrals of each from the start of the step to each later point.
INTEGRALS = (LATER ** (POWERS + 1) / (POWERS + 1)) @ BASIS.T
# Share of the highest degree in the rate, as a Legendre polynomial: 70 x^4 leads it.
HIGHEST = BASIS[:, -1] / 70.0
# Signs and factors of the derivatives of a polynomial at its start, by degree.
_SIGNED_FACTORIALS = np.array([1.0, -1.0, 2.0, -6.0, 24.0])
# Factors of the phi functions in the integrals of each power to each later point.
_MOMENTS = np.array([LATER ** (power + 1) * factorial(power) for power in POWERS])
# Modes that fall by more than this exponent within a step are no polynomial in it.
_FAST = 0.1


def phi_functions(x: FloatArray, highest: int) -> list[FloatArray]:
    """Return phi_1 to phi_highest, ``phi_k(x) = sum x^j / (j + k)!`` over j from 0.

    From a short series below 0.5, where ``phi_(k+1) = (phi_k - 1/k!) / x`` would cancel.

    Parameters
    ----------
    x : array
        Where to evaluate, 0 or below [-]
    highest : int
        Number of functions [-]

    Returns
    -------
    list of array
        Functions from phi_1 on [-]

    Examples
    --------
    >>> [round(float(phi[0]), 4) for phi in phi_functions(np.array([-1.0]), 3)]
    [0.6321, 0.3679, 0.1321]
    """
    small = x > -0.5
    near = np.where(small, x, 0.0)
    far = np.where(small, -1.0, x)
    series = np.full_like(x, 1.0 / factorial(highest + 10))
    for term in range(9, -1, -1):
        series = series * near + 1.0 / factorial(highest + term)
    down = [series]
    for order in range(highest - 1, 0, -1):
        down.append(down[-1] * near + 1.0 / factorial(order))
    up = [np.expm1(far) / far]
    for order in range(1, highest):
        up.append((up[-1] - 1.0 / factorial(order)) / far)
    return [np.where(small, a, b) for a, b in zip(reversed(down), up, strict=True)]


class StepTable(NamedTuple):
    """What a step of one length does to the modes of a stack.

    Attributes
    ----------
    step_s : float
        Length of the step [s]
    decay : array
        What is left of each mode (columns) at each later point of the step (rows) [-]
    gain_s : array
        Modes at later points (first index) that a unit source at a point (second) of the
        step leaves in each mode (third) [s]
    to_laminate : array
        Rise of laminate cells (second index) at later points (first), from rates of cure
        at points of cells, one row after another (third) [K s]
    """

    step_s: float
    decay: FloatArray
    gain_s: FloatArray
    to_laminate: FloatArray


def step_table(
    step_s: float, decays_per_s: FloatArray, shapes: FloatArray, sources_k: FloatArray
) -> StepTable:
    """Return the table of a step of a given length.

    The integrals ``int exp(-s (t - x)) x^m dx`` are ``t^(m+1) m! phi_(m+1)(-s t)``.

    Parameters
    ----------
    step_s : float
        Length of the step [s]
    decays_per_s : array
        Decay rate of each mode [1/s]
    shapes : array
        Temperature of each laminate cell (rows) in each mode (columns) [-]
    sources_k : array
        Rise of each mode (columns) for full cure of each laminate cell (rows) [K]

    Returns
    -------
    StepTable
        What the step does [-]
    """
    exponent = -decays_per_s * (step_s * LATER)
    moments = step_s * _MOMENTS * np.array(phi_functions(exponent, POINTS.size))
    later, points, cells = LATER.size, POINTS.size, shapes.shape[0]
    gain = (BASIS @ moments.reshape(points, -1)).reshape(points, later, -1)
    gain = gain.transpose(1, 0, 2)
    # In small products, which stay in one thread.
    rises = (gain[:, :, None, :] * sources_k) @ shapes.T
    to_laminate = rises.transpose(0, 3, 1, 2).reshape(later, cells, points * cells)
    return StepTable(step_s, np.exp(exponent), gain, to_laminate)


def following_part(
    step_s: float, decays_per_s: FloatArray, forcing: FloatArray
) -> FloatArray:
    """Return what modes that only follow their forcing have at the start of a step.

    A mode driven by a polynomial `F` can follow ``sum (-1)^k F^(k) / s^(k+1)``, which is
    a polynomial too; what it has beyond that dies away with ``exp(-s t)``.

    Parameters
    ----------
    step_s : float
        Length of the step [s]
    decays_per_s : array
        Decay rate of each mode [1/s]
    forcing : array
        Rate at which each mode (columns) is driven at the points of the step (rows) [K/s]

    Returns
    -------
    array
        Size of each mode; 0 for those that hardly decay in the step, which are close to a
        polynomial when they start from nothing [K]
    """
    decayed = decays_per_s * step_s
    fast = decayed > _FAST
    ratio = np.where(fast, decayed, np.inf)
    terms = _SIGNED_FACTORIALS[:, None] * (BASIS.T @ forcing)
    return np.asarray((terms / ratio ** POWERS[:, None]).sum(axis=0) * fast / decays_per_s)


def polynomial_at(shares: FloatArray, values: FloatArray) -> FloatArray:
    """Return the polynomial through the values at the points, at other shares of a step.

    Parameters
    ----------
    shares : array
        Where to evaluate, in steps from the start of the step [-]
    values : array
        Values at the points of the step (rows) [-]

    Returns
    -------
    array
        Values at the shares (rows) [-]

    Examples
    --------
    >>> float(polynomial_at(np.array([2.0]), POINTS[:, None] ** 3)[0, 0])
    8.0
    """
    return np.asarray((shares[:, None] ** POWERS) @ (BASIS.T @ values))
