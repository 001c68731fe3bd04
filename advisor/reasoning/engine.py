"""Runs one stage of rules over a few facts and hands back what they concluded."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from functools import cached_property
from typing import Any, TypeVar

from advisor.knowledge.tables import Knowledge
from advisor.measures import phrase, sentence
from advisor.reasoning import conclusions, facts
from advisor.reasoning.conclusions import Outcome
from advisor.reasoning.expert import Fact, KnowledgeEngine
from advisor.reasoning.matching import JoiningMatcher, is_asked_for
from advisor.reasoning.provenance import (
    Conclusion,
    Ground,
    resting_on,
    table_ground,
    weakest,
)
from advisor.reasoning.rulebook import Advice, Stage, engine_class, rule_entries

Made = TypeVar("Made")

# Texts of outcomes that are printed inside a sentence or behind a heading.
_IN_A_SENTENCE = frozenset({"accept", "lifted_by", "passes_if", "proved_by", "record"})


@dataclass(frozen=True, eq=False)
class Evidence:
    """A fact before it is declared: its values, and where each of them came from."""

    kind: type[Fact]
    values: Mapping[str, Any]
    origins: Mapping[str, Ground]

    @cached_property
    def fact(self) -> Fact:
        """The fact to declare; fields without a value are left out."""
        return self.kind(**{k: v for k, v in self.values.items() if v is not None})


@dataclass(frozen=True)
class Concluded:
    """What a rule returned, together with its provenance."""

    outcome: Outcome
    conclusion: Conclusion

    @cached_property
    def evidence(self) -> Evidence | None:
        """The conclusion as a fact for later stages, if it is of that kind."""
        ground = resting_on(self.conclusion)
        match self.outcome:
            case conclusions.Need(kind, value):
                return Evidence(
                    facts.Need, {"kind": kind, "value": value}, {"value": ground}
                )
            case conclusions.Finding(key=key, value=value, low=low, high=high):
                values = {"key": key, "value": value, "low": low, "high": high}
                origins = dict.fromkeys(("value", "low", "high"), ground)
                return Evidence(facts.Found, values, origins)
        return None


@dataclass
class Ledger:
    """Who concluded what in one session."""

    knowledge: Knowledge
    subject: str
    origins: dict[int, Mapping[str, Ground]] = field(default_factory=dict)
    concluded: dict[str, Concluded] = field(default_factory=dict)


class RecordingEngine(KnowledgeEngine):
    """An engine that writes each conclusion into a ledger, with its grounds."""

    __matcher__ = JoiningMatcher
    ledger: Ledger
    asked: Mapping[str, Mapping[type[Fact], frozenset[str]]]

    def record(
        self, advice: Advice, matched: Mapping[str, Any], outcomes: Iterable[Outcome]
    ) -> None:
        """Keep what a rule concluded; needs and findings become facts at once."""
        words = {**advice.values(), **matched}
        for outcome in outcomes:
            words |= _numbers(outcome)
        for outcome in outcomes:
            self._keep(self._with_provenance(advice, words | _numbers(outcome), outcome))

    def _keep(self, concluded: Concluded) -> None:
        key = concluded.conclusion.id
        known = self.ledger.concluded.get(key)
        if known and known.conclusion.sentence <= concluded.conclusion.sentence:
            return  # two facts led to the same conclusion: keep one, whatever fired first
        self.ledger.concluded[key] = concluded
        if concluded.evidence is not None:
            self.declare(concluded.evidence.fact)
            self._remember(concluded.evidence)

    def begin(self, ledger: Ledger, evidence: Iterable[Evidence]) -> None:
        """Start afresh with these facts."""
        self.ledger = ledger
        known = list(evidence)
        self.restart([one.fact for one in known])
        for one in known:
            self._remember(one)

    def _remember(self, evidence: Evidence) -> None:
        number = evidence.fact.__factid__
        if self.facts.get(number) is evidence.fact:
            self.ledger.origins[number] = evidence.origins

    def _grounds(self, advice: Advice) -> tuple[Ground, ...]:
        asked = self.asked[advice.id]
        found: dict[tuple[str, str], Ground] = {}
        for fact in self.activation.facts:
            origins = self.ledger.origins.get(fact.__factid__, {})
            for name in asked.get(type(fact), frozenset()):
                if name in origins:
                    ground = origins[name]
                    known = found.setdefault((ground.kind, ground.name), ground)
                    if _of(ground) < _of(known):  # two findings of one rule: keep one
                        found[ground.kind, ground.name] = ground
        return tuple(found[key] for key in sorted(found))

    def _with_provenance(
        self, advice: Advice, words: Mapping[str, Any], outcome: Outcome
    ) -> Concluded:
        knowledge = self.ledger.knowledge
        grounds = list(self._grounds(advice))
        for name in advice.limits:
            row = knowledge.limits[name]
            grounds.append(table_ground(knowledge, row.meaning, row.figure))
        cited = {source for ground in grounds for source in ground.sources} | set(
            advice.cites
        )
        reason = knowledge.basis(advice.cites)
        bases = [reason] + [ground.basis for ground in grounds if ground.basis]
        return Concluded(
            _filled(outcome, words),
            Conclusion(
                id=_identity(advice, self.ledger.subject, outcome),
                kind=_kind(outcome),
                rule=advice.id,
                title=sentence(advice.title, **words),
                sentence=sentence(advice.reason, **words),
                grounds=tuple(grounds),
                sources=tuple(sorted(cited)),
                basis=weakest(bases),
                reason_basis=reason,
                formula=getattr(outcome, "formula", None),
            ),
        )


def _kind(outcome: Outcome) -> str:
    """Return the name of the outcome's class in words: ``RuledOut`` is ``ruled-out``."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", "-", type(outcome).__name__).lower()


