"""Size of the blank, what is cut from it, the face to seal and the dust."""

import math
from dataclasses import dataclass
from typing import Literal

from advisor.calculations.valid_range import one_of, positive, within

Shape = Literal["flat", "single-curvature", "double-curvature", "closed"]
Side = Literal["female", "male"]

_SHAPES = ("flat", "single-curvature", "double-curvature", "closed")
_SIDES = ("female", "male")
_LONGEST_M = 30.0
_LARGEST_M3 = 10_000.0
_MILLIMETRES = "Was it given in millimetres?"


@dataclass(frozen=True)
class BlankSize:
    """Outer size of the block that a tool is cut from.

    Attributes
    ----------
    length_m, width_m, height_m : float
        Sides of the block [m]
    """

    length_m: float
    width_m: float
    height_m: float

    @property
    def volume_m3(self) -> float:
        """Volume of the block [m3]."""
        return self.length_m * self.width_m * self.height_m


def _check_part(length_m: float, width_m: float, depth_m: float) -> None:
    positive("length_m", length_m, _LONGEST_M, "m", _MILLIMETRES)
    positive("width_m", width_m, _LONGEST_M, "m", _MILLIMETRES)
    within("depth_m", depth_m, 0.0, _LONGEST_M, "m", _MILLIMETRES)


def is_core(shape: Shape, side: Side) -> bool:
    """Return whether the part goes all round its tool, as round a mandrel."""
    return shape == "closed" and side == "male"


def tool_blank(
    shape: Shape,
    side: Side,
    length_m: float,
    width_m: float,
    depth_m: float,
    margin_m: float,
    base_m: float,
) -> BlankSize:
    """Return the size of the block for a tool, or for a core.

    A core has no base and no margin at its sides: it is longer than the part by the
    margin at each end, where it is held.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    side : {"female", "male"}
        Whether the tool is hollow or stands up [-]
    length_m, width_m, depth_m, margin_m, base_m : float
        As for `blank_size` [m]

    Returns
    -------
    BlankSize
        Size of the block [m]

    Raises
    ------
    ValueError
        As for `blank_size`; for a core also if `depth_m` is 0.

    Examples
    --------
    >>> tool_blank("closed", "male", 0.3, 0.07, 0.07, margin_m=0.03, base_m=0.05)
    BlankSize(length_m=0.36, width_m=0.07, height_m=0.07)
    """
    size = blank_size(length_m, width_m, depth_m, margin_m, base_m)
    if not is_core(shape, side):
        return size
    positive("depth_m", depth_m, 30.0, "m", "A core has a height.")
    return BlankSize(size.length_m, width_m, depth_m)


def blank_size(
    length_m: float, width_m: float, depth_m: float, margin_m: float, base_m: float
) -> BlankSize:
    """Return the size of the block for a tool with a base.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]
    margin_m : float
        Tool beside the part on each side, for trim and bag [m]
    base_m : float
        Tool under the lowest point of the worked face [m]

    Returns
    -------
    BlankSize
        Part size plus margins and base [m]

    Raises
    ------
    ValueError
        If `length_m` or `width_m` is not above 0 and at most 30 m, `depth_m` outside 0 to
        30 m, `margin_m` outside 0 to 2 m or `base_m` not above 0 and at most 5 m.

    Examples
    --------
    >>> blank_size(0.6, 0.4, 0.15, margin_m=0.1, base_m=0.05).height_m
    0.2
    """
    _check_part(length_m, width_m, depth_m)
    within("margin_m", margin_m, 0.0, 2.0, "m", _MILLIMETRES)
    positive("base_m", base_m, 5.0, "m", _MILLIMETRES)
    return BlankSize(length_m + 2.0 * margin_m, width_m + 2.0 * margin_m, depth_m + base_m)


