"""How fast the oven air may heat and cool a brittle tool, bagged as it is, uncracked."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import BSpline, make_interp_spline  # type: ignore[import-untyped]
from scipy.optimize import brentq  # type: ignore[import-untyped]

from advisor.calculations.heat import above_air, modes_of
from advisor.calculations.heat_stack import Stack, cells_of
from advisor.calculations.oven_air import AirProgramme
from advisor.calculations.valid_range import positive, within

FloatArray = NDArray[np.float64]

_SLOWEST_K_PER_S = 1e-7
_FASTEST_K_PER_S = 10.0
_SETTLED = 12.0  # slowest decays after which a lag no longer grows
_LONGEST_S = 2_592_000.0  # the longest air programme
_FIRST_S = 1.0
_INSTANTS = 300


def shock_resistance_k(
    strength_pa: float, modulus_pa: float, expansion_per_k: float, poisson_ratio: float
) -> float:
    """Return how far a plane of a brittle plate may be colder than the plate's mean.

    ``R = sigma (1 - nu) / (E a)``, the first thermal-shock parameter [1]_.

    Parameters
    ----------
    strength_pa : float
        Tensile stress allowed, or strength for the difference that cracks [Pa]
    modulus_pa : float
        Young's modulus [Pa]
    expansion_per_k : float
        Expansion [1/K]
    poisson_ratio : float
        Poisson's ratio; 0 gives the form for a rod, ``sigma / (E a)`` [-]

    Returns
    -------
    float
        Difference between the mean and a colder plane [K]

    Raises
    ------
    ValueError
        If `strength_pa` is not above 0 and at most 10 GPa, `modulus_pa` not above 0 and at
        most 2 TPa, `expansion_per_k` not above 0 and at most 5e-4 1/K or `poisson_ratio`
        outside 0 to 0.5.

    Notes
    -----
    For a plate held flat, as a bag on a table holds it; let free to bend it stands more
    heat from one side.

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


@dataclass(frozen=True)
class RampResponse:
    """What a layer does in air that rises without end, for each kelvin a second.

    Attributes
    ----------
    behind_mean : BSpline
        How far each plane (columns) is behind the mean of the layer, over time [s]
    behind_middle : BSpline
        How far its middle is behind its two faces (columns), over time [s]
    settled_s : float
        Time from which nothing changes any more, 30 days at most [s]
    """

    behind_mean: BSpline
    behind_middle: BSpline
    settled_s: float

    def _over(self, lags: BSpline, change_k: float, rate_k_per_s: float) -> FloatArray:
        """Return lags at times (rows) from the end of a ramp on [K].

        A ramp that ends is an endless one less an equal one that starts where it ends.
        """
        ramp_s = change_k / rate_k_per_s
        after_s = np.concatenate(([0.0], np.geomspace(_FIRST_S, self.settled_s, _INSTANTS)))
        ended = lags(np.minimum(after_s, self.settled_s))
        going_on = lags(np.minimum(ramp_s + after_s, self.settled_s))
        return np.asarray(rate_k_per_s * (going_on - ended))

    def coldest_k(self, change_k: float, rate_k_per_s: float, cooling: bool) -> float:
        """Return how far a plane gets below the mean of the layer at most [K]."""
        sign = -1.0 if cooling else 1.0
        over = self._over(self.behind_mean, change_k, rate_k_per_s)
        return max(0.0, float((sign * over).max()))

    def apart_k(self, change_k: float, rate_k_per_s: float) -> float:
        """Return how far middle and the farther face get apart at most [K]."""
        over = self._over(self.behind_middle, change_k, rate_k_per_s)
        return max(0.0, float(over.max()))


