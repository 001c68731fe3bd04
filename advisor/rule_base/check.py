"""The rule base read by itself: listed, explained, and checked for what cannot be right."""

import inspect
import string
import textwrap
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from advisor.knowledge.tables import Knowledge, load_knowledge
from advisor.measures import STYLES
from advisor.reasoning import facts
from advisor.reasoning.evidence import (
    bagging_evidence,
    release_evidence,
    sealing_evidence,
    tool_evidence,
)
from advisor.reasoning.expert import Fact
from advisor.reasoning.patterns import asked, demanded
from advisor.reasoning.rulebook import RuleEntry, rule_entries
from advisor.rule_base import contradictions, reach, thresholds, unused, vocabulary

_WIDTH = 88
_LITERALS = (str, bool, int, float)


def listing() -> str:
    """Return every rule, one a line: its id, where it stands and what it asks for."""
    return "\n".join(
        f"{entry.advice.id:<11} {entry.module:<15} {_title(entry)}"
        for entry in rule_entries()
    )


def explained(id: str) -> str:
    """Return what a rule says of itself, its thresholds and its sources.

    Raises
    ------
    KeyError
        If there is no such rule.
    """
    entry = {one.advice.id: one for one in rule_entries()}[id]
    knowledge, advice = load_knowledge(), entry.advice
    lines = [
        f"{advice.id}: {_title(entry)}",
        textwrap.fill(f"Why: {_plain(advice.reason)}", _WIDTH),
        f"Where: rules/{entry.module}.py, {entry.method}; asked in stage {entry.stage}",
        f"Looks at: {_looked_at(entry)}",
    ]
    for name in advice.limits:
        row = knowledge.limits[name]
        figure = row.figure
        lines.append(f"Limit: {row.meaning}: {figure.value:g} {figure.unit}")
    for key in advice.cites:
        source = knowledge.sources[key]
        lines.append(textwrap.fill(f"Source: {source.citation}", _WIDTH))
    lines.append(f"Basis: {knowledge.basis(advice.cites)}")
    return "\n".join(lines)


def faults() -> list[str]:
    """Return what is wrong with the rule base, one line a fault; none if it is sound."""
    entries, knowledge = rule_entries(), load_knowledge()
    ids = Counter(entry.advice.id for entry in entries)
    methods = Counter((entry.stage, entry.method) for entry in entries)
    found = [f"{id}: the id stands {n} times" for id, n in ids.items() if n > 1]
    found += [
        f"{stage}: two rules are called {method}; the engine would keep one"
        for (stage, method), n in methods.items()
        if n > 1
    ]
    for entry in entries:
        found += [f"{entry.advice.id}: {fault}" for fault in _faults_of(entry, knowledge)]
    found += _without_a_topic(entries, knowledge)
    found += thresholds.faults(entries, frozenset(knowledge.limits))
    found += vocabulary.faults(entries, knowledge)
    found += unused.faults(entries, knowledge)
    found += contradictions.faults(entries)
    found += reach.faults(entries)
    return found


def remarks() -> list[str]:
    """Return what is no fault and yet worth knowing, one line each."""
    entries = rule_entries()
    whole = sum(contradictions.conditions(entry.rule).whole for entry in entries)
    return [
        *(
            f"held, read by no plan: {row}"
            for row in unused.held(entries, load_knowledge())
        ),
        f"conditions of {whole} of {len(entries)} rules can be read in full; "
        "contradictions of the others only planned jobs can show",
    ]


def _without_a_topic(entries: tuple[RuleEntry, ...], knowledge: Knowledge) -> list[str]:
    """Find modules that the rule book would leave out or print twice."""
    named = Counter(name for topic in knowledge.topics.values() for name in topic.modules)
    modules = {entry.module for entry in entries}
    return [
        f"topics.toml: {name} stands {named[name]} times, and {there} rules"
        for name in sorted(named.keys() | modules)
        for there in ("has" if name in modules else "has no",)
        if named[name] != 1 or name not in modules
    ]


def _faults_of(entry: RuleEntry, knowledge: Knowledge) -> Iterator[str]:
    advice = entry.advice
    for key in advice.cites:
        if key not in knowledge.sources:
            yield f"cites {key}, which sources.toml does not hold"
    for row in advice.limits:
        if row not in knowledge.limits:
            yield f"compares with {row}, which limits.toml does not hold"
    if not advice.cites:
        yield "cites nothing; say common-practice where there is no source"
    known = {*inspect.signature(entry.body).parameters, *advice.limits}
    known |= {"value", "low", "high"}
    for _, name, style, _ in string.Formatter().parse(advice.reason):
        if name is not None and name not in known:
            yield f"its reason asks for {name}, which the rule does not match"
        if style and style not in STYLES:
            yield f"its reason prints {name} in style {style}, which there is not"
    for kind, names in entry.fields().items():
        for field in sorted(names - set(kind.__fields__)):
            yield f"asks {kind.__name__} for {field}, which it does not have"
    yield from _never(entry, knowledge)


def _never(entry: RuleEntry, knowledge: Knowledge) -> Iterator[str]:
    """Find patterns that no row of their table can meet: such a rule never fires."""
    for pattern in demanded(entry.rule):
        rows = _rows(type(pattern), knowledge)
        wanted = {
            name: value
            for name, value in asked(pattern).items()
            if isinstance(value, _LITERALS)
        }
        if rows and not any(_meets(row, wanted) for row in rows):
            words = ", ".join(f"{name} {value}" for name, value in wanted.items())
            yield f"no {type(pattern).__name__.lower()} has {words}: it never fires"


def _rows(kind: type[Fact], knowledge: Knowledge) -> list[Mapping[str, Any]]:
    if kind is facts.Tool:
        return [
            tool_evidence(id, row, owned, knowledge, "").values
            for id, row in knowledge.tool_materials.items()
            for owned in (False, True)
        ]
    makers: dict[type[Fact], tuple[Mapping[str, Any], Callable[..., Any]]] = {
        facts.Sealing: (knowledge.sealers, sealing_evidence),
        facts.Release: (knowledge.releases, release_evidence),
        facts.Bagging: (knowledge.bagging, bagging_evidence),
    }
    rows, make = makers.get(kind, ({}, tool_evidence))
    return [make(id, row, knowledge, "").values for id, row in rows.items()]


def _meets(row: Mapping[str, Any], wanted: Mapping[str, Any]) -> bool:
    """Return whether a row may meet what is wanted; what it leaves open is met."""
    return all(row.get(name, value) == value for name, value in wanted.items())


def _looked_at(entry: RuleEntry) -> str:
    return "; ".join(
        f"{kind.__name__} ({', '.join(sorted(names))})"
        for kind, names in sorted(entry.fields().items(), key=lambda one: one[0].__name__)
    )


def _title(entry: RuleEntry) -> str:
    return _plain(entry.advice.title)


def _plain(template: str) -> str:
    """Return a sentence with the names of its numbers in place of them."""
    return "".join(
        text + (f"<{name.replace('_', ' ')}>" if name is not None else "")
        for text, name, _, _ in string.Formatter().parse(template)
    )