def arc_length_m(chord_m: float, height_m: float) -> float:
    """Return the length of an arc over its chord.

    A circular arc up to the half circle; beyond it a half circle on straight walls.

    Parameters
    ----------
    chord_m : float
        Width of the section at its foot [m]
    height_m : float
        Height of the section [m]

    Returns
    -------
    float
        Developed length [m]

    Raises
    ------
    ValueError
        If `chord_m` is not above 0 and at most 30 m or `height_m` outside 0 to 30 m.

    Examples
    --------
    >>> round(arc_length_m(2.0, 1.0), 6)
    3.141593
    """
    positive("chord_m", chord_m, _LONGEST_M, "m", _MILLIMETRES)
    within("height_m", height_m, 0.0, _LONGEST_M, "m", _MILLIMETRES)
    half_m = chord_m / 2.0
    if height_m >= half_m:
        return math.pi * half_m + 2.0 * (height_m - half_m)
    # Half the angle of the arc; the form with atan keeps its digits for flat arcs.
    angle = 2.0 * math.atan(height_m / half_m)
    return chord_m * angle / math.sin(angle) if angle > 1e-9 else chord_m


def arc_area_m2(chord_m: float, height_m: float) -> float:
    """Return the area between an arc and its chord.

    A circular segment up to the half circle; beyond it a half circle on straight walls.

    Parameters
    ----------
    chord_m : float
        Width of the section at its foot [m]
    height_m : float
        Height of the section [m]

    Returns
    -------
    float
        Area of the section [m2]

    Raises
    ------
    ValueError
        As for `arc_length_m`.

    Examples
    --------
    >>> round(arc_area_m2(2.0, 1.0), 6)
    1.570796
    """
    length_m = arc_length_m(chord_m, height_m)
    half_m = chord_m / 2.0
    if height_m >= half_m:
        return math.pi * half_m**2 / 2.0 + chord_m * (height_m - half_m)
    if height_m < 1e-3 * half_m:
        return 2.0 / 3.0 * chord_m * height_m
    radius_m = (half_m**2 + height_m**2) / (2.0 * height_m)
    return (radius_m * length_m - chord_m * (radius_m - height_m)) / 2.0


def face_area_m2(shape: Shape, length_m: float, width_m: float, depth_m: float) -> float:
    """Return the developed area of the part's moulded face.

    Flat, or box-like if it has a depth: top and sides, ``L W + 2 (L + W) D``.  Single
    curvature: arc over the shorter side times the longer.  Double curvature: spherical
    cap on a rim of the same area as the part's plan, ``L W + pi D^2``, beyond the
    hemisphere with a straight wall; not less than single curvature.  Closed: an elliptic
    tube along the longer side, its perimeter by Ramanujan's formula.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]

    Returns
    -------
    float
        Developed area [m2]

    Raises
    ------
    ValueError
        If `shape` is another word, `length_m` or `width_m` not above 0 and at most 30 m,
        `depth_m` outside 0 to 30 m, or 0 for a closed shape.

    Notes
    -----
    An estimate from the outer sizes, for quantities of material.  Ribs, steps and flanges
    inside the outline add to it.

    Examples
    --------
    >>> round(face_area_m2("flat", 0.6, 0.4, 0.15), 3)
    0.54
    >>> round(face_area_m2("single-curvature", 1.0, 0.4, 0.2), 4)
    0.6283
    """
    one_of("shape", shape, _SHAPES)
    _check_part(length_m, width_m, depth_m)
    short_m, long_m = sorted((length_m, width_m))
    if shape == "flat":
        return length_m * width_m + 2.0 * (length_m + width_m) * depth_m
    if shape == "closed":
        positive("depth_m", depth_m, _LONGEST_M, "m", "A closed shape has a height.")
        spread = ((short_m - depth_m) / (short_m + depth_m)) ** 2
        mean = 1.0 + 3.0 * spread / (10.0 + math.sqrt(4.0 - 3.0 * spread))
        return math.pi * (short_m + depth_m) / 2.0 * mean * long_m
    single_m2 = long_m * arc_length_m(short_m, depth_m)
    if shape == "single-curvature":
        return single_m2
    rim_m = math.sqrt(length_m * width_m / math.pi)
    cap_m = min(depth_m, rim_m)
    wall_m2 = 2.0 * math.pi * rim_m * (depth_m - cap_m)
    return max(single_m2, length_m * width_m + math.pi * cap_m**2 + wall_m2)


