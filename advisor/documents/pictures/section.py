"""The bag stack in section: tool, release, plies, edge and bag; order, not scale."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi
from typing import Literal

from advisor.documents.pictures.svg import (
    GREY,
    Picture,
    Point,
    block,
    body,
    body_under,
    label,
    line,
    picture,
    ring,
)
from advisor.measures import enumerated, in_sentence, sentence
from advisor.plan import LayerRecord, Plan

_WIDTH = 440.0
_LEFT, _RIGHT = 84.0, 356.0  # of the tool
_LAND, _BASE = 138.0, 196.0  # height of the land, and of the tool's underside
_RISE, _DIP = 56.0, 38.0  # how far a shape stands over its land, or lies under it
_PART = 46.0  # land outside the part, on each side
_STEPS = 48
_TOP, _SIDE = 14.0, 18.0  # where labels stand

Way = Literal["to the tool", "to the table", "all round", "two halves", "none"]
_WORDS: dict[Way, str] = {
    "to the tool": "the bag is taped to the tool outside it",
    "to the table": "the bag goes down round the tool to the table",
    "all round": "the bag goes all round the tool",
    "two halves": "the mould closes on the plies, in a bag all round it",
    "none": "no bag lies over it",
}


@dataclass(frozen=True)
class Drawn:
    """How a layer is drawn: its height over the face, width, dashes and colour."""

    height: float
    width: float
    dashes: str = ""
    colour: str = "#000"


# From the face outward; what of a stack is not among them has a place of its own.
_LINES = {
    "seal": Drawn(0.5, 1.6),
    "release": Drawn(3.5, 1.8, "1.5 2"),
    "plies": Drawn(8.0, 5.5),
    "peel-ply": Drawn(12.4, 1.2, "4 1.5"),
    "release-film": Drawn(15.0, 1.0),
    "shrink-tape": Drawn(13.0, 3.0, "7 1"),
    "breather": Drawn(20.5, 5.0, "2 3", GREY),
    "bladder": Drawn(20.5, 3.0),
    "tube": Drawn(27.0, 1.6),
    "bag-film": Drawn(27.0, 1.6),
}


class Stack:
    """The layers of a stack by their kind, and the numbers they are shown by."""

    def __init__(self, layers: Sequence[LayerRecord]) -> None:
        self._numbers: dict[str, int] = {}
        self._names = [layer.name for layer in layers]
        for n, layer in enumerate(layers, 1):
            self._numbers.setdefault(layer.id, n)
        self.shell = any(layer.shell for layer in layers)

    def __contains__(self, kind: str) -> bool:
        return kind in self._numbers

    def unseen(self, marks: str) -> list[str]:
        """Return the layers whose numbers are not among the marks of a drawing."""
        return [
            f"{n} {in_sentence(name)}"
            for n, name in enumerate(self._names, 1)
            if f">{n}</text>" not in marks
        ]

    def called(self, kind: str, where: Point, at: Point | None = None) -> Iterator[str]:
        """Yield the number of a layer, the first of its kind, where there is one."""
        if kind in self._numbers:
            yield from label(str(self._numbers[kind]), where, at)

    def lines(self) -> list[str]:
        """Return the layers that are drawn as lines, in the order of their numbers."""
        return [kind for kind in self._numbers if kind in _LINES]


def section(plan: Plan) -> Picture:
    """Return the section of the stack of a plan, its layers by their numbers.

    Parameters
    ----------
    plan : Plan
        With a route.

    Raises
    ------
    ValueError
        If the plan has none.
    """
    if not plan.stack:
        raise ValueError("a plan without a route has nothing to draw")
    stack = Stack(plan.stack)
    way = _way(stack)
    shape, side = plan.job["part"]["shape"], plan.job["part"]["tool_side"] or "female"
    if shape == "closed":
        way = "all round" if "bag-film" in stack else "none"
        kind = "closed part on its core" if side == "male" else "closed part in its tool"
        marks = _round(stack, inside=side == "female")
    else:
        kind = "flat tool" if shape == "flat" else f"{side} tool"
        rise = 0.0 if shape == "flat" else -_RISE if side == "male" else _DIP
        marks = _closed(stack, rise) if way == "two halves" else _open(stack, rise, way)
    named = "; ".join(f"{n} {one.name}" for n, one in enumerate(plan.stack, 1))
    drawn = "".join(marks)
    lies = sentence(_WORDS[way]) + "."
    if runs_past(plan):
        lies = f"The release runs past the plies; {_WORDS[way]}."
    if unseen := stack.unseen(drawn):
        lies += f" Not seen in this section: {enumerated(unseen)}."
    shown = f"Section through a {kind}, not to scale"
    words = f"{shown}: {named}. {lies}"
    return picture([drawn], _WIDTH, words, f"{shown}. {lies}")


def runs_past(plan: Plan) -> bool:
    """Return whether the release is seen to run past the plies, as between halves not."""
    kinds = {layer.id for layer in plan.stack}
    return "release" in kinds and "upper-half" not in kinds


def _way(stack: Stack) -> Way:
    if "upper-half" in stack:
        return "two halves"
    if "bag-film" not in stack:
        return "none"
    if "table" in stack:
        return "to the table"
    return "all round" if "bag-below" in stack or "carrier" in stack else "to the tool"


# ---------------------------------------------------------------------- open tools


def _open(stack: Stack, rise: float, way: Way) -> Iterator[str]:
    """Yield a tool with its land, under its bag."""
    face = _face(rise)
    start, end = _LEFT + _PART, _RIGHT - _PART
    yield body(body_under(_along(face, _LEFT, _RIGHT), _BASE, shell=stack.shell))
    yield from _below(stack)
    past = {"seal": _PART, "release": 20.0, "plies": 0.0, "peel-ply": 0.0}
    top = []
    for kind in stack.lines():
        drawn, out = _LINES[kind], past.get(kind, 15.0)
        points = [(x, y - drawn.height) for x, y in _along(face, start - out, end + out)]
        if kind == "breather":
            points = [*_ends(way, -1, 9.0), *points, *reversed(_ends(way, 1, 9.0))]
        if kind == "bag-film":
            points = [*_ends(way, -1, 0.0), *points, *reversed(_ends(way, 1, 0.0))]
            if way == "all round":
                points.append(points[0])
        yield line(points, drawn.width, drawn.dashes, drawn.colour)
        if kind not in ("seal", "release"):
            top.append(kind)
    yield from _edges(stack, start, end)
    for n, kind in enumerate(top):
        x = start + 14 + (end - start - 28) * n / max(1, len(top) - 1)
        yield from stack.called(kind, (x, _TOP), (x, face(x) - _LINES[kind].height))
    yield from stack.called("seal", (_SIDE, 167), (_LEFT + 6, _LAND - 0.5))
    yield from stack.called("release", (_SIDE, 142), (start - 17, _LAND - 3.5))
    yield from stack.called("dam", (_SIDE, 92), (start - 6, _LAND - 9))
    yield from stack.called("edge-breather", (_SIDE, 117), (start - 12, _LAND - 3))
    if rise > 0 or stack.shell:
        wall = (_LEFT + 30, _LAND + 7) if stack.shell else None
        yield from stack.called("tool", (_LEFT + 30, _BASE - 18), wall)
    else:
        yield from stack.called("tool", ((_LEFT + _RIGHT) / 2, _BASE - 16))
    right = _ends(way, 1, 0.0)[0]
    yield from _port(stack, way, right)


def _below(stack: Stack) -> Iterator[str]:
    """Yield what lies under the tool: its bed, and what it stands on."""
    if "bed" in stack:
        bed = [(_LEFT - 12, _BASE + 4.5), (_RIGHT + 12, _BASE + 4.5)]
        yield line(bed, 5.0, "2 3", GREY)
        yield from stack.called("bed", (_SIDE, 192), (_LEFT - 8, _BASE + 4.5))
    for kind in ("table", "carrier"):
        if kind in stack:
            yield line([(44, _BASE + 13), (_WIDTH - 44, _BASE + 13)], 3.0)
            yield from stack.called(kind, (_SIDE, 217), (52, _BASE + 13))
    yield from stack.called("bag-below", (_LEFT + 46, 219), (_LEFT + 46, _BASE + 9.5))


def _edges(stack: Stack, start: float, end: float) -> Iterator[str]:
    """Yield dam and edge breather at both ends of the plies."""
    if "dam" in stack:
        for x in (start - 9, end + 3):
            yield block(x, _LAND - 13, 6, 10)
    if "edge-breather" in stack:
        for x, out in ((start, -1), (end, 1)):
            low, high = _LAND - 3, _LAND - 18
            points = [(x + out, low), (x + 14 * out, low), (x + 17 * out, high)]
            yield line(points, 2.4, "1.2 1.6", GREY)


def _ends(way: Way, side: Literal[-1, 1], inside: float) -> list[Point]:
    """Return how bag or, so far inside it, breather runs down from the part on one side."""
    edge = _LEFT if side < 0 else _RIGHT
    if way == "to the tool":
        return [(edge - (8 + 1.6 * inside) * side, _LAND - 3)]
    out = edge + (16 - inside) * side
    low = _BASE + (9.5 if inside == 0 else 4.5)
    return [(out + (10 if inside == 0 else 0) * side, low), (out, _LAND - 8)]


def _port(stack: Stack, way: Way, at: Point) -> Iterator[str]:
    """Yield sealant tape where the bag ends, and the port beside the part."""
    left = (_LEFT + _RIGHT - at[0], at[1])
    for x, y in (left, at) if way != "all round" else (at,):
        yield block(x - 5, y - 3, 10, 6)
    pipe = [(_RIGHT + 15, _LAND + 26), (_RIGHT + 37, _LAND + 14)]
    if way == "to the tool":
        pipe = [(_RIGHT - 24, _LAND - 6), (_RIGHT - 8, _LAND - 32)]
    if "port" in stack:
        yield line(pipe, 4.0)
        yield from stack.called("port", (_WIDTH - _SIDE, pipe[1][1] - 14), pipe[1])
    yield from stack.called("sealant", (_WIDTH - _SIDE, at[1] - 14), at)


# ---------------------------------------------------------------------- closed moulds


def _closed(stack: Stack, rise: float) -> Iterator[str]:
    """Yield two halves that close on the plies, in a bag all round them."""
    face, gap, roof = _face(rise), 6.0, 52.0
    lower = _along(face, _LEFT, _RIGHT)
    upper = [(x, y - gap) for x, y in lower]
    yield body([*lower, (_RIGHT, _BASE - 12), (_LEFT, _BASE - 12)])
    yield body([*upper, (_RIGHT, roof), (_LEFT, roof)])
    plies = [(x, y - gap / 2) for x, y in _along(face, _LEFT + _PART, _RIGHT - _PART)]
    yield line(plies, 4.5)
    if "edge-breather" in stack:
        for start, end in ((_LEFT, plies[0][0]), (plies[-1][0], _RIGHT)):
            between = [(start, _LAND - gap / 2), (end, _LAND - gap / 2)]
            yield line(between, 2.4, "1.2 1.6", GREY)
    for out, drawn in ((7.0, _LINES["breather"]), (13.0, _LINES["bag-film"])):
        x0, x1, y0, y1 = _LEFT - out, _RIGHT + out, roof - out, _BASE - 12 + out
        box = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
        yield line(box, drawn.width, drawn.dashes, drawn.colour)
    middle = (_LEFT + _RIGHT) / 2
    yield from stack.called("plies", (_SIDE, 100), plies[2])
    yield from stack.called("edge-breather", (_SIDE, 130), (_LEFT + 14, _LAND - gap / 2))
    yield from stack.called("upper-half", (middle, 66))
    yield from stack.called("tool", (_LEFT + 24, _BASE - 30))
    yield from stack.called("breather", (middle - 70, _TOP), (middle - 70, roof - 7))
    yield from stack.called("bag-film", (middle + 70, _TOP), (middle + 70, roof - 13))
    yield block(_RIGHT + 10, _LAND - 3, 10, 6)
    yield from stack.called("sealant", (_WIDTH - _SIDE, _LAND - 20), (_RIGHT + 15, _LAND))
    yield line([(_RIGHT + 8, 172), (_RIGHT + 34, 160)], 4.0)
    yield from stack.called("port", (_WIDTH - _SIDE, 154), (_RIGHT + 34, 160))
    low = _BASE - 5
    yield from stack.called("bed", (_LEFT + 40, 216), (_LEFT + 40, low))
    yield from stack.called("bag-below", (_LEFT + 90, 216), (_LEFT + 90, low + 6))


# ---------------------------------------------------------------------- closed parts


def _round(stack: Stack, inside: bool) -> Iterator[str]:
    """Yield a closed part: on its core, or lining its tool."""
    centre, across, down = ((_LEFT + _RIGHT) / 2, 118.0), 104.0, 50.0
    if inside:
        yield body([(_LEFT, 44), (_RIGHT, 44), (_RIGHT, 192), (_LEFT, 192)])
        yield from _outer_bag(stack)
    x0, y0 = centre
    fill = "#fff" if inside else "#e3e6e6"
    yield (
        f'<ellipse cx="{x0:.1f}" cy="{y0:.1f}" rx="{across:.1f}" ry="{down:.1f}" '
        f'fill="{fill}" stroke="#000" stroke-width="1.2"/>'
    )
    kinds = stack.lines()
    if inside:
        kinds = [one for one in kinds if one != "bag-film"]
        if "tube" not in stack:
            kinds = [one for one in kinds if one != "breather"]
    for n, kind in enumerate(kinds):
        drawn = _LINES[kind]
        by = -drawn.height if inside else drawn.height
        wide, high = across + by, down + by
        yield ring(centre, wide, high, drawn.width, drawn.dashes)
        x = x0 - 84 + 168 * n / max(1, len(kinds) - 1)
        y = y0 - high * max(0.0, 1 - ((x - x0) / wide) ** 2) ** 0.5
        yield from stack.called(kind, (x, _TOP), (x, y))
    yield from stack.called("tool", (_LEFT + 22, 174) if inside else centre)
    if not inside and "sealant" in stack:
        seam = (x0 + across + _LINES["bag-film"].height, y0)
        yield block(seam[0] - 3, y0 - 7, 6, 14)
        yield from stack.called("sealant", (_WIDTH - _SIDE, y0 - 44), seam)


def _outer_bag(stack: Stack) -> Iterator[str]:
    """Yield the bag round a tool that its part lines; a bolted mould has none."""
    if "bag-film" not in stack:
        yield line([(_LEFT, 118), (_RIGHT, 118)], 0.8, "6 3")
        return
    for out, drawn in ((6.0, _LINES["breather"]), (12.0, _LINES["bag-film"])):
        x0, x1, y0, y1 = _LEFT - out, _RIGHT + out, 44 - out, 192 + out
        box = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)]
        yield line(box, drawn.width, drawn.dashes, drawn.colour)
    yield from stack.called("bag-film", (_WIDTH - _SIDE, 80), (_RIGHT + 12, 90))
    yield from stack.called("bed", (_SIDE, 200), (_LEFT - 2, 198))


def _face(rise: float) -> Callable[[float], float]:
    """Return the height of the face over its base line, along the tool."""
    start, end = _LEFT + _PART, _RIGHT - _PART

    def height(x: float) -> float:
        if not start < x < end:
            return _LAND
        return _LAND + rise * (1 - cos(2 * pi * (x - start) / (end - start))) / 2

    return height


def _along(face: Callable[[float], float], start: float, end: float) -> list[Point]:
    step = (end - start) / _STEPS
    return [(start + n * step, face(start + n * step)) for n in range(_STEPS + 1)]
