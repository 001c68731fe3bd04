"""What a plan can draw of its route: the cure over time, the blank, the film in strips."""

from collections.abc import Iterable

from advisor.plan import (
    BlankRecord,
    CourseRecord,
    LineRecord,
    MarkRecord,
    PlaceRecord,
    StripsRecord,
    ThermocouplesRecord,
)
from advisor.reasoning.conclusions import (
    BlankLayout,
    CureCourse,
    Place,
    StripLayout,
    Thermocouples,
)
from advisor.reasoning.engine import Concluded
from advisor.reasoning.provenance import Conclusion

Drawn = CourseRecord | BlankRecord | StripsRecord | ThermocouplesRecord


def drawn(concluded: Iterable[Concluded]) -> dict[str, Drawn]:
    """Return the drawings among conclusions, by the field of the plan that holds them."""
    found: dict[str, Drawn] = {}
    for one in concluded:
        match one.outcome:
            case CureCourse() as course:
                found["course"] = _course(course, one.conclusion)
            case BlankLayout() as layout:
                found["blank"] = _blank(layout, one.conclusion)
            case Thermocouples(places):
                found["thermocouples"] = _thermocouples(places, one.conclusion)
            case StripLayout() as layout:
                found["strips"] = _strips(layout, one.conclusion)
    return found


def _course(course: CureCourse, conclusion: Conclusion) -> CourseRecord:
    return CourseRecord(
        times_h=course.times_h,
        lines=tuple(
            LineRecord(name=line.name, unit=line.unit, values=line.values)
            for line in course.lines
        ),
        marks=tuple(MarkRecord(at_h=at_h, text=text) for at_h, text in course.marks),
        run_away=course.run_away,
        conclusion=conclusion,
    )


def _thermocouples(places: Iterable[Place], conclusion: Conclusion) -> ThermocouplesRecord:
    return ThermocouplesRecord(
        places=tuple(
            PlaceRecord(kind=one.kind, first=one.first, last=one.last, words=one.words)
            for one in places
        ),
        conclusion=conclusion,
    )


def _blank(layout: BlankLayout, conclusion: Conclusion) -> BlankRecord:
    length, width, height = _mm(layout.size_m)
    along, across, up = (_mm(parts) for parts in layout.parts_m)
    return BlankRecord(
        piece=layout.piece,
        length=length,
        width=width,
        height=height,
        along=along,
        across=across,
        up=up,
        conclusion=conclusion,
    )


def _strips(layout: StripLayout, conclusion: Conclusion) -> StripsRecord:
    apart, girth, length, lap = _mm(
        (layout.apart_m, layout.girth_m, layout.length_m, layout.lap_m)
    )
    return StripsRecord(
        count=layout.count,
        apart=apart,
        girth=girth,
        length=length,
        lap=lap,
        conclusion=conclusion,
    )


def _mm(lengths_m: Iterable[float]) -> tuple[float, ...]:
    return tuple(round(1000.0 * one, 1) for one in lengths_m)
