"""What the process plan's template gets: every word and number ready to print."""

import re
from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from markupsafe import Markup

from advisor.documents.charts import Chart, cost_chart
from advisor.documents.sketch import sketch
from advisor.measures import (
    in_sentence,
    in_styles,
    phrase,
    plain_number,
    sentence,
    sign,
)
from advisor.plan import (
    Alternative,
    CautionRecord,
    FindingRecord,
    OptionRecord,
    Plan,
    RouteRecord,
    SourceRecord,
    StepRecord,
    TrialRecord,
    TurnRecord,
)
from advisor.reasoning.provenance import (
    Conclusion,
    Ground,
    basis_as_decided,
    conclusions_in,
)

VERDICTS = {
    "route": "A route stands",
    "route-with-conditions": "A route stands, under conditions",
    "no-route": "No route stands",
    "ask-first": "Questions first",
}

# Stands among the numbers of sources for common practice, which nobody can look up.
PRACTICE = 0

# What is said of a reason's basis: nothing of a published or a common one.
_REMARK = {
    "published": "",
    "common-practice": "",
    "from-memory": "from memory",
    "shop": "the shop's own figure",
    "invented": "invented prices",
}

BASIS = {
    "published": "published",
    "common-practice": "common practice, no source",
    "from-memory": "from memory, not read",
    "shop": "the shop's own figure",
    "invented": "invented for the demonstration",
}

KIND = {
    "standard": "standard",
    "law": "law or regulator",
    "paper": "paper or report",
    "handbook": "handbook or manual",
    "data-sheet": "maker's sheet",
    "trade": "trade page",
    "library": "software library",
    "none": "",
}


@dataclass(frozen=True)
class Choice:
    """One of the four pieces of a route."""

    what: str
    name: str
    detail: str


@dataclass(frozen=True)
class Reason:
    """A sentence with the numbers of its sources and how sure they are."""

    id: str
    text: str
    sources: tuple[int, ...]
    basis: str


@dataclass(frozen=True)
class RuledOut:
    """An option that is not used, with the reason that decided."""

    name: str
    reason: Reason


@dataclass(frozen=True)
class OtherRoute:
    """A standing route that lost."""

    name: str
    total: str
    ready: str
    tools: int
    open_points: int
    lost: str


@dataclass(frozen=True)
class Number:
    """A finding as a row of the table of numbers."""

    id: str
    label: str
    value: str
    span: str
    limit: str
    judgement: str
    formula: str
    inputs: tuple[str, ...]
    figures: tuple[tuple[int, int], ...]
    sources: tuple[int, ...]


@dataclass(frozen=True)
class FigureRow:
    """A figure of the tables that went into numbers, printed once for all of them."""

    n: int
    name: str
    value: str
    sources: tuple[int, ...]
    basis: str


@dataclass(frozen=True)
class Section:
    """The sketch of tool, part, release and bag, with its numbered layers."""

    svg: Markup
    layers: tuple[str, ...]
    words: str


@dataclass(frozen=True)
class TurnRow:
    """A range within which the answer turns."""

    name: str
    taken: str
    turns: str
    text: str
    narrow_by: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class PatchRow:
    """One patch of a trial."""

    n: int
    name: str
    cost: str
    beware: str


@dataclass(frozen=True)
class TrialView:
    """A trial, with its sheet to fill in where it has patches."""

    title: str
    text: str
    piece: str
    takes: str
    passes_if: str
    fails_if: str
    why: Reason
    patches: tuple[PatchRow, ...]
    gauged: tuple[tuple[str, str, str, tuple[int, ...]], ...]
    outcomes: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Guard:
    """A caution as printed at a step: in full where it first applies."""

    id: str
    hazard: str
    text: str
    defers_to: str
    sources: tuple[int, ...]
    first_step: int


@dataclass(frozen=True)
class Hold:
    """A hold point with its blank."""

    check: str
    accept: str
    record: str


