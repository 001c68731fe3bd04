"""Joins what stands into routes, prices them, and ranks them by plain rules."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from heapq import heapify, heappop, heappush
from typing import Literal

from advisor import sparing
from advisor.costing import Pieces, Pricer, RouteCost
from advisor.job import Proposal
from advisor.knowledge.rows import Construction, ToolMaterial
from advisor.knowledge.tables import Knowledge
from advisor.measures import enumerated, in_sentence, phrase
from advisor.plan import Alternative, RouteRecord
from advisor.reasoning import facts
from advisor.reasoning.conclusions import Doubtful, Good, RuledOut
from advisor.reasoning.engine import Concluded, Evidence
from advisor.reasoning.provenance import (
    Conclusion,
    Ground,
    resting_on,
    table_ground,
    weakest,
)

RUN_LENGTHS = (1, 2, 5, 10, 20, 50, 100, 200, 500)


class Judged:
    """An option, or options taken together, with every verdict passed on it.

    Parameters
    ----------
    judge : callable
        Asks the rules; called when the verdicts are first looked at.
    out : bool
        Whether it is known already that something rules it out.
    """

    def __init__(self, judge: Callable[[], Iterable[Concluded]], out: bool = False):
        self._judge = judge
        self._out = out

    @cached_property
    def concluded(self) -> tuple[Concluded, ...]:
        """Everything that was said of it."""
        return tuple(self._judge())

    @property
    def stands(self) -> bool:
        """Whether nothing rules it out."""
        if self._out:
            return False
        return not any(isinstance(one.outcome, RuledOut) for one in self.concluded)

    @property
    def doubts(self) -> list[Concluded]:
        """What would have to be proved first."""
        return [one for one in self.concluded if isinstance(one.outcome, Doubtful)]

    @property
    def against(self) -> list[Concluded]:
        """What rules it out."""
        return [one for one in self.concluded if isinstance(one.outcome, RuledOut)]

    @property
    def verdict(self) -> str:
        """Return the word for plan.json."""
        if not self.stands:
            return "ruled-out"
        if self.doubts:
            return "doubtful"
        good = any(isinstance(one.outcome, Good) for one in self.concluded)
        return "good" if good else "stands"


@dataclass
class Candidate:
    """A complete route: pieces, cost, and all that was said of them."""

    pieces: Pieces
    cost: RouteCost
    judged: Judged
    kept: int
    judge: Callable[["Candidate"], Judged] = field(repr=False)

    @cached_property
    def route_judged(self) -> Judged:
        """What is said of the route as a whole, its price included; asked for when due."""
        return self.judge(self)

    @property
    def ids(self) -> tuple[str, str, str, str]:
        """Tool, sealing, release, bagging."""
        p = self.pieces
        return (p.tool_id, p.sealing_id, p.release_id, p.bagging_id)

    @property
    def doubts(self) -> list[Concluded]:
        """Every open doubt, once each."""
        every = {one.conclusion.id: one for one in self.judged.doubts}
        every |= {one.conclusion.id: one for one in self.route_judged.doubts}
        return [every[key] for key in sorted(every)]

    @property
    def stands(self) -> bool:
        """Whether nothing rules it out, its price included."""
        return self.judged.stands and self.route_judged.stands


def construction_for(
    row: ToolMaterial, removal: str, side: str, part_expansion_high: float
) -> Construction | None:
    """Return how a tool of this material would be built, or None if it cannot be.

    A part that slides off needs no parting. One held at a few places only comes off with
    loose pieces, if the material can be made in pieces. One that is trapped needs, on a
    female tool, a tool that opens; on a male one, a tool that is washed or broken out of
    the part. A straight closed part slides off a male tool that shrinks more than it does.
    """
    order: tuple[Construction, ...]
    shrinks_free = row.expansion.low_si > part_expansion_high and not row.brittle
    if removal == "shrinks-or-goes" and not shrinks_free:
        order = ("wash-out", "break-out")
    elif removal == "loose-piece":
        if "split" in row.constructions:
            return "loose-piece"
        order = ("break-out",)
    elif removal != "opens-or-goes":
        order = ("one-piece",)
    elif side == "male":
        order = ("wash-out", "break-out")
    else:
        order = ("split", "break-out")
    return next((way for way in order if way in row.constructions), None)


def parts_per_tool(
    row: ToolMaterial,
    construction: Construction,
    parts_on_porous: float,
    hot: bool,
    few: float,
) -> int:
    """Return how many parts one tool gives: its seal decides on a soft body."""
    if construction in {"break-out", "wash-out"}:
        return 1
    life = min(parts_on_porous, row.cycles.high_si) if row.soft else row.cycles.si
    return max(1, int(min(life, few) if hot else life))


def proposed(asked: Proposal) -> dict[str, str]:
    """Return the pieces that a proposal names, by stage."""
    return {stage: id for stage, id in asked.model_dump().items() if id is not None}


def kept_stages(asked: Proposal, pieces: Pieces) -> list[str]:
    """Return for which stages a route has the piece that the proposal asks for."""
    given = proposed(asked)
    return [stage for stage in given if has_piece(pieces, stage, given)]


def has_piece(pieces: Pieces, stage: str, wanted: Mapping[str, str]) -> bool:
    """Return whether a route has this piece.

    A family stands for its tools. A bare face is no piece to keep on another tool than the
    one that it was asked for.
    """
    asked = wanted[stage]
    if stage == "tool":
        return asked in (pieces.tool_id, pieces.tool.family)
    if (stage, asked) == ("sealing", "none") and "tool" in wanted:
        return pieces.sealing_id == asked and has_piece(pieces, "tool", wanted)
    return asked in (pieces.sealing_id, pieces.release_id, pieces.bagging_id)


def rank(
    candidates: Iterable[Candidate], priority: str, keep_proposal: bool = True
) -> list[Candidate]:
    """Order routes by plain rules.

    First those that keep the user's sound ideas, then those without open doubt, then by
    what matters most; ties by the other two and by name.
    """
    return sorted(
        candidates,
        key=lambda one: _merit(one, len(one.doubts), priority, keep_proposal),
    )


def _merit(
    one: Candidate, doubts: int, priority: str, keep_proposal: bool = True
) -> tuple[object, ...]:
    measures = {
        "cost": round(one.cost.total, 2),
        "lead-time": round(one.cost.lead_time_h, 1),
        "certainty": doubts,
    }
    first = measures.pop(priority)
    return (-one.kept * keep_proposal, bool(doubts), first, *measures.values(), one.ids)


def standing_by_merit(
    candidates: Iterable[Candidate], priority: str
) -> Iterator[Candidate]:
    """Yield the routes that stand as `rank` orders them, each judged only when due.

    A route can only lose by being judged as a whole: until then it is held to be as good
    as its pieces.
    """
    waiting = [
        (_merit(one, len(one.judged.doubts), priority), n, one, False)
        for n, one in enumerate(candidates)
    ]
    heapify(waiting)
    while waiting:
        merit, n, one, known = heappop(waiting)
        if known:
            yield one
        elif one.stands:
            merit = _merit(one, len(one.doubts), priority)
            heappush(waiting, (merit, n, one, True))


def best_of_each_tool(ranked: Sequence[Candidate]) -> list[Candidate]:
    """Keep the best route of each tool material, in rank order."""
    seen: set[str] = set()
    best = []
    for one in ranked:
        if one.pieces.tool_id not in seen:
            seen.add(one.pieces.tool_id)
            best.append(one)
    return best


def alternatives(ranked: Sequence[Candidate], priority: str) -> list[Candidate]:
    """Return the best route of every other tool material, by merit alone."""
    winner = ranked[0].pieces.tool_id
    by_merit = rank(ranked, priority, keep_proposal=False)
    return [one for one in best_of_each_tool(by_merit) if one.pieces.tool_id != winner]


def lost_because(one: Candidate, winner: Candidate, pricer: Pricer) -> str:
    """Say why a standing route is not the plan, and for what run it would be cheaper."""
    why = _why_it_lost(one, winner, pricer)
    return f"{why} {_break_even(one, winner, pricer)}".strip()


def _break_even(one: Candidate, winner: Candidate, pricer: Pricer) -> str:
    """Say from which run on the dearer of two routes becomes the cheaper."""
    parts = _breaks_even_at(one, winner, pricer)
    if parts is None:
        return ""
    dearer = "It" if one.cost.total > winner.cost.total else "The plan"
    return f"{dearer} is cheaper from {parts} parts on."


def _breaks_even_at(one: Candidate, winner: Candidate, pricer: Pricer) -> int | None:
    """Return the run from which on the dearer of two routes is the cheaper, if any."""
    dearer, cheaper = (one, winner) if one.cost.total > winner.cost.total else (winner, one)
    return pricer.cheaper_from(dearer.pieces, dearer.cost, cheaper.pieces, cheaper.cost)


def _why_it_lost(one: Candidate, winner: Candidate, pricer: Pricer) -> str:
    currency = pricer.shop.rates.currency
    lost_by = _lost_by(one, winner)
    if lost_by == "proposal":
        return _without_the_proposal(one, winner, currency)
    if lost_by == "doubt":
        return (
            f"It rests on what is not yet proved ({len(one.doubts)} open); the plan does "
            f"not."
        )
    more = sparing.brings_more(one, winner, pricer.knowledge)
    cost_decides = pricer.job.budget.priority == "cost"
    if more and cost_decides and one.cost.total < winner.cost.total:
        price = price_against(one, winner, currency)
        return f"It {price} over the run, but {more}; the plan does not."
    slower = one.cost.lead_time_h - winner.cost.lead_time_h
    parts = []
    if round(one.cost.total - winner.cost.total) > 0:
        parts.append(f"{price_against(one, winner, currency)} over the run")
    if slower >= 24:
        parts.append(phrase("is ready {days:days} later", days=round(slower / 24)))
    if len(one.doubts) > len(winner.doubts):
        against = len(winner.doubts)
        parts.append(f"leaves {points(len(one.doubts))} to prove against {against}")
    return (
        f"It {enumerated(parts)}." if parts else "It is equal; the order of names decided."
    )


def _money(amount: float, currency: str) -> str:
    return phrase("{x:money} {currency}", x=amount, currency=currency)


def price_against(one: Candidate, other: Candidate, currency: str) -> str:
    """Say what a route costs more or less than another, to the unit of the currency."""
    more = round(one.cost.total - other.cost.total)
    if not more:
        return "costs the same"
    return f"costs {_money(abs(more), currency)} {'more' if more > 0 else 'less'}"


def points(count: int) -> str:
    """Return how many points are open, in words."""
    return "1 point" if count == 1 else f"{count} points"


def to_prove(one: Candidate) -> str:
    """Return how much a route leaves to prove, as a clause."""
    left = f"{points(len(one.doubts))}" if one.doubts else "nothing"
    return f"leaves {left} to prove"


def why_first(
    ranked: Sequence[Candidate], cheapest: Candidate, priority: str, pricer: Pricer
) -> Conclusion:
    """Say by which plain rule the first route came first.

    `cheapest` is the first by merit and price alone; another stands first in its place
    where it spares a hazard at nearly the same price.
    """
    winner = ranked[0]
    text, counted = _field(ranked, cheapest, priority)
    grounds = [Ground(kind="job", name="budget.priority", value=priority)]
    if cheapest is not winner:
        text += " " + _spares(winner, cheapest, pricer, counted > 1)
        tie = pricer.knowledge.limits["price_tie"]
        grounds.append(table_ground(pricer.knowledge, tie.meaning, tie.figure))
    return Conclusion(
        id="JOIN-060:route",
        kind="chosen",
        rule="JOIN-060",
        title="Rank by plain rules",
        sentence=text,
        grounds=tuple(grounds),
        sources=("common-practice",),
        basis="common-practice",
    )


def _field(
    ranked: Sequence[Candidate], cheapest: Candidate, priority: str
) -> tuple[str, int]:
    """Say by what a route leads how many tool materials, and return their number."""
    winner = ranked[0]
    tools = best_of_each_tool(ranked)
    peers = [one for one in tools if one.kept == winner.kept]
    sure = [one for one in peers if not one.doubts]
    field_of = sure if not winner.doubts else peers
    most = {
        "cost": "cheapest over the run",
        "lead-time": "soonest ready",
        "certainty": "surest",
    }[priority]
    count = len(field_of)
    one = count == 1
    kept = (
        f" and keep{'s' if one else ''} the sound parts of the proposal"
        if winner.kept
        else ""
    )
    proof = "" if winner.doubts else f" and leave{'s' if one else ''} nothing to prove"
    if one:
        return f"It is the only tool material that stands{kept}{proof}.", count
    what = "it" if cheapest is winner else named(cheapest)
    return (
        f"Of the {count} tool materials that stand{kept}{proof}, {what} is the {most}.",
        count,
    )


def _spares(winner: Candidate, cheapest: Candidate, pricer: Pricer, told: bool) -> str:
    """Say what hazard of the cheapest, named before or not, is spared at what price."""
    rows = pricer.knowledge.avoidable
    spared = [rows[id] for id in sorted(sparing.spared(winner, cheapest, pricer.knowledge))]
    hazards = " and ".join(row.hazard for row in spared)
    whose = f"its {hazards}" if told else f"the {hazards} of {named(cheapest)}"
    price = price_against(winner, cheapest, pricer.shop.rates.currency)
    if price.endswith("more"):
        share = winner.cost.total / cheapest.cost.total - 1
        price += phrase(" ({x:percent})", x=max(round(share, 2), 0.01))
    tie = phrase("{x:percent}", x=pricer.knowledge.limits["price_tie"].figure.si)
    filled = (
        f" A filler may be {row.hazard}: read its data sheet before it is cut."
        for row in spared
        if winner.pieces.tool.dust in row.dust_if_filled
    )
    return (
        f"Without {whose}, this route {price}; up to {tie} more counts as the same price."
        + "".join(filled)
    )


def named(one: Candidate) -> str:
    """Return the tool of a route and its seal, as they stand in a sentence."""
    name, seal = in_sentence(one.pieces.tool.name), in_sentence(one.pieces.sealing.name)
    return f"{name}{'' if one.pieces.sealing_id == 'none' else f' under {seal}'}"


def _without_the_proposal(one: Candidate, winner: Candidate, currency: str) -> str:
    """Say what keeping the user's own idea costs or spares against another route."""
    price = price_against(one, winner, currency)
    return f"It leaves the proposal, {price} and {to_prove(one)}."


