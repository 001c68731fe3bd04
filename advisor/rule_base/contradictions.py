"""Rules that say opposite things of the same facts, as far as conditions can be read."""

import ast
import inspect
import textwrap
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any

from advisor.reasoning.expert import Fact
from advisor.reasoning.patterns import all_demanded, asked, demanded, has_key, key_of
from advisor.reasoning.rulebook import RuleEntry

_LITERALS = (str, bool)
Place = tuple[str, str, str]


@dataclass
class Conditions:
    """What a rule asks of each field: the values it accepts, or None for any.

    `whole` is false where a part could not be read: a TEST, a NOT, an OR, a figure.
    """

    accepted: dict[Place, frozenset[Any] | None] = field(default_factory=dict)
    refused: dict[Place, frozenset[Any]] = field(default_factory=dict)
    whole: bool = True

    def excludes(self, other: "Conditions") -> bool:
        """Return whether both can never hold of the same facts."""
        for place in self.accepted.keys() & other.accepted.keys():
            mine, theirs = self.accepted[place], other.accepted[place]
            if mine is not None and theirs is not None and not mine & theirs:
                return True
            for one, another in ((self, other), (other, self)):
                values = one.accepted[place]
                if values is not None and values <= another.refused.get(place, frozenset()):
                    return True
        return False

    def implies(self, other: "Conditions") -> bool:
        """Return whether the other surely holds wherever this does."""
        return other.whole and all(
            place in self.accepted
            and self._within(place, values, other.refused.get(place, frozenset()))
            for place, values in other.accepted.items()
        )

    def _within(
        self, place: Place, values: frozenset[Any] | None, refused: frozenset[Any]
    ) -> bool:
        mine = self.accepted[place]
        if mine is None:
            return values is None and refused <= self.refused.get(place, frozenset())
        return (values is None or mine <= values) and not mine & refused


def conditions(rule: Any) -> Conditions:
    """Return what can be read of a rule's conditions."""
    read = Conditions(whole=all_demanded(rule))
    for pattern in demanded(rule):
        _pattern(pattern, read)
    return read


def _pattern(pattern: Fact, read: Conditions) -> None:
    kind = type(pattern).__name__
    which = key_of(pattern) or ("any" if has_key(pattern) else "")
    for name, value in asked(pattern).items():
        place = (kind, which, name)
        accepted, refused, whole = accepted_and_refused(value)
        known = read.accepted.get(place)
        if known is not None and accepted is not None:
            accepted = known & accepted
        read.accepted[place] = known if accepted is None else accepted
        read.refused[place] = read.refused.get(place, frozenset()) | refused
        read.whole &= whole


def accepted_and_refused(value: Any) -> tuple[frozenset[Any] | None, frozenset[Any], bool]:
    """Return values accepted (None: any), values refused, and whether that is all."""
    if isinstance(value, _LITERALS):
        return frozenset({value}), frozenset(), True
    name = type(value).__name__
    if name == "W":
        return None, frozenset(), True
    if name == "P":
        for cell in getattr(value[0], "__closure__", None) or ():
            held = cell.cell_contents
            if isinstance(held, frozenset):
                return held, frozenset(), True
            if isinstance(held, str):  # the one comparison made with a word is NE
                return None, frozenset({held}), True
        return None, frozenset(), False
    if name == "ANDFC":
        accepted: frozenset[Any] | None = None
        refused: frozenset[Any] = frozenset()
        whole = True
        for part in value:
            more, less, all_read = accepted_and_refused(part)
            accepted = (
                accepted if more is None else more if accepted is None else accepted & more
            )
            refused, whole = refused | less, whole and all_read
        return accepted, refused, whole
    return None, frozenset(), False


def faults(entries: tuple[RuleEntry, ...]) -> Iterator[str]:
    """Yield praise that another rule always takes back, and needs set to two values.

    Both are told only where conditions can be read as words: a TEST, a NOT or a figure
    may keep two rules apart in a way that is not seen here, so such pairs are left to
    the planned jobs of the tests. Praise of an option that is ruled out only sometimes
    is no contradiction: what is ruled out is out.
    """
    read = {entry.advice.id: conditions(entry.rule) for entry in entries}
    for id, one in read.items():
        for (kind, _, name), values in one.accepted.items():
            if values is not None and not values:
                yield f"{id}: no {name} of {kind.lower()} is accepted: it never fires"
    said = {entry.advice.id: _outcomes(entry) for entry in entries}
    by_stage: dict[str, list[str]] = {}
    for entry in entries:
        by_stage.setdefault(entry.stage, []).append(entry.advice.id)
    for ids in by_stage.values():
        for a, b in combinations(ids, 2):
            for good, out in ((a, b), (b, a)):
                if (
                    "Good" in said[good]
                    and "RuledOut" in said[out]
                    and read[good].implies(read[out])
                ):
                    yield f"{good}: whatever it commends, {out} rules out"
            for kind in said[a].keys() & said[b].keys() - {"Good", "RuledOut"}:
                differ = len({said[a][kind], said[b][kind]} - {""}) == 2
                surely = read[a].whole and read[b].whole
                if differ and surely and not read[a].excludes(read[b]):
                    yield f"{a}, {b}: may both hold and set {kind} differently"


def _outcomes(entry: RuleEntry) -> Mapping[str, str]:
    """Return a rule's verdicts by class, and needs by kind with their value if a word."""
    source = textwrap.dedent(inspect.getsource(inspect.unwrap(entry.body)))
    found: dict[str, str] = {}
    for node in ast.walk(ast.parse(source)):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        words = [
            arg.value
            if isinstance(arg, ast.Constant) and isinstance(arg.value, str)
            else ""
            for arg in node.args
        ]
        if node.func.id in {"Good", "RuledOut"}:
            found[node.func.id] = ""
        elif node.func.id == "Need" and len(words) == 2 and words[0]:
            found[f"need {words[0]}"] = words[1]
    return found