@lru_cache(maxsize=256)
def ramp_response(stack: Stack, layer: str) -> RampResponse:
    """Return how a layer of a stack follows air that rises without end.

    By the modes of the stack, as `heat.heat_history`; constant properties make every lag
    grow in proportion to the rate.

    Parameters
    ----------
    stack : Stack
        Layers and films [-]
    layer : str
        Name of the layer [-]

    Returns
    -------
    RampResponse
        Lags for a rate of 1 K/s [-]

    Raises
    ------
    ValueError
        If the stack has no such layer.

    Examples
    --------
    In a long ramp the middle of a slab lags its faces by ``q L^2 / (2 a)``:

    >>> from advisor.calculations.heat_stack import Layer
    >>> slab = Stack((Layer("block", 0.15, 0.12, 500.0, 1000.0, cells=201),), 20.0, 20.0)
    >>> round(ramp_response(slab, "block").apart_k(1000.0, 0.1 / 60.0), 1)
    19.5
    """
    cells, place = cells_of(stack), stack.place_of(layer)
    modes = modes_of(cells)
    settled_s = min(_SETTLED / float(modes.decays_per_s[0]), _LONGEST_S)
    # A rise of 100 K in all keeps the air within what the heat sums take.
    endless = AirProgramme((0.0, settled_s), (0.0, 100.0))
    times_s = np.concatenate(([0.0], np.geomspace(_FIRST_S, settled_s, _INSTANTS)))
    above_k = modes.cells_k(above_air(modes, endless, 0.0, times_s)) * settled_s / 100.0
    inside = slice(cells.starts[place], cells.starts[place + 1])
    planes, widths = above_k[:, inside], cells.widths_m[inside]
    around = np.pad(above_k, ((0, 0), (1, 1)))  # the air is 0 above itself
    faces = []
    for cell, beyond in ((inside.start, inside.start - 1), (inside.stop - 1, inside.stop)):
        here = above_k[:, cell]
        link = cells.links_w_per_m2_k[max(cell, beyond)]
        flux = link * (around[:, beyond + 1] - here)
        faces.append(here + flux * cells.halves_m2_k_per_w[cell])
    face = np.column_stack(faces)
    mean = planes @ (widths / widths.sum())
    middle = planes[:, planes.shape[1] // 2]
    return RampResponse(
        make_interp_spline(times_s, mean[:, None] - np.column_stack([face, planes]), k=1),
        make_interp_spline(times_s, face - middle[:, None], k=1),
        settled_s,
    )


def fastest_ramp_k_per_s(
    response: RampResponse, change_k: float, allowed_k: float, cooling: bool
) -> float:
    """Return the fastest ramp of the air that keeps every plane near enough the mean.

    Parameters
    ----------
    response : RampResponse
        Lags of the tool in its stack [-]
    change_k : float
        Rise or fall of the air, without sign [K]
    allowed_k : float
        How far a plane may be below the mean, as of `shock_resistance_k` [K]
    cooling : bool
        Whether the air falls: then the faces are in tension, else the middle [-]

    Returns
    -------
    float
        Rate of the air, without sign; infinite if even 10 K/s does no harm [K/s]

    Raises
    ------
    ValueError
        If `change_k` is outside 0 to 1500 K or `allowed_k` not above 0.

    Notes
    -----
    Elastic, dry and even: drying shrinkage and steam come on top in a wet block; a hole,
    an inside corner or a joint raises the stress.

    Examples
    --------
    >>> from advisor.calculations.heat_stack import Layer
    >>> slab = Stack((Layer("block", 0.15, 0.12, 500.0, 1000.0, cells=201),), 20.0, 20.0)
    >>> block = ramp_response(slab, "block")
    >>> [round(fastest_ramp_k_per_s(block, 80.0, 17.1, cooling) * 60.0, 2)
    ...  for cooling in (False, True)]
    [0.46, 0.14]
    """
    within("change_k", change_k, 0.0, 1500.0, "K")
    positive("allowed_k", allowed_k, math.inf, "K")

    def too_cold_k(log_rate: float) -> float:
        return response.coldest_k(change_k, math.exp(log_rate), cooling) - allowed_k

    low, high = math.log(_SLOWEST_K_PER_S), math.log(_FASTEST_K_PER_S)
    if change_k <= 0.0 or too_cold_k(high) <= 0.0:
        return math.inf
    return math.exp(brentq(too_cold_k, low, high, xtol=1e-4))