@dataclass(frozen=True)
class StepView:
    """A step of the work."""

    n: int
    title: str
    text: str
    lines: tuple[str, ...]
    short: bool
    why: Reason
    listed: tuple[str, ...]
    quantities: tuple[str, ...]
    hold: Hold | None
    first_cautions: tuple[Guard, ...]
    cautions_again: tuple[Guard, ...]


@dataclass(frozen=True)
class PhaseView:
    """The steps of one phase."""

    title: str
    steps: tuple[StepView, ...]


@dataclass(frozen=True)
class CostRow:
    """A line of the cost."""

    label: str
    amount: str
    per: str


@dataclass(frozen=True)
class RunCost:
    """Cost per part at one run length."""

    parts: str
    each: str
    here: bool


@dataclass(frozen=True)
class ConditionView:
    """A condition or a change that would open a route."""

    text: str
    proved_by: str


@dataclass(frozen=True)
class SourceView:
    """A numbered source."""

    n: int
    citation: str
    kind: str
    basis: str


class Citations:
    """Numbers of a plan's sources, given as they are first cited.

    A source that cannot be looked up has none; one that nothing on the page cites gets
    none and is not listed.
    """

    def __init__(self, sources: Iterable[SourceRecord]) -> None:
        self._sources = {one.id: one for one in sources if one.kind != "none"}
        self._numbers: dict[str, int] = {}

    def __contains__(self, source: str) -> bool:
        return source in self._sources

    def __getitem__(self, source: str) -> int:
        if source not in self._sources:
            raise KeyError(source)
        return self._numbers.setdefault(source, len(self._numbers) + 1)

    def listed(self) -> tuple[SourceView, ...]:
        """Return what was cited so far, by number."""
        cited = ((n, self._sources[id]) for id, n in self._numbers.items())
        return tuple(
            SourceView(n, one.citation, KIND[one.kind], BASIS[one.basis])
            for n, one in cited
        )


@dataclass(frozen=True)
class Consumed:
    """A consumable to pull."""

    item: str
    quantity: str
    allowance: str


@dataclass(frozen=True)
class ExplainedWord:
    """A word of the trade that the plan uses."""

    term: str
    means: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class RestsOn:
    """How many of each kind rest on one basis, as a row of a small table."""

    basis: str
    counts: tuple[int, ...]


@dataclass(frozen=True)
class ProcessPlanPage:
    """Everything the process plan prints."""

    title: str
    customer: str
    revision: str
    shop: str
    date: str
    verdict: str
    verdict_id: str
    job_line: str
    questions: tuple[tuple[str, str, str], ...]
    choices: tuple[Choice, ...]
    cost: str
    cost_span: str
    cost_each: str
    price_note: str
    ready: str
    tools: str
    reasons: tuple[Reason, ...]
    conditions: tuple[ConditionView, ...]
    grave: tuple[tuple[str, int], ...]
    hazards: tuple[str, ...]
    budget: str
    run_time: str
    standing: str
    proposal: tuple[Reason, ...]
    proposal_verdict: str
    ruled_out: tuple[RuledOut, ...]
    other_routes: tuple[OtherRoute, ...]
    guesses: tuple[str, ...]
    unseats: tuple[str, ...]
    brings_back: tuple[str, ...]
    sure: str
    turns: tuple[TurnRow, ...]
    cost_rows: tuple[CostRow, ...]
    run_costs: tuple[RunCost, ...]
    currency: str
    cost_chart: Chart | None
    section: Section | None
    numbers: tuple[Number, ...]
    figures: tuple[FigureRow, ...]
    phases: tuple[PhaseView, ...]
    consumed: tuple[Consumed, ...]
    trials: tuple[TrialView, ...]
    assumptions: tuple[str, ...]
    sources: tuple[SourceView, ...]
    practice: tuple[str, ...]
    rests_on: tuple[RestsOn, ...]
    words: tuple[ExplainedWord, ...]
    note: str
    footer: str


