"""How many standard blocks or sheets make up a blank, its bond lines and the offcut."""

import math
from dataclasses import dataclass
from itertools import permutations, product
from typing import Literal

from advisor.calculations.valid_range import one_of, positive, within

Turning = Literal["any way", "flat"]

_TURNINGS = ("any way", "flat")
_LONGEST_M = 30.0
_MOST_BLOCKS = 100_000
_MILLIMETRES = "Was it given in millimetres?"
_ROUNDING_M = 1e-9
_SLIVER_M = 1e-3  # thinnest part that is cut


@dataclass(frozen=True)
class BlankYield:
    """A blank laid up from standard pieces.

    Attributes
    ----------
    pieces : int
        Standard blocks or sheets to buy [-]
    along, across, up : int
        Parts of the blank in each direction; all 1 if it is in one piece [-]
    bond_lines : int
        Joints that run right through the blank [-]
    bond_area_m2 : float
        Area of all joints [m2]
    offcut_share : float
        Share of what is bought that is not in the blank [-]
    blank_m : tuple of float
        Length, width and height of the blank [m]
    parts_m : tuple of tuple of float
        Lengths of the parts in each direction, the one that is cut last; a sheet that is
        not split in its thickness stands out over the blank [m]
    """

    pieces: int
    along: int
    across: int
    up: int
    bond_lines: int
    bond_area_m2: float
    offcut_share: float
    blank_m: tuple[float, float, float]
    parts_m: tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]


def _rows(
    length_m: float, piece_m: float, joint_m: float, split: bool
) -> list[tuple[int, float]]:
    """Return how many parts of which length make up a row: whole ones, then the last."""
    rows = max(1, math.ceil((length_m + joint_m - _ROUNDING_M) / (piece_m + joint_m)))
    last_m = max(_SLIVER_M, length_m - (rows - 1) * (piece_m + joint_m))
    if not split or last_m > piece_m - _ROUNDING_M:
        return [(rows, piece_m)]
    return [(rows - 1, piece_m), (1, last_m)] if rows > 1 else [(1, last_m)]


def _parts(rows: list[tuple[int, float]]) -> tuple[float, ...]:
    """Return the length of each part of a row."""
    return tuple(part_m for count, part_m in rows for _ in range(count))


def _cuts(piece_m: float, part_m: float, kerf_m: float) -> int:
    """Return how many parts of a length come out of one piece."""
    return max(1, math.floor((piece_m + kerf_m + _ROUNDING_M) / (part_m + kerf_m)))


def _laid(
    blank: tuple[float, float, float],
    piece: tuple[float, float, float],
    joint_m: float,
    kerf_m: float,
    split_height: bool,
) -> BlankYield:
    """Return the yield with the piece turned one way."""
    rows = [
        _rows(blank[axis], piece[axis], joint_m, split_height or axis < 2)
        for axis in range(3)
    ]
    along, across, up = (sum(count for count, _ in row) for row in rows)
    if along * across * up > _MOST_BLOCKS:
        raise ValueError(f"the blank needs over {_MOST_BLOCKS} pieces. Check the sizes.")
    # Parts of one size come out of the same pieces.
    pieces = 0
    for parts in product(*rows):
        wanted = math.prod(count for count, _ in parts)
        from_each = math.prod(
            _cuts(piece[axis], part_m, kerf_m) for axis, (_, part_m) in enumerate(parts)
        )
        pieces += math.ceil(wanted / from_each)
    length_m, width_m, height_m = blank
    bond_area_m2 = (
        (along - 1) * width_m * height_m
        + (across - 1) * length_m * height_m
        + (up - 1) * length_m * width_m
    )
    used_m3 = math.prod(
        side_m - (count - 1) * joint_m
        for side_m, count in zip(blank, (along, across, up), strict=True)
    )
    return BlankYield(
        pieces=pieces,
        along=along,
        across=across,
        up=up,
        bond_lines=along + across + up - 3,
        bond_area_m2=bond_area_m2,
        offcut_share=max(0.0, 1.0 - used_m3 / (pieces * math.prod(piece))),
        blank_m=blank,
        parts_m=(_parts(rows[0]), _parts(rows[1]), _parts(rows[2])),
    )


def blank_yield(
    blank_m: tuple[float, float, float],
    piece_m: tuple[float, float, float],
    turning: Turning = "any way",
    joint_m: float = 0.0,
    kerf_m: float = 0.0,
) -> BlankYield:
    """Return how a blank is made up from standard blocks or sheets.

    The pieces stand in a grid, ``n = ceil((L + j) / (l + j))`` in each direction.  The last
    part of a row is cut to length, and parts of the same size are cut from the same piece.
    Of all ways to turn the piece the one with the fewest pieces is taken, and of those the
    one with the least area to bond.

    Parameters
    ----------
    blank_m : tuple of float
        Length, width and height of the blank [m]
    piece_m : tuple of float
        Length, width and height or thickness of the block or sheet, trued [m]
    turning : {"any way", "flat"}
        Whether a piece may stand on any side, or keeps its thickness upright and is not
        split in it, as a sheet [-]
    joint_m : float
        Thickness of a joint [m]
    kerf_m : float
        Width of a cut [m]

    Returns
    -------
    BlankYield
        Pieces, bond lines, area to bond and offcut

    Raises
    ------
    ValueError
        If a side is not above 0 and at most 30 m, a joint is outside 0 to 20 mm, a kerf
        outside 0 to 20 mm, or more than 100000 pieces would be needed.

    Notes
    -----
    Offcuts of one kind of part are not used for another, and no bond is staggered: at most
    a few pieces too many.  Keep joints out of the face that shows.

    Examples
    --------
    >>> made = blank_yield((0.8, 0.6, 0.25), (0.6, 0.25, 0.2), joint_m=0.002)
    >>> made.pieces, made.bond_lines
    (4, 3)
    >>> blank_yield((0.8, 0.6, 0.1), (2.44, 1.22, 0.018), "flat").pieces
    1
    """
    for name, sides in (("blank_m", blank_m), ("piece_m", piece_m)):
        for side, word in zip(sides, ("length", "width", "height"), strict=True):
            positive(f"{name} {word}", side, _LONGEST_M, "m", _MILLIMETRES)
    one_of("turning", turning, _TURNINGS)
    within("joint_m", joint_m, 0.0, 0.02, "m", _MILLIMETRES)
    within("kerf_m", kerf_m, 0.0, 0.02, "m", _MILLIMETRES)
    length_m, width_m, height_m = piece_m
    if turning == "flat":
        ways = [(length_m, width_m, height_m), (width_m, length_m, height_m)]
    else:
        ways = [(piece_m[i], piece_m[j], piece_m[k]) for i, j, k in permutations(range(3))]
    splits = (False,) if turning == "flat" else (True, False)
    return min(
        (_laid(blank_m, way, joint_m, kerf_m, split) for way in ways for split in splits),
        key=lambda made: (made.pieces, made.bond_area_m2),
    )
