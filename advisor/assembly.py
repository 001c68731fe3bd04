"""Puts what was concluded into a Plan: orders steps, merges cautions, numbers sources."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING, Any, Literal

from advisor import routes, safer
from advisor.job import Job, assumptions
from advisor.knowledge.rows import ExposureLimit
from advisor.knowledge.tables import Knowledge
from advisor.measures import from_si, in_sentence, sign
from advisor.plan import (
    CautionRecord,
    ConditionRecord,
    ConsumableRecord,
    FindingRecord,
    HoldPointRecord,
    OptionRecord,
    OptionStage,
    Plan,
    ProposalRecord,
    QuantityRecord,
    QuestionRecord,
    SourceRecord,
    StepRecord,
    TrialRecord,
    Verdict,
)
from advisor.reasoning.conclusions import (
    Caution,
    Condition,
    Doubtful,
    Finding,
    Question,
    Refusal,
    RuledOut,
    Step,
    Trial,
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

if TYPE_CHECKING:
    from advisor.advise import _Advice

PairStage = Literal["sealing", "release", "bagging"]

# Deciding facts are asked for, never assumed; labels are not advice.
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


def blocked(advice: _Advice, refusals: list[Concluded]) -> Parts:
    """Return the parts of a plan that has no route: what blocks, what would open one."""
    content: dict[str, Any] = {"findings": _findings(advice.needs)}
    if refusals:
        content["conditions"] = tuple(
            ConditionRecord(
                text=f"{one.conclusion.sentence} A route needs {one.outcome.lifted_by}.",
                proved_by="a change of the job or the shop",
                conclusion=one.conclusion,
            )
            for one in refusals
            if isinstance(one.outcome, Refusal)
        )
        return Parts("no-route", content)
    content["options"] = _tool_options(advice)
    content["conditions"] = _smallest_changes(advice)
    content["proposal"] = _proposal(advice, None)
    return Parts("no-route", content)


def planned(advice: _Advice, ranked: list[Candidate]) -> Parts:
    """Return the parts of a plan with a route."""
    winner = ranked[0]
    concluded = advice.steps_and_more(winner)
    steps = _ordered_steps(concluded, advice.knowledge)
    cautions = _cautions(advice, winner, steps)
    conditions = _conditions(winner, concluded)
    of_pieces = winner.judged.concluded
    of_route = winner.route_judged.concluded
    route = routes.route_record(winner, advice.pricer)
    route = route.model_copy(
        update={
            "reasons": (*_kept_pieces(advice, winner), advice.first_because, *route.reasons)
        }
    )
    content = {
        "conditions": conditions,
        "proposal": _proposal(advice, winner),
        "route": route,
        "alternatives": tuple(
            routes.alternative(one, winner, advice.pricer)
            for one in routes.alternatives(ranked, advice.job.budget.priority)
        ),
        "safer": safer.offers(
            advice.candidates,
            winner,
            advice.tools,
            advice.knowledge,
            advice.pricer,
            advice.job.budget.priority,
        ),
        "options": (*_tool_options(advice), *_piece_options(advice, winner)),
        "findings": _findings([*advice.needs, *of_pieces, *of_route, *concluded]),
        "cautions": cautions,
        "steps": tuple(
            _step(n, step, advice.knowledge, cautions) for n, step in enumerate(steps, 1)
        ),
        "consumables": tuple(_uses(concluded)),
        "trials": tuple(
            TrialRecord(
                text=one.outcome.text,
                passes_if=one.outcome.passes_if,
                fails_if=one.outcome.fails_if,
                conclusion=one.conclusion,
            )
            for one in concluded
            if isinstance(one.outcome, Trial)
        ),
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
    sources = tuple(
        SourceRecord(
            id=id,
            citation=knowledge.sources[id].citation,
            kind=knowledge.sources[id].kind,
            basis=knowledge.sources[id].basis,
        )
        for id in sorted(_cited(parts.content))
    )
    return Plan(
        advisor_version=version,
        rule_base_version=knowledge.version,
        job_sha256=job.sha256(),
        job=job.model_dump(mode="json"),
        shop=shop.model_dump(mode="json"),
        verdict=parts.verdict,
        assumptions=tuple(taken),
        sources=sources,
        **parts.content,
    )


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
    hold = step.hold_point
    return StepRecord(
        n=n,
        phase=knowledge.phases[step.phase].title,
        title=one.conclusion.title,
        text=step.text,
        why=one.conclusion.sentence,
        quantities=tuple(
            QuantityRecord(label=q.label, value=from_si(q.value, q.unit), unit=q.unit)
            for q in step.quantities
        ),
        hold_point=HoldPointRecord(check=hold.check, accept=hold.accept, record=hold.record)
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
    advice: _Advice, winner: Candidate, steps: list[Concluded]
) -> tuple[CautionRecord, ...]:
    """Merge cautions by hazard and attach each to the steps whose activity it guards."""
    raised: dict[str, list[Concluded]] = {}
    for one in advice.cautions(winner, steps):
        if isinstance(one.outcome, Caution):
            raised.setdefault(one.outcome.hazard, []).append(one)
    records = []
    rows = advice.knowledge.cautions
    for hazard in sorted(
        raised, key=lambda name: (name != "standing", rows[name].gravity, name)
    ):
        group = raised[hazard]
        outcomes = [one.outcome for one in group if isinstance(one.outcome, Caution)]
        activities = {outcome.activity for outcome in outcomes}
        agents = sorted({outcome.agent for outcome in outcomes if outcome.agent})
        row = advice.knowledge.cautions[hazard]
        here = advice.shop.rates.jurisdiction
        limits = [advice.knowledge.exposure_limit(agent, here) for agent in agents]
        records.append(
            CautionRecord(
                id=hazard,
                hazard=row.hazard,
                gravity=row.gravity,
                text=" ".join(
                    (row.text, *(_limit_sentence(one, advice) for one in limits))
                ),
                applies_to_steps=tuple(
                    n
                    for n, step in enumerate(steps, 1)
                    if hazard == "standing" or activities & set(_does(step))
                ),
                defers_to=row.defers_to,
                conclusion=_with_limits(
                    group[0].conclusion, hazard, row.source, limits, advice
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
    advice: _Advice,
) -> Conclusion:
    """Let a caution rest on the sources of its words and on the limits it prints."""
    words = Ground(
        kind="table",
        name="words of the caution",
        value=hazard,
        sources=tuple(sources),
        basis=advice.knowledge.basis(tuple(sources)),
    )
    printed = (
        table_ground(advice.knowledge, f"exposure limit, {row.agent}", row.limit)
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


def _limit_sentence(row: ExposureLimit, advice: _Advice) -> str:
    here = advice.shop.rates.jurisdiction
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


def _tool_options(advice: _Advice) -> tuple[OptionRecord, ...]:
    """Return every tool material, with what was said of it alone and in routes."""
    records = []
    for id, judged in advice.tools.items():
        row = advice.knowledge.tool_materials[id]
        reasons = _reasons(judged)
        verdict = judged.verdict
        own = [one for one in advice.candidates if one.pieces.tool_id == id]
        if judged.stands and not any(one.stands for one in own):
            verdict = "ruled-out"
            reasons = (*reasons, _no_route_for(advice, id, own))
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


def _no_route_for(advice: _Advice, tool: str, own: list[Candidate]) -> Conclusion:
    """Say why a tool material that stands alone is in no route."""
    name = advice.knowledge.tool_materials[tool].name
    if own:
        nearest = min(own, key=lambda one: (one.cost.total, one.ids))
        because = [one.conclusion for one in nearest.route_judged.against]
        text = " ".join(one.sentence for one in because)
        return routes.joined("JOIN-010", tool, "Its routes are ruled out", text, because)
    because, what = _missing_piece(advice, tool)
    text = f"{name} stands by itself, but no {what} goes with it here. " + " ".join(
        dict.fromkeys(one.sentence for one in because)
    )
    return routes.joined("JOIN-020", tool, f"No {what} goes with it", text, because)


def _missing_piece(advice: _Advice, tool: str) -> tuple[list[Conclusion], str]:
    seals = {seal: judged for (of, seal), judged in advice.seals.items() if of == tool}
    standing = [seal for seal, judged in seals.items() if judged.stands]
    groups: list[tuple[str, Iterable[Judged]]] = [("seal", seals.values())]
    for seal in standing:
        groups.append(("release", advice.releases_on(tool, seal).values()))
        groups.append(("bag", advice.bags_on(tool, seal).values()))
    for what, judged in groups:
        if not any(one.stands for one in judged):
            return [one.against[0].conclusion for one in judged], what
    raise RuntimeError(f"{tool} has a route and yet is said to have none")


def _piece_options(advice: _Advice, winner: Candidate) -> Iterator[OptionRecord]:
    """Return seals, releases and bags as judged for the chosen tool and face."""
    tool, seal, _, _ = winner.ids
    knowledge = advice.knowledge
    on_tool = {id: judged for (of, id), judged in advice.seals.items() if of == tool}
    stages: tuple[tuple[OptionStage, Mapping[str, Judged], Mapping[str, Any]], ...] = (
        ("sealing", on_tool, knowledge.sealers),
        ("release", advice.releases_on(tool, seal), knowledge.releases),
        ("bagging", advice.bags_on(tool, seal), knowledge.bagging),
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


def _smallest_changes(advice: _Advice) -> tuple[ConditionRecord, ...]:
    """Return the changes that would open a route: what lacks only money comes first.

    Tools that one and the same change brings back stand together.
    """
    wants: dict[tuple[bool, str], list[tuple[int, float, str, Conclusion]]] = {}
    for id, judged in advice.tools.items():
        own = [one for one in advice.candidates if one.pieces.tool_id == id]
        if judged.against:
            blockers, money = judged.against, 0.0
        elif own:
            nearest = min(own, key=lambda one: (one.cost.total, one.ids))
            blockers, money = nearest.route_judged.against, nearest.cost.total
        else:
            blockers, money = _nearest_on_tool(advice, id), 0.0
        wanted = " and ".join(
            one.outcome.lifted_by for one in blockers if isinstance(one.outcome, RuledOut)
        )
        row = (len(blockers), money, id, blockers[0].conclusion)
        wants.setdefault((bool(judged.against), wanted), []).append(row)
    nearest_first = sorted(
        wants.items(), key=lambda row: (row[0][0], min(one[:3] for one in row[1]))
    )
    return tuple(
        ConditionRecord(
            text=_come_back(
                [
                    advice.knowledge.tool_materials[one[2]].name
                    for one in sorted(rows, key=_by_nearness)
                ],
                wanted,
                out_by_itself,
            ),
            proved_by="a change of the job or the shop, then a new plan",
            conclusion=min(rows, key=_by_nearness)[3],
        )
        for (out_by_itself, wanted), rows in nearest_first[:5]
    )


def _by_nearness(row: tuple[int, float, str, Conclusion]) -> tuple[int, float, str]:
    return row[:3]


def _come_back(names: list[str], wanted: str, out_by_itself: bool) -> str:
    """Say what brings tools back; one that is out by itself may lack more."""
    who = "; ".join((names[0], *map(in_sentence, names[1:])))
    if out_by_itself:
        return f"{who} would first need {wanted}; what else is lacking shows then."
    return f"{who} come{'s' * (len(names) == 1)} back with {wanted}."


def _nearest_on_tool(advice: _Advice, tool: str) -> list[Concluded]:
    """Return the fewest reasons that keep seal, release and bag off a tool that stands."""
    seals = {seal: on for (of, seal), on in advice.seals.items() if of == tool}
    standing = [seal for seal, judged in seals.items() if judged.stands]
    tries = [judged.against for judged in seals.values()] if not standing else []
    for seal in standing:
        on_face = (advice.releases_on(tool, seal), advice.bags_on(tool, seal))
        blocked = [
            min((one.against for one in options.values()), key=len)
            for options in on_face
            if not any(one.stands for one in options.values())
        ]
        tries.append([one for against in blocked for one in against])
    return min(tries, key=len)


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
                conclusion=one.conclusion,
            )


def _proposal(advice: _Advice, winner: Candidate | None) -> ProposalRecord | None:
    """Judge the user's own idea piece by piece."""
    asked = advice.job.proposal
    if asked is None:
        return None
    given = {stage: id for stage, id in asked.model_dump().items() if id is not None}
    if not given:
        return None
    base = _proposed_base(advice, winner, given)
    judged = {
        stage: _proposed_piece(advice, stage, id, base) for stage, id in given.items()
    }
    alone = [stage for stage, one in judged.items() if one is not None and one.stands]
    somewhere = {
        stage: id
        for stage, id in given.items()
        if stage in alone or _stands_elsewhere(advice, stage, id)
    }
    lost = _lost_together(advice, winner, somewhere, base[0] if base else "")
    if "tool" in alone and (no_route := _no_route_with(advice, given["tool"])):
        lost["tool"] = [no_route]
    conclusions: list[Conclusion] = []
    for stage, id in given.items():
        verdicts = judged[stage]
        if verdicts is None:
            conclusions.append(_not_judged(stage, id))
            continue
        against = [one.conclusion for one in (*verdicts.against, *verdicts.doubts)]
        against += lost.get(stage, [])
        conclusions += against or [_nothing_against(stage, id)]
    sound = len(set(alone) - set(lost))
    verdict: Literal["sound", "sound-in-part", "refused"] = (
        "sound" if sound == len(given) else "sound-in-part" if sound else "refused"
    )
    return ProposalRecord(as_given=given, verdict=verdict, conclusions=tuple(conclusions))


