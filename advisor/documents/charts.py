"""Charts of a plan as SVG in black, told apart by dashes and marks, each with its words."""

import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape

from markupsafe import Markup

from advisor.measures import in_sentence, phrase
from advisor.plan import Plan, RouteRecord
from advisor.routes import RUN_LENGTHS

_LINES: tuple[dict[str, Any], ...] = (
    {"linestyle": "-", "marker": "o", "linewidth": 2.0},
    {"linestyle": "--", "marker": "s", "linewidth": 1.1},
    {"linestyle": "-.", "marker": "^", "linewidth": 1.1},
    {"linestyle": ":", "marker": "D", "linewidth": 1.3},
    {"linestyle": (0, (6, 2, 1, 2, 1, 2)), "marker": "v", "linewidth": 1.1},
)
_SIZE_IN = (6.7, 2.9)
_FONT = "Plan Sans, sans-serif"


@dataclass(frozen=True)
class Chart:
    """A chart as SVG, and what it shows in words."""

    svg: Markup
    words: str


def cost_chart(plan: Plan) -> Chart | None:
    """Return cost per part over run length of the routes that stand; None if one does.

    Parameters
    ----------
    plan : Plan
        With a route and at least one alternative.
    """
    if plan.route is None or not plan.alternatives:
        return None
    shown = (plan.route, *plan.alternatives[: len(_LINES) - 1])
    return Chart(_drawn(plan, shown), _in_words(plan, shown))


def _in_words(plan: Plan, shown: Sequence[RouteRecord]) -> str:
    run = str(plan.job["run"]["parts"])
    each = "; ".join(
        phrase("{name} {x:money}", name=in_sentence(one.name), x=one.cost_at_runs[run])
        for one in shown
    )
    currency = shown[0].currency
    return f"Cost of a part in {currency} over the run. At {run} parts: {each}."


def _drawn(plan: Plan, shown: Sequence[RouteRecord]) -> Markup:
    from matplotlib import rc_context
    from matplotlib.figure import Figure
    from matplotlib.ticker import NullLocator, ScalarFormatter

    settings: Any = {"svg.hashsalt": "advisor", "svg.fonttype": "none", "font.size": 7.5}
    with rc_context(settings):
        figure = Figure(figsize=_SIZE_IN, layout="constrained")
        plot = figure.add_subplot()
        for one, style in zip(shown, _LINES, strict=False):
            points = sorted((int(run), cost) for run, cost in one.cost_at_runs.items())
            runs, costs = zip(*points, strict=True)
            plot.plot(runs, costs, color="black", markersize=3, label=one.name, **style)
        run = plan.job["run"]["parts"]
        plot.axvline(run, color="black", linewidth=0.6)
        plot.annotate(
            f"this job: {run}",
            (run, 1.0),
            xycoords=("data", "axes fraction"),
            xytext=(3, -8),
            textcoords="offset points",
        )
        plot.set(xscale="log", yscale="log")
        ticks = [one for one in runs if one in RUN_LENGTHS]
        plot.set_xticks(ticks, [str(one) for one in ticks])
        plot.xaxis.set_minor_locator(NullLocator())
        plot.yaxis.set_major_formatter(ScalarFormatter())
        plot.yaxis.set_minor_formatter(ScalarFormatter())
        plot.set_xlabel("parts in the run")
        plot.set_ylabel(f"{shown[0].currency} a part")
        plot.spines[["top", "right"]].set_visible(False)
        figure.legend(loc="outside right upper", frameon=False, handlelength=4)
        content = io.BytesIO()
        figure.savefig(content, format="svg", metadata={"Date": None})
    return _inline(content.getvalue().decode(), _in_words(plan, shown))


def _as_attributes(style: re.Match[str]) -> str:
    """Return what a style sets as attributes of its own, which every reader knows."""
    told = (one.partition(":") for one in style[1].split(";") if ":" in one)
    set_to = {name.strip(): value.strip() for name, _, value in told}
    if "font-family" in set_to:
        set_to["font-family"] = _FONT
    return " ".join(f'{name}="{value}"' for name, value in set_to.items())


def _inline(svg: str, words: str) -> Markup:
    """Return a drawing to stand inside a page: titled, in the page's own font."""
    body = svg[svg.index("<svg") :]
    body = re.sub(r"<(metadata|style)\b.*?</\1>", "", body, flags=re.DOTALL)
    body = re.sub(r'style="([^"]*)"', _as_attributes, body)
    head, _, rest = body.partition(">")
    head = re.sub(r' (?:width|height)="[^"]*"', "", head)
    return Markup(f'{head} class="chart" role="img"><title>{escape(words)}</title>{rest}')
