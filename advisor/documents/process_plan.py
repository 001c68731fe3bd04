"""What the process plan's template gets: every word and number ready to print."""

from collections import Counter
from dataclasses import dataclass
from datetime import date

from advisor.documents.citations import (
    BASIS,
    Citations,
    Reason,
    SourceView,
    numbered,
    reason,
)
from advisor.documents.doubts import TrialView, TurnRow, trial_view, turn_row
from advisor.documents.first_page import (
    STANDING,
    VERDICTS,
    Choice,
    budget,
    choices,
    days,
    deciding,
    in_money,
    job_line,
    left_out,
    price_note,
    run_time,
    span,
    stood,
    tools_needed,
)
from advisor.documents.numbers import (
    FigureRow,
    Number,
    figure_rows,
    is_a_figure,
    numbers_of,
)
from advisor.documents.pictures.cost_chart import cost_chart
from advisor.documents.pictures.svg import Picture
from advisor.documents.shown import LayerRow, Shown, layer_rows, pictures_of
from advisor.documents.work import PhaseView, phases_of
from advisor.measures import in_styles, sentence
from advisor.plan import Alternative, OptionRecord, Plan, RouteRecord
from advisor.reasoning.provenance import Conclusion, basis_as_decided, conclusions_in


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
    left_out: str
    stood: str
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
    cost_chart: Picture | None
    pictures: tuple[Shown, ...]
    layers: tuple[LayerRow, ...]
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
        cost=in_money(route.cost_total, route) if route else "",
        cost_span=span(route) if route else "",
        cost_each=in_money(route.cost_per_part, route) if route else "",
        price_note=price_note(route) if route else "",
        left_out=left_out(plan),
        stood=stood(plan),
        ready=days(route.lead_time_h) if route else "",
        tools=tools_needed(route) if route else "",
        reasons=deciding(plan, refs),
        conditions=tuple(ConditionView(c.text, c.proved_by) for c in plan.conditions),
        grave=tuple(
            (c.hazard, min(c.applies_to_steps, default=0))
            for c in plan.cautions
            if c.gravity == 1
        ),
        hazards=tuple(c.hazard for c in plan.cautions if c.gravity == 2),
        budget=budget(plan),
        run_time=run_time(job),
        standing=next((c.text for c in plan.cautions if c.id == "standing"), STANDING),
        proposal=tuple(reason(c, refs) for c in plan.proposal.conclusions)
        if plan.proposal
        else (),
        proposal_verdict=_PROPOSAL[plan.proposal.verdict] if plan.proposal else "",
        phases=phases_of(plan, refs),
        words=tuple(
            ExplainedWord(word.term, word.means, numbered(word.sources, refs))
            for word in plan.words
        ),
        ruled_out=_ruled_out(plan, refs),
        other_routes=tuple(_other(a) for a in plan.alternatives),
        guesses=tuple(one.text for one in plan.guesses),
        unseats=tuple(one.text for one in plan.changes if one.about == "route"),
        brings_back=tuple(one.text for one in plan.changes if one.about == "option"),
        sure=plan.sureness.text if plan.sureness else "",
        turns=tuple(turn_row(one, refs) for one in plan.sureness.turns)
        if plan.sureness
        else (),
        cost_rows=_cost_rows(route) if route else (),
        run_costs=_run_costs(route, job["run"]["parts"]) if route else (),
        currency=route.currency if route else "",
        cost_chart=cost_chart(plan),
        pictures=pictures_of(plan, refs),
        layers=layer_rows(plan, refs),
        numbers=numbers_of(plan, refs),
        figures=figure_rows(plan, refs),
        consumed=tuple(
            Consumed(c.item, in_styles(c.quantity, c.unit), c.allowance)
            for c in plan.consumables
        ),
        trials=tuple(trial_view(one, refs) for one in plan.trials),
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
        if ground.kind == "table" and ground.basis and is_a_figure(ground)
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


_PROPOSAL = {
    "sound": "Sound: every piece of it is kept.",
    "sound-in-part": "Sound in part: what the route can keep is kept, the rest is not.",
    "refused": "Refused: no route that stands has any piece of it.",
}


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
        ready=days(route.lead_time_h),
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
