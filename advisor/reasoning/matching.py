"""Which rules hold: a matcher that joins few facts quickly, in the place of experta's.

experta's network keeps every half of a match and copies it from node to node. Here the
facts that meet each pattern are remembered, and the matches of a rule are joined anew
when such a memory changed; rules that ask for a fact nobody declared cost nothing. What a
fact is checked for is experta's own code, and `tests/health/test_matching.py` holds the
activations of both to be the same.
"""

import inspect
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any
from weakref import WeakKeyDictionary

from advisor.reasoning.expert import (
    NOT,
    OR,
    TEST,
    Fact,
    FactList,
    FeatureCheck,
    InitialFact,
    Matcher,
    Rule,
    prepare_rule,
)

Context = Mapping[str, Any]
Entry = tuple[Fact, Context]
Memories = list[list[Entry]]
Partial = tuple[tuple[Fact, ...], Context]

_REMEMBERED = 20_000  # facts whose checks are kept, over all decisions of a session


@dataclass(frozen=True)
class Pattern:
    """A fact that a rule asks for."""

    kind: type[Fact]
    checks: tuple[Any, ...]

    @staticmethod
    def of(fact: Fact) -> "Pattern":
        """Return the pattern written as a fact with conditions in its fields."""
        if fact.__bind__ is not None:
            raise TypeError(f"{fact!r}: binding a whole fact is not supported")
        return Pattern(
            type(fact),
            tuple(FeatureCheck(name, fact[name]) for name in sorted(fact, key=str)),
        )

    def bound(self, fact: Fact) -> Context | None:
        """Return the values a fact gives to the pattern's names; None if it fails."""
        names: dict[str, Any] = {}
        for check in self.checks:
            met = check(fact)
            if not met:
                return None
            if met is not True:
                for name, value in met.items():
                    if names.setdefault(name, value) != value:
                        return None
        return names


@dataclass(frozen=True)
class _Meet:
    """A part of a condition: some fact meets a pattern and agrees with what is bound."""

    pattern: int
    shared: tuple[str, ...]

    def extend(self, found: list[Partial], memories: Memories) -> list[Partial]:
        return [
            ((*facts, fact), {**context, **bound})
            for facts, context in found
            for fact, bound in memories[self.pattern]
            if all(context[name] == bound[name] for name in self.shared)
        ]


@dataclass(frozen=True)
class _Lack:
    """A part of a condition: no fact meets a pattern and agrees with what is bound."""

    pattern: int
    shared: tuple[str, ...]

    def extend(self, found: list[Partial], memories: Memories) -> list[Partial]:
        return [
            (facts, context)
            for facts, context in found
            if not any(
                all(context[name] == bound[name] for name in self.shared)
                for _, bound in memories[self.pattern]
            )
        ]


@dataclass(frozen=True)
class _Hold:
    """A part of a condition: a test over what is bound."""

    test: Callable[..., Any]
    names: tuple[str, ...]

    def extend(self, found: list[Partial], memories: Memories) -> list[Partial]:
        return [
            (facts, context)
            for facts, context in found
            if self.test(*(context.get(name) for name in self.names))
        ]


class Activation:
    """A rule with the facts that meet its condition; the strategy gives it its key."""

    __slots__ = ("context", "facts", "key", "rule")

    def __init__(self, rule: Any, facts: tuple[Fact, ...], context: Context):
        self.rule = rule
        self.facts = facts
        self.context = context
        self.key: Any = None

    def __lt__(self, other: "Activation") -> bool:
        return bool(self.key < other.key)


@dataclass(frozen=True)
class _Join:
    """A condition without alternatives, its parts in the order they are written."""

    rule: Any
    parts: tuple[_Meet | _Lack | _Hold, ...]
    needed: tuple[int, ...]

    @property
    def name(self) -> str:
        """The name of the rule's method."""
        return str(self.rule.__name__)

    def matches(self, memories: Memories) -> dict[tuple[int, ...], Activation]:
        """Return what meets the condition now, by the numbers of the facts."""
        return {
            tuple(fact["__factid__"] for fact in facts): Activation(
                self.rule, facts, context
            )
            for facts, context in self.found(memories)
        }

    def found(self, memories: Memories) -> list[Partial]:
        """Return the facts that meet the condition together, with what they bind."""
        if not all(memories[pattern] for pattern in self.needed):
            return []
        found: list[Partial] = [((), {})]
        for part in self.parts:
            found = part.extend(found, memories)
            if not found:
                break
        return found


