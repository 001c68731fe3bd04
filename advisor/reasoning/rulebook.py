"""How a rule is written, and how the rules are found.

A rule is a method with ``@Rule`` on top and ``@advice`` under it; its body returns what
it concludes (`advisor.reasoning.conclusions`) or a list of such, and None for nothing.
Rules stand in plain classes; the class attribute `stage` says when they are asked.
"""

import functools
import importlib
import inspect
import pkgutil
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Outcome, RuledOut
from advisor.reasoning.expert import Fact, KnowledgeEngine, Rule
from advisor.reasoning.patterns import asked, lacking, patterns

Stage = Literal[
    "ask",
    "needs",
    "tool",
    "heat",
    "sealing",
    "release",
    "bagging",
    "route",
    "plan",
    "people",
]
STAGES: tuple[Stage, ...] = get_args(Stage)


@dataclass(frozen=True)
class Advice:
    """What a rule says of itself.

    Attributes
    ----------
    id : str
        ``AREA-NNN``, never reused.
    title : str
        Imperative: what the shop does.
    reason : str
        One sentence, the physical cause, with matched numbers as ``{name:style}``.
    cites : tuple of str
        Keys of sources that back the rule.
    limits : tuple of str
        Rows of ``limits.toml`` the rule compares with; their values may stand in `reason`.
    """

    id: str
    title: str
    reason: str
    cites: tuple[str, ...]
    limits: tuple[str, ...] = ()

    def values(self) -> dict[str, float]:
        """Return the thresholds by name, in SI units."""
        return {name: limit(name) for name in self.limits}


def advice(
    *,
    id: str,
    title: str,
    reason: str,
    cites: tuple[str, ...] = ("common-practice",),
    limits: tuple[str, ...] = (),
) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Attach to a rule's body what it says of itself, and record what it concludes.

    Raises
    ------
    TypeError
        If it stands above ``@Rule``: experta clones rules and would drop the record.
    """
    record = Advice(id, title, reason, cites, limits)

    def decorate(body: Callable[..., Any]) -> Callable[..., Any]:
        if isinstance(body, Rule):
            raise TypeError(f"{id}: @advice must stand below @Rule")

        @functools.wraps(body)
        def fire(engine: Any, **matched: Any) -> None:
            concluded = body(engine, **matched)
            if concluded is not None:
                outcomes = concluded if isinstance(concluded, list) else [concluded]
                engine.record(record, matched, outcomes)

        fire.advice = record  # type: ignore[attr-defined]
        return fire

    return decorate


@dataclass(frozen=True)
class RuleEntry:
    """A rule as found in the rule base."""

    advice: Advice
    stage: Stage
    module: str
    method: str
    rule: Any
    body: Callable[..., Any]

    def fields(self) -> dict[type[Fact], frozenset[str]]:
        """Return the fields each fact class is asked for in the rule's conditions."""
        names: dict[type[Fact], set[str]] = {}
        for pattern in patterns(self.rule):
            names.setdefault(type(pattern), set()).update(asked(pattern))
        return {kind: frozenset(fields) for kind, fields in names.items()}


@cache
def rule_classes() -> tuple[type, ...]:
    """Import every module of ``advisor.rules`` and return its classes of rules."""
    package = importlib.import_module("advisor.rules")
    found: list[type] = []
    for module in sorted(
        pkgutil.iter_modules(package.__path__), key=lambda entry: entry.name
    ):
        if module.ispkg:
            continue
        content = importlib.import_module(f"advisor.rules.{module.name}")
        found += [
            value
            for _, value in sorted(vars(content).items())
            if inspect.isclass(value) and value.__module__ == content.__name__
        ]
    return tuple(found)


@cache
def rule_entries() -> tuple[RuleEntry, ...]:
    """Return every rule of the rule base in the order of ids."""
    entries = [
        RuleEntry(
            advice=value._wrapped.advice,
            stage=vars(owner)["stage"],
            module=owner.__module__.rpartition(".")[2],
            method=name,
            rule=value,
            body=value._wrapped,
        )
        for owner in rule_classes()
        for name, value in vars(owner).items()
        if isinstance(value, Rule)
    ]
    return tuple(sorted(entries, key=lambda entry: entry.advice.id))


@cache
def lasting_rules() -> frozenset[str]:
    """Return the rules whose conclusions stand whatever else becomes known."""
    return frozenset(entry.advice.id for entry in rule_entries() if not lacking(entry.rule))


@cache
def rules_that_rule_out() -> frozenset[str]:
    """Return the methods of the rules that always rule out, whatever else is found.

    Their body returns nothing but a `RuledOut`, and their condition asks neither for an
    absence nor for a finding.
    """
    return frozenset(
        entry.method
        for entry in rule_entries()
        if entry.body.__annotations__.get("return") is RuledOut
        and not lacking(entry.rule)
        and not any(type(one).__name__ == "Found" for one in patterns(entry.rule))
    )


@cache
def engine_class(stage: Stage, base: type[KnowledgeEngine]) -> type[Any]:
    """Return an engine of one stage's rules, built on `base`."""
    owners = [owner for owner in rule_classes() if vars(owner).get("stage") == stage]
    return type(f"{stage.title()}Stage", (*owners, base), {})


RuleBody = Outcome | Sequence[Outcome] | None