def _lost_together(
    advice: _Advice, winner: Candidate | None, alone: Mapping[str, str], base: str
) -> dict[str, list[Conclusion]]:
    """Say which proposed pieces stand alone and yet not in a route, or not in one together.

    The smallest sets come first; a set that holds one already told is passed over. Each is
    told of the piece that the route drops. A tool alone is left to `_no_route_with`.
    """
    told: list[set[str]] = []
    if "tool" in alone and not _routes_with(advice, {"tool": alone["tool"]}):
        told.append({"tool"})
    lost: dict[str, list[Conclusion]] = {}
    for size in range(1, len(alone) + 1):
        for stages in combinations(alone, size):
            wanted = {stage: alone[stage] for stage in stages}
            if any(one <= set(stages) for one in told) or _routes_with(advice, wanted):
                continue
            tool, because = _in_the_way(advice, wanted, base)
            if not because:
                continue
            told.append(set(stages))
            dropped = [one for one in stages if winner and not _holds(winner, one, wanted)]
            lost.setdefault((*dropped, stages[-1])[0], []).append(
                _not_in_a_route(advice, wanted, tool, because)
            )
    return lost


def _stands_elsewhere(advice: _Advice, stage: str, id: str) -> bool:
    """Return whether a piece stands on a tool, if not on the one the others go with."""
    if stage == "sealing":
        return any(one.stands for (_, seal), one in advice.seals.items() if seal == id)
    return bool(_routes_with(advice, {stage: id}))