def process_plan(plan: Plan, printed_on: date) -> ProcessPlanPage:
    """Prepare the process plan of a plan for print.

    Parameters
    ----------
    plan : Plan
        The decision; nothing is added to it here.
    printed_on : date
        The date on the pages.
    """
    refs = Citations(plan.sources)
    job, route = plan.job, plan.route
    return ProcessPlanPage(
        title=job["title"],
        customer=job["customer"] or "",
        revision=job["revision"],
        shop=plan.shop["name"],
        date=printed_on.isoformat(),
        verdict=VERDICTS[plan.verdict],
        verdict_id=plan.verdict,
        job_line=job_line(job),
        questions=tuple((q.field, q.text, q.why_it_decides) for q in plan.questions),
        choices=choices(plan) if route else (),
        cost=_money(route.cost_total, route) if route else "",
        cost_span=_span(route) if route else "",
        cost_each=_money(route.cost_per_part, route) if route else "",
        price_note=_price_note(route) if route else "",
        ready=_days(route.lead_time_h) if route else "",
        tools=_tools(route) if route else "",
        reasons=_deciding(plan, refs),
        conditions=tuple(ConditionView(c.text, c.proved_by) for c in plan.conditions),
        grave=tuple(
            (c.hazard, min(c.applies_to_steps, default=0))
            for c in plan.cautions
            if c.gravity == 1
        ),
        hazards=tuple(c.hazard for c in plan.cautions if c.gravity == 2),
        budget=_budget(plan),
        run_time=_run_time(job),
        standing=next((c.text for c in plan.cautions if c.id == "standing"), STANDING),
        proposal=tuple(reason(c, refs) for c in plan.proposal.conclusions)
        if plan.proposal
        else (),
        proposal_verdict=_PROPOSAL[plan.proposal.verdict] if plan.proposal else "",
        phases=_phases(plan, refs),
        words=tuple(
            ExplainedWord(word.term, word.means, _numbered(word.sources, refs))
            for word in plan.words
        ),
        ruled_out=_ruled_out(plan, refs),
        other_routes=tuple(_other(a) for a in plan.alternatives),
        guesses=tuple(one.text for one in plan.guesses),
        unseats=tuple(one.text for one in plan.changes if one.about == "route"),
        brings_back=tuple(one.text for one in plan.changes if one.about == "option"),
        sure=plan.sureness.text if plan.sureness else "",
        turns=tuple(_turn(one, refs) for one in plan.sureness.turns)
        if plan.sureness
        else (),
        cost_rows=_cost_rows(route) if route else (),
        run_costs=_run_costs(route, job["run"]["parts"]) if route else (),
        currency=route.currency if route else "",
        cost_chart=cost_chart(plan),
        section=_section(plan) if route else None,
        numbers=_numbers(plan, refs),
        figures=tuple(
            FigureRow(
                n,
                figure.name,
                figure.value,
                _cited(figure.sources, refs),
                _REMARK[figure.basis or "published"],
            )
            for n, figure in enumerate(_figures(plan), 1)
        ),
        consumed=tuple(
            Consumed(c.item, in_styles(c.quantity, c.unit), c.allowance)
            for c in plan.consumables
        ),
        trials=tuple(_trial(one, refs) for one in plan.trials),
        assumptions=plan.assumptions,
        practice=tuple(s.citation for s in plan.sources if s.kind == "none"),
        rests_on=_rests_on(plan),
        note=job["note"] or "",
        footer=f"Plan format {plan.schema_version}, advisor {plan.advisor_version}, "
        f"rule base {plan.rule_base_version}, job {plan.job_sha256[:12]}",
        sources=refs.listed(),  # once all that cites stands above
    )


