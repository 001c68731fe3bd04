"""Rows of the tables that nothing refers to: no rule, no other row, no calculation."""

import ast
from collections.abc import Callable, Iterator
from functools import cache
from importlib.resources import files
from typing import Any, get_args

from advisor.job import Laminate, Part, Table
from advisor.knowledge.rows import Avoidable
from advisor.knowledge.tables import Knowledge
from advisor.reasoning.rulebook import RuleEntry
from advisor.rule_base.words import said

# Rows that no plan reads and that are held all the same, by table and start of the id.
_HELD = {
    ("exposure_limits", "benzoyl-peroxide"): "a putty's peroxide may be this one",
    ("exposure_limits", "isopropanol"): "a cleaner or release may hold it",
    ("exposure_limits", "mdi"): "an isocyanate of foam and boards",
    ("exposure_limits", "methyl-ethyl-ketone-"): "a coat or cleaner may hold it",
}

# Modules that read tables for the plan; what only describes or checks a row uses nothing.
_READERS = ("advise", "assembly", "costing", "routes", "safer", "sparing", "trials")


def faults(entries: tuple[RuleEntry, ...], knowledge: Knowledge) -> Iterator[str]:
    """Yield each row that no plan could take anything from, save those held on purpose.

    A row counts as used where its id stands as a word in a rule or in the code that reads
    the tables; whether that place is ever reached, only planned jobs can show. Sources
    that back nothing but a test are found by the tests, which are not shipped.
    """
    for table, id in _unread(entries, knowledge):
        if _why_held(table, id) is None:
            yield f"{table}.toml: {id}: nothing refers to it"


def held(entries: tuple[RuleEntry, ...], knowledge: Knowledge) -> Iterator[str]:
    """Yield the rows that are held though no plan reads them, and why."""
    rows = [(_why_held(*row), *row) for row in _unread(entries, knowledge)]
    for (table, _), why in _HELD.items():
        ids = [id for reason, name, id in rows if reason == why and name == table]
        if ids:
            yield f"{table}.toml: {', '.join(ids)}: {why}"


def _why_held(table: str, id: str) -> str | None:
    return next(
        (
            why
            for (name, start), why in _HELD.items()
            if name == table and id.startswith(start)
        ),
        None,
    )


def _unread(
    entries: tuple[RuleEntry, ...], knowledge: Knowledge
) -> Iterator[tuple[str, str]]:
    words = _words()
    compared = {name for entry in entries for name in entry.advice.limits}
    reads: dict[str, Callable[[str], bool]] = {
        "limits": lambda id: id in compared or id in words,
        "cautions": lambda id: id in words,
        "phases": lambda id: id in words,
        "exposure_limits": lambda id: knowledge.exposure_limits[id].agent in words,
        "consumables": lambda id: bool({id, knowledge.consumables[id].role} & words),
        "prices": lambda id: id in words or _priced(id, knowledge),
        "stock_sizes": lambda id: _known(knowledge.stock_sizes[id].materials, knowledge),
        "plies": lambda id: knowledge.plies[id].fibre in accepted(Laminate, "fibre"),
        "fibres": lambda id: id in accepted(Laminate, "fibre"),
        "duties": lambda id: id in accepted(Part, "duty"),
        "avoidable": lambda id: _met(knowledge.avoidable[id], knowledge),
    }
    for table, is_read in reads.items():
        for id in getattr(knowledge, table):
            if not is_read(id):
                yield table, id


def accepted(table: type[Table], field: str) -> frozenset[str]:
    """Return the words that a field of the job accepts."""
    found: set[str] = set()
    asked: list[Any] = [table.model_fields[field].annotation]
    while asked:
        one = asked.pop()
        asked += [part for part in get_args(one) if not isinstance(part, str)]
        found |= {part for part in get_args(one) if isinstance(part, str)}
    return frozenset(found)


def _met(row: Avoidable, knowledge: Knowledge) -> bool:
    """Return whether each word of an avoidable hazard is one that some option has."""
    tools, seals = knowledge.tool_materials.values(), knowledge.sealers.values()
    words = {*row.dust, *row.families, *row.contains}
    had = {one.dust for one in tools} | {one.family for one in tools}
    had |= {word for one in seals for word in one.contains}
    return bool(words) and words <= had and set(row.cautions) <= set(knowledge.cautions)


def _known(materials: tuple[str, ...], knowledge: Knowledge) -> bool:
    return bool(materials) and set(materials) <= set(knowledge.tool_materials)


def _priced(id: str, knowledge: Knowledge) -> bool:
    """Return whether a price is that of an option or a fibre, looked up by its id."""
    kind, _, option = id.partition("-")
    table = {
        "tool": knowledge.tool_materials,
        "sealer": knowledge.sealers,
        "release": knowledge.releases,
        "prepreg": knowledge.fibres,
    }.get(kind, {})
    return option in table


@cache
def _words() -> frozenset[str]:
    """Return every word that stands as a string in the rules and in what reads tables."""
    rules = [one for one in files("advisor.rules").iterdir() if one.name.endswith(".py")]
    readers = [files("advisor").joinpath(f"{name}.py") for name in _READERS]
    return frozenset(
        word
        for module in (*rules, *readers)
        for word in said(ast.parse(module.read_text(encoding="utf-8")))
    )
