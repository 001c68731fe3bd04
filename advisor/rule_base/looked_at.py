"""What a rule looks at, in plain words read from its conditions."""

import re
from collections.abc import Iterator
from typing import Any

from advisor.reasoning.expert import NOT, ConditionalElement, Fact
from advisor.reasoning.patterns import asked

_KINDS = {
    "JobFile": "the job",
    "Part": "the part",
    "Laminate": "the laminate",
    "Cure": "the cure",
    "Finish": "the finish",
    "Run": "the run",
    "Budget": "the budget",
    "Oven": "the oven",
    "Shop": "the shop",
    "Plate": "a plate in stock",
    "Tool": "the tool",
    "Pattern": "the pattern it is formed on",
    "StockPiece": "the stock it is cut from",
    "Sealing": "the seal",
    "Release": "the release",
    "Bagging": "the bag",
    "Route": "the route",
    "Grade": "the classes on the shelf",
    "Shelf": "what lies in the bag",
    "Duty": "the law the part falls under",
}
_UNIT = re.compile(r"_(h_m2|m|pa|c|kg|h|deg)$")
_FOUND = "found: "
_SILENT = {"id", "name", "title"}


def looked_at(rule: Any) -> str:
    """Return what the conditions of a rule ask for, as one line.

    Examples
    --------
    >>> from advisor.reasoning.expert import MATCH, NE, Rule
    >>> from advisor.reasoning.facts import Need, Sealing
    >>> looked_at(Rule(Need(kind="face", value="polished"),
    ...                Sealing(id=NE("none"), name=MATCH.seal, polished=False)))
    'the face needed (polished); the seal (not none, not polished)'
    """
    said = list(dict.fromkeys(_parts(rule)))
    found = [one.removeprefix(_FOUND) for one in said if one.startswith(_FOUND)]
    said = [one for one in said if not one.startswith(_FOUND)]
    if found:
        words = "numbers" if len(found) > 1 else "number"
        said.append(f"the {words} found for {', '.join(found)}")
    return "; ".join(said)


def in_words(name: str) -> str:
    """Return the name of a field or of a matched number without its unit.

    Examples
    --------
    >>> in_words("smallest_radius_m"), in_words("hot")
    ('smallest radius', 'hot')
    """
    return _UNIT.sub("", name).replace("_", " ")


def _parts(condition: Any) -> Iterator[str]:
    for part in condition:
        if isinstance(part, Fact):
            yield _pattern(part)
        elif isinstance(part, NOT):
            yield "missing: " + ", ".join(_parts(part))
        elif isinstance(part, ConditionalElement) and type(part).__name__ != "TEST":
            yield from _parts(part)


def _pattern(pattern: Fact) -> str:
    kind = type(pattern).__name__
    fields = asked(pattern)
    match kind:
        case "Need":
            return _with(f"the {_word(fields.pop('kind', ''))} needed", fields)
        case "Found":
            return _FOUND + _word(fields.get("key"))
        case "Activity":
            does = _word(fields.get("name"))
            return f"a step that {does}" if does else "each kind of step"
    return _with(_KINDS[kind], fields)


def _with(start: str, fields: dict[str, Any]) -> str:
    said = [words for name, value in fields.items() if (words := _said(name, value))]
    return f"{start} ({', '.join(said)})" if said else start


def _said(name: str, value: Any) -> str:
    field = "" if name in _SILENT | {"value", "kind", "key"} else in_words(name)
    if value is True or value is False:
        return field if value else f"not {field}"
    if isinstance(value, str):
        return f"{field} {_word(value)}".strip()
    words = _words_of(value)
    return f"{field} {words}".strip() if words else field


def _words_of(value: Any) -> str:
    """Return the words that a predicate accepts or refuses; figures are limits."""
    if isinstance(value, tuple):
        return next(filter(None, map(_words_of, value)), "")
    for cell in getattr(value, "__closure__", None) or ():
        held = cell.cell_contents
        if isinstance(held, frozenset):
            return " or ".join(map(_word, sorted(held)))
        if isinstance(held, str):
            return f"not {_word(held)}"
    return ""


def _word(value: Any) -> str:
    return value.replace("-", " ") if isinstance(value, str) else _words_of(value)
