"""Tool and part from the side: sizes, draft, how they part, and the thermocouples."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import radians, tan
from typing import Any

from advisor.documents.pictures.svg import (
    Picture,
    Point,
    arrow,
    body,
    body_under,
    line,
    picture,
    size,
    spot,
    text,
)
from advisor.measures import in_styles, to_si
from advisor.plan import Plan

_WIDTH = 440.0
_FROM, _TO = 146.0, 360.0  # of the part
_FOOT = 30.0  # land outside the part
_LAND, _BASE = 132.0, 166.0
_LEAST, _MOST = 14.0, 84.0  # depth as drawn

_BESIDE = ("thickest", "spread")  # thermocouples before or behind the plane of drawing

_PARTING = {
    "one-piece": "the part comes off the tool along the arrow",
    "loose-piece": "the part comes off along the arrow and takes the loose pieces with it",
    "split": "the tool opens along the arrows and lets the part go",
    "break-out": "the tool is broken out of the part",
    "wash-out": "the tool is washed out of the part",
}


@dataclass(frozen=True)
class _Form:
    """A part as it is drawn: from x to x, its depth, and how far its sides lean in."""

    kind: str
    deep: float
    lean: float
    to_scale: bool

    @property
    def land(self) -> float:
        """Height of the land; a female tool is raised to leave room below it."""
        return _LAND - 0.62 * self.deep if self.kind == "female" else _LAND

    @property
    def bottom(self) -> float:
        """Height of the face at the full depth of the part."""
        return self.land + (-self.deep if self.kind == "male" else self.deep)

    @property
    def base(self) -> float:
        """Height of the tool's underside."""
        return self.bottom + 24.0 if self.kind == "female" else _BASE


def side_view(plan: Plan) -> Picture:
    """Return tool and part of a plan from the side.

    Parameters
    ----------
    plan : Plan
        With a route, and so with the size of the part.

    Raises
    ------
    ValueError
        If the plan has no route.
    """
    if plan.route is None:
        raise ValueError("a plan without a route has nothing to draw")
    part = plan.job["part"]
    form = _form(part)
    parting = _PARTING[plan.route.construction]
    scale = "depth and length to one scale" if form.to_scale else "not to scale"
    words = f"Tool and part from the side, {scale}: {parting}."
    if form.lean and part["shape"] == "double-curvature":
        words += " The sides are drawn at the least draft."
    if plan.thermocouples:
        words += (
            " T with a number: a thermocouple, as its step numbers them; a ring: in "
            "waste or outside the edge level with it, or on the last ply, never in the "
            "part."
        )
    core = form.kind == "core"
    marks = [
        *(_core() if core else _tool(form, shell=any(one.shell for one in plan.stack))),
        *_sizes(part, form),
        *_parting(plan.route.construction, form),
        *_thermocouples(plan, form),
    ]
    return picture(marks, _WIDTH, words)


def _form(part: Mapping[str, Any]) -> _Form:
    shape, side = part["shape"], part["tool_side"] or "female"
    if shape == "closed" and side == "male":
        return _Form("core", 0.0, 0.0, to_scale=False)
    length, depth = (_metres(part[key]) for key in ("length", "depth"))
    true = depth / length * (_TO - _FROM) if length else 0.0
    deep = 0.0 if shape == "flat" or not true else min(_MOST, max(_LEAST, true))
    draft = part["draft"]["value"] if part["draft"] else 0.0
    lean = min(60.0, deep * tan(radians(min(max(draft, 0.0), 60.0))))
    kind = "flat" if not deep else side
    return _Form(kind, deep, lean, to_scale=deep == true and deep > 0)


def _metres(quantity: Mapping[str, Any] | None) -> float:
    return to_si(quantity["value"], quantity["unit"]) if quantity else 0.0


def _outline(form: _Form) -> list[Point]:
    """Return the face of the tool from one end of its land to the other."""
    land = form.land
    return [
        (_FROM - _FOOT, land),
        (_FROM, land),
        (_FROM + form.lean, form.bottom),
        (_TO - form.lean, form.bottom),
        (_TO, land),
        (_TO + _FOOT, land),
    ]


def _tool(form: _Form, *, shell: bool) -> Iterator[str]:
    face = _outline(form)
    yield body(body_under(face, form.base, shell=shell))
    laid = [(x, y - 3.0) for x, y in face]
    start, end = (_FROM - 14, form.land - 3.0), (_TO + 14, form.land - 3.0)
    yield line([start, *laid[1:-1], end], 4.0)


