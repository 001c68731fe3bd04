"""What the process record and the tool record print: what was decided, and blanks to fill.

The process record goes to the customer: it holds no amount of money.  The tool record
stays with the tool through its life.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from advisor.documents.citations import Citations, Reason, SourceView, reason
from advisor.documents.first_page import Choice, choices, job_line
from advisor.measures import in_styles, phrase
from advisor.plan import FindingRecord, HoldPointRecord, Plan, RouteRecord, StepRecord
from advisor.reasoning.conclusions import HeldFor

# What of the job is a requirement on the part, and the numbers that answer it.
_REQUIREMENTS = {
    ("cure", "temperature"): ("Highest cure", ("tool-temperature", "hold-listed")),
    ("cure", "resin"): ("Resin", ()),
    ("part", "tolerance"): ("Size within", ("residual-growth", "scale-factor")),
    ("part", "service_temperature"): ("Used up to", ("glass-transition",)),
    ("laminate", "plies"): ("Plies", ("laminate-thickness", "part-mass")),
    ("laminate", "layup"): ("Lay-up", ()),
    ("laminate", "fibre"): ("Fibre", ()),
    ("laminate", "weave"): ("Weave", ()),
    ("laminate", "areal_weight"): ("Fibre by area", ()),
    ("finish", "roughness"): ("Roughness of the face, Ra", ("face-roughness",)),
    ("finish", "after"): ("After moulding", ()),
}
_FINDINGS_OF_THE_TOOL = (
    "scale-factor",
    "growth",
    "residual-growth",
    "drying-time",
    "heating-ramp",
    "cooling-ramp",
    "tool-mass",
    "heaviest-lift",
    "longest-span",
    "face-roughness",
)


_NAMED = ("resin", "after")  # of the requirements, given by the name of a row
_SCALED = "STEP-105"  # the step that scales the drawing
_EACH = ", each part"
_RAMP = "delta_degC/min"
_MONEY = ("price", "cost", "budget", "offer")

_FEW_CYCLES, _MOST_CYCLES = 8, 40  # rows in the tool record
_UNPLACED = 4  # rows for thermocouples where the plan places none


@dataclass(frozen=True)
class Requirement:
    """Something the part must be, and how the process meets it."""

    what: str
    given: str
    met: tuple[str, ...]


@dataclass(frozen=True)
class Held:
    """A hold point and the number of its step."""

    step: int
    hold: HoldPointRecord


@dataclass(frozen=True)
class ProcessRecordPage:
    """Everything the process record prints."""

    title: str
    customer: str
    revision: str
    shop: str
    date: str
    job_line: str
    choices: tuple[Choice, ...]
    cure: str
    requirements: tuple[Requirement, ...]
    reasons: tuple[Reason, ...]
    conditions: tuple[tuple[str, str], ...]
    materials: tuple[str, ...]
    bagged: bool
    thermocouples: tuple[str, ...]
    holds: tuple[Held, ...]
    sources: tuple[SourceView, ...]
    footer: str


@dataclass(frozen=True)
class ToolRecordPage:
    """Everything the tool record prints."""

    title: str
    revision: str
    shop: str
    date: str
    choices: tuple[Choice, ...]
    tools: str
    life: str
    cycles: int
    limits: tuple[tuple[str, str], ...]
    numbers: tuple[tuple[str, str], ...]
    built: tuple[Held, ...]
    materials: tuple[str, ...]
    footer: str


def process_record(plan: Plan, printed_on: date) -> ProcessRecordPage:
    """Prepare the process record of a plan that has a route; it tells no money.

    Raises
    ------
    ValueError
        If the plan has none.
    """
    route = _route_of(plan)
    refs = Citations(plan.sources)
    support = [one for one in route.reasons if one.kind == "good"]
    free = [one for one in support if not _names_money(one.sentence, plan)]
    return ProcessRecordPage(
        title=plan.job["title"],
        customer=plan.job["customer"] or "",
        revision=plan.job["revision"],
        shop=plan.shop["name"],
        date=printed_on.isoformat(),
        job_line=job_line(plan.job),
        choices=choices(plan),
        cure=_cure(plan),
        requirements=tuple(_requirements(plan)),
        reasons=tuple(reason(one, refs) for one in free),
        conditions=tuple((one.text, one.proved_by) for one in plan.conditions),
        materials=tuple(_materials(plan, of_parts=True)),
        bagged=plan.job["cure"]["pressure"] in ("vacuum", "autoclave"),
        thermocouples=tuple(_thermocouples(plan)),
        holds=tuple(_held(plan.steps, ("first part", "part"))),
        sources=refs.listed(),
        footer=_footer(plan),
    )


def tool_record(plan: Plan, printed_on: date) -> ToolRecordPage:
    """Prepare the tool record of a plan that has a route.

    Raises
    ------
    ValueError
        If the plan has none.
    """
    route = _route_of(plan)
    found = {one.id: one for one in plan.findings}
    return ToolRecordPage(
        title=plan.job["title"],
        revision=plan.job["revision"],
        shop=plan.shop["name"],
        date=printed_on.isoformat(),
        choices=choices(plan),
        tools=phrase("{n:tools}", n=route.tools),
        life=phrase("about {n:parts}", n=route.parts_per_tool),
        cycles=_cycles(plan),
        limits=tuple(_limits(plan)),
        numbers=tuple(
            (found[id].label, in_styles(found[id].value, found[id].unit))
            for id in _FINDINGS_OF_THE_TOOL
            if id in found
        ),
        built=tuple(_held(plan.steps, ("tool",))),
        materials=tuple(_materials(plan, of_parts=False)),
        footer=_footer(plan),
    )


def _cycles(plan: Plan) -> int:
    """Return the rows for cycles: an empty one and each part of one tool, within reason."""
    parts = math.ceil((plan.job["run"]["parts"] or 1) / _route_of(plan).tools)
    return max(_FEW_CYCLES, min(_MOST_CYCLES, 1 + parts))


def _route_of(plan: Plan) -> RouteRecord:
    if plan.route is None:
        raise ValueError("a plan without a route has nothing to record")
    return plan.route


def _cure(plan: Plan) -> str:
    """Return the cure on the tool as it is planned, and the post-cure that follows it."""
    cure = plan.job["cure"]
    ramps = [one.value for one in plan.findings if one.id == "heating-ramp"]
    if cure["ramp"]:
        ramps.append(cure["ramp"]["value"])
    told = [
        _shown(cure["first_cure"] or cure["temperature"]),
        f" for {_shown(cure['hold'])}" if cure["hold"] else "",
        f", heated at {in_styles(min(ramps), _RAMP)} at most" if ramps else "",
        f", under {_pressure(cure)}",
    ]
    first = cure["first_cure"]
    if first and first["value"] < cure["temperature"]["value"]:
        told.append(f"; then post-cured standing free, up to {_shown(cure['temperature'])}")
    return "".join(told)


def _pressure(cure: dict[str, Any]) -> str:
    given = {
        "autoclave": ("an autoclave", cure["autoclave_pressure"]),
        "bladder": ("a bladder", cure["bladder_pressure"]),
    }
    name, pressure = given.get(cure["pressure"], (cure["pressure"], None))
    return f"{name} at {_shown(pressure)}" if pressure else name


def _shown(given: dict[str, Any]) -> str:
    return in_styles(given["value"], given["unit"])


def _requirements(plan: Plan) -> Iterator[Requirement]:
    found = {one.id: one for one in plan.findings}
    if not any(one.conclusion.rule == _SCALED for one in plan.steps):
        found.pop("scale-factor", None)  # a tool that is there is not scaled
    for (table, key), (what, ids) in _REQUIREMENTS.items():
        given = plan.job[table][key]
        if given is None or given == "none":
            continue
        if key in _NAMED:
            given = given.replace("-", " ")
        shown = _shown(given) if isinstance(given, dict) else str(given)
        met = tuple(f"{found[id].label}: {_number(found[id])}" for id in ids if id in found)
        yield Requirement(what, shown, met)
    yield Requirement("Moulded face", plan.job["finish"]["target"].replace("-", " "), ())


def _number(one: FindingRecord) -> str:
    value = in_styles(one.value, one.unit)
    if one.limit is None:
        return value
    return f"{value}, held against {in_styles(one.limit, one.unit)}"


def _limits(plan: Plan) -> Iterator[tuple[str, str]]:
    """Yield what the cut-out is set to, once where bag or not makes no difference."""
    set_to = [one for one in plan.findings if one.id in ("trip-alone", "trip-setting")]
    if len({one.value for one in set_to}) == 1:
        set_to = set_to[-1:]
    for one in set_to:
        yield one.label, in_styles(one.value, one.unit)


def _materials(plan: Plan, *, of_parts: bool) -> Iterator[str]:
    """Yield what has a lot: what goes into each part, or what the tool is made with."""
    assert plan.route is not None
    names = {(one.stage, one.id): one.name for one in plan.options}
    of = "part" if of_parts else "tool"
    items = {one.item.removesuffix(_EACH) for one in plan.consumables if one.lot == of}
    if not of_parts:
        yield names["tool", plan.route.tool]
    yield from sorted(items, key=lambda name: (name != "Prepreg", name))
    yield names["release", plan.route.release]


def _thermocouples(plan: Plan) -> Iterator[str]:
    """Yield number and place of each thermocouple, or numbers where no places are told."""
    if plan.thermocouples is None:
        yield from map(str, range(1, _UNPLACED + 1))
        return
    for place in plan.thermocouples.places:
        for n in range(place.first, place.last + 1):
            yield f"{n} {place.words.partition(':')[0].rstrip('.')}"


def _names_money(text: str, plan: Plan) -> bool:
    """Tell whether a sentence is about money, which the customer's record leaves out."""
    assert plan.route is not None
    words = "|".join(map(re.escape, (*_MONEY, plan.route.currency)))
    return re.search(rf"(?<!\w)(?:{words})", text) is not None


def _held(steps: tuple[StepRecord, ...], held_for: tuple[HeldFor, ...]) -> Iterator[Held]:
    for step in steps:
        if step.hold_point is not None and step.hold_point.held_for in held_for:
            yield Held(step.n, step.hold_point)


def _footer(plan: Plan) -> str:
    return (
        f"Plan format {plan.schema_version}, advisor {plan.advisor_version}, rule base "
        f"{plan.rule_base_version}, job {plan.job_sha256[:12]}"
    )
