"""Gores of film for a round cap or bowl, and the flat pattern of a cone."""

import math
from dataclasses import dataclass

from advisor.calculations.film import strip_width_m
from advisor.calculations.valid_range import positive, whole, within

_LARGEST_RADIUS_M = 100.0
_MILLIMETRES = "Was it given in millimetres?"


@dataclass(frozen=True)
class GorePoint:
    """One station of the outline of a gore, which is the same to both sides.

    Attributes
    ----------
    along_m : float
        Distance from the tip, along the middle of the gore [m]
    half_width_m : float
        From the middle to either edge [m]
    """

    along_m: float
    half_width_m: float


def _check_cap(radius_m: float, opening_deg: float) -> None:
    positive("radius_m", radius_m, _LARGEST_RADIUS_M, "m", _MILLIMETRES)
    positive("opening_deg", opening_deg, 90.0, "degrees")


def gores_needed(
    radius_m: float, opening_deg: float, allowed_strain: float, shared: bool = False
) -> int:
    """Return the number of equal gores that cover a round cap or bowl.

    ``ceil(2 pi R sin(opening) / w)`` with w of `film.strip_width_m`: the widest place of a
    gore, at the rim, is as wide as a strip may be.

    Parameters
    ----------
    radius_m : float
        Radius of the sphere [m]
    opening_deg : float
        Angle at the centre from the pole to the rim; 90 for a hemisphere [degree]
    allowed_strain : float
        Strain that the film may take and stay down [-]
    shared : bool
        Whether the middle is stretched as much as the edges gather [-]

    Returns
    -------
    int
        Number of gores; 1 if the whole rim is no longer than a strip is wide [-]

    Raises
    ------
    ValueError
        If the radius is not above 0 and at most 100 m, the opening not above 0 and at
        most 90 degrees, or the strain not above 0 and at most 0.05.

    Notes
    -----
    More than some 20 gores, or gores narrower than 25 mm, are by common practice a reason
    to seal the face instead.  A small round patch at the pole saves the tips.

    Examples
    --------
    >>> gores_needed(0.2, 90.0, 0.005)
    32
    """
    _check_cap(radius_m, opening_deg)
    width_m = strip_width_m(1.0 / radius_m**2, allowed_strain, shared)
    rim_m = 2.0 * math.pi * radius_m * math.sin(math.radians(opening_deg))
    return max(1, math.ceil(rim_m / width_m))


def gore_outline(
    radius_m: float, opening_deg: float, gores: int, stations: int
) -> tuple[GorePoint, ...]:
    """Return the outline of one gore, to draw on the film.

    ``half width = pi R sin(s / R) / n`` at the distance s from the tip: each parallel of
    the sphere is shared out among the gores, so together they have the area of the cap.

    Parameters
    ----------
    radius_m : float
        Radius of the sphere [m]
    opening_deg : float
        Angle at the centre from the pole to the rim; 90 for a hemisphere [degree]
    gores : int
        Number of gores [-]
    stations : int
        Points of the outline, from the tip to the rim, at equal distances [-]

    Returns
    -------
    tuple of GorePoint
        Stations from the tip, where the width is 0, to the rim; add the lap to one edge

    Raises
    ------
    ValueError
        If the radius is not above 0 and at most 100 m, the opening not above 0 and at
        most 90 degrees, `gores` is not a whole number of at least 3 or `stations` not one
        of at least 2.

    Notes
    -----
    The net shape: no lap and nothing past the rim.

    Examples
    --------
    >>> outline = gore_outline(0.2, 90.0, gores=32, stations=4)
    >>> [(round(p.along_m * 1e3, 1), round(p.half_width_m * 1e3, 1)) for p in outline]
    [(0.0, 0.0), (104.7, 9.8), (209.4, 17.0), (314.2, 19.6)]
    """
    _check_cap(radius_m, opening_deg)
    whole("gores", gores, 3)
    whole("stations", stations, 2)
    angles = (
        math.radians(opening_deg) * station / (stations - 1) for station in range(stations)
    )
    return tuple(
        GorePoint(radius_m * angle, math.pi * radius_m * math.sin(angle) / gores)
        for angle in angles
    )


def cone_sector_deg(half_angle_deg: float) -> float:
    """Return the angle of the flat sector of film that wraps a cone without strain.

    ``360 sin(b)``; what is cut out of the full circle is the cone's apex defect.

    Parameters
    ----------
    half_angle_deg : float
        Angle between the cone's axis and its face; 90 is flat [degree]

    Returns
    -------
    float
        Angle of the sector, whose radius is the slant length [degree]

    Raises
    ------
    ValueError
        If the half angle is outside 0 to 90 degrees.

    Notes
    -----
    For a frustum both arcs are drawn about the same centre.  The apex itself cannot be
    wrapped smooth.

    Examples
    --------
    >>> round(cone_sector_deg(30.0), 6)
    180.0
    """
    within("half_angle_deg", half_angle_deg, 0.0, 90.0, "degrees")
    return 360.0 * math.sin(math.radians(half_angle_deg))