def _holds(one: Candidate, stage: str, wanted: Mapping[str, str]) -> bool:
    """Return whether a route has this piece; a family stands for its tools."""
    if stage == "tool":
        return wanted[stage] in (one.pieces.tool_id, one.pieces.tool.family)
    return wanted[stage] in one.ids


def _routes_with(advice: _Advice, wanted: Mapping[str, str]) -> list[Candidate]:
    """Return the routes that stand and have all of these pieces."""
    return [
        one for one in advice.ranked if all(_holds(one, stage, wanted) for stage in wanted)
    ]


def _in_the_way(
    advice: _Advice, wanted: Mapping[str, str], base: str
) -> tuple[str, list[Conclusion]]:
    """Return a tool, and what rules out every route over it with these pieces.

    First what rules out a whole route; then, on the tool of the proposal or of the route
    if the seal stands on it, what rules out the pieces that would complete one.
    """
    rows = advice.knowledge.tool_materials
    whole = [
        one
        for one in advice.candidates
        if all(_holds(one, stage, wanted) for stage in wanted)
    ]
    if whole:
        nearest = min(whole, key=lambda one: (one.cost.total, one.ids))
        against = [one.conclusion for one in nearest.route_judged.against]
        return nearest.pieces.tool_id, against if advice.ranked else []
    ways: list[tuple[str, list[Conclusion]]] = []
    for (tool, seal), sealed in advice.seals.items():
        if not sealed.stands or wanted.get("sealing", seal) != seal:
            continue
        if "tool" in wanted and wanted["tool"] not in (tool, rows[tool].family):
            continue
        for stage, judged in (
            ("release", advice.releases_on(tool, seal)),
            ("bagging", advice.bags_on(tool, seal)),
        ):
            asked = [one for id, one in judged.items() if wanted.get(stage, id) == id]
            if not any(one.stands for one in asked):
                ways.append((tool, [one.against[0].conclusion for one in asked]))
                break
    return min(ways, key=lambda way: (way[0] != base, len(way[1])), default=("", []))


