"""The blank of a tool laid up from what is sold, its joints drawn."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from advisor.documents.pictures.svg import Picture, Point, body, line, picture, text
from advisor.measures import in_styles, phrase
from advisor.plan import BlankRecord, Plan

_WIDTH, _BASE = 440.0, 162.0
_LEFT = 106.0
_ROOM = (232.0, 130.0)  # that the block may take
_SLANT = (0.46, 0.30)  # of what runs away from the eye, across and up
_ROW = 11.0  # of words


@dataclass(frozen=True)
class _View:
    """A block seen from above one corner."""

    length: float
    width: float
    height: float

    @property
    def scale(self) -> float:
        across, up = _SLANT
        return min(
            _ROOM[0] / (self.length + across * self.width),
            _ROOM[1] / (self.height + up * self.width),
        )

    def at(self, x: float, y: float, z: float) -> Point:
        """Return where a point of the block is drawn: along, across, up."""
        across, up = _SLANT
        return (
            _LEFT + self.scale * (x + across * y),
            _BASE - self.scale * (z + up * y),
        )


def blank(plan: Plan) -> Picture | None:
    """Return the blank of a plan with its parts; None where nothing is laid up from stock.

    Parameters
    ----------
    plan : Plan
        The decision to draw.
    """
    made = plan.blank
    if made is None:
        return None
    rows = len(made.along), len(made.across), len(made.up)
    parts, joints = rows[0] * rows[1] * rows[2], sum(rows) - 3
    sides = (made.length, made.width, made.height)
    words = phrase(
        "The blank, {size}, of {n:number} {of}: {a:number} along, {b:number} across, "
        "{c:number} up{joined}.",
        size=" × ".join(in_styles(one, "mm") for one in sides),
        n=parts,
        of=made.piece if parts == 1 else f"{made.piece}s or parts of them",
        a=rows[0],
        b=rows[1],
        c=rows[2],
        joined="; the lines are joints" if joints else "",
    )
    return picture(_drawn(made), _WIDTH, words)


def _drawn(made: BlankRecord) -> Iterator[str]:
    """Yield the block, each joint a line round the sides that are seen."""
    view = _View(made.length, made.width, max(made.height, sum(made.up)))
    length, width, height = view.length, view.width, view.height
    front = [(0.0, 0.0), (length, 0.0), (length, height), (0.0, height)]
    top = [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]
    end = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    yield body([view.at(x, 0, z) for x, z in front])
    yield body([view.at(x, y, height) for x, y in top], "#f4f6f6")
    yield body([view.at(length, y, z) for y, z in end], "#cdd2d2")
    for x in _joints(made.along):
        yield line([view.at(x, 0, 0), view.at(x, 0, height), view.at(x, width, height)], 1)
    for y in _joints(made.across):
        yield line(
            [view.at(0, y, height), view.at(length, y, height), view.at(length, y, 0)], 1
        )
    for z in _joints(made.up):
        yield line([view.at(0, 0, z), view.at(length, 0, z), view.at(length, width, z)], 1)
    yield from _lengths(made, view)


def _joints(parts: Sequence[float]) -> list[float]:
    """Return where one part ends and the next begins."""
    return list(accumulate(parts))[:-1]


def _lengths(made: BlankRecord, view: _View) -> Iterator[str]:
    """Yield each length of a part once, along the edge where it is first met."""
    for n, (middle, part) in enumerate(_once(made.along)):
        x, y = view.at(middle, 0, 0)
        yield text(in_styles(part, "mm"), (x, y + 17 + _ROW * (n % 2)))
    foot = 2 * _BASE
    for middle, part in _once(made.across):
        x, y = view.at(view.length, middle, 0)
        foot = min(y + 9, foot - _ROW)
        yield text(in_styles(part, "mm"), (x + 8, foot), anchor="start")
    foot = 2 * _BASE
    for middle, part in _once(made.up):
        x, y = view.at(0, 0, middle)
        foot = min(y + 3, foot - _ROW)
        yield text(in_styles(part, "mm"), (x - 6, foot), anchor="end")


def _once(parts: Sequence[float]) -> list[tuple[float, float]]:
    """Return the middle of the first part of each length, and the length."""
    starts = [0.0, *accumulate(parts)]
    first: dict[float, float] = {}
    for start, part in zip(starts, parts, strict=False):
        first.setdefault(part, start + part / 2)
    return [(middle, part) for part, middle in first.items()]
