"""How sure an answer is: whether it holds all over the ranges of what it rests on.

Each figure and input with a range is moved to its ends alone, as if it were known, and the
rules decide anew; where the answer turns, the search closes in on the number at which it
does. Then all are drawn at once, for what they do together.
"""

import random
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from advisor.advise import Consultation
from advisor.costing import Pricer
from advisor.decision import Decision, Ids
from advisor.plan import SurenessRecord, TurnRecord
from advisor.questioning.nearing import finer
from advisor.questioning.ranges import (
    Range,
    Values,
    behind,
    given,
    inputs_with,
    prices,
    tables_with,
)
from advisor.reasoning.conclusions import Doubtful
from advisor.reasoning.provenance import Conclusion
from advisor.routes import Candidate, named, price_against

DRAWS = 40
_SEED = 20  # any: the same draws each time
_MOST_TOLD = 2  # reasons against it in some draw

Effect = Literal["falls", "doubt", "lead"]
End = Literal["low", "high"]


@dataclass(frozen=True)
class Turn:
    """What becomes of a route where it does not hold, as a sentence."""

    effect: Effect
    rule: str
    text: str


class Soundings:
    """Decides a job again with what it rests on moved within its ranges.

    Parameters
    ----------
    consultation : Consultation
        Who decides.
    decision : Decision
        The job as its file stands; one with a winner.

    Raises
    ------
    InputError
        If the job gives a range that is none.
    """

    def __init__(self, consultation: Consultation, decision: Decision):
        if decision.winner is None:
            raise ValueError("there is no route to be sure of")
        self.consultation = consultation
        self.base = decision
        self.route: Candidate = decision.winner
        self.ids: Ids = self.route.ids
        self._proved = {one.conclusion.rule for one in self.route.doubts}
        self.inputs = given(decision.job, decision.shop)
        self.figures = list(behind(decision, self.ids))
        self.prices = list(prices(decision.knowledge, decision.shop))

    def turns(self) -> Iterator[tuple[Range, End, float, Turn]]:
        """Yield each range in which the answer turns: to which end, from where, and how.

        How is told of the end, and of the first number as well if it is another way there.
        """
        for one in (*self.inputs, *self.figures, *self._deciding_prices):
            ends: dict[End, float] = {"low": one.low, "high": one.high}
            turned = {end: self.turn({one: number}) for end, number in ends.items()}
            for end, turn in turned.items():
                if turn is None:
                    continue
                at, first = ends[end], turn
                if not all(turned.values()):
                    other = ends["high" if end == "low" else "low"]
                    at, first = self._first(one, other, at, turn)
                if first.effect != turn.effect:
                    text = f"At first: {first.text} At the end: {turn.text}"
                    turn = replace(turn, text=text)
                yield one, end, at, turn

    def _first(
        self, one: Range, holds: float, turned: float, turn: Turn
    ) -> tuple[float, Turn]:
        """Return the number nearest to where the answer holds at which it turns."""
        return finer(
            holds,
            turned,
            turn,
            lambda number: self.turn({one: number}),
            one.unit,
            one.whole,
        )

    def drawn(self) -> Iterator[Turn | None]:
        """Yield what becomes of the route with every range drawn at once, its lead apart.

        Prices are left out: the plan prints what they leave open beside each cost.
        """
        draw = random.Random(_SEED)
        for _ in range(DRAWS):
            values = {one: _drawn(one, draw) for one in (*self.inputs, *self.figures)}
            yield self._stands(self._decide(values))

    def turn(self, values: Values) -> Turn | None:
        """Return what becomes of the route with something moved; None where it holds."""
        decision = self._decide(values)
        turn = self._stands(decision)
        if turn is not None or not self._lead_may_turn(decision, values):
            return turn
        winner = decision.winner
        if winner is None or winner.ids[0] == self.ids[0]:
            return None
        route = decision.route(self.ids)
        assert route is not None
        price = price_against(winner, route, decision.shop.rates.currency)
        name = named(winner)
        return Turn("lead", "", f"{name[:1].upper()}{name[1:]} leads and {price}.")

    def _decide(self, values: Values) -> Decision:
        job, shop = inputs_with(self.base.job, self.base.shop, values)
        return self.consultation.decide(job, shop, tables_with(self.base.knowledge, values))

    def _stands(self, decision: Decision) -> Turn | None:
        for one in (*decision.refusals, *decision.questions):
            return _falls(one.conclusion)
        route = decision.route(self.ids)
        pieces = list(decision.pieces_of(self.ids))
        judged = [*pieces, route.route_judged] if route else pieces
        for verdict in judged:
            for one in verdict.against:
                return _falls(one.conclusion)
        for one in route.doubts if route else ():
            if one.conclusion.rule not in self._proved:
                assert isinstance(one.outcome, Doubtful)
                return Turn("doubt", one.conclusion.rule, one.outcome.prove)
        return None

    # ------------------------------------------------------------------ the lead

    def _lead_may_turn(self, decision: Decision, values: Values) -> bool:
        """Tell whether something moved that another tool could come to lead by."""
        if any(one.is_input or one.path[0] == "prices" for one in values):
            return True
        route = decision.route(self.ids)
        assert route is not None
        return (
            route.cost.total != self.route.cost.total
            or route.cost.lead_time_h != self.route.cost.lead_time_h
            or len(route.doubts) != len(self.route.doubts)
        )

    @cached_property
    def _rivals(self) -> list[Candidate]:
        """The best route of every other tool that stands."""
        best: dict[str, Candidate] = {}
        for one in self.base.ranked:
            if one.ids[0] != self.ids[0]:
                best.setdefault(one.ids[0], one)
        return list(best.values())

    @cached_property
    def _deciding_prices(self) -> list[Range]:
        """The prices that alone change who is cheaper than whom, or go past the budget."""
        base = self._cheaper(self.base.pricer)
        return [
            one
            for one in self.prices
            if any(
                self._cheaper(self._priced(one, end)) != base for end in (one.low, one.high)
            )
        ]

    def _priced(self, one: Range, value: float) -> Pricer:
        tables = tables_with(self.base.knowledge, {one: value})
        return Pricer(self.base.job, self.base.shop, tables)

    def _cheaper(self, pricer: Pricer) -> list[bool]:
        """Tell whether the route can be paid, and of each rival whether it is cheaper."""
        total = pricer.price(self.route.pieces).total
        budget = self.base.job.budget.total
        rivals = [pricer.price(one.pieces).total < total for one in self._rivals]
        return [budget is None or total <= budget, *rivals]


