"""Offers a standing route without a hazard of the chosen one, or says why none stands."""

from collections.abc import Iterator, Mapping, Sequence

from advisor import routes
from advisor.costing import Pieces, Pricer
from advisor.knowledge.rows import Avoidable
from advisor.knowledge.tables import Knowledge
from advisor.measures import in_sentence, phrase
from advisor.plan import SaferRecord
from advisor.reasoning.provenance import Conclusion
from advisor.routes import Candidate, Judged


def offers(
    candidates: Sequence[Candidate],
    winner: Candidate,
    tools: Mapping[str, Judged],
    knowledge: Knowledge,
    pricer: Pricer,
    priority: str,
) -> tuple[SaferRecord, ...]:
    """Return, for each avoidable hazard of the chosen route, what stands without it.

    A route is offered if it brings no other avoidable hazard in its place.  It meets the
    same needs, since it stands; the best by merit is taken, the proposal left aside.
    """
    carried = _carried(winner.pieces, knowledge)
    spared = {
        id: [one for one in candidates if _carried(one.pieces, knowledge) <= carried - {id}]
        for id in sorted(carried)
    }
    return tuple(
        _offer(id, without, winner, tools, knowledge, pricer, priority)
        for id, without in spared.items()
    )


def _carried(pieces: Pieces, knowledge: Knowledge) -> set[str]:
    """Return the avoidable hazards of a route; a tool in stock is not cut any more."""
    return {
        id
        for id, row in knowledge.avoidable.items()
        if set(row.contains) & set(pieces.sealing.contains)
        or (not pieces.owned and _of_tool(row, pieces.tool.dust, pieces.tool.family))
    }


def _of_tool(row: Avoidable, dust: str, family: str) -> bool:
    return dust in row.dust or family in row.families


def _offer(
    id: str,
    without: Sequence[Candidate],
    winner: Candidate,
    tools: Mapping[str, Judged],
    knowledge: Knowledge,
    pricer: Pricer,
    priority: str,
) -> SaferRecord:
    hazard = knowledge.avoidable[id].hazard
    standing = [one for one in without if one.stands]
    if standing:
        best = routes.rank(standing, priority, keep_proposal=False)[0]
        text = f"Without {hazard}: {_compared(best, winner, pricer)}"
        because = [_cost(best), _cost(winner)]
        record = routes.route_record(best, pricer)
    else:
        record = None
        blocks, because = _blocks(id, without, tools, knowledge)
        text = f"No route without {hazard} stands. {blocks}"
    said = routes.joined("JOIN-070", id, "Offer what spares a hazard", text, because)
    return SaferRecord(hazard=hazard, route=record, text=text, conclusion=said)


def _compared(one: Candidate, winner: Candidate, pricer: Pricer) -> str:
    """Say what a route is, that it meets the same needs, and what it costs or spares."""
    currency = pricer.shop.rates.currency
    more = one.cost.total - winner.cost.total
    days = round((one.cost.lead_time_h - winner.cost.lead_time_h) / 24)
    money = phrase("{x:money} {c}", x=abs(more), c=currency)
    price = f"costs {money} {'more' if more > 0 else 'less'} over the run"
    when = (
        phrase("is ready {x:days} {w}", x=abs(days), w="later" if days > 0 else "sooner")
        if days
        else "is ready as soon"
    )
    prove = _to_prove(len(one.doubts), len(winner.doubts))
    name, seal = in_sentence(one.pieces.tool.name), in_sentence(one.pieces.sealing.name)
    sealed = "" if one.pieces.sealing_id == "none" else f" under {seal}"
    return f"{name}{sealed} meets the same needs, {price}, {when} and {prove}."


def _to_prove(left: int, against: int) -> str:
    if left == against:
        return "leaves no more to prove"
    return f"leaves {left or 'nothing'} to prove, against {against or 'nothing'}"


def _cost(one: Candidate) -> Conclusion:
    return next(
        said.conclusion
        for said in one.route_judged.concluded
        if said.conclusion.rule == "MONEY-040"
    )


def _blocks(
    id: str,
    without: Sequence[Candidate],
    tools: Mapping[str, Judged],
    knowledge: Knowledge,
) -> tuple[str, list[Conclusion]]:
    """Say what keeps out the nearest route without a hazard, or every tool without it."""
    if without:
        nearest = min(without, key=lambda one: (one.cost.total, one.ids))
        because = [one.conclusion for one in nearest.route_judged.against]
        return " ".join(one.sentence for one in because), because
    because = list(_against_tools(id, tools, knowledge))
    count = len(because)
    return f"All {count} tool materials that hold none are ruled out.", because


def _against_tools(
    id: str, tools: Mapping[str, Judged], knowledge: Knowledge
) -> Iterator[Conclusion]:
    row = knowledge.avoidable[id]
    for tool, judged in sorted(tools.items()):
        material = knowledge.tool_materials[tool]
        if judged.against and not _of_tool(row, material.dust, material.family):
            yield judged.against[0].conclusion