def _of(ground: Ground) -> str:
    return ground.conclusion.id if ground.conclusion else ""


def _numbers(outcome: Outcome) -> dict[str, Any]:
    """Return the numbers of a finding by name, for the rule's sentence."""
    if isinstance(outcome, conclusions.Finding):
        numbers = {"value": outcome.value, "low": outcome.low, "high": outcome.high}
        return {name: number for name, number in numbers.items() if number is not None}
    return {}


def _filled(outcome: Any, words: Mapping[str, Any]) -> Any:
    """Fill the sentences inside an outcome with the matched numbers."""
    changes: dict[str, Any] = {}
    for one in fields(outcome):
        value = getattr(outcome, one.name)
        if isinstance(value, str) and "{" in value:
            fill = phrase if one.name in _IN_A_SENTENCE else sentence
            changes[one.name] = fill(value, **words)
        elif is_dataclass(value):
            changes[one.name] = _filled(value, words)
    return replace(outcome, **changes) if changes else outcome


def _identity(advice: Advice, subject: str, outcome: Outcome) -> str:
    """Return the id of a conclusion: the rule, what it was about, and which of several."""
    match outcome:
        case conclusions.Finding(key=which) | conclusions.Caution(activity=which):
            pass
        case conclusions.Use(item=which):
            which = which.lower().replace(" ", "-")
        case (
            conclusions.Condition()
            | conclusions.Trial()
            | conclusions.CureCourse()
            | conclusions.BlankLayout()
            | conclusions.StripLayout()
            | conclusions.Thermocouples()
        ):
            which = _kind(outcome)
        case _:
            which = ""
    return ":".join(part for part in (advice.id, subject, which) if part)


class Reasoner:
    """Asks the rule base, one stage at a time; engines are built once and used again."""

    def __init__(self, knowledge: Knowledge):
        self.knowledge = knowledge
        self._engines: dict[Stage, RecordingEngine] = {}
        self._asked = {entry.advice.id: entry.fields() for entry in rule_entries()}
        self._kinds: dict[Stage, dict[type[Fact], set[str]]] = {}
        for entry in rule_entries():
            of_stage = self._kinds.setdefault(entry.stage, {})
            for kind, names in self._asked[entry.advice.id].items():
                of_stage.setdefault(kind, set()).update(names)

    def ask(
        self,
        stage: Stage,
        common: tuple[Evidence, ...],
        own: Iterable[Evidence] = (),
        subject: str = "",
    ) -> list[Concluded]:
        """Run a stage over these facts and return its conclusions in the order of ids.

        Parameters
        ----------
        stage : str
            One of `advisor.reasoning.rulebook.STAGES`.
        common : tuple of Evidence
            What this question has in common with those before and after it.
        own : iterable of Evidence
            What else the stage may know. What no condition asks for is left out of both.
        subject : str
            What is under judgement, for the ids: an option, or options joined by "+".
        """
        engine = self._engine(stage)
        ledger = Ledger(self.knowledge, subject)
        engine.begin(ledger, [one for one in (*common, *own) if self._matters(stage, one)])
        engine.run()
        return [ledger.concluded[key] for key in sorted(ledger.concluded)]

    def surely_out(
        self,
        stage: Stage,
        common: tuple[Evidence, ...],
        own: Iterable[Evidence],
        subject: str,
    ) -> bool:
        """Tell whether it is known without asking that a subject is ruled out."""
        return False

    def once(self, key: tuple[object, ...], make: Callable[[], Made]) -> Made:
        """Return what `make` makes; a reasoner that remembers makes it once for a key."""
        return make()

    def _engine(self, stage: Stage) -> RecordingEngine:
        engine = self._engines.get(stage)
        if engine is None:
            engine = engine_class(stage, RecordingEngine)()
            engine.asked = self._asked
            self._engines[stage] = engine
        return engine

    def _matters(self, stage: Stage, evidence: Evidence) -> bool:
        """Tell whether a rule of the stage may see a fact."""
        if evidence.kind not in self._kinds[stage]:
            return False
        return is_asked_for(evidence.fact, type(self._engine(stage)))