class _Network:
    """The rules of one engine class, read once: patterns, joins, and who uses what."""

    def __init__(self, rules: Iterable[Any]):
        self.patterns: list[Pattern] = []
        self.joins: list[_Join] = []
        self._number: dict[Pattern, int] = {}
        for rule in sorted(rules, key=lambda one: str(one.__name__)):
            prepared = prepare_rule(rule)
            for condition in _alternatives(prepared):
                self.joins.append(self._join(prepared, condition))
        self.users: list[list[int]] = [[] for _ in self.patterns]
        for n, join in enumerate(self.joins):
            for part in join.parts:
                if not isinstance(part, _Hold) and n not in self.users[part.pattern]:
                    self.users[part.pattern].append(n)
        self.of_kind: dict[type[Fact], list[int]] = {}
        for n, pattern in enumerate(self.patterns):
            self.of_kind.setdefault(pattern.kind, []).append(n)
        self._met: dict[Any, list[tuple[int, Context]]] = {}

    def met_by(self, fact: Fact) -> list[tuple[int, Context]]:
        """Return the patterns a fact meets and what it gives to their names."""
        if type(fact) not in self.of_kind:
            return []
        content = FactList._get_fact_id(fact)
        known = self._met.get(content)
        if known is None:
            bounds = ((n, self.patterns[n].bound(fact)) for n in self.of_kind[type(fact)])
            known = [(n, bound) for n, bound in bounds if bound is not None]
            if len(self._met) >= _REMEMBERED:
                self._met.clear()
            self._met[content] = known
        return known

    def _join(self, rule: Any, condition: Iterable[Any]) -> _Join:
        parts: list[_Meet | _Lack | _Hold] = []
        bound: set[str] = set()
        for one in condition:
            if isinstance(one, Fact | InitialFact):
                number, names = self._numbered(one)
                parts.append(_Meet(number, tuple(sorted(names & bound))))
                bound |= names
            elif isinstance(one, NOT) and isinstance(one[0], Fact):
                number, names = self._numbered(one[0])
                parts.append(_Lack(number, tuple(sorted(names & bound))))
            elif isinstance(one, TEST):
                parts.append(_Hold(one[0], tuple(inspect.signature(one[0]).parameters)))
            else:
                raise TypeError(f"{rule.__name__}: {type(one).__name__} is not supported")
        needed = tuple(part.pattern for part in parts if isinstance(part, _Meet))
        return _Join(rule, tuple(parts), needed)

    def _numbered(self, fact: Fact) -> tuple[int, set[str]]:
        pattern = Pattern.of(fact)
        number = self._number.setdefault(pattern, len(self.patterns))
        if number == len(self.patterns):
            self.patterns.append(pattern)
        return number, set(_names(fact.values()))


def _alternatives(prepared: Any) -> Iterator[Iterable[Any]]:
    if len(prepared) == 1 and isinstance(prepared[0], OR):
        for one in prepared[0]:
            yield [one] if isinstance(one, Fact | NOT | TEST) else one
    else:
        yield prepared


def _names(constraints: Iterable[Any]) -> Iterator[str]:
    """Yield the names that the constraints of a pattern bind."""
    for one in constraints:
        name = getattr(one, "__bind__", None)
        if name is not None:
            yield name
        if isinstance(one, tuple):
            yield from _names(part for part in one if isinstance(part, tuple))


def _network(engine_class: type[Any]) -> _Network:
    known = _NETWORKS.get(engine_class)
    if known is not None:
        return known
    rules = {
        name: value
        for owner in reversed(inspect.getmro(engine_class))
        for name, value in vars(owner).items()
    }
    made = _Network(value for value in rules.values() if isinstance(value, Rule))
    return _NETWORKS.setdefault(engine_class, made)


