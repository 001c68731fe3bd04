"""Facts that rules wait for: whether any rule concludes them, and soon enough."""

import ast
import inspect
import sys
import textwrap
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from advisor.reasoning.expert import ConditionalElement, Fact
from advisor.reasoning.rulebook import STAGES, RuleEntry

_KEYS = {"Need": "kind", "Found": "key", "Activity": "name"}


def faults(entries: tuple[RuleEntry, ...]) -> Iterator[str]:
    """Yield what rules wait for in vain: needs, numbers and activities nobody asserts.

    What a rule concludes is read from the words of its body, or of its module where the
    body calls a helper; a rule that hands on a computed word is not seen through.
    """
    said = {entry.advice.id: _words(entry.body) for entry in entries}
    for entry in entries:
        for kind, key in sorted(set(_waited_for(entry.rule))):
            makers = {
                one.stage
                for one in entries
                if key in said[one.advice.id] and one.advice.id != entry.advice.id
            }
            what = f"{kind.lower()} {key}"
            if not makers and key not in _asserted():
                yield f"{entry.advice.id}: waits for {what}, which no rule concludes"
            elif makers and kind != "Activity" and not _in_time(makers, entry):
                yield f"{entry.advice.id}: waits for {what}, which comes in a later stage"


@cache
def _asserted() -> frozenset[str]:
    """Return the words of the modules outside the rules that assert facts themselves."""
    names = ("advise.py", "reasoning/evidence.py")
    return frozenset(
        leaf.value
        for name in names
        for leaf in ast.walk(
            ast.parse(files("advisor").joinpath(name).read_text(encoding="utf-8"))
        )
        if isinstance(leaf, ast.Constant) and isinstance(leaf.value, str)
    )


def _in_time(makers: set[Any], entry: RuleEntry) -> bool:
    return any(STAGES.index(one) <= STAGES.index(entry.stage) for one in makers)


def _waited_for(condition: Any) -> Iterator[tuple[str, str]]:
    for part in condition:
        if isinstance(part, Fact):
            kind = type(part).__name__
            key = part.get(_KEYS.get(kind, ""), None)
            if isinstance(key, str):
                yield kind, key
        elif isinstance(part, ConditionalElement) and type(part).__name__ != "TEST":
            yield from _waited_for(part)


def _words(body: Any) -> frozenset[str]:
    """Return the words that stand in a rule's body and in the helpers it names."""
    body = inspect.unwrap(body)
    module = vars(sys.modules[body.__module__])
    owner = vars(module.get(body.__qualname__.partition(".")[0], object))
    words: set[str] = set()
    for function in (body, *map({**module, **owner}.get, body.__code__.co_names)):
        function = getattr(function, "__func__", function)  # of a static method
        if inspect.isfunction(function) and function.__module__ == body.__module__:
            tree = ast.parse(textwrap.dedent(inspect.getsource(function)))
            words |= {  # of the statements: a decorator holds what the rule waits for
                leaf.value
                for statement in ast.iter_child_nodes(tree.body[0])
                if isinstance(statement, ast.stmt)
                for leaf in ast.walk(statement)
                if isinstance(leaf, ast.Constant) and isinstance(leaf.value, str)
            }
            for name in function.__code__.co_names:
                words.update(_held(module.get(name)))
        else:
            words.update(_held(function))
    return frozenset(words)


def _held(value: Any) -> Iterator[str]:
    """Yield the words that a name of a module stands for, in tables of words too."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        yield from _held(tuple(value.values()))
    elif isinstance(value, tuple):
        for one in value:
            yield from _held(one)
