"""Columns of numbers that stand with their decimal points one under the other."""

import re
from collections.abc import Iterable

from advisor.documents.units import Units, in_units

_FIGURE, _POINT = "\u2007", "\u2008"  # spaces as wide as a figure and as a point
_NUMBER = re.compile(r"(?P<whole>[−-]?\d+(?:\u202f\d{3})*)(?P<rest>\.\d+)?(?P<after>.*)")


def on_the_point(texts: Iterable[str], units: Units = "both") -> list[str]:
    r"""Return texts that begin with a number, with spaces so that their points align.

    Digits and spaces must be as wide as in the fonts of the package. Where nothing
    follows any of the numbers they are made equally long, to stand at either edge.

    Parameters
    ----------
    texts : iterable of str
        As the column holds them, from the top.
    units : {"both", "metric", "us"}
        Which of two units is printed where a number has both.

    Examples
    --------
    >>> [one.replace("\u2007", "_") for one in on_the_point(["4.6 m", "12 m"])]
    ['_4.6 m', '12 m']
    """
    kept = [in_units(text, units) for text in texts]
    found = [_NUMBER.fullmatch(text) for text in kept]
    widest = max((one["whole"] for one in found if one), key=len, default="")
    bare = all(one and not one["after"] for one in found)
    rests = [one["rest"] or "" for one in found if one and bare]
    longest = max(rests, key=len, default="")
    return [
        _spaces(widest[: len(widest) - len(one["whole"])])
        + text
        + _spaces(longest[len(one["rest"] or "") :])
        if one
        else text
        for one, text in zip(found, kept, strict=True)
    ]


def _spaces(figures: str) -> str:
    """Return spaces as wide as figures, their thin spaces and their point."""
    return re.sub(r"\d|[−-]", _FIGURE, figures).replace(".", _POINT)