_NETWORKS: WeakKeyDictionary[type[Any], _Network] = WeakKeyDictionary()


def is_asked_for(fact: Fact, engine_class: type[Any]) -> bool:
    """Tell whether a fact meets a pattern of a rule of this engine."""
    return bool(_network(engine_class).met_by(fact))


@dataclass
class State:
    """What a matcher knows: the facts that meet each pattern, the activations by join."""

    memories: Memories
    active: dict[int, dict[tuple[int, ...], Activation]]


class JoiningMatcher(Matcher):
    """Keeps the activations of an engine by joining remembered facts.

    It knows patterns of facts, ``NOT`` of one pattern, ``TEST`` and ``OR``; another
    condition is refused with a `TypeError` when the engine is made.
    """

    def __init__(self, engine: Any):
        super().__init__(engine)
        self._network: _Network = _network(type(engine))
        self.reset()

    def reset(self) -> None:
        """Forget all facts; a state that was handed out before stays as it is."""
        self.state = State([[] for _ in self._network.patterns], {})

    def changes(
        self, adding: Iterable[Fact] | None = None, deleting: Iterable[Fact] | None = None
    ) -> tuple[list[Activation], list[Activation]]:
        """Return the activations that came and those that went with these facts."""
        network, memories = self._network, self.state.memories
        active = self.state.active
        touched: set[int] = set()
        for fact in deleting or ():
            for pattern, bound in network.met_by(fact):
                memories[pattern].remove((fact, bound))
                touched.update(network.users[pattern])
        for fact in adding or ():
            for pattern, bound in network.met_by(fact):
                memories[pattern].append((fact, bound))
                touched.update(network.users[pattern])
        added: list[Activation] = []
        removed: list[Activation] = []
        for n in sorted(touched):
            before = active.get(n, {})
            now = network.joins[n].matches(memories)
            if before or now:
                added += [one for ids, one in now.items() if ids not in before]
                removed += [one for ids, one in before.items() if ids not in now]
                active[n] = {ids: before.get(ids, one) for ids, one in now.items()}
        return added, removed

    def unmoved(self, state: State, gone: Iterable[Fact], came: Iterable[Fact]) -> bool:
        """Tell whether no rule cares that some facts of a state give way to others.

        That is so if they meet patterns of such rules only as do not fire, neither before
        nor after. The state then holds the new facts; else it is left as it was.
        """
        network, changed = self._network, self._changed(state, gone, came)
        touched = {join for pattern in changed for join in network.users[pattern]}
        if any(state.active.get(join) for join in touched):
            return False
        memories = _with(state.memories, changed)
        if any(network.joins[join].found(memories) for join in touched):
            return False
        state.memories = memories
        return True

    def still_fires(
        self,
        state: State,
        gone: Iterable[Fact],
        came: Iterable[Fact],
        rules: frozenset[str],
    ) -> bool:
        """Tell whether one of these rules fired and does so when facts give way to others.

        Rules go by the names of their methods. The state is left as it was.
        """
        joins = self._network.joins
        fired = [n for n, now in state.active.items() if now and joins[n].name in rules]
        if not fired:
            return False
        memories = _with(state.memories, self._changed(state, gone, came))
        return any(joins[n].found(memories) for n in fired)

    def _changed(
        self, state: State, gone: Iterable[Fact], came: Iterable[Fact]
    ) -> dict[int, list[Entry]]:
        """Return the memories that differ once some facts gave way to others."""
        changed: dict[int, list[Entry]] = {}
        for fact in gone:
            for pattern, _ in self._network.met_by(fact):
                known = changed.get(pattern, state.memories[pattern])
                changed[pattern] = [one for one in known if one[0] is not fact]
        for fact in came:
            for pattern, bound in self._network.met_by(fact):
                known = changed.get(pattern, state.memories[pattern])
                changed[pattern] = [*known, (fact, bound)]
        return changed


def _with(memories: Memories, changed: Mapping[int, list[Entry]]) -> Memories:
    return [changed.get(n, known) for n, known in enumerate(memories)]
