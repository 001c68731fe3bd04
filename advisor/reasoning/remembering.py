"""A reasoner that answers again what it was asked before, as far as the rules can see.

Many decisions that differ in one input ask the rule base much the same. What a stage
concludes depends on the fields that its conditions ask for and on where those came from,
and on nothing else; and a fact that only meets rules which do not fire, neither with it
nor with the one it replaces, changes nothing either. `tests/jobs/test_remembering.py`
holds the plans to be the same, byte for byte.
"""

import copy
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any
from weakref import WeakKeyDictionary

from advisor.knowledge.tables import Knowledge
from advisor.reasoning.engine import Concluded, Evidence, Made, Reasoner
from advisor.reasoning.expert import Fact
from advisor.reasoning.matching import State
from advisor.reasoning.provenance import Ground
from advisor.reasoning.rulebook import STAGES, Stage, rules_that_rule_out

_KEPT = 40_000  # answers, after which all is forgotten


@dataclass
class _Asked:
    """The last answer on a subject, and what the matcher knew when it was given."""

    known: dict[int, Evidence]
    state: State
    answer: list[Concluded]


class RememberingReasoner(Reasoner):
    """Asks the rule base only what it was not asked before.

    What is alike gets one number. Two facts are alike to a stage if they agree in every
    field that its conditions ask for, values and origins both; a fact that no condition
    asks for has none. Findings and needs that are alike are one object, so that what rests
    on them is told apart by identity.
    """

    def __init__(self, knowledge: Knowledge):
        super().__init__(knowledge)
        self._forget()

    def _forget(self) -> None:
        self._answers: dict[tuple[Stage, str, tuple[int, ...]], list[Concluded]] = {}
        self._last: dict[tuple[Stage, str], _Asked] = {}
        self._numbered: dict[tuple[object, ...], tuple[int, Evidence]] = {}
        self._same: dict[tuple[object, ...], Concluded] = {}
        self._numbers: dict[Stage, WeakKeyDictionary[Evidence, int]] = {
            stage: WeakKeyDictionary() for stage in STAGES
        }
        self._made: dict[tuple[object, ...], Any] = {}
        self._common: dict[Stage, tuple[tuple[Evidence, ...], dict[int, Evidence]]] = {}

    def over(self, knowledge: Knowledge) -> "RememberingReasoner":
        """Return a reasoner over other tables that shares what this one remembers.

        What was concluded from a figure is remembered with that figure, so it may be
        shared; what was made of the tables as a whole may not.
        """
        other = copy.copy(self)
        other.knowledge = knowledge
        other._made = {}
        return other

    def ask(
        self,
        stage: Stage,
        common: tuple[Evidence, ...],
        own: Iterable[Evidence] = (),
        subject: str = "",
    ) -> list[Concluded]:
        """Return what `Reasoner.ask` would, asking the rules only if that is new."""
        if len(self._answers) >= _KEPT:
            self._forget()
        known = {**self._seen_in_common(stage, common), **self._seen(stage, own)}
        key = (stage, subject, tuple(known))
        if key not in self._answers:
            self._answers[key] = self._answer(stage, known, subject)
        return self._answers[key]

    def surely_out(
        self,
        stage: Stage,
        common: tuple[Evidence, ...],
        own: Iterable[Evidence],
        subject: str,
    ) -> bool:
        """Tell whether what ruled a subject out when it was last asked about still does."""
        last = self._last.get((stage, subject))
        if last is None:
            return False
        known = {**self._seen_in_common(stage, common), **self._seen(stage, own)}
        matcher = self._engine(stage).matcher
        gone, came = _difference(last.known, known)
        return bool(matcher.still_fires(last.state, gone, came, rules_that_rule_out()))

    def once(self, key: tuple[object, ...], make: Callable[[], Made]) -> Made:
        """Return what `make` made for this key, made when it is first asked for."""
        if key not in self._made:
            self._made[key] = make()
        made: Made = self._made[key]
        return made

    def _answer(
        self, stage: Stage, known: dict[int, Evidence], subject: str
    ) -> list[Concluded]:
        matcher = self._engine(stage).matcher
        last = self._last.get((stage, subject))
        if last is not None:
            gone, came = _difference(last.known, known)
            if matcher.unmoved(last.state, gone, came):
                kept = {n: last.known.get(n, one) for n, one in known.items()}
                last.known = kept
                return last.answer
        answer = super().ask(stage, tuple(known.values()), (), subject)
        answer = [self._one_object(one) for one in answer]
        if len({one.fact.content for one in known.values()}) == len(known):
            self._last[stage, subject] = _Asked(known, matcher.state, answer)
        else:  # of two facts that only their origins tell apart one is not declared
            self._last.pop((stage, subject), None)
        return answer

    def _seen_in_common(
        self, stage: Stage, common: tuple[Evidence, ...]
    ) -> dict[int, Evidence]:
        """Return what a stage sees of a tuple that it is mostly shown again and again."""
        last = self._common.get(stage)
        if last is None or last[0] is not common:
            last = self._common[stage] = (common, self._seen(stage, common))
        return last[1]

    def _seen(self, stage: Stage, evidence: Iterable[Evidence]) -> dict[int, Evidence]:
        """Return what a stage sees of some facts, by its numbers."""
        numbers = self._numbers[stage]
        seen: dict[int, Evidence] = {}
        for one in evidence:
            if one not in numbers:
                numbers[one] = self._new_number(stage, one)
            if number := numbers[one]:
                seen[number] = one
        return seen

    def _new_number(self, stage: Stage, evidence: Evidence) -> int:
        """Return the number of what a stage sees of a fact, 0 if it sees nothing."""
        if not self._matters(stage, evidence):
            return 0
        content = (
            stage,
            evidence.kind,
            *(
                (name, evidence.fact.get(name), _of(evidence.origins.get(name)))
                for name in self._kinds[stage][evidence.kind]
            ),
        )
        number, _ = self._numbered.setdefault(content, (len(self._numbered) + 1, evidence))
        return number

    def _one_object(self, concluded: Concluded) -> Concluded:
        if concluded.evidence is None:
            return concluded
        said = concluded.conclusion
        content = (
            concluded.outcome,
            said.id,
            said.title,
            said.sentence,
            said.basis,
            *map(_of, said.grounds),
        )
        return self._same.setdefault(content, concluded)


def _difference(
    before: dict[int, Evidence], after: dict[int, Evidence]
) -> tuple[list[Fact], list[Fact]]:
    """Return the facts that are no longer known, and those that are new."""
    return (
        [one.fact for n, one in before.items() if n not in after],
        [one.fact for n, one in after.items() if n not in before],
    )


def _of(ground: Ground | None) -> tuple[object, ...] | None:
    """Return what tells grounds apart; an earlier conclusion is known by its identity.

    Whoever keeps this keeps the ground too, or the identity could be given away again.
    """
    if ground is None:
        return None
    return (ground.kind, ground.name, ground.value, ground.sources, id(ground.conclusion))