def _core() -> Iterator[str]:
    yield body([(60, 84), (380, 84), (380, 136), (60, 136)])
    for y in (81.0, 139.0):
        yield line([(_FROM, y), (_TO, y)], 4.5)
    yield line([(48, 110), (392, 110)], 0.6, "8 3 2 3")


def _sizes(part: Mapping[str, Any], form: _Form) -> Iterator[str]:
    long, deep, draft = part["length"], part["depth"], part["draft"]
    foot = 188.0 if form.kind == "core" else form.base + 20.0
    if long:
        words = in_styles(long["value"], long["unit"])
        yield from size((_FROM, foot), (_TO, foot), words)
    if form.kind not in ("male", "female"):
        return
    land, far = form.land, form.bottom
    if deep:
        x = _FROM - _FOOT - 12
        yield from size((x, land), (x, far), in_styles(deep["value"], deep["unit"]))
    if draft:
        yield line([(_TO, land), (_TO, far)], 0.6, "3 2")
        inside = 16 if form.kind == "male" else 6  # the wall of a male shell is there
        where = (_TO - form.lean - inside, (land + far) / 2 + 3)
        yield text(in_styles(draft["value"], draft["unit"]), where, anchor="end")


def _parting(construction: str, form: _Form) -> Iterator[str]:
    middle = (_FROM + _TO) / 2
    if construction in ("break-out", "wash-out"):
        yield text(f"{_PARTING[construction]}", (middle, 24), 10.5)
        return
    if form.kind == "core":
        if construction == "split":
            yield line([(middle, 74), (middle, 146)], 0.8, "6 3")
            yield from arrow((middle - 20, 60), (middle - 70, 60))
            yield from arrow((middle + 20, 60), (middle + 70, 60))
        else:
            yield from arrow((384, 110), (424, 110))
        return
    if construction == "split":
        low = form.base
        yield line([(middle, form.land - 8), (middle, low + 4)], 0.9, "6 3")
        for out in (-1, 1):
            y = low - 8
            yield from arrow((middle + 12 * out, y), (middle + 52 * out, y))
        return
    top = form.bottom - 10 if form.kind == "male" else form.land - 14
    yield from arrow((middle, top), (middle, max(8.0, top - 34)), 2.2)


def _thermocouples(plan: Plan, form: _Form) -> Iterator[str]:
    """Yield each kind of place once, with the numbers of what stands there."""
    if plan.thermocouples is None:
        return
    at = _places(form)
    for place in plan.thermocouples.places:
        where, point = at[place.kind]
        words = f"T{place.first}"
        if place.last > place.first:
            words += f"–{place.last}"
        yield line([point, where], 0.7)
        yield spot(point, hollow=place.kind in _BESIDE)
        x, y = where
        wide = 9.0 + 5.5 * len(words)
        yield (
            f'<rect x="{x - wide / 2:.1f}" y="{y - 8:.1f}" width="{wide:.1f}" height="16" '
            'rx="3" fill="#fff" stroke="#000"/>'
        )
        yield text(words, (x, y + 3.8), 10.5)


def _places(form: _Form) -> dict[str, tuple[Point, Point]]:
    """Return for each kind of place where its label stands, and what it points to."""
    if form.kind == "core":
        return {
            "thickest": ((200, 50), (200, 82)),
            "edge": ((112, 50), (_FROM + 3, 82)),
            "farthest": ((322, 50), (_TO - 3, 82)),
            "spread": ((266, 50), (266, 82)),
            "air": ((400, 50), (400, 66)),
            "core": ((150, 122), (180, 110)),
            "underside": ((300, 158), (270, 142)),
        }
    land, base, face = form.land, form.base, form.bottom
    quarter = _FROM + 0.3 * (_TO - _FROM)
    return {
        "thickest": (
            (_TO - 78, land - 46 - (form.kind == "male") * form.deep * 0.6),
            (_TO - 92, face - 5),
        ),
        "edge": ((_FROM - 26, land - 30), (_FROM - 12, land - 4)),
        "farthest": ((_TO + 40, land - 30), (_TO + 12, land - 4)),
        "spread": (
            (quarter - 30, land - 46 - (form.kind == "male") * form.deep * 0.6),
            (quarter, face - 5),
        ),
        "air": ((_WIDTH - 26, land - 58), (_WIDTH - 26, land - 36)),
        "core": ((_FROM + 66, base - 12), (_FROM + 100, base - 16)),
        "underside": ((_TO - 40, base + 2), (_TO - 66, base)),
    }