def steep_face_area_m2(
    length_m: float, width_m: float, depth_m: float, draft_deg: float
) -> float:
    """Return the developed area of a face whose sides lean in by one draft all round.

    A flat top, ``(L - b) (W - b)`` with ``b = 2 D tan d``, and four flat sides,
    ``2 D (L + W - b) / cos d``: about the most that a crowned part of these sizes
    measures, where `face_area_m2` takes it for a cap.

    Parameters
    ----------
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]
    draft_deg : float
        Angle of the sides to the direction of removal [deg]

    Returns
    -------
    float
        Developed area [m2]

    Raises
    ------
    ValueError
        As for `face_area_m2`, or if `draft_deg` is outside 0 to 89 deg, or so large that
        the sides meet below the top.

    Examples
    --------
    >>> round(steep_face_area_m2(0.6, 0.4, 0.15, 0.0), 3)
    0.54

    References
    ----------
    Frustum of a pyramid on a rectangle; derived here.
    """
    _check_part(length_m, width_m, depth_m)
    within("draft_deg", draft_deg, 0.0, 89.0, "deg")
    slope = math.radians(draft_deg)
    in_m = 2.0 * depth_m * math.tan(slope)
    within("2 D tan d", in_m, 0.0, min(length_m, width_m), "m", "The sides meet below it.")
    top_m2 = (length_m - in_m) * (width_m - in_m)
    return top_m2 + 2.0 * depth_m * (length_m + width_m - in_m) / math.cos(slope)


def sealed_area_m2(
    shape: Shape, length_m: float, width_m: float, depth_m: float, margin_m: float
) -> float:
    """Return the area of tool to seal: the moulded face and the land around it.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]
    margin_m : float
        Width of the land on each side [m]

    Returns
    -------
    float
        Area of face and land [m2]

    Raises
    ------
    ValueError
        As for `face_area_m2`, and if `margin_m` is outside 0 to 2 m.

    Notes
    -----
    Outer sides and underside of the block are not in it.

    Examples
    --------
    >>> round(sealed_area_m2("flat", 0.6, 0.4, 0.15, margin_m=0.1), 3)
    0.78
    """
    within("margin_m", margin_m, 0.0, 2.0, "m", _MILLIMETRES)
    face_m2 = face_area_m2(shape, length_m, width_m, depth_m)
    return face_m2 + 2.0 * margin_m * (length_m + width_m + 2.0 * margin_m)


def ply_edge_length_m(
    shape: Shape, length_m: float, width_m: float, depth_m: float
) -> float:
    """Return how long the edges of the plies are together.

    Round an open part ``2 (L + W)``; round both ends of a closed one ``4 (W + H)``.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]

    Returns
    -------
    float
        Length of all edges [m]

    Raises
    ------
    ValueError
        As for `face_area_m2`.

    Notes
    -----
    The box round the part is taken, which errs on the large side for a round plan.

    Examples
    --------
    >>> round(ply_edge_length_m("flat", 0.6, 0.4, 0.0), 3)
    2.0
    >>> round(ply_edge_length_m("closed", 0.6, 0.4, 0.1), 3)
    2.0
    """
    face_area_m2(shape, length_m, width_m, depth_m)  # refuses what is out of range
    if shape == "closed":
        return 4.0 * (width_m + depth_m)
    return 2.0 * (length_m + width_m)


