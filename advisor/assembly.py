"""Puts what was concluded into a Plan: orders steps, merges cautions, numbers sources."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from advisor import drawings, no_route, proposal, routes, safer, trials
from advisor.decision import Decision
from advisor.job import Job, assumptions
from advisor.knowledge.rows import ExposureLimit
from advisor.knowledge.tables import Knowledge
from advisor.measures import from_si, sign
from advisor.plan import (
    CautionRecord,
    ConditionRecord,
    ConsumableRecord,
    FindingRecord,
    HoldPointRecord,
    OptionRecord,
    OptionStage,
    Plan,
    QuantityRecord,
    QuestionRecord,
    SourceRecord,
    StepRecord,
    Verdict,
    WordRecord,
)
from advisor.reasoning.conclusions import (
    Caution,
    Condition,
    Doubtful,
    Finding,
    Question,
    Refusal,
    Step,
    Use,
)
from advisor.reasoning.engine import Concluded
from advisor.reasoning.provenance import (
    Conclusion,
    Ground,
    conclusions_in,
    table_ground,
    weakest,
)
from advisor.routes import Candidate, Judged
from advisor.shop import Shop
from advisor.stack import bag_stack

# Deciding facts are asked for, never assumed; labels are not decision.
_NEVER_ASSUMED = frozenset(
    (
        "customer",
        "revision",
        "note",
        "proposal",
        "part.length",
        "part.width",
        "part.depth",
        "part.shape",
        "part.draft",
        "part.undercut",
        "part.local_undercut",
        "part.tool_side",
        "cure.temperature",
        "run.parts",
        "name",
        "prices",
        "stock",
        "rates.invented",
        "rates.planning_factor",
    )
)


@dataclass(frozen=True)
class Parts:
    """What a plan is made of, before sources and assumptions are gathered."""

    verdict: Verdict
    content: Mapping[str, Any]


def asking(questions: list[Concluded]) -> Parts:
    """Return the parts of a plan that can only ask."""
    records = tuple(
        QuestionRecord(
            field=one.outcome.field,
            text=one.conclusion.title,
            why_it_decides=one.conclusion.sentence,
            conclusion=one.conclusion,
        )
        for one in questions
        if isinstance(one.outcome, Question)
    )
    return Parts("ask-first", {"questions": records})


def blocked(decision: Decision) -> Parts:
    """Return the parts of a plan that has no route: what blocks, what would open one."""
    content: dict[str, Any] = {"findings": _findings(decision.needs)}
    if decision.refusals:
        content["conditions"] = tuple(
            ConditionRecord(
                text=f"{one.conclusion.sentence} A route needs {one.outcome.lifted_by}.",
                proved_by="a change of the job or the shop",
                conclusion=one.conclusion,
            )
            for one in decision.refusals
            if isinstance(one.outcome, Refusal)
        )
        return Parts("no-route", content)
    content["options"] = _tool_options(decision)
    content["conditions"] = no_route.smallest_changes(decision)
    content["proposal"] = proposal.judged(decision, None)
    return Parts("no-route", content)


def planned(decision: Decision, ranked: list[Candidate]) -> Parts:
    """Return the parts of a plan with a route."""
    winner = ranked[0]
    concluded = decision.steps_and_more(winner)
    steps = _ordered_steps(concluded, decision.knowledge)
    raised = decision.cautions(winner, steps)
    cautions = _cautions(decision, raised, steps)
    tools = _tool_options(decision)
    conditions = _conditions(winner, concluded)
    of_pieces = winner.judged.concluded
    of_route = winner.route_judged.concluded
    route = routes.route_record(winner, decision.pricer)
    route = route.model_copy(
        update={
            "reasons": (
                *proposal.kept_pieces(decision, winner),
                decision.first_because,
                *route.reasons,
            )
        }
    )
    content = {
        "conditions": conditions,
        "proposal": proposal.judged(decision, winner),
        "route": route,
        "alternatives": tuple(
            routes.alternative(one, winner, decision.pricer)
            for one in routes.alternatives(ranked, decision.job.budget.priority)
        ),
        "safer": safer.offers(decision, winner, tools, raised),
        "options": (*tools, *_piece_options(decision, winner)),
        "findings": _findings([*decision.needs, *of_pieces, *of_route, *concluded]),
        "cautions": cautions,
        "steps": tuple(
            _step(n, step, decision.knowledge, cautions) for n, step in enumerate(steps, 1)
        ),
        "stack": bag_stack(winner.pieces, decision.job, decision.knowledge),
        **drawings.drawn(concluded),
        "consumables": tuple(_uses(concluded)),
        "trials": tuple(trials.designed(decision, ranked, concluded)),
    }
    return Parts("route-with-conditions" if conditions else "route", content)


def finish(
    parts: Parts, *, job: Job, shop: Shop, knowledge: Knowledge, version: str
) -> Plan:
    """Return the whole plan, with its sources and assumptions."""
    taken = [
        *assumptions(job, "job", _NEVER_ASSUMED),
        *assumptions(shop, "shop", _NEVER_ASSUMED),
    ]
    if not shop.prices:
        taken.append(
            "shop: no prices were given; planning figures of the price table were taken, "
            "good to an order of magnitude. They are no quotation."
        )
    words = word_records(_said(parts.content), knowledge)
    explained = {source for word in words for source in word.sources}
    explained |= {
        source for layer in parts.content.get("stack", ()) for source in layer.sources
    }
    sources = source_records(_cited(parts.content) | explained, knowledge)
    return Plan(
        advisor_version=version,
        rule_base_version=knowledge.version,
        job_sha256=job.sha256(),
        job=job.model_dump(mode="json"),
        shop=shop.model_dump(mode="json"),
        verdict=parts.verdict,
        assumptions=tuple(taken),
        sources=sources,
        words=words,
        **parts.content,
    )


def source_records(ids: Iterable[str], knowledge: Knowledge) -> tuple[SourceRecord, ...]:
    """Return sources as a plan lists them, in the order of their ids."""
    return tuple(
        SourceRecord(
            id=id,
            citation=knowledge.sources[id].citation,
            kind=knowledge.sources[id].kind,
            basis=knowledge.sources[id].basis,
        )
        for id in sorted(ids)
    )


def word_records(said: Iterable[str], knowledge: Knowledge) -> tuple[WordRecord, ...]:
    """Return the words of the trade that stand in what is said, as a plan lists them."""
    text = "\n".join(said)
    return tuple(
        WordRecord(term=word.term, means=word.means, sources=word.source)
        for word in sorted(knowledge.glossary.values(), key=lambda word: word.term.lower())
        if word.stands_in(text)
    )


def _said(content: Mapping[str, Any]) -> Iterator[str]:
    """Yield what is done, asked or warned of."""
    for question in content.get("questions", ()):
        yield from (question.text, question.why_it_decides)
    for condition in content.get("conditions", ()):
        yield from (condition.text, condition.proved_by)
    for caution in content.get("cautions", ()):
        yield from (caution.hazard, caution.text, caution.defers_to)
    for trial in content.get("trials", ()):
        yield from (trial.text, trial.passes_if, trial.fails_if)
        for gauged in trial.gauged:
            yield from (gauged.measure, gauged.how, gauged.passes_if)
    for use in content.get("consumables", ()):
        yield from (use.item, use.allowance)
    for step in content.get("steps", ()):
        yield from (step.title, step.text, step.why, *step.listed)
        yield from (quantity.label for quantity in step.quantities)
        if step.hold_point:
            hold = step.hold_point
            yield from (hold.check, hold.accept, hold.record)


# ---------------------------------------------------------------------- steps, cautions


def _ordered_steps(concluded: Iterable[Concluded], knowledge: Knowledge) -> list[Concluded]:
    steps = [one for one in concluded if isinstance(one.outcome, Step)]

    def place(one: Concluded) -> tuple[int, str]:
        assert isinstance(one.outcome, Step)
        return (knowledge.phases[one.outcome.phase].order, one.conclusion.rule)

    return sorted(steps, key=place)


def _step(
    n: int, one: Concluded, knowledge: Knowledge, cautions: Iterable[CautionRecord]
) -> StepRecord:
    step = one.outcome
    assert isinstance(step, Step)
    hold, phase = step.hold_point, knowledge.phases[step.phase]
    return StepRecord(
        n=n,
        phase=phase.title,
        title=one.conclusion.title,
        text=step.text,
        why=one.conclusion.sentence,
        listed=tuple(step.listed),
        quantities=tuple(
            QuantityRecord(label=q.label, value=from_si(q.value, q.unit), unit=q.unit)
            for q in step.quantities
        ),
        hold_point=HoldPointRecord(
            check=hold.check,
            accept=hold.accept,
            record=hold.record,
            held_for=hold.held_for or phase.held_for,
            signers=hold.signers,
        )
        if hold
        else None,
        cautions=tuple(
            caution.id
            for caution in cautions
            if n in caution.applies_to_steps and caution.id != "standing"
        ),
        conclusion=one.conclusion,
    )


def _cautions(
    decision: Decision, concluded: Iterable[Concluded], steps: list[Concluded]
) -> tuple[CautionRecord, ...]:
    """Merge cautions by hazard and attach each to the steps whose activity it guards."""
    raised: dict[str, list[Concluded]] = {}
    for one in concluded:
        if isinstance(one.outcome, Caution):
            raised.setdefault(one.outcome.hazard, []).append(one)
    records = []
    rows = decision.knowledge.cautions
    for hazard in sorted(
        raised, key=lambda name: (name != "standing", rows[name].gravity, name)
    ):
        group = raised[hazard]
        outcomes = [one.outcome for one in group if isinstance(one.outcome, Caution)]
        activities = {outcome.activity for outcome in outcomes}
        agents = sorted({outcome.agent for outcome in outcomes if outcome.agent})
        row = decision.knowledge.cautions[hazard]
        here = decision.shop.rates.jurisdiction
        limits = [decision.knowledge.exposure_limit(agent, here) for agent in agents]
        records.append(
            CautionRecord(
                id=hazard,
                hazard=row.hazard,
                sign=row.sign,
                gravity=row.gravity,
                text=" ".join(
                    (row.text, *(_limit_sentence(one, decision) for one in limits))
                ),
                applies_to_steps=tuple(
                    n
                    for n, step in enumerate(steps, 1)
                    if hazard == "standing" or activities & set(_does(step))
                ),
                defers_to=row.defers_to,
                wear=row.wear,
                conclusion=_with_limits(
                    group[0].conclusion, hazard, row.source, limits, decision
                ),
            )
        )
    return tuple(records)


def _does(step: Concluded) -> tuple[str, ...]:
    return tuple(step.outcome.does) if isinstance(step.outcome, Step) else ()


def _with_limits(
    conclusion: Conclusion,
    hazard: str,
    sources: Sequence[str],
    limits: Iterable[ExposureLimit],
    decision: Decision,
) -> Conclusion:
    """Let a caution rest on the sources of its words and on the limits it prints."""
    words = Ground(
        kind="table",
        name="words of the caution",
        value=hazard,
        sources=tuple(sources),
        basis=decision.knowledge.basis(tuple(sources)),
    )
    printed = (
        table_ground(decision.knowledge, f"exposure limit, {row.agent}", row.limit)
        for row in limits
    )
    grounds = (words, *printed)
    cited = {source for ground in grounds for source in ground.sources}
    bases = [ground.basis for ground in grounds if ground.basis]
    return conclusion.model_copy(
        update={
            "grounds": conclusion.grounds + grounds,
            "sources": tuple(sorted({*conclusion.sources, *cited})),
            "basis": weakest([conclusion.basis, *bases]),
        }
    )


def _limit_sentence(row: ExposureLimit, decision: Decision) -> str:
    here = decision.shop.rates.jurisdiction
    place = "this jurisdiction" if here == "unknown" else _place(here)
    whose = (
        f"Limit for {place}"
        if row.jurisdiction == here
        else f"No limit is held for {place}; the lowest held"
    )
    return (
        f"{whose}: {_limit_words(row)}. Limits change, and meeting one is not proof that "
        "no harm is done: check the current text and have the exposure measured."
    )


def _place(jurisdiction: str) -> str:
    if jurisdiction == "ca-other":
        return "Canada outside Ontario and Quebec"
    return jurisdiction.replace("-", " ").upper()


def _limit_words(row: ExposureLimit) -> str:
    fraction = f" {row.fraction}" if row.fraction else ""
    where = f"{_place(row.jurisdiction)}, {row.clause}"
    figure = f"{row.limit.value:g} {sign(row.limit.unit)}"
    return f"{figure}{fraction}, {row.averaging} ({where})"


# ---------------------------------------------------------------------- options


def _tool_options(decision: Decision) -> tuple[OptionRecord, ...]:
    """Return every tool material, with what was said of it alone and in routes."""
    records = []
    for id, judged in decision.tools.items():
        row = decision.knowledge.tool_materials[id]
        reasons = _reasons(judged)
        verdict = judged.verdict
        own = decision.routes_of(id)
        if judged.stands and not any(one.stands for one in own):
            verdict = "ruled-out"
            reasons = (*reasons, no_route.no_route_for(decision, id, own))
        records.append(
            OptionRecord(
                stage="tool",
                id=id,
                family=row.family,
                name=row.name,
                verdict=verdict,
                reasons=reasons,
            )
        )
    return tuple(records)


def _reasons(judged: Judged) -> tuple[Conclusion, ...]:
    return tuple(
        one.conclusion for one in judged.concluded if not isinstance(one.outcome, Finding)
    )


def _piece_options(decision: Decision, winner: Candidate) -> Iterator[OptionRecord]:
    """Return seals, releases and bags as judged for the chosen tool and face."""
    tool, seal, _, _ = winner.ids
    knowledge = decision.knowledge
    on_tool = {id: judged for (of, id), judged in decision.seals.items() if of == tool}
    stages: tuple[tuple[OptionStage, Mapping[str, Judged], Mapping[str, Any]], ...] = (
        ("sealing", on_tool, knowledge.sealers),
        ("release", decision.releases_on(tool, seal), knowledge.releases),
        ("bagging", decision.bags_on(tool, seal), knowledge.bagging),
    )
    for stage, judged, rows in stages:
        for id, verdicts in judged.items():
            yield OptionRecord(
                stage=stage,
                id=id,
                family=id,
                name=rows[id].name,
                verdict=verdicts.verdict,
                reasons=_reasons(verdicts),
            )


# ---------------------------------------------------------------------- the rest


def _findings(concluded: Iterable[Concluded]) -> tuple[FindingRecord, ...]:
    found: dict[str, FindingRecord] = {}
    for one in concluded:
        finding = one.outcome
        if not isinstance(finding, Finding):
            continue

        def shown(number: float | None, unit: str = finding.unit) -> float | None:
            return None if number is None else from_si(number, unit)

        found[finding.key] = FindingRecord(
            id=finding.key,
            label=finding.label,
            value=from_si(finding.value, finding.unit),
            unit=finding.unit,
            low=shown(finding.low),
            high=shown(finding.high),
            limit=shown(finding.limit),
            judgement=finding.judgement,
            worked=finding.worked,
            conclusion=one.conclusion,
        )
    return tuple(found.values())


def _conditions(
    winner: Candidate, concluded: Iterable[Concluded]
) -> tuple[ConditionRecord, ...]:
    records = []
    for one in [*winner.doubts, *concluded]:
        match one.outcome:
            case Doubtful(text, proved_by) | Condition(text, proved_by):
                records.append(
                    ConditionRecord(
                        text=text, proved_by=proved_by, conclusion=one.conclusion
                    )
                )
    return tuple(records)


def _uses(concluded: Iterable[Concluded]) -> Iterator[ConsumableRecord]:
    for one in concluded:
        if isinstance(one.outcome, Use):
            use = one.outcome
            yield ConsumableRecord(
                item=use.item,
                quantity=from_si(use.quantity, use.unit),
                unit=use.unit,
                allowance=use.allowance,
                lot=use.lot,
                conclusion=one.conclusion,
            )


def _cited(content: Any) -> set[str]:
    """Gather every source named anywhere in a plan."""
    found: set[str] = set()
    for conclusion in conclusions_in(content):
        found.update(conclusion.sources)
        for ground in conclusion.grounds:
            found.update(ground.sources)
    return found