def _not_in_a_route(
    advice: _Advice, wanted: Mapping[str, str], tool: str, because: list[Conclusion]
) -> Conclusion:
    names = " and ".join(in_sentence(_name(advice, *piece)) for piece in wanted.items())
    on = in_sentence(advice.knowledge.tool_materials[tool].name)
    once = list({one.sentence: one for one in because}.values())
    why = f"What stops it on {on}: " + " ".join(one.sentence for one in once)
    subject = "+".join(wanted.values())
    if len(wanted) == 1:
        text = f"With {names} no route is left, though a tool stands for it. {why}"
        return routes.joined("JOIN-074", subject, "It stands in no route", text, once)
    text = f"Each stands by itself, but no route has {names} together. {why}"
    return routes.joined("JOIN-084", subject, "They do not go together", text, once)


def _name(advice: _Advice, stage: str, id: str) -> str:
    """Return the name of a proposed piece; a family is named by its first tool."""
    knowledge = advice.knowledge
    if stage == "tool":
        rows = knowledge.tool_materials
        return next(row.name for key, row in rows.items() if id in (key, row.family))
    named: dict[str, Mapping[str, Any]] = {
        "sealing": knowledge.sealers,
        "release": knowledge.releases,
        "bagging": knowledge.bagging,
    }
    return str(named[stage][id].name)


