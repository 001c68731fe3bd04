"""Film in strips over a double curve: across the face, and laid out flat."""

from collections.abc import Iterator
from math import cos, pi, sin

from advisor.documents.pictures.svg import (
    Picture,
    Point,
    block,
    label,
    line,
    picture,
    size,
    text,
)
from advisor.measures import in_styles, phrase
from advisor.plan import Plan, StripsRecord

_WIDTH = 440.0
_FROM, _TO = 46.0, 346.0
_RINGED, _NUMBERED = 25.0, 11.0  # width of a strip that has room for its number


def film_strips(plan: Plan) -> Picture | None:
    """Return the film strips of a plan; None where the face takes no film in strips.

    Parameters
    ----------
    plan : Plan
        The decision to draw.
    """
    strips = plan.strips
    if strips is None:
        return None
    words = phrase(
        "Film in {n:number} strips along the face, their middle lines {apart:length} apart "
        "round it, each lapped {lap:length} on the next. Above: across the face. Below: "
        "laid out flat; the numbers are the order of laying, middle strip first.",
        n=strips.count,
        apart=strips.apart / 1000,
        lap=strips.lap / 1000,
    )
    return picture([*_across(strips), *_flat(strips)], _WIDTH, words)


def order_of_laying(count: int) -> list[int]:
    """Return for each strip from one side to the other when it is laid, from 1.

    Examples
    --------
    >>> order_of_laying(5)
    [4, 2, 1, 3, 5]
    >>> order_of_laying(4)
    [3, 1, 2, 4]
    """
    middle = (count - 1) / 2
    by_distance = sorted(range(count), key=lambda n: (abs(n - middle), n))
    return [by_distance.index(n) + 1 for n in range(count)]


def _arc(share: float, out: float) -> Point:
    """Return a point of the face, at a share of its girth, so far outside it."""
    angle = pi * (0.86 - 0.72 * share)
    across, up = (_TO - _FROM) / 2 / cos(pi * 0.14), 74.0
    return (
        (_FROM + _TO) / 2 + (across + out) * cos(angle),
        112.0 - (up + out) * sin(angle),
    )


def _across(strips: StripsRecord) -> Iterator[str]:
    """Yield the face in section, with its strips over it in turns."""
    count, lap = strips.count, strips.lap / strips.girth / 2
    yield line([_arc(n / 60, 0.0) for n in range(61)], 1.2)
    for strip in range(count):
        start, end = strip / count - lap, (strip + 1) / count + lap
        start, end = max(0.0, start), min(1.0, end)
        out = 5.0 if strip % 2 else 9.0
        shares = [start + (end - start) * n / 12 for n in range(13)]
        yield line([_arc(share, out) for share in shares], 2.4)


def _flat(strips: StripsRecord) -> Iterator[str]:
    """Yield the strips laid out flat, with middle lines and the order of laying."""
    top, bottom = 132.0, 206.0
    apart = (_TO - _FROM) / strips.count
    lap = strips.lap / strips.girth * (_TO - _FROM)
    yield line([(_FROM, top), (_TO, top), (_TO, bottom), (_FROM, bottom), (_FROM, top)], 1)
    for strip, order in enumerate(order_of_laying(strips.count)):
        x = _FROM + strip * apart
        if strip:
            yield block(x - lap / 2, top, max(lap, 0.8), bottom - top, "#cdd2d2")
        yield line([(x + apart / 2, top), (x + apart / 2, bottom)], 0.5, "5 3")
        where = (x + apart / 2, (top + bottom) / 2)
        if apart > _RINGED:
            yield from label(str(order), where)
        elif apart > _NUMBERED:
            yield text(str(order), (where[0], where[1] + (-6 if strip % 2 else 12)))
    yield from size((_FROM, bottom + 18), (_TO, bottom + 18), in_styles(strips.girth, "mm"))
    yield text("round", (_FROM - 6, bottom + 21), anchor="end")
    yield text("along", (_TO + 8, top + 34), anchor="start")
    yield text(in_styles(strips.length, "mm"), (_TO + 8, top + 46), 8.0, anchor="start")
