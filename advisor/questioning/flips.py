"""What would change a decision: the nearest input at which the answer flips.

Found by trying: inputs are moved away from what was given, step by step and then ever
finer, and each time the rules decide anew. Tried are the inputs that stand behind what
speaks against an option, as far as somebody can choose them.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import islice, pairwise
from typing import Any

from advisor import no_route
from advisor.advise import Consultation
from advisor.decision import Decision
from advisor.job import Job
from advisor.questioning.cures import going_with
from advisor.questioning.fields import InputField, field_at, value_at
from advisor.questioning.inputs import Move, moved
from advisor.questioning.nearing import finer, rounded
from advisor.reading import InputError
from advisor.reasoning.provenance import conclusions_in
from advisor.shop import Shop

Moves = tuple[Move, ...]

# Who can choose an input, and how far away a change of it counts: what is decided with
# the job, what wants a new drawing, what the shop would have to buy. The rest is a fact.
_CHOSEN = {
    "cure.temperature": 1.0,
    "cure.hold": 1.0,
    "cure.pressure": 2.0,
    "cure.free_standing_post_cure": 1.0,
    "run.parts": 1.0,
    "budget.priority": 1.0,
    "run.per_week": 1.0,
    "budget.total": 1.0,
    "finish.target": 1.0,
    "finish.roughness": 1.0,
    "finish.after": 1.0,
    "finish.both_faces": 1.0,
    "part.tolerance": 1.0,
    "part.tool_side": 2.0,
    "part.draft": 2.0,
    "part.smallest_radius": 2.0,
    "part.length": 3.0,
    "part.width": 3.0,
    "part.depth": 3.0,
    "laminate.plies": 3.0,
    "shop.making.machining": 2.0,
    "shop.making.printer": 2.0,
    "shop.making.metal_machining": 2.0,
    "shop.oven.limit": 2.0,
    "shop.oven.length": 2.0,
    "shop.oven.width": 2.0,
    "shop.oven.height": 2.0,
    "shop.vacuum.reading": 1.0,
    "shop.vacuum.flow": 2.0,
    "shop.room.humidity": 1.0,
    "shop.dust.extraction": 2.0,
    "shop.dust.wet_cutting": 1.0,
    "shop.dust.respirators": 1.0,
    "shop.people.hoist": 2.0,
}
_ONLY_MORE = {"part.draft", "part.smallest_radius"}  # nobody draws a worse part for a tool

# What may unseat a plan, and how many steps away it is tried: a decision at another
# temperature costs the most.
_DECIDING = {
    "run.parts": None,
    "budget.total": None,
    "budget.priority": None,
    "cure.temperature": 3,
    "finish.target": None,
    "part.tolerance": 5,
}
_STEPS_K = (5.0, 10.0, 20.0, 35.0, 55.0, 80.0, 120.0)
_STEPS_DEG = (1.0, 2.0, 4.0, 8.0, 16.0)
_FACTORS = (1.1, 1.25, 1.5, 2.0, 3.0, 5.0, 10.0)
_UNIT_AWAY = {"degC": 50.0, "deg": 5.0}
_SWITCHED = 0.7  # how far away another word counts, beside a number that doubles
_NEW_RESIN = 0.3


@dataclass(frozen=True)
class Flip:
    """A change of inputs at which an answer flips.

    Attributes
    ----------
    moves : tuple of Move
        The inputs that are moved, those first that were chosen; what has to go with a
        new cure temperature follows.
    chosen : tuple of str
        The inputs that were chosen.
    more : tuple of bool or None
        For each of them: whether it goes up, goes down, or is another word.
    distance : float
        How far away it counts: 0.7 where a number doubles.
    decision : Decision
        What is decided then.
    """

    moves: Moves
    chosen: tuple[str, ...]
    more: tuple[bool | None, ...]
    distance: float
    decision: Decision


Test = Callable[[Decision], bool]


class Search:
    """Looks for flips of one job in one shop."""

    def __init__(self, consultation: Consultation, job: Job, shop: Shop):
        self.consultation = consultation
        self.job = job
        self.shop = shop
        self._decided: dict[Moves, Decision | None] = {}

    @cached_property
    def base(self) -> Decision:
        """What is decided as the files stand."""
        return self.consultation.decide(self.job, self.shop)

    def decide(self, moves: Moves) -> Decision | None:
        """Return what is decided with inputs moved; None if that is no job to decide."""
        if moves not in self._decided:
            self._decided[moves] = self._decide(moves)
        return self._decided[moves]

    def _decide(self, moves: Moves) -> Decision | None:
        try:
            job, shop = moved(self.job, self.shop, moves)
        except InputError:
            return None
        decision = self.consultation.decide(job, shop)
        return None if decision.questions or decision.refusals else decision

    # ------------------------------------------------------------------ one option

    def brings_back(self, tool: str) -> Flip | None:
        """Return the nearest change at which a tool material stands in some route."""

        def stands(decision: Decision) -> bool:
            return any(one.stands for one in decision.routes_of(tool))

        single = self.nearest(self.inputs_behind(self.base, tool), stands)
        return single or self._pair(tool, stands)

    def _pair(self, tool: str, stands: Test) -> Flip | None:
        """Return the nearest two changes: one lifts something, the other the rest."""
        against = rules_against(self.base, tool)

        def lifts(decision: Decision) -> bool:
            return bool(against - rules_against(decision, tool))

        def only_lifts(decision: Decision) -> bool:
            return rules_against(decision, tool) < against

        found: list[Flip] = []
        for path in self.inputs_behind(self.base, tool):
            for test in (lifts, only_lifts):
                for first in self.along(path, test):
                    rest = self.inputs_behind(first.decision, tool)
                    second = self.nearest(set(rest) - {path}, stands, first)
                    if second is not None:
                        found.append(self._closer(second, stands))
        return min(found, key=_nearness, default=None)

    def _closer(self, pair: Flip, stands: Test) -> Flip:
        """Return a pair whose first change goes no farther than the second asks for."""
        first, second = pair.chosen
        value = next(one.value for one in pair.moves if one.field == second)
        start = self._flip(second, value, pair.more[1], None)
        closer = start and self.nearest([first], stands, start)
        return min((one for one in (pair, closer) if one), key=_nearness)

    def inputs_behind(self, decision: Decision, tool: str) -> list[str]:
        """Return the inputs behind what speaks against a tool that someone can choose."""
        blockers, _ = no_route.blockers_of(decision, tool)
        names = {
            ground.name.replace("shop ", "shop.")
            for one in blockers
            for said in conclusions_in(one.conclusion)
            for ground in said.grounds
            if ground.kind in ("job", "shop", "assumption")
        }
        return [path for path in _CHOSEN if path in names]

    # ------------------------------------------------------------------ the plan

    def unseats(self) -> list[Flip]:
        """Return the nearest changes at which another tool leads, or none is left."""
        winner = self.base.winner
        if winner is None:
            return []

        def another(decision: Decision) -> bool:
            return decision.winner is None or decision.winner.ids[0] != winner.ids[0]

        return [
            flip
            for path in _DECIDING
            for flip in self.along(path, another, steps=_DECIDING[path])
        ]

    # ------------------------------------------------------------------ the search

    def nearest(
        self, paths: Iterable[str], test: Test, start: Flip | None = None
    ) -> Flip | None:
        """Return the nearest change of one of these inputs at which a test is met."""
        found = (flip for path in paths for flip in self.along(path, test, start))
        return min(found, key=_nearness, default=None)

    def along(
        self, path: str, test: Test, start: Flip | None = None, steps: int | None = None
    ) -> Iterator[Flip]:
        """Yield the nearest change of one input, up, down, or for each other word.

        `steps` says how many steps away from what was given are tried; left out, all.
        """
        field, value = field_at(path), value_at(self.job, self.shop, path)
        if field is None or value is None:
            return
        if field.kind in ("switch", "word"):
            words = field.choices if field.kind == "word" else (not value,)
            for word in words:
                flip = self._flip(path, word, None, start)
                if word != value and flip and test(flip.decision):
                    yield flip
            return
        for more in (True,) if path in _ONLY_MORE else (False, True):
            ladder = islice(_ladder(field, float(value), more), steps)
            flip = self._nearest_number(field, float(value), ladder, test, start)
            if flip is not None:
                yield flip

    def _nearest_number(
        self,
        field: InputField,
        value: float,
        ladder: Iterable[float],
        test: Test,
        start: Flip | None,
    ) -> Flip | None:
        def at(number: float) -> Flip | None:
            flip = self._flip(field.path, field.written(number), number > value, start)
            return flip if flip and test(flip.decision) else None

        for before, number in pairwise((value, *ladder)):
            flip = at(number)
            if flip is not None:
                whole = field.kind == "count"
                return finer(before, number, flip, at, field.unit, whole)[1]
        return None

    def _flip(
        self, path: str, value: Any, more: bool | None, start: Flip | None
    ) -> Flip | None:
        moves: Moves = (Move(path, value),)
        if path == "cure.temperature":
            celsius = float(str(value).split()[0])
            moves += going_with(self.job, self.consultation.knowledge, celsius)
        decision = self.decide((*(start.moves if start else ()), *moves))
        if decision is None:
            return None
        away = _CHOSEN[path] * _distance(path, value_at(self.job, self.shop, path), value)
        away += _NEW_RESIN * any(one.field == "cure.resin" for one in moves)
        if start is None:
            return Flip(moves, (path,), (more,), away, decision)
        return Flip(
            (*start.moves, *moves),
            (*start.chosen, path),
            (*start.more, more),
            start.distance + away,
            decision,
        )


def rules_against(decision: Decision, tool: str) -> frozenset[str]:
    """Return the rules that keep a tool material out of every route."""
    if any(one.stands for one in decision.routes_of(tool)):
        return frozenset()
    blockers, _ = no_route.blockers_of(decision, tool)
    return frozenset(one.conclusion.rule for one in blockers)


def _nearness(flip: Flip) -> tuple[float, tuple[str, ...]]:
    return (flip.distance, flip.chosen)


def _ladder(field: InputField, value: float, more: bool) -> Iterator[float]:
    """Yield values ever farther away on one side, the last at the end of the range."""
    sign = 1 if more else -1
    if field.unit in ("degC", "deg"):
        steps: Sequence[float] = _STEPS_K if field.unit == "degC" else _STEPS_DEG
        values = [value + sign * step for step in steps]
    elif value <= 0:
        return
    else:
        values = [value * factor**sign for factor in _FACTORS]
    last = value
    for number in values:
        number = min(max(number, field.low), field.high)
        number = rounded(number, field.unit, field.kind == "count", more)
        if number != last:
            yield number
        last = number


def _distance(path: str, old: Any, new: Any) -> float:
    """Return how far away a value counts: 0.7 if it doubles or is another word."""
    field = field_at(path)
    if field is None or field.kind in ("switch", "word"):
        return _SWITCHED
    number = float(str(new).split()[0])
    if field.unit in _UNIT_AWAY:
        return abs(number - float(old)) / _UNIT_AWAY[field.unit]
    return abs(math.log(number / old)) if number > 0 and old > 0 else math.inf