def shape_volume_m3(shape: Shape, length_m: float, width_m: float, depth_m: float) -> float:
    """Return the volume under the part's moulded face.

    The bodies are those of `face_area_m2`: box, prism on an arc, spherical cap, elliptic
    tube.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]

    Returns
    -------
    float
        Volume, from 0 to length times width times depth [m3]

    Raises
    ------
    ValueError
        As for `face_area_m2`.

    Examples
    --------
    >>> round(shape_volume_m3("double-curvature", 0.6, 0.4, 0.05), 6)
    0.006065
    """
    one_of("shape", shape, _SHAPES)
    _check_part(length_m, width_m, depth_m)
    short_m, long_m = sorted((length_m, width_m))
    plan_m2 = length_m * width_m
    if shape == "flat":
        return plan_m2 * depth_m
    if shape == "closed":
        positive("depth_m", depth_m, _LONGEST_M, "m", "A closed shape has a height.")
        return math.pi / 4.0 * plan_m2 * depth_m
    if shape == "single-curvature":
        return long_m * arc_area_m2(short_m, depth_m)
    cap_m = min(depth_m, math.sqrt(plan_m2 / math.pi))
    return plan_m2 * (depth_m - cap_m / 2.0) + math.pi * cap_m**3 / 6.0


def pocket_volume_m3(
    shape: Shape,
    side: Side,
    length_m: float,
    width_m: float,
    depth_m: float,
    margin_m: float,
    base_m: float,
    wall_m: float,
) -> float:
    """Return the volume that is cut from the back of a tool to leave an even wall.

    What stays of the blank once the face is cut, less face and land times the wall.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    side : {"female", "male"}
        Whether the tool is hollow or stands up [-]
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]
    margin_m : float
        Tool beside the part on each side [m]
    base_m : float
        Material under the deepest point before it is pocketed [m]
    wall_m : float
        Wall that is left [m]

    Returns
    -------
    float
        Volume of the pockets; 0 where the body is no thicker than the wall [m3]

    Raises
    ------
    ValueError
        If `wall_m` is not above 0 or above 1 m, or as for `tool_blank` and
        `removed_volume_m3`.

    Notes
    -----
    Ribs and feet left in the pockets are not in it.

    Examples
    --------
    >>> round(pocket_volume_m3("flat", "male", 0.6, 0.4, 0.0, 0.1, 0.05, 0.02), 4)
    0.0144
    """
    positive("wall_m", wall_m, 1.0, "m", _MILLIMETRES)
    blank = tool_blank(shape, side, length_m, width_m, depth_m, margin_m, base_m)
    face = (shape, side, length_m, width_m, depth_m, margin_m)
    body_m3 = blank.volume_m3 - removed_volume_m3(*face)
    shell_m3 = wall_m * sealed_area_m2(shape, length_m, width_m, depth_m, margin_m)
    return max(0.0, body_m3 - shell_m3)


def removed_volume_m3(
    shape: Shape,
    side: Side,
    length_m: float,
    width_m: float,
    depth_m: float,
    margin_m: float,
) -> float:
    """Return the volume that is cut from the blank to make the tool's face.

    From a female tool the shape itself; from a male one all that stands around the shape
    above the base; from a core all that stands around the shape.

    Parameters
    ----------
    shape : {"flat", "single-curvature", "double-curvature", "closed"}
        Kind of shape [-]
    side : {"female", "male"}
        Whether the tool is hollow or stands up [-]
    length_m, width_m : float
        Plan size of the part [m]
    depth_m : float
        Height of the part's shape [m]
    margin_m : float
        Tool beside the part on each side [m]

    Returns
    -------
    float
        Volume removed [m3]

    Raises
    ------
    ValueError
        If `side` is another word, `margin_m` is outside 0 to 2 m, or as for
        `face_area_m2`.

    Notes
    -----
    Squaring of the blank, skimming of its face and kerfs of sawing are not in it.

    Examples
    --------
    >>> round(removed_volume_m3("flat", "female", 0.45, 0.30, 0.05, margin_m=0.1), 5)
    0.00675
    """
    one_of("side", side, _SIDES)
    within("margin_m", margin_m, 0.0, 2.0, "m", _MILLIMETRES)
    inside_m3 = shape_volume_m3(shape, length_m, width_m, depth_m)
    if side == "female":
        return inside_m3
    if is_core(shape, side):
        return max(0.0, length_m * width_m * depth_m - inside_m3)
    plan_m2 = (length_m + 2.0 * margin_m) * (width_m + 2.0 * margin_m)
    return max(0.0, plan_m2 * depth_m - inside_m3)


