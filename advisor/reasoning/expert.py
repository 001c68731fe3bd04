"""The one door to experta: named imports, a cured strategy, an engine that keeps quiet.

experta 1.9.4 needs three things put right before it can be trusted:

* it looks for ``collections.Mapping``, which Python 3.10 removed;
* importing it adds a handler to the root logger;
* its depth strategy may leave an activation on the agenda whose condition has become
  false (three or more activations with the same key), and orders ties by hash seed.
"""

import bisect
import collections
import collections.abc
import logging
from functools import cached_property
from typing import Any

collections.Mapping = collections.abc.Mapping  # type: ignore[attr-defined]
_handlers = list(logging.root.handlers)
from experta import (  # noqa: E402
    AS,
    GE,
    GT,
    LE,
    LT,
    MATCH,
    NE,
    NOT,
    OR,
    TEST,
    Field,
    P,
    Rule,
    W,
)
from experta import Fact as _Fact  # noqa: E402
from experta import KnowledgeEngine as _KnowledgeEngine  # noqa: E402
from experta.abstract import Matcher  # noqa: E402
from experta.agenda import Agenda  # noqa: E402
from experta.conditionalelement import ConditionalElement  # noqa: E402
from experta.fact import InitialFact  # noqa: E402
from experta.factlist import FactList as _FactList  # noqa: E402
from experta.matchers.rete.check import FeatureCheck  # noqa: E402
from experta.matchers.rete.utils import prepare_rule  # noqa: E402
from experta.strategies import DepthStrategy  # noqa: E402

logging.root.handlers[:] = _handlers

__all__ = [
    "AS",
    "GE",
    "GT",
    "LE",
    "LT",
    "MATCH",
    "NE",
    "NOT",
    "OR",
    "TEST",
    "ConditionalElement",
    "Fact",
    "FactList",
    "FeatureCheck",
    "Field",
    "InitialFact",
    "KnowledgeEngine",
    "Matcher",
    "P",
    "Rule",
    "W",
    "among",
    "prepare_rule",
]


class Fact(_Fact):
    """A fact that is checked once, however often it is declared."""

    @cached_property
    def content(self) -> frozenset[Any]:
        """Everything that makes two facts the same; asked for once it is complete."""
        return frozenset(_FactList._get_fact_id(self))

    def validate(self) -> None:
        """Raise `ValueError` if a field holds what it must not."""
        if "content" not in vars(self):
            super().validate()


class FactList(_FactList):
    """experta's list of facts, which are not read anew to be told apart."""

    @staticmethod
    def _get_fact_id(fact: Any) -> frozenset[Any]:
        if isinstance(fact, Fact):
            return fact.content
        return frozenset(_FactList._get_fact_id(fact))  # experta's InitialFact


class StableStrategy(DepthStrategy):
    """Depth first, ties by rule name; an activation that fell false is always removed."""

    def get_key(self, activation: Any) -> tuple[Any, ...]:
        """Order by salience, then newest facts, then rule name."""
        newest = sorted((fact["__factid__"] for fact in activation.facts), reverse=True)
        return (activation.rule.salience, newest, activation.rule.__name__)

    def _update_agenda(self, agenda: Any, added: Any, removed: Any) -> None:
        for activation in (*removed, *added):
            activation.key = self.get_key(activation)
        agenda.activations[:] = [one for one in agenda.activations if one not in removed]
        for activation in added:
            bisect.insort(agenda.activations, activation)


class KnowledgeEngine(_KnowledgeEngine):
    """experta's engine with the cured strategy, told which activation it is firing."""

    __strategy__ = StableStrategy
    activation: Any = None

    def restart(self, facts: list[Any]) -> None:
        """Forget everything and declare `facts`; `run` shows them to the matcher."""
        self.agenda = Agenda()
        self.facts = FactList()
        self.matcher.reset()
        self.running = False
        for fact in (InitialFact(), *facts):
            self.facts.declare(fact)

    def run(self, steps: float = float("inf")) -> None:
        """Fire until the agenda is empty, keeping the activation that is being fired."""
        self.running = True
        while steps > 0:
            added, removed = self.get_activations()
            self.strategy.update_agenda(self.agenda, added, removed)
            self.activation = self.agenda.get_next()
            if self.activation is None:
                break
            steps -= 1
            context = self.activation.context
            matched = {name: context[name] for name in context if not name.startswith("__")}
            self.activation.rule(self, **matched)
        self.running = False


def among(*accepted: str) -> Any:
    """Return a condition that holds for any of these words."""
    words = frozenset(accepted)
    return P(lambda value: value in words)
