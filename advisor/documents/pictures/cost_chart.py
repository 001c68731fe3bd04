"""Cost of a part over the run, of the routes that stand, with their break-evens."""

from collections.abc import Iterator, Sequence
from math import exp, log
from typing import Any

from advisor.documents.pictures.charts import chart, pictured
from advisor.documents.pictures.svg import Picture
from advisor.measures import in_sentence, phrase
from advisor.plan import Alternative, Plan, RouteRecord
from advisor.routes import RUN_LENGTHS

_LINES: tuple[dict[str, Any], ...] = (
    {"linestyle": "-", "marker": "o", "linewidth": 2.0},
    {"linestyle": "--", "marker": "s", "linewidth": 1.1},
    {"linestyle": "-.", "marker": "^", "linewidth": 1.1},
    {"linestyle": ":", "marker": "D", "linewidth": 1.3},
    {"linestyle": (0, (6, 2, 1, 2, 1, 2)), "marker": "v", "linewidth": 1.1},
)
_HALF_A_LINE = 50  # letters of a name that has room beside another
_ALIKE = 0.02  # two lines nowhere farther apart than this lie on each other


def cost_chart(plan: Plan) -> Picture | None:
    """Return cost per part over run length of the routes that stand; None if one does.

    Parameters
    ----------
    plan : Plan
        With a route and at least one alternative.
    """
    if plan.route is None or not plan.alternatives:
        return None
    others = plan.alternatives[: len(_LINES) - 1]
    with chart() as (figure, plot):
        _draw(plot, plan, (plan.route, *others))
        for run in sorted({one.breaks_even_at for one in others if one.breaks_even_at}):
            _mark_break_even(plot, run, others)
        told = _told_apart((plan.route, *others))
        longest = max(len(line) for name, _ in told for line in name.split("\n"))
        columns = 1 + (longest < _HALF_A_LINE)
        figure.legend(
            loc="outside upper left", frameon=False, handlelength=4, ncols=columns
        )
        return pictured(figure, _in_words(plan, plan.route, others), "cost")


def _in_words(plan: Plan, route: RouteRecord, others: Sequence[Alternative]) -> str:
    run = str(plan.job["run"]["parts"])
    each = "; ".join(
        phrase("{name} {x:money}", name=in_sentence(one.name), x=one.cost_at_runs[run])
        for one in (route, *others)
    )
    even = "; ".join(_evens(others))
    return f"Cost of a part in {route.currency} over the run. At {run} parts: {each}." + (
        f" Break-even with this route: {even}." if even else ""
    )


def _evens(others: Sequence[Alternative]) -> Iterator[str]:
    for one in others:
        if one.breaks_even_at is not None:
            yield f"{in_sentence(one.name)} at {one.breaks_even_at} parts"


def _draw(plot: Any, plan: Plan, shown: Sequence[RouteRecord]) -> None:
    from matplotlib.ticker import LogLocator, NullLocator, ScalarFormatter

    for (name, one), style in zip(_told_apart(shown), _LINES, strict=False):
        runs, costs = zip(*_points(one), strict=True)
        plot.plot(runs, costs, color="black", markersize=3, label=name, **style)
    run = plan.job["run"]["parts"]
    plot.axvline(run, color="black", linewidth=0.6)
    plot.annotate(
        f"this job: {run}",
        (run, 1.0),
        xycoords=("data", "axes fraction"),
        xytext=(3, 2),
        textcoords="offset points",
    )
    plot.set(xscale="log", yscale="log")
    plot.set_xticks(RUN_LENGTHS, [str(one) for one in RUN_LENGTHS])
    plot.xaxis.set_minor_locator(NullLocator())
    plot.yaxis.set_major_locator(LogLocator(subs=(1.0, 2.0, 5.0)))
    plot.yaxis.set_minor_locator(NullLocator())
    plot.yaxis.set_major_formatter(ScalarFormatter())
    plot.set_xlabel("parts in the run")
    plot.set_ylabel(f"{shown[0].currency} a part")


def _told_apart(shown: Sequence[RouteRecord]) -> list[tuple[str, RouteRecord]]:
    """Return the routes by their names, those together whose lines lie on each other."""
    drawn: list[tuple[str, RouteRecord]] = []
    for one in shown:
        for n, (name, other) in enumerate(drawn):
            costs = zip(_points(one), _points(other), strict=True)
            if all(abs(log(a / b)) < _ALIKE for (_, a), (_, b) in costs):
                drawn[n] = (f"{name}\non it {in_sentence(one.name)}", other)
                break
        else:
            drawn.append((one.name, one))
    return drawn


def _points(one: RouteRecord) -> list[tuple[int, float]]:
    return sorted((int(run), cost) for run, cost in one.cost_at_runs.items())


def _mark_break_even(plot: Any, run: int, others: Sequence[Alternative]) -> None:
    """Ring the lines of the routes that cost the same as the chosen one at a run."""
    rings = [
        _between(_points(one), run)
        for one in others
        if one.breaks_even_at == run and run <= _points(one)[-1][0]
    ]
    if not rings:
        return
    runs = [run] * len(rings)
    plot.plot(runs, rings, "o", color="black", markerfacecolor="white", markersize=7)
    plot.annotate(
        f"even at {run}",
        (run, max(rings)),
        xytext=(6, 7),
        textcoords="offset points",
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.4},
    )


def _between(points: Sequence[tuple[int, float]], run: int) -> float:
    """Return the cost where the drawn line passes a run; both axes are logarithmic."""
    before = max(point for point in points if point[0] <= run)
    after = min(point for point in points if point[0] >= run)
    if before == after:
        return before[1]
    share = log(run / before[0]) / log(after[0] / before[0])
    return exp(log(before[1]) + share * log(after[1] / before[1]))