def sanding_volume_m3(area_m2: float, sanded_depth_m: float) -> float:
    """Return the volume that sanding takes off.

    Parameters
    ----------
    area_m2 : float
        Area sanded [m2]
    sanded_depth_m : float
        Depth taken off, all passes together [m]

    Returns
    -------
    float
        Volume sanded off [m3]

    Raises
    ------
    ValueError
        If `area_m2` is not above 0 and at most 2000 m2 or `sanded_depth_m` outside 0 to
        0.1 m.

    Examples
    --------
    >>> round(sanding_volume_m3(0.3, 0.0005), 5)
    0.00015
    """
    positive("area_m2", area_m2, 2000.0, "m2", "Was it given in square millimetres?")
    within("sanded_depth_m", sanded_depth_m, 0.0, 0.1, "m", _MILLIMETRES)
    return area_m2 * sanded_depth_m


def _check_density(density_kg_m3: float) -> None:
    within(
        "density_kg_m3", density_kg_m3, 10.0, 25_000.0, "kg/m3", "Was it given in g/cm3?"
    )


def dust_mass_kg(volume_m3: float, density_kg_m3: float) -> float:
    """Return the mass of chips and dust from a volume removed.

    Parameters
    ----------
    volume_m3 : float
        Volume removed [m3]
    density_kg_m3 : float
        Density of the solid [kg/m3]

    Returns
    -------
    float
        Mass of chips and dust to collect [kg]

    Raises
    ------
    ValueError
        If `volume_m3` is outside 0 to 10 000 m3 or the density outside 10 to
        25 000 kg/m3.

    Notes
    -----
    For bins, bags and filters.  What share of it becomes airborne is unknown: do not
    infer exposure from it.

    Examples
    --------
    >>> round(dust_mass_kg(0.00675, 500.0), 2)
    3.38
    """
    within("volume_m3", volume_m3, 0.0, _LARGEST_M3, "m3")
    _check_density(density_kg_m3)
    return volume_m3 * density_kg_m3


def tool_mass_kg(
    blank_volume_m3: float,
    removed_volume_m3: float,
    density_kg_m3: float,
    moisture_fraction: float,
) -> float:
    """Return the mass of the tool as it is lifted.

    Parameters
    ----------
    blank_volume_m3 : float
        Volume of the blank [m3]
    removed_volume_m3 : float
        Volume cut from it; 0 for the blank itself [m3]
    density_kg_m3 : float
        Dry density of the tool material [kg/m3]
    moisture_fraction : float
        Mass of water in it over its dry mass; 0 if dry [-]

    Returns
    -------
    float
        Mass of the tool [kg]

    Raises
    ------
    ValueError
        If `blank_volume_m3` is not above 0 and at most 10 000 m3, `removed_volume_m3`
        negative or larger than the blank, the density outside 10 to 25 000 kg/m3, or
        `moisture_fraction` outside 0 to 2.

    Examples
    --------
    >>> round(tool_mass_kg(0.6 * 0.25 * 0.2, 0.0, 500.0, moisture_fraction=0.4), 1)
    21.0
    """
    positive("blank_volume_m3", blank_volume_m3, _LARGEST_M3, "m3")
    within("removed_volume_m3", removed_volume_m3, 0.0, blank_volume_m3, "m3")
    _check_density(density_kg_m3)
    within(
        "moisture_fraction", moisture_fraction, 0.0, 2.0, "", "Was it given in per cent?"
    )
    return (blank_volume_m3 - removed_volume_m3) * density_kg_m3 * (1.0 + moisture_fraction)