def route_record(one: Candidate, pricer: Pricer) -> RouteRecord:
    """Return a route as the plan prints it."""
    return RouteRecord(**_fields(one, pricer))


def alternative(one: Candidate, winner: Candidate, pricer: Pricer) -> Alternative:
    """Return a standing route that lost, as the plan prints it."""
    return Alternative(
        **_fields(one, pricer),
        lost_by=_lost_by(one, winner),
        lost_because=lost_because(one, winner, pricer),
        breaks_even_at=_breaks_even_at(one, winner, pricer),
    )


def _lost_by(
    one: Candidate, winner: Candidate
) -> Literal["proposal", "doubt", "money-or-time"]:
    if one.kept < winner.kept:
        return "proposal"
    return "doubt" if one.doubts and not winner.doubts else "money-or-time"


def _fields(one: Candidate, pricer: Pricer) -> dict[str, object]:
    pieces = one.pieces
    runs = sorted({*RUN_LENGTHS, pricer.parts})
    rates = pricer.shop.rates
    own = bool(pricer.shop.prices)
    reasons = (*one.judged.concluded, *one.route_judged.concluded)
    tool, sealing, release, bagging = one.ids
    return {
        "tool": tool,
        "sealing": sealing,
        "release": release,
        "bagging": bagging,
        "name": route_name(pieces),
        "construction": pieces.construction,
        "tools": one.cost.tools,
        "parts_per_tool": pieces.parts_per_tool,
        "cost_total": round(one.cost.total, 2),
        "cost_low": round(one.cost.low, 2),
        "cost_high": round(one.cost.high, 2),
        "cost_per_part": round(one.cost.total / pricer.parts, 2),
        "cost_lines": tuple(
            line.model_copy(update={"amount": round(line.amount, 2)})
            for line in one.cost.lines
        ),
        "cost_at_runs": {
            str(run): round(one.cost.at(run, pieces.parts_per_tool), 2) for run in runs
        },
        "currency": rates.currency,
        "price_basis": "invented" if rates.invented else "shop" if own else "from-memory",
        "lead_time_h": round(one.cost.lead_time_h, 1),
        "doubts": tuple(doubt.conclusion.id for doubt in one.doubts),
        "reasons": tuple(
            reason.conclusion
            for reason in reasons
            if isinstance(reason.outcome, Good | Doubtful | RuledOut)
        ),
    }


