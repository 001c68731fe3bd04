"""Facts that rules wait for: whether any rule concludes them, and soon enough."""

import ast
import inspect
import sys
import textwrap
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from advisor.reasoning.expert import Fact
from advisor.reasoning.patterns import asked, key_of, patterns
from advisor.reasoning.rulebook import STAGES, RuleEntry
from advisor.rule_base.contradictions import accepted_and_refused
from advisor.rule_base.words import said


def faults(entries: tuple[RuleEntry, ...]) -> Iterator[str]:
    """Yield what rules wait for in vain: needs, numbers and activities nobody asserts.

    What a rule concludes is read from the words of its body, and of the helpers and tables
    of words that the body names; a rule that hands on a computed word is not seen through.
    A need is waited for with its value: it counts as concluded where one rule says both
    words.
    """
    concluded = {entry.advice.id: _words(entry.body) for entry in entries}
    for entry in entries:
        for kind, key, value in sorted(_waited_for(entry.rule)):
            wanted = {key, value} - {""}
            makers = {
                one.stage
                for one in entries
                if wanted <= concluded[one.advice.id] and one.advice.id != entry.advice.id
            }
            what = " ".join(filter(None, (kind.lower(), key, value)))
            if not makers and not wanted <= _asserted():
                yield f"{entry.advice.id}: waits for {what}, which no rule concludes"
            elif makers and kind != "Activity" and not _in_time(makers, entry):
                yield f"{entry.advice.id}: waits for {what}, which comes in a later stage"


@cache
def _asserted() -> frozenset[str]:
    """Return the words of the modules outside the rules that assert facts themselves."""
    names = ("advise.py", "reasoning/evidence.py")
    return frozenset(
        word
        for name in names
        for word in said(
            ast.parse(files("advisor").joinpath(name).read_text(encoding="utf-8"))
        )
    )


def _in_time(makers: set[Any], entry: RuleEntry) -> bool:
    return any(STAGES.index(one) <= STAGES.index(entry.stage) for one in makers)


def _waited_for(condition: Any) -> set[tuple[str, str, str]]:
    """Return class, key and value of the facts that conditions name; a value of needs."""
    return {
        (type(pattern).__name__, key, value)
        for pattern in patterns(condition)
        if (key := key_of(pattern)) is not None
        for value in _values(pattern) or {""}
    }


def _values(pattern: Fact) -> set[str]:
    """Return the words that a need is waited for with, refused ones too."""
    if type(pattern).__name__ != "Need":
        return set()
    accepted, refused, _ = accepted_and_refused(asked(pattern).get("value"))
    return {word for word in {*(accepted or ()), *refused} if isinstance(word, str)}


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
            for statement in ast.iter_child_nodes(tree.body[0]):
                if isinstance(statement, ast.stmt):  # decorators hold what is waited for
                    words.update(said(statement))
            for name in function.__code__.co_names:
                words.update(_in_table(module.get(name)))
        else:
            words.update(_in_table(function))
    return frozenset(words)


def _in_table(value: Any) -> Iterator[str]:
    """Yield the words that a name of a module stands for, in tables of words too."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        yield from _in_table(tuple(value.values()))
    elif isinstance(value, tuple):
        for one in value:
            yield from _in_table(one)
