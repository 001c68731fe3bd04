"""The conditions of a rule walked through: which facts it asks for, and by which word."""

from collections.abc import Iterator
from typing import Any

from advisor.reasoning.expert import ConditionalElement, Fact

# The field by which one fact of a class is told from another.
_KEYS = {"Need": "kind", "Found": "key", "Activity": "name"}


def patterns(condition: Any) -> Iterator[Fact]:
    """Yield every pattern of a rule, those under NOT and OR too."""
    for part in condition:
        if isinstance(part, Fact):
            yield part
        elif isinstance(part, ConditionalElement) and not _is(part, "TEST"):
            yield from patterns(part)


def demanded(condition: Any) -> Iterator[Fact]:
    """Yield the patterns that have to be met: not those under NOT, nor those of an OR."""
    for part in condition:
        if isinstance(part, Fact):
            yield part
        elif _is(part, "AND"):
            yield from demanded(part)


def all_demanded(condition: Any) -> bool:
    """Return whether a rule asks for its patterns and nothing else: no TEST, NOT or OR."""
    return all(
        isinstance(part, Fact) or (_is(part, "AND") and all_demanded(part))
        for part in condition
    )


def lacking(condition: Any) -> bool:
    """Return whether a rule asks that some fact be absent: a new one may silence it."""
    return any(
        _is(part, "NOT") or (isinstance(part, ConditionalElement) and lacking(part))
        for part in condition
        if not _is(part, "TEST")
    )


def asked(pattern: Fact) -> dict[str, Any]:
    """Return what a pattern asks of its fields, by name."""
    return {str(k): v for k, v in pattern.items() if not str(k).startswith("__")}


def key_of(pattern: Fact) -> str | None:
    """Return the word that a pattern names its fact by; None where it takes any."""
    word = pattern.get(_KEYS.get(type(pattern).__name__, ""), None)
    return word if isinstance(word, str) else None


def has_key(pattern: Fact) -> bool:
    """Return whether facts of this class are told apart by a word."""
    return type(pattern).__name__ in _KEYS


def _is(part: Any, name: str) -> bool:
    return isinstance(part, ConditionalElement) and type(part).__name__ == name
