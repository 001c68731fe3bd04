"""Whether a bagged tool fits an oven, its door and its shelf."""

import math
from dataclasses import dataclass
from typing import Literal

from advisor.calculations.valid_range import positive, within

Placing = Literal["straight", "slanted", "none"]

_LONGEST_M = 30.0
_MILLIMETRES = "Was it given in millimetres?"


@dataclass(frozen=True)
class Box:
    """Length, width and height of a thing or of a hollow.

    Attributes
    ----------
    length_m, width_m, height_m : float
        Sides; for an oven the length is measured from the door to the back [m]

    Raises
    ------
    ValueError
        If a side is not above 0 and at most 30 m.
    """

    length_m: float
    width_m: float
    height_m: float

    def __post_init__(self) -> None:
        for side in ("length_m", "width_m", "height_m"):
            positive(side, getattr(self, side), _LONGEST_M, "m", _MILLIMETRES)


@dataclass(frozen=True)
class OvenFit:
    """How a bagged tool goes into an oven.

    Attributes
    ----------
    placing : {"straight", "slanted", "none"}
        How it lies on the floor [-]
    slant_deg : float
        Angle of its long side to the oven's long side; 0 if straight or none [degree]
    through_door : bool
        Whether it passes the door level, either end or side first [-]
    turns_inside : bool
        Whether there is room to turn it round on the floor once it is inside [-]
    height_left_m : float
        Height left above it, below 0 if it is too high [m]
    """

    placing: Placing
    slant_deg: float
    through_door: bool
    turns_inside: bool
    height_left_m: float

    @property
    def fits(self) -> bool:
        """Whether it goes in, lies down and has height left, without lifting over."""
        reached = self.placing == "straight" or self.turns_inside
        return self.through_door and reached and self.height_left_m >= 0.0


@dataclass(frozen=True)
class ShelfLoad:
    """Load on an oven shelf over what it may carry.

    Attributes
    ----------
    total : float
        Mass over the shelf's rating [-]
    local : float
        Pressure under the load over that of the rating spread evenly [-]
    """

    total: float
    local: float


def _corner_width(long_m: float, short_m: float, across_m: float) -> float:
    """Return the least width of hollow, `across_m` one way, that takes a slanted box."""
    squares = long_m**2 + short_m**2
    rest = math.sqrt(squares - across_m**2)
    return (2.0 * long_m * short_m * across_m + (long_m**2 - short_m**2) * rest) / squares


def slant_deg(
    length_m: float, width_m: float, floor_length_m: float, floor_width_m: float
) -> float | None:
    """Return the angle at which a rectangle lies in another.

    With sides ``p >= q`` in ``a >= b``: straight if ``p <= a`` and ``q <= b``, else slanted
    if ``q <= b`` and ``b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2)) / (p^2 + q^2)``
    [1]_.

    Parameters
    ----------
    length_m, width_m : float
        Sides of what is to lie down [m]
    floor_length_m, floor_width_m : float
        Sides of the floor [m]

    Returns
    -------
    float or None
        Least angle between the long sides, 0 if it lies straight; None if it does not fit
        [degree]

    Raises
    ------
    ValueError
        If a side is not above 0 and at most 30 m.

    Notes
    -----
    Exact, without clearance: take that off the floor first.

    Examples
    --------
    >>> round(slant_deg(1.1, 0.1, 1.0, 0.8) or 0.0, 1)
    30.3
    >>> slant_deg(1.1, 0.3, 1.0, 0.6) is None
    True

    References
    ----------
    .. [1] Wetzel, Rectangles in rectangles, Mathematics Magazine 73 (2000) 204-211.
    """
    for name, side in (
        ("length_m", length_m),
        ("width_m", width_m),
        ("floor_length_m", floor_length_m),
        ("floor_width_m", floor_width_m),
    ):
        positive(name, side, _LONGEST_M, "m", _MILLIMETRES)
    long_m, short_m = max(length_m, width_m), min(length_m, width_m)
    a_m, b_m = max(floor_length_m, floor_width_m), min(floor_length_m, floor_width_m)
    if short_m > b_m:
        return None
    if long_m <= a_m:
        return 0.0
    if b_m < _corner_width(long_m, short_m, a_m):
        return None
    # p cos(x) + q sin(x) = a, past the peak of the left side.
    diagonal = math.hypot(long_m, short_m)
    return math.degrees(math.atan2(short_m, long_m) + math.acos(a_m / diagonal))


