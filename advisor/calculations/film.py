"""Release film on curved faces: width of strips, number of gores, and their outline."""

import math

from advisor.calculations.valid_range import positive, within

_MILLIMETRES = "Was it given in millimetres?"
_LARGEST_RADIUS_M = 1e4
_LONGEST_M = 30.0


def _check_radius(name: str, radius_m: float) -> None:
    if math.isinf(radius_m):
        return
    positive(name, abs(radius_m), _LARGEST_RADIUS_M, "m", "A flat has the radius inf.")


def _check_curvature(curvature_per_m2: float) -> None:
    within("curvature_per_m2", curvature_per_m2, -1e6, 1e6, "1/m2")


def _check_strain(allowed_strain: float) -> None:
    positive("allowed_strain", allowed_strain, 0.05, "", "Was it given in per cent?")


def gaussian_curvature_per_m2(radius_a_m: float, radius_b_m: float) -> float:
    """Return the double curvature of a face from its two radii.

    ``K = 1 / (R1 R2)``.

    Parameters
    ----------
    radius_a_m, radius_b_m : float
        Radii of curvature in two directions square to each other, the sharpest and the
        flattest; `math.inf` where straight, of opposite sign on a saddle [m]

    Returns
    -------
    float
        Gaussian curvature: 0 for flat, cylinder and cone, below 0 for a saddle [1/m2]

    Raises
    ------
    ValueError
        If a radius is 0, NaN, or neither within 10 km nor infinite.

    Examples
    --------
    >>> gaussian_curvature_per_m2(0.5, 0.5), gaussian_curvature_per_m2(0.5, math.inf)
    (4.0, 0.0)
    """
    _check_radius("radius_a_m", radius_a_m)
    _check_radius("radius_b_m", radius_b_m)
    return 1.0 / radius_a_m / radius_b_m


def edge_strain(width_m: float, curvature_per_m2: float) -> float:
    """Return the strain at the edges of a strip laid with its middle unstrained.

    ``cos(sqrt(K) w/2) - 1``, close to ``-K w^2 / 8``; on a saddle ``cosh``.

    Parameters
    ----------
    width_m : float
        Width of the strip [m]
    curvature_per_m2 : float
        Gaussian curvature of the face [1/m2]

    Returns
    -------
    float
        Strain the edges must take: below 0 they gather, above 0 they stretch [-]

    Raises
    ------
    ValueError
        If `width_m` is not above 0 and at most 30 m, the curvature is outside -1e6 to 1e6
        1/m2, or the strip goes more than a quarter of the way round a sphere to each side.

    Notes
    -----
    The middle of the strip lies along a shortest line on the face; the curvature is taken
    as constant across the strip; bending of the film is left out.

    Examples
    --------
    >>> round(edge_strain(0.05, 4.0), 7)
    -0.0012497
    """
    positive("width_m", width_m, _LONGEST_M, "m", _MILLIMETRES)
    _check_curvature(curvature_per_m2)
    angle = math.sqrt(abs(curvature_per_m2)) * width_m / 2.0
    within("sqrt(K) w / 2", angle, 0.0, math.pi / 2.0, "rad")
    if curvature_per_m2 >= 0.0:
        return -2.0 * math.sin(angle / 2.0) ** 2
    return 2.0 * math.sinh(angle / 2.0) ** 2


