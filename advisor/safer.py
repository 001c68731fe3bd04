"""Offers a standing route without a hazard of the chosen one, or says why none stands."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from advisor import routes
from advisor.costing import Pricer
from advisor.decision import Decision
from advisor.knowledge.rows import Avoidable
from advisor.knowledge.tables import Knowledge
from advisor.measures import in_sentence, phrase
from advisor.plan import OptionRecord, SaferRecord
from advisor.reasoning.conclusions import Caution
from advisor.reasoning.engine import Concluded
from advisor.reasoning.provenance import Conclusion
from advisor.routes import Candidate
from advisor.sparing import brought, is_without, of_seal, of_tool


def offers(
    decision: Decision,
    winner: Candidate,
    tools: Sequence[OptionRecord],
    cautions: Iterable[Concluded],
) -> tuple[SaferRecord, ...]:
    """Return, for each avoidable hazard that the chosen route brings, what stands without.

    A route is offered if it brings no other avoidable hazard in its place; the best by
    merit is taken, the proposal left aside.  A hazard that the job raises whatever the
    route cannot be avoided by another: that is said, and the offer speaks of the piece.
    """
    rows = decision.knowledge.avoidable
    staying = _whatever_the_route(cautions)
    return tuple(
        _offer(
            decision,
            id,
            winner,
            tools,
            next((staying[one] for one in rows[id].cautions if one in staying), None),
        )
        for id in sorted(brought(winner.pieces, decision.knowledge))
    )


def _whatever_the_route(cautions: Iterable[Concluded]) -> Mapping[str, Conclusion]:
    """Return the cautions that rest on no piece of the route, by their hazard."""
    return {
        one.outcome.hazard: one.conclusion
        for one in cautions
        if isinstance(one.outcome, Caution)
        and not any(
            ground.conclusion and ground.conclusion.kind == "chosen"
            for ground in one.conclusion.grounds
        )
    }


def _offer(
    decision: Decision,
    id: str,
    winner: Candidate,
    tools: Sequence[OptionRecord],
    stays: Conclusion | None,
) -> SaferRecord:
    row, pricer = decision.knowledge.avoidable[id], decision.pricer
    without = [one for one in decision.candidates if is_without(one.pieces, row)]
    ranked = routes.rank(
        [one for one in without if one.stands],
        decision.job.budget.priority,
        keep_proposal=False,
    )
    instead = brought(winner.pieces, decision.knowledge) - {id}
    clean = [one for one in ranked if brought(one.pieces, decision.knowledge) <= instead]
    hazard = row.hazard
    if stays:
        seal = of_seal(row, winner.pieces.sealing.contains)
        hazard += " in the seal" if seal else " from the tool"
    record = None
    if clean:
        text = f"Without {hazard}: {_compared(clean[0], winner, pricer)}"
        if clean[0].pieces.tool.dust in row.dust_if_filled:
            text += f" A filler may be {row.hazard}: read its data sheet before it is cut."
        because = [_cost(clean[0]), _cost(winner)]
        record = routes.route_record(clean[0], pricer)
    elif ranked:
        text = _others_in_its_place(ranked[0], hazard, instead, decision.knowledge)
        because = [_cost(ranked[0])]
    else:
        blocks, because = _blocks(decision, row, winner, without, tools)
        text = f"No route without {hazard} stands. {blocks}"
    if stays:
        text += (
            f" Whatever the route, one source of it stays: {in_sentence(stays.sentence)}"
        )
        because.append(stays)
    said = routes.joined("JOIN-070", id, "Offer what spares a hazard", text, because)
    return SaferRecord(hazard=row.hazard, route=record, text=text, conclusion=said)


def _compared(one: Candidate, winner: Candidate, pricer: Pricer) -> str:
    """Say what a route is, what was checked of it, and what it costs or spares."""
    days = round((one.cost.lead_time_h - winner.cost.lead_time_h) / 24)
    price = routes.price_against(one, winner, pricer.shop.rates.currency)
    when = (
        phrase("is ready {x:days} {w}", x=abs(days), w="later" if days > 0 else "sooner")
        if days
        else "is ready as soon"
    )
    prove = _to_prove(len(one.doubts), len(winner.doubts))
    leaves = " It leaves the proposal." if one.kept < winner.kept else ""
    return (
        f"{routes.named(one)} passes the same checks of tool, seal, release, bag and "
        f"price; it {price} over the run, {when} and {prove}.{leaves}"
    )


def _to_prove(left: int, against: int) -> str:
    if left == against:
        return (
            "leaves as much to prove" if left else "leaves nothing in doubt, like the plan"
        )
    now = routes.points(left) if left else "nothing"
    before = routes.points(against) if against else "nothing"
    return f"leaves {now} to prove, against {before}"


def _others_in_its_place(
    best: Candidate, hazard: str, instead: set[str], knowledge: Knowledge
) -> str:
    """Say that what stands without a hazard brings another, and which the best brings."""
    others = sorted(brought(best.pieces, knowledge) - instead)
    named = " and ".join(knowledge.avoidable[one].hazard for one in others)
    return (
        f"Every route that stands without {hazard} brings another such hazard in its "
        f"place. The best of them, {routes.named(best)}, brings {named}."
    )


def _cost(one: Candidate) -> Conclusion:
    return next(
        said.conclusion
        for said in one.route_judged.concluded
        if said.conclusion.rule == "MONEY-040"
    )


def _blocks(
    decision: Decision,
    row: Avoidable,
    winner: Candidate,
    without: Sequence[Candidate],
    tools: Sequence[OptionRecord],
) -> tuple[str, list[Conclusion]]:
    """Say what keeps out the nearest route without a hazard, every tool or every seal."""
    if without:
        nearest = min(without, key=lambda one: (one.cost.total, one.ids))
        because = [one.conclusion for one in nearest.route_judged.against]
        return " ".join(one.sentence for one in because), because
    if not of_seal(row, winner.pieces.sealing.contains):
        because = list(_against_tools(row, tools, decision.knowledge))
        every = f"Each of the {len(because)} tool materials without it is ruled out, alone"
        return f"{every} or with all that could go on it.", because
    because = list(_against_seals(decision, row, winner.pieces.tool_id))
    on = in_sentence(winner.pieces.tool.name)
    said = " ".join(dict.fromkeys(one.sentence for one in because))
    return f"No seal without it completes a route here. On {on}: {said}", because


def _against_tools(
    row: Avoidable, tools: Sequence[OptionRecord], knowledge: Knowledge
) -> Iterator[Conclusion]:
    for tool in tools:
        material = knowledge.tool_materials[tool.id]
        if not (
            of_tool(row, material.dust, material.family)
            or material.dust in row.dust_till_shown
        ):
            yield next(one for one in tool.reasons if one.kind in {"ruled-out", "joined"})


def _against_seals(decision: Decision, row: Avoidable, tool: str) -> Iterator[Conclusion]:
    """Yield what rules out the seals without a hazard, or what would go on them."""
    for (of, seal), judged in decision.seals.items():
        if of != tool or of_seal(row, decision.knowledge.sealers[seal].contains):
            continue
        if judged.against:
            yield judged.against[0].conclusion
            continue
        for options in (decision.releases_on(tool, seal), decision.bags_on(tool, seal)):
            if not any(one.stands for one in options.values()):
                yield from (one.against[0].conclusion for one in options.values())
                break