def oven_fit(
    bagged: Box,
    oven: Box,
    door_width_m: float,
    door_height_m: float,
    clearance_m: float,
) -> OvenFit:
    """Return how a bagged tool goes into an oven.

    The clearance is taken off each wall and the roof, for the air; the door needs half of
    it to each side and above.  On the floor the rule of `slant_deg` is used; to turn it
    round there, its diagonal must be no more than either side of the floor.

    Parameters
    ----------
    bagged : Box
        Tool with bag, of `bagged_size`
    oven : Box
        Inside of the oven
    door_width_m, door_height_m : float
        Clear opening of the door [m]
    clearance_m : float
        Space for the air on each side and above [m]

    Returns
    -------
    OvenFit
        Placing, door, turning and height left

    Raises
    ------
    ValueError
        If a side of the door is not above 0 and at most 30 m, or the clearance is not from
        0 to less than half of the oven's or the door's smallest side.

    Notes
    -----
    The tool stays level: a bag under vacuum is not tipped.  A slanted tool counts as
    fitting only if it can also be turned, which is on the strict side: some can be worked
    in past an open door.

    Examples
    --------
    >>> fit = oven_fit(Box(1.0, 0.8, 0.35), Box(1.2, 1.2, 1.2), 1.1, 1.1, clearance_m=0.05)
    >>> fit.placing, fit.fits
    ('straight', True)
    """
    positive("door_width_m", door_width_m, _LONGEST_M, "m", _MILLIMETRES)
    positive("door_height_m", door_height_m, _LONGEST_M, "m", _MILLIMETRES)
    smallest = min(oven.length_m, oven.width_m, oven.height_m, door_width_m, door_height_m)
    most = math.nextafter(smallest / 2.0, 0.0)
    within("clearance_m", clearance_m, 0.0, most, "m", _MILLIMETRES)
    floor = (oven.length_m - 2.0 * clearance_m, oven.width_m - 2.0 * clearance_m)
    slant = slant_deg(bagged.length_m, bagged.width_m, *floor)
    placing: Placing = "none"
    if slant is not None:
        placing = "slanted" if slant > 0.0 else "straight"
    # Whichever side leads, the other passes the door; straight in, it must then lie so.
    ways = []
    if placing == "straight":
        for deep_m, wide_m in (
            (bagged.length_m, bagged.width_m),
            (bagged.width_m, bagged.length_m),
        ):
            if deep_m <= floor[0] and wide_m <= floor[1]:
                ways.append(wide_m)
    turns = math.hypot(bagged.length_m, bagged.width_m) <= min(floor)
    if turns or not ways:
        ways.append(min(bagged.length_m, bagged.width_m))
    wide_enough = min(ways) <= door_width_m - clearance_m
    high_enough = bagged.height_m <= door_height_m - clearance_m / 2.0
    return OvenFit(
        placing,
        slant or 0.0,
        wide_enough and high_enough,
        turns,
        oven.height_m - clearance_m - bagged.height_m,
    )


def shelf_load(
    mass_kg: float, footprint_m2: float, rated_kg: float, shelf_area_m2: float
) -> ShelfLoad:
    """Return the load of a tool on an oven shelf, over its rating.

    ``m / m_rated`` and ``(m / A) / (m_rated / A_shelf)``.

    Parameters
    ----------
    mass_kg : float
        Tool, plate, part and bag [kg]
    footprint_m2 : float
        Area that the load stands on [m2]
    rated_kg : float
        Mass that the shelf may carry, spread evenly [kg]
    shelf_area_m2 : float
        Area of the shelf [m2]

    Returns
    -------
    ShelfLoad
        Both shares; above 1 is too much

    Raises
    ------
    ValueError
        If a mass is not above 0 and at most 1e5 kg, the shelf not above 0 and at most 900
        m2, or the footprint not above 0 and at most the shelf.

    Notes
    -----
    A load on feet bends wire and sheet more than its footprint says: put a plate under it.
    Shelves are weaker hot; a rating for cold does not hold at the cure.

    Examples
    --------
    >>> load = shelf_load(30.0, 0.25, 50.0, 0.5)
    >>> load.total, load.local
    (0.6, 1.2)
    """
    positive("mass_kg", mass_kg, 1e5, "kg")
    positive("rated_kg", rated_kg, 1e5, "kg")
    positive("shelf_area_m2", shelf_area_m2, 900.0, "m2")
    positive(
        "footprint_m2", footprint_m2, shelf_area_m2, "m2", "It must stand on the shelf."
    )
    total = mass_kg / rated_kg
    return ShelfLoad(total, total * shelf_area_m2 / footprint_m2)
