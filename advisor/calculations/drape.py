"""Shear of a woven ply on a cap or a saddle, and whether it needs darts."""

import math
from dataclasses import dataclass
from typing import Literal

from advisor.calculations.bisection import rising_root
from advisor.calculations.valid_range import one_of, positive, within

Weave = Literal["plain", "plain prepreg", "twill", "satin"]
Outcome = Literal["drapes", "darts advised", "darts needed"]

_WEAVES = ("plain", "plain prepreg", "twill", "satin")
# Planning limits by common practice; measured locking angles depend on the method.
_PLANNING_LIMIT_DEG = {"plain": 30.0, "plain prepreg": 40.0, "twill": 45.0, "satin": 50.0}
_STEPS = 40
_SERIES_END = 0.2
# Along x across x curvature, just short of where the shear reaches 90 degrees.
_LARGEST_NET = 1.8615
# Distance on the bias on a face of curvature 1, the equator, and of curvature -1.
_FARTHEST_ON_BIAS = {1.0: math.pi / 2.0, -1.0: 1.266}


@dataclass(frozen=True)
class Drape:
    """How a woven ply takes to a shape.

    Attributes
    ----------
    shear_deg : float
        Largest shear between the yarns, from square [degree]
    share : float
        Shear over the limit of the cloth [-]
    outcome : {"drapes", "darts advised", "darts needed"}
        What follows for the ply [-]
    """

    shear_deg: float
    share: float
    outcome: Outcome


def _net(side: float, sense: float) -> tuple[float, float]:
    """Return shear [rad] and distance on the bias at the corner of a square of yarns.

    On a face of curvature 1 (`sense` 1) or -1: `side` is the length of yarn.  Up to
    `_SERIES_END` by series, then by Runge and Kutta.
    """

    def rates(u: float, values: list[float]) -> list[float]:
        shear, slope, _ = values
        half = shear / 2.0
        return [
            2.0 * u * slope,
            2.0 * (math.cos(shear) - slope) / u,
            math.sqrt(2.0) * (math.cos(half) + sense * math.sin(half)),
        ]

    def moved(values: list[float], by: float, slopes: list[float]) -> list[float]:
        return [value + by * slope for value, slope in zip(values, slopes, strict=True)]

    u = min(side, _SERIES_END)
    s = u * u
    odd = sense * (s / 6.0 - s**3 / 144.0)
    even = 1.0 - s**2 / 40.0 + 19.0 * s**4 / 10368.0
    state = [
        s - s**3 / 18.0 + 7.0 * s**5 / 1800.0,
        1.0 - s**2 / 6.0 + 7.0 * s**4 / 360.0,
        math.sqrt(2.0) * u * (odd + even),
    ]
    step = (side - u) / _STEPS
    for _ in range(_STEPS if step > 0.0 else 0):
        first = rates(u, state)
        second = rates(u + step / 2.0, moved(state, step / 2.0, first))
        third = rates(u + step / 2.0, moved(state, step / 2.0, second))
        fourth = rates(u + step, moved(state, step, third))
        for weight, slopes in ((1.0, first), (2.0, second), (2.0, third), (1.0, fourth)):
            state = moved(state, weight * step / 6.0, slopes)
        u += step
    return state[0], state[2]


def net_shear_deg(along_m: float, across_m: float, curvature_per_m2: float) -> float:
    """Return the shear of a woven ply where two yarns cross, by their distances.

    ``s g'' + g' = cos g`` with ``s = |K| u v``, ``g(0) = 0``, ``g'(0) = 1``; close to
    ``g = s - s^3 / 18``.  The net of yarns is pinned at the crossings and starts from two
    shortest lines at right angles; its shear is the curvature gathered over the patch
    between them.

    Parameters
    ----------
    along_m, across_m : float
        Distances from the starting yarns, along the yarns, without sign [m]
    curvature_per_m2 : float
        Gaussian curvature of the face, constant; below 0 for a saddle [1/m2]

    Returns
    -------
    float
        Shear from square, without sign [degree]

    Raises
    ------
    ValueError
        If a distance is outside 0 to 30 m, the curvature outside -1e6 to 1e6 1/m2, or
        ``|K| u v`` above 1.8615, where the shear passes 90 degrees.

    Notes
    -----
    Yarns that do not stretch or slip, no thickness.  Sound up to 35 to 40 degrees; above
    that it serves to compare.  Other ways of starting the ply give other shear.

    Examples
    --------
    >>> round(net_shear_deg(0.25, 0.25, 4.0), 4)
    14.2744
    """
    within("along_m", along_m, 0.0, 30.0, "m", "Was it given in millimetres?")
    within("across_m", across_m, 0.0, 30.0, "m", "Was it given in millimetres?")
    within("curvature_per_m2", curvature_per_m2, -1e6, 1e6, "1/m2")
    reach = abs(curvature_per_m2) * along_m * across_m
    within("|K| u v", reach, 0.0, _LARGEST_NET, "", "Split the ply.")
    return math.degrees(_net(math.sqrt(reach), 1.0)[0])