def _rests_on(plan: Plan) -> tuple[RestsOn, ...]:
    """Count what a plan rests on: its reasons, its figures, and both in their chains."""
    every = {one.id: one for one in conclusions_in(plan)}
    figures = {
        (ground.name, ground.value): ground.basis
        for one in every.values()
        for ground in one.grounds
        if ground.kind == "table" and ground.basis and _is_a_figure(ground)
    }
    counts: tuple[Counter[str], ...] = (
        Counter(one.reason_basis for one in every.values() if one.reason_basis),
        Counter(figures.values()),
        Counter(one.basis for one in every.values()),
        Counter(basis_as_decided(one) for one in every.values()),
    )
    rows = [
        RestsOn(words, tuple(count[basis] for count in counts))
        for basis, words in BASIS.items()
        if any(count[basis] for count in counts)
    ]
    return (*rows, RestsOn("together", tuple(count.total() for count in counts)))


STANDING = (
    "Planning aid only. Local law, the permit holder, the product safety data sheet and "
    "the equipment maker's instructions override this plan. If an item cannot be "
    "confirmed, stop."
)

_PROPOSAL = {
    "sound": "Sound: every piece of it is kept.",
    "sound-in-part": "Sound in part: what the route can keep is kept, the rest is not.",
    "refused": "Refused: no route that stands has any piece of it.",
}


def job_line(job: Mapping[str, object]) -> str:
    """Return size, shape, cure and run of a job in one line."""
    part, cure, run = (dict(job[key]) for key in ("part", "cure", "run"))  # type: ignore[call-overload]
    size = [part[key] for key in ("length", "width", "depth") if part[key]]
    words = []
    if size:
        words.append(" × ".join(in_styles(s["value"], s["unit"]) for s in size))
    if part["shape"]:
        words.append(part["shape"].replace("-", " "))
    if cure["temperature"]:
        heat = cure["temperature"]
        how = "a bladder" if cure["pressure"] == "bladder" else cure["pressure"]
        words.append(f"cure {in_styles(heat['value'], heat['unit'])} under {how}")
    if run["parts"]:
        words.append(phrase("{n:parts}", n=run["parts"]))
    return ", ".join(words)


def _pressure(cure: Mapping[str, Any]) -> str:
    vessel = cure["autoclave_pressure"]
    if cure["pressure"] == "tape":
        return "under shrink tape"
    blown = cure["bladder_pressure"]
    if cure["pressure"] == "bladder" and blown:
        return f"by a bladder at {in_styles(blown['value'], blown['unit'])}"
    if cure["pressure"] == "vacuum" or not vessel:
        return "under vacuum"
    return f"in an autoclave at {in_styles(vessel['value'], vessel['unit'])}"


def choices(plan: Plan) -> tuple[Choice, ...]:
    """Return tool, seal, release and bag of a plan that has a route."""
    route = plan.route
    assert route is not None
    names = {(o.stage, o.id): o.name for o in plan.options}
    tool = names["tool", route.tool]
    built = route.name.removeprefix(f"{tool}, ")
    build = {"split": "split, so that it opens"}.get(built, built)
    return (
        Choice("Tool", tool, build),
        Choice("Seal", names["sealing", route.sealing], ""),
        Choice("Release", names["release", route.release], ""),
        Choice("Bag", names["bagging", route.bagging], ""),
    )


def _money(amount: float, route: RouteRecord) -> str:
    return sentence("{x:money} {currency}", x=amount, currency=route.currency)


def _budget(plan: Plan) -> str:
    total = plan.job["budget"]["total"]
    if total is None or plan.route is None:
        return ""
    spare = "" if plan.route.cost_high <= total else "; the high end is above it"
    return f"of a budget of {_money(total, plan.route)}{spare}"


def _run_time(job: Mapping[str, Any]) -> str:
    rate, parts = job["run"]["per_week"], job["run"]["parts"]
    if not rate or not parts:
        return ""
    return sentence(
        "{weeks:number} weeks of parts at {rate:number} a week",
        weeks=parts / rate,
        rate=rate,
    )


def _span(route: RouteRecord) -> str:
    return f"{_money(route.cost_low, route)} to {_money(route.cost_high, route)}"