def _no_route_with(advice: _Advice, proposed: str) -> Conclusion | None:
    """Say why a proposed tool that stands alone is in no route, or None if it is in one."""
    rows = advice.knowledge.tool_materials
    meant = [id for id in rows if proposed in (id, rows[id].family)]
    own = [one for one in advice.candidates if one.pieces.tool_id in meant]
    if any(one.stands for one in own):
        return None
    standing = next(id for id in meant if advice.tools[id].stands)
    return _no_route_for(
        advice, standing, [one for one in own if one.pieces.tool_id == standing]
    )


def _proposed_base(
    advice: _Advice, winner: Candidate | None, given: Mapping[str, str]
) -> tuple[str, str] | None:
    """Return tool and seal that the other pieces of a proposal are judged on.

    The proposed ones, as far as they are given and the tool stands; else the route's.
    """
    rows, proposed = advice.knowledge.tool_materials, given.get("tool")
    meant = [
        id for id in rows if proposed in (id, rows[id].family) and advice.tools[id].stands
    ]
    seals = [seal for _, seal in advice.seals if seal == given.get("sealing")]
    if winner is not None and (not meant or winner.pieces.tool_id in meant):
        return winner.ids[0], (*seals, winner.ids[1])[0]
    standing = [pair for pair, judged in advice.seals.items() if judged.stands]
    pairs = [pair for pair in standing if not meant or pair[0] == meant[0]]
    if meant and seals:
        return meant[0], seals[0]
    return next(iter(pairs), None)


def _proposed_piece(
    advice: _Advice, stage: str, id: str, base: tuple[str, str] | None
) -> Judged | None:
    if stage == "tool":
        rows = advice.knowledge.tool_materials
        meant = [one for one in rows if id in (one, rows[one].family)]
        grades = [advice.tools[one] for one in meant]
        return next((one for one in grades if one.stands), grades[0])
    if base is None:
        return None
    match stage:
        case "sealing":
            return advice.seals[base[0], id]
        case "release":
            return advice.releases_on(*base)[id]
        case _:
            return advice.bags_on(*base)[id]


def _kept_pieces(advice: _Advice, winner: Candidate) -> tuple[Conclusion, ...]:
    """Say which pieces of the user's own idea the route keeps."""
    asked = advice.job.proposal
    if asked is None or not winner.kept:
        return ()
    pieces = winner.pieces
    used = {
        "tool": (pieces.tool.name, {pieces.tool_id, pieces.tool.family}),
        "sealing": (pieces.sealing.name, {pieces.sealing_id}),
        "release": (pieces.release.name, {pieces.release_id}),
        "bagging": (pieces.bagging.name, {pieces.bagging_id}),
    }
    kept = {
        stage: name for stage, (name, ids) in used.items() if getattr(asked, stage) in ids
    }
    names = ", ".join(in_sentence(name) for name in kept.values())
    return (
        Conclusion(
            id="JOIN-050:route",
            kind="joined",
            rule="JOIN-050",
            title="Keep what is sound of the proposal",
            sentence=f"The proposal asks for it and it stands, so it is kept: {names}.",
            grounds=tuple(
                Ground(kind="job", name=f"proposal.{stage}", value=getattr(asked, stage))
                for stage in kept
            ),
            sources=("common-practice",),
            basis="common-practice",
        ),
    )


def _nothing_against(stage: str, id: str) -> Conclusion:
    text = (
        f"Nothing in this job rules out {id} as {stage}, and nothing about it is in doubt."
    )
    return _about_proposal("JOIN-030", stage, id, "Keep it", text)


def _not_judged(stage: str, id: str) -> Conclusion:
    text = f"{id} as {stage} could not be judged: no tool stands for it to go with."
    return _about_proposal("JOIN-040", stage, id, "Not judged", text)


def _about_proposal(rule: str, stage: str, id: str, title: str, text: str) -> Conclusion:
    return Conclusion(
        id=f"{rule}:{stage}:{id}",
        kind="joined",
        rule=rule,
        title=title,
        sentence=text,
        grounds=(Ground(kind="job", name=f"proposal.{stage}", value=id),),
        sources=("common-practice",),
        basis="common-practice",
    )


def _cited(content: Any) -> set[str]:
    """Gather every source named anywhere in a plan."""
    found: set[str] = set()
    for conclusion in conclusions_in(content):
        found.update(conclusion.sources)
        for ground in conclusion.grounds:
            found.update(ground.sources)
    return found