def strip_width_m(
    curvature_per_m2: float, allowed_strain: float, shared: bool = False
) -> float:
    """Return the widest strip of film that lies down on a face.

    ``w = 2 acos(1 - e) / sqrt(K)``, close to ``sqrt(8 e / K)``; shared between middle and
    edges ``w = 2 acos((1 - e) / (1 + e)) / sqrt(K)``, close to ``sqrt(16 e / K)``.  On a
    saddle ``acosh(1 + e)`` and ``acosh((1 + e) / (1 - e))``.

    Parameters
    ----------
    curvature_per_m2 : float
        Gaussian curvature of the face where it is greatest [1/m2]
    allowed_strain : float
        Strain that the film may take and stay down; common practice 0.003 to 0.005 [-]
    shared : bool
        Whether the middle is stretched as much as the edges gather [-]

    Returns
    -------
    float
        Width of the strip; infinite where nothing limits it, as on flat, cylinder and
        cone [m]

    Raises
    ------
    ValueError
        If the curvature is outside -1e6 to 1e6 1/m2 or the strain not above 0 and at most
        0.05.

    Notes
    -----
    The film is laid along a shortest line of the face and only stretches or gathers in
    its own plane.  Film relaxes in time, so a strip at its limit may lift later.

    Examples
    --------
    >>> round(strip_width_m(4.0, 0.005) * 1e3)
    100
    """
    _check_curvature(curvature_per_m2)
    _check_strain(allowed_strain)
    if curvature_per_m2 == 0.0:
        return math.inf
    top = 1.0 + allowed_strain if shared else 1.0
    bottom = 1.0 - allowed_strain
    if curvature_per_m2 > 0.0:
        angle = math.acos(bottom / top)
    else:
        angle = math.acosh(top / bottom if shared else 1.0 + allowed_strain)
    return 2.0 * angle / math.sqrt(abs(curvature_per_m2))


def strips_needed(breadth_m: float, width_m: float) -> int:
    """Return the number of strips side by side that cover a face.

    ``ceil(breadth / width)``.

    Parameters
    ----------
    breadth_m : float
        Breadth of the face along its surface, across the strips [m]
    width_m : float
        Widest strip, as of `strip_width_m`; infinite if one sheet lies down [m]

    Returns
    -------
    int
        Number of strips; 1 on flat, cylinder and cone [-]

    Raises
    ------
    ValueError
        If `breadth_m` is not above 0 and at most 30 m, or `width_m` not above 0.

    Notes
    -----
    Laps come on top of the width.  The roll may be narrower than the strip allowed.

    Examples
    --------
    >>> strips_needed(0.6, strip_width_m(4.0, 0.005)), strips_needed(0.6, math.inf)
    (6, 1)
    """
    positive("breadth_m", breadth_m, _LONGEST_M, "m", _MILLIMETRES)
    positive("width_m", width_m, math.inf, "m")
    return max(1, math.ceil(breadth_m / width_m))


def cap_radius_m(width_m: float, height_m: float) -> float:
    """Return the radius of the sphere that a round cap or bowl is cut from.

    ``R = (a^2 + h^2) / (2 h)`` with a half the width.

    Parameters
    ----------
    width_m : float
        Diameter of the cap's rim [m]
    height_m : float
        Height of the cap, at most half the width [m]

    Returns
    -------
    float
        Radius of curvature, inside or out [m]

    Raises
    ------
    ValueError
        If the width is not above 0 and at most 30 m, or the height not above 0 and at
        most half the width.

    Examples
    --------
    >>> cap_radius_m(0.4, 0.2)
    0.2
    """
    positive("width_m", width_m, _LONGEST_M, "m", _MILLIMETRES)
    positive("height_m", height_m, width_m / 2.0, "m", "Is it deeper than a hemisphere?")
    return (width_m**2 / 4.0 + height_m**2) / (2.0 * height_m)


def crown_curvature_per_m2(length_m: float, width_m: float, height_m: float) -> float:
    """Return the double curvature of a crown over a rectangle.

    ``K = 1 / (R1 R2)`` with R1 and R2 of `cap_radius_m` over the length and the width, each
    no deeper than a half circle.

    Parameters
    ----------
    length_m, width_m : float
        Sides of the crown's foot [m]
    height_m : float
        Height of the crown [m]

    Returns
    -------
    float
        Gaussian curvature, taken as the same all over [1/m2]

    Raises
    ------
    ValueError
        As for `cap_radius_m`.

    Notes
    -----
    A mean: edges and corners are sharper.

    Examples
    --------
    >>> round(crown_curvature_per_m2(0.4, 0.4, 0.2), 6)
    25.0
    """
    along_m, across_m = (
        cap_radius_m(side_m, min(height_m, side_m / 2.0)) for side_m in (length_m, width_m)
    )
    return gaussian_curvature_per_m2(along_m, across_m)
