"""Limits that a rule compares with and does not own up to: read from its source."""

import ast
import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files

from advisor.reasoning.rulebook import RuleEntry

_CALLS = ("limit", "limit_span")

# Where a name of a module leads: the module that holds it, and what it stands for there.
_Named = Mapping[str, tuple[str, ast.AST]]


def faults(entries: tuple[RuleEntry, ...], rows: frozenset[str]) -> Iterator[str]:
    """Yield each row of limits.toml that a rule uses and does not declare.

    What a rule uses is read from its conditions and its body and, name by name, from the
    constants and helpers they lead to, those of sibling modules too. A plan prints the
    declared limits as grounds, so one that is left out is a figure without a source.
    """
    for entry in entries:
        missing = used(entry, rows) - set(entry.advice.limits)
        for name in sorted(missing):
            yield f"{entry.advice.id}: compares with {name}, which it does not declare"


def used(entry: RuleEntry, rows: frozenset[str]) -> frozenset[str]:
    """Return the rows of limits.toml that the source of a rule leads to."""
    owner, method = _source(entry.module, entry.body.__qualname__)
    own = {one.name: one for one in owner.body if isinstance(one, ast.FunctionDef)}
    return frozenset(_rows(entry.module, method, own, rows, set()))


def _rows(
    module: str,
    tree: ast.AST,
    own: Mapping[str, ast.FunctionDef],
    rows: frozenset[str],
    seen: set[tuple[str, str]],
) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and _name(node.func) in _CALLS:
            yield from _read(node.args[0], rows)
        elif isinstance(node, ast.Subscript) and _is_table(node.value):
            yield from _read(node.slice, rows)
        name = _name(node)
        if name is None or (module, name) in seen:
            continue
        seen.add((module, name))
        if isinstance(node, ast.Attribute):
            if name in own:  # a helper of the rule's own class
                yield from _rows(module, own[name], own, rows, seen)
        elif name in (named := _names(module)):
            yield from _rows(*named[name], own, rows, seen)


def _name(node: ast.AST) -> str | None:
    """Return the name that stands alone, or the one that is asked of `self`."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute) and _name(node.value) == "self":
        return node.attr
    return None


def _is_table(node: ast.expr) -> bool:
    return isinstance(node, ast.Attribute) and node.attr == "limits"


def _read(name: ast.expr, rows: frozenset[str]) -> Iterator[str]:
    """Yield the rows that a written name means; one put together means all that fit."""
    if isinstance(name, ast.Constant):
        yield str(name.value)
    elif isinstance(name, ast.JoinedStr):
        pattern = "".join(
            re.escape(str(part.value)) if isinstance(part, ast.Constant) else ".+"
            for part in name.values
        )
        yield from (row for row in rows if re.fullmatch(pattern, row))


def _source(module: str, qualified: str) -> tuple[ast.ClassDef, ast.FunctionDef]:
    """Return the class and the method of a rule as they are written."""
    owner, _, method = qualified.partition(".")
    return next(
        (holder, one)
        for holder in _tree(module).body
        if isinstance(holder, ast.ClassDef) and holder.name == owner
        for one in holder.body
        if isinstance(one, ast.FunctionDef) and one.name == method
    )


@cache
def _names(module: str) -> _Named:
    """Return what the names at the top of a module of rules stand for."""
    found: dict[str, tuple[str, ast.AST]] = {}
    for statement in _tree(module).body:
        if isinstance(statement, ast.FunctionDef):
            found[statement.name] = (module, statement)
        elif isinstance(statement, ast.Assign):
            for target in statement.targets:
                for node in ast.walk(target):
                    if isinstance(node, ast.Name):
                        found[node.id] = (module, statement.value)
        elif isinstance(statement, ast.AnnAssign) and statement.value is not None:
            if isinstance(statement.target, ast.Name):
                found[statement.target.id] = (module, statement.value)
        elif isinstance(statement, ast.ImportFrom) and statement.level and statement.module:
            theirs = _names(statement.module)
            for alias in statement.names:
                if alias.name in theirs:
                    found[alias.asname or alias.name] = theirs[alias.name]
    return found


@cache
def _tree(module: str) -> ast.Module:
    path = files("advisor.rules").joinpath(f"{module}.py")
    return ast.parse(path.read_text(encoding="utf-8"))