def _price_note(route: RouteRecord) -> str:
    return {
        "from-memory": "Planning prices, good to an order of magnitude; no quotation.",
        "shop": "The shop's own prices where given, planning prices elsewhere.",
        "invented": "Demonstration: these prices are invented.",
    }[route.price_basis]


def _days(hours: float) -> str:
    return phrase("about {days:days}", days=max(1, round(hours / 24)))


def _tools(route: RouteRecord) -> str:
    return phrase(
        "{tools:tools}, good for {about}{parts:parts}{each}",
        tools=route.tools,
        about="" if route.parts_per_tool == 1 else "about ",
        parts=route.parts_per_tool,
        each=" each" if route.tools > 1 else "",
    )


def reason(conclusion: Conclusion, refs: Citations) -> Reason:
    """Return a conclusion as a reason that is printed, with the numbers of its sources."""
    return Reason(
        id=conclusion.id,
        text=conclusion.sentence,
        sources=_cited(conclusion.sources, refs),
        basis=_REMARK[conclusion.basis],
    )


def _section(plan: Plan) -> Section:
    drawn = sketch(plan)
    return Section(Markup(drawn.svg), drawn.layers, drawn.words.partition(". ")[2])


def _trial(one: TrialRecord, refs: Citations) -> TrialView:
    return TrialView(
        title=one.conclusion.title,
        text=one.text,
        piece=f"{one.piece[:1].upper()}{one.piece[1:]}",
        takes=f"{one.takes[:1].upper()}{one.takes[1:]}",
        passes_if=one.passes_if,
        fails_if=one.fails_if,
        why=reason(one.conclusion, refs),
        patches=tuple(
            PatchRow(
                patch.n,
                patch.name,
                phrase("{x:money}", x=patch.cost_total),
                patch.beware,
            )
            for patch in one.patches
        ),
        gauged=tuple(
            (
                gauged.measure,
                gauged.how,
                gauged.passes_if,
                _cited(gauged.conclusion.sources, refs),
            )
            for gauged in one.gauged
        ),
        outcomes=tuple((row.outcome, row.then) for row in one.outcomes),
    )


def _turn(one: TurnRecord, refs: Citations) -> TurnRow:
    unit = sign(one.unit)
    value, low, high, at = map(plain_number, (one.value, one.low, one.high, one.at))
    at_the_end = one.at == (one.low if one.end == "low" else one.high)
    side = "" if at_the_end else "or less" if one.end == "low" else "or more"
    then = "" if one.effect != "doubt" else "To be proved then: "
    return TurnRow(
        name=one.name,
        taken=f"{value} ({low} to {high}) {unit}".strip(),
        turns=f"{at} {unit} {side}".strip().replace("  ", " "),
        text=f"{then}{one.text}",
        narrow_by=one.narrow_by,
        sources=_cited(one.sources, refs),
    )


def _numbered(sources: Collection[str], refs: Citations) -> tuple[int, ...]:
    return tuple(sorted(refs[source] for source in sources if source in refs))


def _cited(sources: Collection[str], refs: Citations) -> tuple[int, ...]:
    """Return the numbers of what can be looked up, and `PRACTICE` for what cannot."""
    numbers = _numbered(sources, refs)
    return numbers if len(numbers) == len(sources) else (PRACTICE, *numbers)


def _deciding(plan: Plan, refs: Citations) -> tuple[Reason, ...]:
    """Return the few reasons that decided: the ranking, the best support, the next best."""
    route = plan.route
    if route is None:
        return ()
    chosen = [c for c in route.reasons if c.kind == "chosen"]
    support = [c for c in route.reasons if c.kind == "good"]
    support.sort(key=lambda c: (_first_to_say(c.rule), c.id))
    reasons = [reason(c, refs) for c in (*chosen, *support[: 3 - len(chosen)])]
    family = {o.id: o.family for o in plan.options if o.stage == "tool"}
    others = [a for a in plan.alternatives if family[a.tool] != family[route.tool]]
    if others:
        nearest = others[0]
        lost = nearest.lost_because[:1].lower() + nearest.lost_because[1:]
        text = f"Next best of another kind, {in_sentence(nearest.name)}: {lost}"
        reasons.append(Reason("next-best", text, (), ""))
    reasons += [reason(one.conclusion, refs) for one in plan.safer]
    return tuple(reasons)


