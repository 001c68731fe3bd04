"""A sketch of tool, part, release, edge and bag in section; it shows order, not scale.

A bag that goes through the part, blows up inside it, or is none (tape wound on, a mould
that closes) is not drawn: its step lists it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi
from typing import Literal
from xml.sax.saxutils import escape

from advisor.plan import Plan

_WIDTH, _HEIGHT = 400, 214
_LEFT, _RIGHT = 56.0, 326.0  # of the tool
_LAND, _BASE = 128.0, 190.0  # height of the land, and of the tool's underside
_RISE = 58.0  # how far a shape stands over its land, or lies under it
_PART = 46.0  # land outside the part, on each side
_PAST = 14.0  # the release runs so far past the part
_STEPS = 48

How = Literal["tool", "table", "round", "not drawn"]
_BAGS: dict[str, How] = {
    "bag-to-tool": "tool",
    "autoclave-bag": "tool",
    "bag-to-table": "table",
    "envelope": "round",
    "autoclave-envelope": "round",
}
_BAG_WORDS: dict[How, str] = {
    "tool": "the bag is taped to the tool outside it",
    "table": "the bag goes down round the tool to the table",
    "round": "the bag goes all round the tool",
    "not drawn": "the bag is not drawn: its step lists it, layer by layer",
}
# The layers of a bag over the plies: name, height over the face, how it is drawn.
_OF_THE_BAG = (
    ("Bag film", 22.0, "stroke-width='1.6'"),
    ("Breather", 15.0, "stroke='#8a9294' stroke-width='5' stroke-dasharray='2 3'"),
    ("Release film over the plies", 9.0, "stroke-width='1'"),
)
_PLIES = ("Part, its plies", 5.0, "stroke-width='5'")
_RELEASE = "stroke-width='2.4' stroke-dasharray='1.5 2'"

Point = tuple[float, float]
Layer = tuple[str, float, str]


@dataclass(frozen=True)
class Sketch:
    """The sketch as SVG, its numbered layers, and all in words for who cannot see it."""

    svg: str
    layers: tuple[str, ...]
    words: str


def sketch(plan: Plan) -> Sketch:
    """Return the section of the route of a plan.

    Raises
    ------
    ValueError
        If the plan has no route.
    """
    if plan.route is None:
        raise ValueError("a plan without a route has nothing to draw")
    names = {(one.stage, one.id): one.name for one in plan.options}
    release = (names["release", plan.route.release], 1.5, _RELEASE)
    tool = names["tool", plan.route.tool]
    shape, side = plan.job["part"]["shape"], plan.job["part"]["tool_side"] or "female"
    how = _BAGS.get(plan.route.bagging, "not drawn")
    if shape == "closed" and side == "female":
        how = "not drawn"
    layers: tuple[Layer, ...] = (_PLIES, release)
    if how != "not drawn":
        layers = (*_OF_THE_BAG, *layers)
    if shape == "closed":
        kind = "closed part on its core" if side == "male" else "closed part in its tool"
        drawn = _ring(layers, inside=side == "female", taped=how != "not drawn")
    else:
        kind = "flat tool" if shape == "flat" else f"{side} tool"
        rise = 0.0 if shape == "flat" else -_RISE if side == "male" else _RISE
        drawn = _section(layers, rise, how)
    shown = (*(name for name, _, _ in layers), tool)
    shown += ("Sealant tape",) if how != "not drawn" else ()
    words = (
        f"Section through a {kind}: {'; '.join(shown)}. The release runs past the plies; "
        f"{_BAG_WORDS[how]}."
    )
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDTH} {_HEIGHT}" '
        f'class="sketch" role="img"><title>{escape(words)}</title>{"".join(drawn)}</svg>'
    )
    return Sketch(svg, shown, words)


# ---------------------------------------------------------------------- closed parts


def _ring(layers: Sequence[Layer], *, inside: bool, taped: bool) -> Iterator[str]:
    """Yield the section of a closed part, on its core or inside of its tool."""
    x0, y0 = 190.0, 122.0
    if inside:
        yield _filled([(50, 44), (330, 44), (330, 200), (50, 200)])
    yield (
        f'<ellipse cx="{x0}" cy="{y0}" rx="110" ry="52" '
        f'fill="{"#fff" if inside else "#e3e6e6"}" stroke="#000" stroke-width="1.2"/>'
    )
    for n, (_, offset, style) in enumerate(layers):
        by = -offset if inside else offset
        across, down = 110 + by, 52 + by
        yield (
            f'<ellipse cx="{x0}" cy="{y0}" rx="{across}" ry="{down}" fill="none" '
            f"{_stroked(style)}/>"
        )
        x = x0 - 82 + 41 * n
        top = y0 - down * (1 - ((x - x0) / across) ** 2) ** 0.5
        yield from _number(n + 1, (x, top), (x, 16))
    yield from _number(len(layers) + 1, None, (70, 186) if inside else (x0, y0))
    if taped:
        seam = (x0 + 110 + layers[0][1], y0)
        yield f'<rect x="{seam[0] - 3:.1f}" y="{y0 - 7}" width="6" height="14"/>'
        yield from _number(len(layers) + 2, seam, (_WIDTH - 40, y0 - 50))


# ---------------------------------------------------------------------- open parts


def _section(layers: Sequence[Layer], rise: float, how: How) -> Iterator[str]:
    """Yield the section of a tool with its land, under its bag."""
    face = _face(rise)
    start, end = _LEFT + _PART, _RIGHT - _PART
    yield _filled([*_along(face, _LEFT, _RIGHT), (_RIGHT, _BASE), (_LEFT, _BASE)])
    for n, (name, offset, style) in enumerate(layers):
        out = _PAST if style is _RELEASE else -4 if name == _PLIES[0] else 4
        points = [(x, y - offset) for x, y in _along(face, start - out, end + out)]
        if name == "Bag film":
            points = [*_down(how, -1), *points, *reversed(_down(how, 1))]
        yield _line(points, style)
        x = start + 16 + 41 * n
        yield from _number(n + 1, (x, face(x) - offset), (x, 16))
    yield from _number(len(layers) + 1, None, (_LEFT + 22, _BASE - 18))
    if how == "not drawn":
        return
    if how == "round":
        yield _line([_down(how, -1)[0], _down(how, 1)[0]], _OF_THE_BAG[0][2])
    if how == "table":
        yield _line([(_LEFT - 46, _BASE), (_RIGHT + 46, _BASE)], "stroke-width='2.4'")
    left, right = _down(how, -1)[0], _down(how, 1)[0]
    for x, y in (left, right) if how != "round" else (right,):
        yield f'<rect x="{x - 5:.1f}" y="{y - 2:.1f}" width="10" height="5"/>'
    yield from _number(len(layers) + 2, right, (_WIDTH - 16, right[1] - 40))


def _down(how: How, side: Literal[-1, 1]) -> list[Point]:
    """Return how the bag runs from its tape up to the part, on one side."""
    edge = _LEFT if side < 0 else _RIGHT
    if how == "tool":
        return [(edge - 10 * side, _LAND - 3)]
    if how == "table":
        return [(edge + 22 * side, _BASE - 3), (edge + 8 * side, _LAND - 8)]
    up = [(edge + 14 * side, _BASE - 20), (edge + 8 * side, _LAND - 8)]
    return [(edge + 14 * side, _BASE + 9), *up]


def _face(rise: float) -> Callable[[float], float]:
    start, end = _LEFT + _PART - 18, _RIGHT - _PART + 18

    def height(x: float) -> float:
        if not start < x < end:
            return _LAND
        share = (x - start) / (end - start)
        return _LAND + rise * float((0.5 - 0.5 * cos(2 * pi * share)) ** 0.6)

    return height


def _along(face: Callable[[float], float], start: float, end: float) -> list[Point]:
    step = (end - start) / _STEPS
    return [(start + n * step, face(start + n * step)) for n in range(_STEPS + 1)]


# ---------------------------------------------------------------------- marks


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)


def _filled(points: Sequence[Point]) -> str:
    return f'<path d="{_path(points)}Z" fill="#e3e6e6" stroke="#000" stroke-width="1.2"/>'


def _line(points: Sequence[Point], style: str) -> str:
    return f'<path d="{_path(points)}" fill="none" {_stroked(style)}/>'


def _stroked(style: str) -> str:
    """Return the attributes of a line; black, where nothing else is said."""
    return style if "stroke=" in style else f"stroke='#000' {style}"


def _number(n: int, at: Point | None, where: Point) -> Iterator[str]:
    """Yield the number of a layer, with a line to it where one is needed."""
    x, y = where
    if at is not None:
        yield _line([at, where], "stroke-width='0.8'")
        yield f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="2.4"/>'
    yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="11" fill="#fff" stroke="#000"/>'
    place = f'x="{x:.1f}" y="{y + 5.5:.1f}"'
    yield f'<text {place} font-size="16" text-anchor="middle">{n}</text>'