def bias_shear_deg(distance_m: float, curvature_per_m2: float) -> float:
    """Return the shear of a woven ply at a distance from its start, on the bias.

    The net of `net_shear_deg`, with the distance measured over the face along the line
    midway between the yarns, where the shear is greatest; close to ``K d^2 / 2``.

    Parameters
    ----------
    distance_m : float
        Distance over the face from where the yarns start square [m]
    curvature_per_m2 : float
        Gaussian curvature of the face, constant; below 0 for a saddle [1/m2]

    Returns
    -------
    float
        Shear from square, without sign [degree]

    Raises
    ------
    ValueError
        If `distance_m` is outside 0 to 30 m, the curvature outside -1e6 to 1e6 1/m2, or
        ``sqrt(|K|) d`` above pi/2, the equator of a sphere, or 1.266 on a saddle.

    Notes
    -----
    As for `net_shear_deg`.  A whole hemisphere on the bias comes to 52.4 degrees, of
    whatever radius.

    Examples
    --------
    >>> round(bias_shear_deg(0.5 * math.pi / 2.0, 4.0), 1)
    52.4
    """
    within("distance_m", distance_m, 0.0, 30.0, "m", "Was it given in millimetres?")
    within("curvature_per_m2", curvature_per_m2, -1e6, 1e6, "1/m2")
    angle = math.sqrt(abs(curvature_per_m2)) * distance_m
    sense = 1.0 if curvature_per_m2 >= 0.0 else -1.0
    within(
        "sqrt(|K|) d",
        angle,
        0.0,
        _FARTHEST_ON_BIAS[sense],
        "rad",
        "Split the ply.",
    )
    if angle == 0.0:
        return 0.0
    side = rising_root(lambda u: _net(u, sense)[1] - angle, 0.0, math.sqrt(_LARGEST_NET))
    return math.degrees(_net(side, sense)[0])


def planning_limit_deg(weave: Weave) -> float:
    """Return the shear up to which a weave is planned without darts.

    Plain 30, plain prepreg 40, twill 45, satin 50 degrees: common practice, no source.

    Parameters
    ----------
    weave : {"plain", "plain prepreg", "twill", "satin"}
        Weave of the ply; "plain" is dry cloth [-]

    Returns
    -------
    float
        Shear from square [degree]

    Raises
    ------
    ValueError
        If `weave` is another word.

    Notes
    -----
    Printed locking angles depend on how they are measured: dry plain carbon locks at 29
    and wrinkles at 38 degrees in one test, and cloth held taut went to 60 in another.

    Examples
    --------
    >>> planning_limit_deg("twill")
    45.0
    """
    one_of("weave", weave, _WEAVES)
    return _PLANNING_LIMIT_DEG[weave]


def drape(shear_deg: float, limit_deg: float, dart_share: float = 0.8) -> Drape:
    """Return whether a woven ply takes the shear of a shape or is darted.

    ``share = shear / limit``: it drapes up to `dart_share`, and is darted above 1.

    Parameters
    ----------
    shear_deg : float
        Largest shear on the shape [degree]
    limit_deg : float
        Shear that the cloth takes, such as of `planning_limit_deg` [degree]
    dart_share : float
        Share of the limit from which darts are advised [-]

    Returns
    -------
    Drape
        Shear, its share of the limit and what follows

    Raises
    ------
    ValueError
        If the shear is outside 0 to 90 degrees, the limit not above 0 and at most 90
        degrees, or `dart_share` outside 0 to 1.

    Examples
    --------
    >>> drape(bias_shear_deg(0.3, 4.0), planning_limit_deg("twill")).outcome
    'drapes'
    """
    within("shear_deg", shear_deg, 0.0, 90.0, "degrees")
    positive("limit_deg", limit_deg, 90.0, "degrees")
    within("dart_share", dart_share, 0.0, 1.0, "")
    share = shear_deg / limit_deg
    outcome: Outcome = "drapes"
    if share > dart_share:
        outcome = "darts advised"
    if share > 1.0:
        outcome = "darts needed"
    return Drape(shear_deg, share, outcome)
