"""The words of the rule base: which of them the glossary explains, and which it should."""

import ast
import re
import string
from collections.abc import Iterable, Iterator
from functools import cache
from importlib.resources import files

from advisor.knowledge.tables import Knowledge
from advisor.reasoning.rulebook import RuleEntry

_NAMED = ("tool_materials", "sealers", "releases", "bagging", "consumables", "resins")
_ABBREVIATION = re.compile(r"(?<![\w.-])[A-Z][A-Z]+(?![\w-])")


def sentences(entries: Iterable[RuleEntry], knowledge: Knowledge) -> Iterator[str]:
    """Yield what rules, steps, names of options, limits and cautions say, numbers out."""
    for module in sorted({entry.module for entry in entries}):
        yield from _of_module(module)
    for entry in entries:
        yield _without_numbers(entry.advice.title)
        yield _without_numbers(entry.advice.reason)
    for row in knowledge.cautions.values():
        yield from (row.hazard, row.text, row.defers_to)
    for limit in knowledge.limits.values():
        yield limit.meaning
    for narrowing in knowledge.narrowing.values():
        yield from (narrowing.name, narrowing.how)
    for table in _NAMED:
        for option in getattr(knowledge, table).values():
            yield option.name


@cache
def _of_module(module: str) -> tuple[str, ...]:
    """Return the sentences of a module's steps; they stand in the bodies of its rules."""
    text = files("advisor.rules").joinpath(f"{module}.py").read_text(encoding="utf-8")
    return tuple(
        _without_numbers(leaf.value)
        for leaf in ast.walk(ast.parse(text))
        if isinstance(leaf, ast.Constant)
        and isinstance(leaf.value, str)
        and " " in leaf.value
    )


def _without_numbers(template: str) -> str:
    try:
        return " ".join(text for text, *_ in string.Formatter().parse(template))
    except ValueError:
        return template


def faults(entries: tuple[RuleEntry, ...], knowledge: Knowledge) -> Iterator[str]:
    """Yield abbreviations that nothing explains, and words explained in vain or twice.

    A trade word that is no abbreviation is not found here: which words are everyday
    English only a list of English can say, and none is shipped.
    """
    said = list(sentences(entries, knowledge))
    text = "\n".join(said)
    explained: dict[str, str] = {}
    for id, word in knowledge.glossary.items():
        if not word.stands_in(text):
            yield f"glossary.toml: {id}: nothing in the rule base uses it"
        for form in word.forms:
            if form in explained:
                yield f"glossary.toml: {id}: {form} is explained by {explained[form]} too"
            explained[form] = id
    for found in sorted(set(_ABBREVIATION.findall(text)) - set(explained)):
        yield f"glossary.toml: {found} is used and not explained"