def _first_to_say(rule: str) -> int:
    """Order reasons for the first page: what the shop owns, the run, the seal, the heat."""
    order = ("TOOL-36", "TOOL-45", "SEAL", "MONEY", "REL", "TOOL")
    return next((n for n, start in enumerate(order) if rule.startswith(start)), len(order))


def _ruled_out(plan: Plan, refs: Citations) -> tuple[RuledOut, ...]:
    """Return what is out with the reason that decided; equal reasons share a row."""
    rows: dict[tuple[str, str], list[OptionRecord]] = {}
    said: dict[tuple[str, str], Conclusion] = {}
    for option in plan.options:
        if option.verdict == "ruled-out":
            against = next(c for c in option.reasons if c.kind in {"ruled-out", "joined"})
            key = (option.stage, against.sentence)
            rows.setdefault(key, []).append(option)
            said.setdefault(key, against)
    return tuple(
        RuledOut("; ".join(option.name for option in options), reason(said[key], refs))
        for key, options in rows.items()
    )


def _other(route: Alternative) -> OtherRoute:
    return OtherRoute(
        name=route.name,
        total=sentence("{x:money}", x=route.cost_total),
        ready=_days(route.lead_time_h),
        tools=route.tools,
        open_points=len(route.doubts),
        lost=route.lost_because,
    )


def _cost_rows(route: RouteRecord) -> tuple[CostRow, ...]:
    return tuple(
        CostRow(line.label, sentence("{x:money}", x=line.amount), f"each {line.per}")
        for line in route.cost_lines
    )


def _run_costs(route: RouteRecord, here: int) -> tuple[RunCost, ...]:
    return tuple(
        RunCost(parts, sentence("{x:money}", x=each), int(parts) == here)
        for parts, each in route.cost_at_runs.items()
    )


def _figures(plan: Plan) -> list[Ground]:
    """Return the figures of the tables that numbers rest on, in order of first use."""
    return list(
        dict.fromkeys(
            ground
            for finding in plan.findings
            for ground in finding.conclusion.grounds
            if ground.kind == "table" and _is_a_figure(ground)
        )
    )


def _is_a_figure(ground: Ground) -> bool:
    return any(sign.isdigit() for sign in ground.value)


def _numbers(plan: Plan, refs: Citations) -> tuple[Number, ...]:
    """Return the numbers; what went into several in a row is printed once."""
    figures = {figure: n for n, figure in enumerate(_figures(plan), 1)}
    found = {finding.conclusion.id: finding for finding in plan.findings}
    rows = [_number(finding, figures, found, refs) for finding in plan.findings]
    last: tuple[tuple[str, ...], tuple[tuple[int, int], ...]] = (), ()
    for n, row in enumerate(rows):
        if len(row.inputs) > 1 and (row.inputs, row.figures) == last:
            same = ("the same as the number above",)
            rows[n] = replace(row, inputs=same, figures=())
        last = row.inputs, row.figures
    return tuple(rows)


def _number(
    finding: FindingRecord,
    figures: Mapping[Ground, int],
    found: Mapping[str, FindingRecord],
    refs: Citations,
) -> Number:
    span = ""
    if finding.low is not None and finding.high is not None and finding.low != finding.high:
        low, high = (in_styles(x, finding.unit) for x in (finding.low, finding.high))
        span = f"{low} to {high}"
    grounds = finding.conclusion.grounds
    taken = [ground for ground in grounds if ground in figures]
    of_figures = {source for figure in taken for source in figure.sources}
    return Number(
        id=finding.id,
        label=finding.label,
        value=in_styles(finding.value, finding.unit),
        span=span,
        limit="" if finding.limit is None else in_styles(finding.limit, finding.unit),
        judgement=finding.judgement,
        formula=finding.conclusion.formula or "",
        inputs=tuple(filter(None, (_input(ground, found) for ground in grounds))),
        figures=_runs(sorted({figures[figure] for figure in taken})),
        sources=_cited(
            [s for s in finding.conclusion.sources if s not in of_figures], refs
        ),
    )


