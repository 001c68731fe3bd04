"""A sketch of tool, part, release, edge and bag in section; it shows order, not scale."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import cos, pi
from xml.sax.saxutils import escape

from advisor.plan import Plan

_WIDTH, _HEIGHT = 400, 214
_LEFT, _RIGHT = 56.0, 326.0  # of the tool
_LAND, _BASE = 128.0, 190.0  # height of the land, and of the tool's underside
_RISE = 58.0  # how far a shape stands over its land, or lies under it
_PART = 46.0  # land outside the part, on each side
_PAST = 14.0  # the release runs so far past the part
_STEPS = 48

Point = tuple[float, float]


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
    shape, side = plan.job["part"]["shape"], plan.job["part"]["tool_side"] or "female"
    layers = [
        ("Bag film", 22.0),
        ("Breather", 15.0),
        ("Release film over the plies", 9.0),
        ("Part, its plies", 5.0),
        (names["release", plan.route.release], 1.5),
        (names["tool", plan.route.tool], 0.0),
    ]
    around = plan.route.bagging in ("bag-to-table", "envelope")
    if shape == "closed" and side == "male":
        kind, bag = "closed part on its core", "the bag goes all round"
        drawn = _ring([offset for _, offset in layers])
    else:
        rise = {"flat": 0.0}.get(shape or "flat", -_RISE if side == "male" else _RISE)
        kind = f"{'flat' if shape == 'flat' else side} tool"
        bag = (
            "the bag goes down round the tool"
            if around
            else "the bag is taped to the tool outside it"
        )
        drawn = _section([offset for _, offset in layers], rise, around)
    words = (
        f"Section through a {kind}. From outside: "
        + "; ".join(name for name, _ in layers)
        + f". The release runs past the plies; {bag}."
    )
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDTH} {_HEIGHT}" '
        f'class="sketch" role="img"><title>{escape(words)}</title>{"".join(drawn)}</svg>'
    )
    return Sketch(svg, (*(name for name, _ in layers), "Sealant tape"), words)


def _ring(offsets: Sequence[float]) -> Iterator[str]:
    """Yield the section of a closed part, which goes all round its core."""
    centre, height = 190.0, 122.0
    styles = (
        "stroke-width='1.6'",
        "stroke-width='5' stroke='#8a9294' stroke-dasharray='2 3'",
        "stroke-width='1'",
        "stroke-width='5'",
        "stroke-width='2.4' stroke-dasharray='1.5 2'",
    )
    yield (
        f'<ellipse cx="{centre}" cy="{height}" rx="110" ry="52" fill="#e3e6e6" '
        'stroke="#000" stroke-width="1.2"/>'
    )
    for n, (offset, style) in enumerate(zip(offsets, styles, strict=False)):
        across, down = 110 + offset, 52 + offset
        yield (
            f'<ellipse cx="{centre}" cy="{height}" rx="{across}" ry="{down}" '
            f'fill="none" {_stroked(style)}/>'
        )
        x = centre - 82 + 41 * n
        top = height - down * (1 - ((x - centre) / across) ** 2) ** 0.5
        yield from _number(n + 1, (x, top), (x, 16))
    yield from _number(6, None, (centre, height))
    seam = (centre + 110 + offsets[0], height)
    yield f'<rect x="{seam[0] - 3:.1f}" y="{height - 7}" width="6" height="14"/>'
    yield from _number(7, seam, (_WIDTH - 40, height - 50))


def _section(offsets: Sequence[float], rise: float, round_the_tool: bool) -> Iterator[str]:
    """Yield the section of a tool with its land, under its bag."""
    face = _face(rise)
    inner = (_LEFT + _PART, _RIGHT - _PART)
    past = (inner[0] - _PAST, inner[1] + _PAST)
    outline = [*_along(face, _LEFT, _RIGHT), (_RIGHT, _BASE), (_LEFT, _BASE)]
    yield f'<path d="{_path(outline)}Z" fill="#e3e6e6" stroke="#000" stroke-width="1.2"/>'
    bag, breather, film, part, release, _ = offsets
    yield _line(
        _raised(face, *past, release), "stroke-width='2.4' stroke-dasharray='1.5 2'"
    )
    yield _line(_raised(face, *inner, part), "stroke-width='5'")
    yield _line(_raised(face, inner[0] - 4, inner[1] + 4, film), "stroke-width='1'")
    breathed = _raised(face, inner[0] - 6, inner[1] + 6, breather)
    yield _line(breathed, "stroke-width='5' stroke='#8a9294' stroke-dasharray='2 3'")
    over = _raised(face, inner[0] - 8, inner[1] + 8, bag)
    if round_the_tool:
        ends = [(_LEFT - 22, _BASE), (_LEFT - 8, _LAND - 8)]
        others = [(_RIGHT + 8, _LAND - 8), (_RIGHT + 22, _BASE)]
        taped = (_LEFT - 22, _RIGHT + 22)
        yield _line([(_LEFT - 46, _BASE), (_RIGHT + 46, _BASE)], "stroke-width='2.4'")
        height = _BASE
    else:
        ends, others = [(_LEFT + 10, _LAND - 3)], [(_RIGHT - 10, _LAND - 3)]
        taped, height = (_LEFT + 10, _RIGHT - 10), _LAND
    yield _line([*ends, *over, *others], "stroke-width='1.6'")
    for x in taped:
        yield f'<rect x="{x - 5:.1f}" y="{height - 5:.1f}" width="10" height="5"/>'
    for n, offset in enumerate((bag, breather, film, part, release)):
        x = _LEFT + _PART + 16 + 41 * n
        yield from _number(n + 1, (x, face(x) - offset), (x, 16))
    yield from _number(6, None, ((_LEFT + _RIGHT) / 2, _BASE - 18))
    yield from _number(7, (taped[1], height - 3), (_WIDTH - 16, height - 40))


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


def _raised(
    face: Callable[[float], float], start: float, end: float, by: float
) -> list[Point]:
    return [(x, y - by) for x, y in _along(face, start, end)]


def _path(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in points)


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
