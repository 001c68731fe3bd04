"""A cure over time: air, tool face, laminate, degree of cure, and what happens when."""

from collections.abc import Iterator
from typing import Any

from advisor.documents.pictures.charts import chart, pictured
from advisor.documents.pictures.svg import Picture
from advisor.measures import in_sentence, phrase
from advisor.plan import CourseRecord, LineRecord, Plan

_HEATS: tuple[dict[str, Any], ...] = (
    {"linestyle": "--", "linewidth": 1.0},
    {"linestyle": "", "marker": "v", "mfc": "white", "markevery": 5, "zorder": 4},
    {"linestyle": "-", "linewidth": 2.0},
)
_CURES: tuple[dict[str, Any], ...] = (
    {"linestyle": "-.", "linewidth": 1.0, "marker": "o"},
    {"linestyle": "-.", "linewidth": 1.0, "marker": "s"},
)
_MARKED: dict[str, Any] = {"color": "black", "markevery": 10, "markersize": 3.5}
_PUBLISHED = (
    "With the heat and the kinetics of other, published resins, which may want more heat "
    "than this cure gives: a measure of the danger, no prediction of how far yours cures."
)
_LEFT_OUT = (
    "The resin's own heat and its degree of cure are not drawn: no kinetics are held for "
    "its class."
)
_RUNS_AWAY = (
    "With the kinetics of {n:number} published {resins} the laminate runs away: that is "
    "not drawn, and no oven that follows this picture is safe from it."
)
_HEADROOM = 1.45  # over the hottest, for the words on what happens when
_TICKS_C = (20, 40)  # between two marks of the scale, for a cool and for a hot cure


def cure_chart(plan: Plan) -> Picture | None:
    """Return temperatures and degree of cure over the time of a cure; None without them.

    Parameters
    ----------
    plan : Plan
        The decision to draw.
    """
    course = plan.course
    if course is None:
        return None
    with chart() as (figure, plot):
        _draw(plot, course)
        columns = 2 if _cures(course) else 3
        figure.legend(
            loc="outside upper left", frameon=False, handlelength=4, ncols=columns
        )
        return pictured(figure, _in_words(course), "cure")


def _heats(course: CourseRecord) -> list[LineRecord]:
    return [one for one in course.lines if one.unit == "degC"]


def _cures(course: CourseRecord) -> list[LineRecord]:
    return [one for one in course.lines if one.unit == "percent"]


def _in_words(course: CourseRecord) -> str:
    """Return what happens when, and how hot and how far cured the laminate gets."""
    marks = "; ".join(
        phrase("{text} after {x:hours}", text=one.text, x=one.at_h) for one in course.marks
    )
    reached = [
        phrase("{name} {x:temperature}", name=in_sentence(one.name), x=max(one.values))
        for one in _heats(course)
    ]
    reached += [
        phrase("{name} {x:percent}", name=in_sentence(one.name), x=one.values[-1] / 100)
        for one in _cures(course)
    ]
    rests = " ".join(_rests(course))
    return f"Cure over time, from heat-on: {marks}. At most: {'; '.join(reached)}. {rests}"


def _rests(course: CourseRecord) -> Iterator[str]:
    """Yield what the degree of cure rests on, or why it is not there."""
    if course.run_away:
        resins = "resin" if course.run_away == 1 else "resins"
        yield phrase(_RUNS_AWAY, n=course.run_away, resins=resins)
    elif not _cures(course):
        yield _LEFT_OUT
    if _cures(course):
        yield _PUBLISHED


def _draw(plot: Any, course: CourseRecord) -> None:
    hottest = max(max(one.values) for one in _heats(course))
    for one, style in zip(_heats(course), _HEATS, strict=True):
        plot.plot(course.times_h, one.values, label=one.name, **(_MARKED | style))
    plot.set(xlim=(0, course.times_h[-1]), ylim=(0, _HEADROOM * hottest))
    plot.set_xlabel("hours from heat-on")
    step = _TICKS_C[hottest > 140.0]
    heats = [heat for heat in range(0, 401, step) if heat <= 1.1 * hottest]
    plot.set_yticks(heats, [phrase("{x:temperature}", x=float(heat)) for heat in heats])
    _mark(plot, course)
    if _cures(course):
        _draw_cures(plot.twinx(), course)


def _draw_cures(plot: Any, course: CourseRecord) -> None:
    """Draw the degree of cure on a scale of its own, all of it as high as the hottest."""
    for one, style in zip(_cures(course), _CURES, strict=False):
        plot.plot(course.times_h, one.values, label=one.name, **(_MARKED | style))
    plot.set(ylim=(0, 100 * _HEADROOM), yticks=range(0, 101, 20))
    plot.set_ylabel("degree of cure, %")
    plot.spines[["top"]].set_visible(False)


def _mark(plot: Any, course: CourseRecord) -> None:
    """Draw what happens when; words of marks near each other stand one over the other."""
    for n, one in enumerate(course.marks):
        height = 0.93 - 0.085 * (n % 3)
        plot.axvline(one.at_h, ymax=height + 0.05, color="black", linewidth=0.5)
        late = one.at_h > 0.5 * course.times_h[-1]
        plot.annotate(
            phrase("{text}, {x:hours}", text=one.text, x=round(one.at_h, 1)),
            (one.at_h, height),
            xycoords=("data", "axes fraction"),
            xytext=(-3 if late else 3, 0),
            textcoords="offset points",
            ha="right" if late else "left",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.4},
        )