def route_name(pieces: Pieces) -> str:
    """Return a route in the words of the shop."""
    if pieces.bagging.both_faces:
        return f"{pieces.tool.name}, in two halves that close on the part"
    build = {
        "one-piece": "in one piece",
        "loose-piece": "with a loose piece at each undercut",
        "split": "split",
        "break-out": "broken out of each part",
        "wash-out": "washed out of each part",
    }[pieces.construction]
    return f"{pieces.tool.name}, {build}"


def route_evidence(one: Candidate, knowledge: Knowledge, pricer: Pricer) -> Evidence:
    """Return a priced route as a fact; its numbers rest on prices and on the run."""
    pieces, spent = one.pieces, one.cost
    values = dict(zip(("tool", "sealing", "release", "bagging"), one.ids, strict=True))
    basis = (
        "invented" if pricer.shop.rates.invented else knowledge.basis(("memory-prices",))
    )
    origin = Ground(
        kind="table",
        name=f"price of the route, {pieces.tool_id}",
        value=f"{spent.total:.0f} {pricer.shop.rates.currency} for {pricer.parts} parts",
        sources=("memory-prices", "common-practice"),
        basis=basis,
    )
    life = Ground(
        kind="table",
        name=f"parts from one tool, {pieces.tool_id} with {pieces.sealing_id}",
        value=str(pieces.parts_per_tool),
        sources=tuple(
            sorted({*pieces.tool.cycles.source, *pieces.sealing.parts_on_porous.source})
        ),
        basis=knowledge.basis(pieces.tool.cycles.source),
    )
    return Evidence(
        facts.Route,
        values
        | {
            "construction": pieces.construction,
            "tools": spent.tools,
            "parts_per_tool": pieces.parts_per_tool,
            "cost_total": spent.total,
            "cost_per_part": spent.total / pricer.parts,
            "lead_time_h": spent.lead_time_h,
        },
        {
            "cost_total": origin,
            "cost_per_part": origin,
            "tools": life,
            "parts_per_tool": life,
            "construction": Ground(kind="job", name="run.parts", value=str(pricer.parts)),
        },
    )


def joined(
    rule: str, subject: str, title: str, text: str, because: Sequence[Conclusion]
) -> Conclusion:
    """Return a conclusion drawn by joining others: it is no surer than the least sure."""
    sources = sorted({source for one in because for source in one.sources})
    return Conclusion(
        id=f"{rule}:{subject}",
        kind="joined",
        rule=rule,
        title=title,
        sentence=text,
        grounds=tuple(resting_on(one) for one in because),
        sources=tuple(sources),
        basis=weakest([one.basis for one in because]),
    )
