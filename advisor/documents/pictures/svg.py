"""Marks of a drawing in SVG: lines, bodies, numbers, arrows and sizes, all in black."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, hypot, sin
from xml.sax.saxutils import escape

from markupsafe import Markup

Point = tuple[float, float]

BODY = "#e3e6e6"
_WALL = 8.0  # of a shell
_ROOM = 3.0  # above and below all marks
GREY = "#8a9294"


@dataclass(frozen=True)
class Picture:
    """A picture as SVG, what it shows in words for who cannot see it, and a caption."""

    svg: Markup
    words: str
    caption: str


def picture(marks: Iterable[str], width: float, words: str, caption: str = "") -> Picture:
    """Return marks as a picture of a width in units of its own, as high as they need.

    The caption is what it shows in words, unless it is given.
    """
    drawn = "".join(marks)
    top, foot = _reach(drawn)
    frame = f"0 {top:.1f} {width:g} {foot - top:.1f}"
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{frame}" class="drawing" '
        f'role="img"><title>{escape(words)}</title>{drawn}</svg>'
    )
    return Picture(Markup(svg), words, caption or words)


def _reach(marks: str) -> tuple[float, float]:
    """Return the heights of the uppermost and of the lowest mark, with some room."""
    heights: list[float] = []
    for path in re.findall(r' d="([^"]+)"', marks):
        heights += [float(y) for y in re.findall(r" (-?[\d.]+)", path)]
    for y, radius in re.findall(r'cy="(\S+)" r(?:x="\S+" ry)?="(\S+)"', marks):
        heights += [float(y) - float(radius), float(y) + float(radius)]
    for y, height in re.findall(r'<rect \S+ y="(\S+)" \S+ height="(\S+)"', marks):
        heights += [float(y), float(y) + float(height)]
    for y, size in re.findall(r'<text \S+ y="(\S+)" font-size="(\S+)"', marks):
        heights += [float(y) - float(size), float(y) + 0.3 * float(size)]
    return min(heights) - _ROOM, max(heights) + _ROOM


def path_of(points: Sequence[Point]) -> str:
    """Return points as the path through them."""
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)


def line(
    points: Sequence[Point], width: float, dashes: str = "", colour: str = "#000"
) -> str:
    """Return a line through points."""
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return (
        f'<path d="{path_of(points)}" fill="none" stroke="{colour}" '
        f'stroke-width="{width:g}"{dashed}/>'
    )


def body(points: Sequence[Point], fill: str = BODY) -> str:
    """Return a closed body through points."""
    return (
        f'<path d="{path_of(points)}Z" fill="{fill}" stroke="#000" stroke-width="1.2" '
        'stroke-linejoin="round"/>'
    )


def body_under(face: Sequence[Point], base: float, *, shell: bool) -> list[Point]:
    """Return the outline of a tool under its face: solid, or a wall with feet.

    Parameters
    ----------
    face : sequence of point
        From one end of the tool to the other.
    base : float
        Height of its underside.
    shell : bool
        Whether it is a wall of even thickness.
    """
    (start, _), (end, _) = face[0], face[-1]
    outside = [(start, base), *face, (end, base)]
    return [*outside, *reversed(_beside(outside, _WALL))] if shell else outside


def _beside(points: Sequence[Point], apart: float) -> list[Point]:
    """Return the line so far to the right of one through points, its corners mitred."""
    at = [complex(*point) for point in dict.fromkeys(points)]
    normals = [1j * (b - a) / abs(b - a) for a, b in pairwise(at)]
    corners = zip(at, [normals[0], *normals], [*normals, normals[-1]], strict=True)
    moved = [p + apart * (m + n) / (1.0 + (m * n.conjugate()).real) for p, m, n in corners]
    return [(p.real, p.imag) for p in moved]


def ring(centre: Point, across: float, down: float, width: float, dashes: str = "") -> str:
    """Return an ellipse as a line."""
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return (
        f'<ellipse cx="{centre[0]:.1f}" cy="{centre[1]:.1f}" rx="{across:.1f}" '
        f'ry="{down:.1f}" fill="none" stroke="#000" stroke-width="{width:g}"{dashed}/>'
    )


def block(x: float, y: float, width: float, height: float, fill: str = "#000") -> str:
    """Return a filled rectangle."""
    return (
        f'<rect x="{x:.1f}" y="{y:.1f}" width="{width:.1f}" height="{height:.1f}" '
        f'fill="{fill}"/>'
    )


def spot(at: Point, *, hollow: bool = False) -> str:
    """Return a spot at a point, or a ring."""
    fill = ' fill="#fff" stroke="#000"' if hollow else ""
    return f'<circle cx="{at[0]:.1f}" cy="{at[1]:.1f}" r="{2.8 if hollow else 2.2}"{fill}/>'


def text(words: str, at: Point, size: float = 9.5, anchor: str = "middle") -> str:
    """Return words at a point, the foot of their letters on it."""
    return (
        f'<text x="{at[0]:.1f}" y="{at[1]:.1f}" font-size="{size:g}" '
        f'text-anchor="{anchor}">{escape(words)}</text>'
    )


def label(words: str, where: Point, at: Point | None = None) -> Iterator[str]:
    """Yield a short label in a ring, with a line to what it names where one is needed."""
    x, y = where
    if at is not None:
        yield line([at, where], 0.7)
        yield spot(at)
    yield f'<circle cx="{x:.1f}" cy="{y:.1f}" r="11.5" fill="#fff" stroke="#000"/>'
    yield text(words, (x, y + 5.2), 14.5)


def arrow(start: Point, end: Point, width: float = 1.6) -> Iterator[str]:
    """Yield an arrow from a point to another."""
    angle = atan2(end[1] - start[1], end[0] - start[0])
    head = min(7.0, hypot(end[0] - start[0], end[1] - start[1]))
    back = (end[0] - head * cos(angle), end[1] - head * sin(angle))
    side = (0.45 * head * sin(angle), -0.45 * head * cos(angle))
    yield line([start, back], width)
    tip = [
        end,
        (back[0] + side[0], back[1] + side[1]),
        (back[0] - side[0], back[1] - side[1]),
    ]
    yield f'<path d="{path_of(tip)}Z"/>'


def size(start: Point, end: Point, words: str, above: float = 4.0) -> Iterator[str]:
    """Yield a size along a line between two points, its words beside the middle."""
    yield line([start, end], 0.6)
    angle = atan2(end[1] - start[1], end[0] - start[0])
    tick = (3.0 * sin(angle), -3.0 * cos(angle))
    for x, y in (start, end):
        yield line([(x - tick[0], y - tick[1]), (x + tick[0], y + tick[1])], 0.6)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    if abs(cos(angle)) > 0.7:
        yield text(words, (middle[0], middle[1] - above))
    else:
        yield text(words, (middle[0] - above, middle[1] + 3.0), anchor="end")