def _runs(numbers: list[int]) -> tuple[tuple[int, int], ...]:
    """Return runs of numbers that follow one another, as first and last."""
    runs: list[tuple[int, int]] = []
    for n in numbers:
        first = runs.pop()[0] if runs and runs[-1][1] == n - 1 else n
        runs.append((first, n))
    return tuple(runs)


def _input(ground: Ground, found: Mapping[str, FindingRecord]) -> str:
    """Return what a number took from the user or from another number, else nothing."""
    if ground.conclusion:
        other = found.get(ground.conclusion.id)
        return f"{other.label} {in_styles(other.value, other.unit)}" if other else ""
    if ground.kind == "table" or ground.name.startswith("title"):
        return ""
    taken = " (taken)" if ground.kind == "assumption" else ""
    return f"{ground.name} {ground.value}{taken}"


def _phases(plan: Plan, refs: Citations) -> tuple[PhaseView, ...]:
    guards = {caution.id: _guard(caution, refs) for caution in plan.cautions}
    phases: dict[str, list[StepView]] = {}
    for step in plan.steps:
        phases.setdefault(step.phase, []).append(_step(step, guards, refs))
    return tuple(PhaseView(title, tuple(steps)) for title, steps in phases.items())


def _guard(caution: CautionRecord, refs: Citations) -> Guard:
    return Guard(
        id=caution.id,
        hazard=caution.hazard,
        text=caution.text,
        defers_to=caution.defers_to,
        sources=_cited(caution.conclusion.sources, refs),
        first_step=min(caution.applies_to_steps, default=0),
    )


# A step of more words than this is told line by line, or may run over a page's end.
LONG_TEXT, SHORT_STEP = 45, 110

_SENTENCE_END = re.compile(r"(?<=[.!?])(?<!e\.g\.)(?<!i\.e\.)\s+(?=[A-Z])")
_ITEMS = re.compile(r"(?P<lead>[^:;.]{4,40}:) (?P<items>[^;]+(?:; [^;]+){3,})")


def sentences_of(text: str) -> tuple[str, ...]:
    """Part a text into its sentences."""
    return tuple(_SENTENCE_END.split(text))


def in_lines(text: str) -> tuple[str, tuple[str, ...]]:
    """Part a long text into its opening words and its lines; a short one stays whole.

    Examples
    --------
    >>> in_lines("From below: table; breather; tool; plies.")
    ('From below:', ('table', 'breather', 'tool', 'plies.'))
    >>> in_lines("Saw it. Dry it.")
    ('Saw it. Dry it.', ())
    """
    listed = _ITEMS.fullmatch(text)
    if listed:
        return listed["lead"], tuple(listed["items"].split("; "))
    sentences = sentences_of(text)
    if len(text.split()) <= LONG_TEXT or len(sentences) < 3:
        return text, ()
    return "", sentences


def _step(step: StepRecord, guards: Mapping[str, Guard], refs: Citations) -> StepView:
    hold = step.hold_point
    text, lines = in_lines(step.text)
    here = [guards[id] for id in step.cautions]
    return StepView(
        n=step.n,
        title=step.title,
        text=text,
        lines=lines,
        short=len(f"{step.text} {step.why}".split()) < SHORT_STEP,
        why=reason(step.conclusion, refs),
        listed=step.listed,
        quantities=tuple(
            f"{q.label}: {in_styles(q.value, q.unit)}" for q in step.quantities
        ),
        hold=Hold(hold.check, hold.accept, hold.record) if hold else None,
        first_cautions=tuple(g for g in here if g.first_step == step.n),
        cautions_again=tuple(g for g in here if g.first_step != step.n),
    )
