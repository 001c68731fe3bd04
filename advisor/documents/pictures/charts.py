"""Charts as SVG in black: lines told apart by dashes and marks, in the page's own font."""

import io
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from xml.sax.saxutils import escape

from markupsafe import Markup

from advisor.documents.pictures.svg import Picture

_SIZE_IN = (6.7, 2.9)
_FONT = "Plan Sans, sans-serif"


@contextmanager
def chart() -> Iterator[tuple[Any, Any]]:
    """Give a figure and its plot, of the size of a chart on the page."""
    from matplotlib import rc_context
    from matplotlib.figure import Figure

    settings: Any = {
        "svg.hashsalt": "advisor",
        "svg.fonttype": "none",
        "font.size": 7.5,
        "text.parse_math": False,
    }
    with rc_context(settings):
        figure = Figure(figsize=_SIZE_IN, layout="constrained")
        plot = figure.add_subplot()
        plot.spines[["top", "right"]].set_visible(False)
        yield figure, plot


def pictured(figure: Any, words: str, name: str) -> Picture:
    """Return a figure as a picture to stand inside a page, its marks named by it."""
    content = io.BytesIO()
    figure.savefig(content, format="svg", metadata={"Date": None})
    svg = content.getvalue().decode()
    body = svg[svg.index("<svg") :]
    body = re.sub(r"<(metadata|style)\b.*?</\1>", "", body, flags=re.DOTALL)
    body = re.sub(r'style="([^"]*)"', _as_attributes, body)
    body = re.sub(r'(\bid="|href="#|url\(#)', rf"\g<1>{name}-", body)
    head, _, rest = body.partition(">")
    head = re.sub(r' (?:width|height)="[^"]*"', "", head)
    named = f'{head} class="chart" role="img"><title>{escape(words)}</title>{rest}'
    return Picture(Markup(named), words, words)


def _as_attributes(style: re.Match[str]) -> str:
    """Return what a style sets as attributes of its own, which every reader knows."""
    told = (one.partition(":") for one in style[1].split(";") if ":" in one)
    set_to = {name.strip(): value.strip() for name, _, value in told}
    if "font-family" in set_to:
        set_to["font-family"] = _FONT
    return " ".join(f'{name}="{value}"' for name, value in set_to.items())