def _falls(because: Conclusion) -> Turn:
    return Turn("falls", because.rule, because.sentence)


def how_sure(consultation: Consultation, decision: Decision) -> SurenessRecord | None:
    """Return how sure the route of a decision is; None where there is no route.

    Raises
    ------
    InputError
        If the job gives a range that is none.
    """
    if decision.winner is None:
        return None
    soundings = Soundings(consultation, decision)
    narrowing = decision.knowledge.narrowing
    turns = tuple(
        TurnRecord(
            name=one.name[:1].upper() + one.name[1:],
            unit=one.unit,
            value=one.value,
            low=one.low,
            high=one.high,
            at=at,
            end=end,
            effect=turn.effect,
            text=turn.text,
            narrow_by=narrowing[one.narrowing].how,
            sources=narrowing[one.narrowing].source,
        )
        for one, end, at, turn in soundings.turns()
    )
    drawn = list(soundings.drawn())
    moved = len(soundings.inputs) + len(soundings.figures) + len(soundings.prices)
    return SurenessRecord(
        firm=not turns and not any(drawn),
        ranges=moved,
        draws=len(drawn),
        stood=drawn.count(None),
        text=" ".join(_told({one.name for one in turns}, moved, drawn)),
        turns=turns,
    )


def _told(turning: set[str], moved: int, drawn: Sequence[Turn | None]) -> Iterator[str]:
    """Yield the sentences that sum up how sure an answer is."""
    yield f"{moved} figures, prices and inputs behind this route have a range."
    match len(turning):
        case 0:
            yield "Moved to its ends alone, none of them turns the answer."
        case 1:
            yield "One turns the answer alone: it is only as sure as that one is known."
        case many:
            yield f"{many} turn the answer alone: it is only as sure as those are known."
    stood = drawn.count(None)
    often = {0: "never", 1: "once", len(drawn): "every time"}.get(stood, f"{stood} times")
    yield (
        f"With all but the prices drawn at once, {len(drawn)} times, the route stood "
        f"{often} with nothing more to prove."
    )
    against = {turn.rule: turn.text for turn in drawn if turn}
    fallen = Counter(turn.rule for turn in drawn if turn)
    for rule, count in fallen.most_common(_MOST_TOLD):
        yield f"Against it in {count} of them: {against[rule]}"


def _drawn(one: Range, draw: random.Random) -> float:
    """Return a number from a range, all as likely."""
    number = draw.uniform(one.low, one.high)
    return float(round(number)) if one.whole else number
