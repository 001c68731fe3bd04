"""The conditions of the rule base written for CLIPS, a rule engine in C.

A fact becomes a fact of a template with a slot for each of its fields, empty ones ``nil``;
a list is one string, since nothing matches inside of it. What a field is compared with is
written in CLIPS' own language; any other test is a Python function that CLIPS calls back.
"""

import json
import operator
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from inspect import signature
from typing import Any

import clips

from advisor.reasoning.expert import (
    NOT,
    OR,
    TEST,
    Fact,
    InitialFact,
    Rule,
    prepare_rule,
)

LOWEST = -1e300  # CLIPS reads no infinity
_LIST = "list:"
_COMPARED = {
    operator.lt: "<",
    operator.le: "<=",
    operator.gt: ">",
    operator.ge: ">=",
    operator.ne: "neq",
    operator.eq: "eq",
}


@dataclass
class Translated:
    """The rules of a stage as CLIPS reads them."""

    env: Any = field(default_factory=clips.Environment)
    conditions: Counter[str] = field(default_factory=Counter)
    functions: dict[str, Callable[..., Any]] = field(default_factory=dict)

    def called_back(self, test: Callable[..., Any], variables: list[str]) -> str:
        """Return the call of a Python function, defined for it."""
        name = f"python-{len(self.functions)}"
        self.functions[name] = test
        self.env.define_function(lambda *args: bool(test(*map(_from_clips, args))), name)
        self.conditions["called back"] += 1
        return f"({name} {' '.join(variables)})"

    def expression(self, constraint: Any, variable: str) -> str:
        """Return what a predicate asks of a variable."""
        cells = {
            name: cell.cell_contents
            for name, cell in zip(
                constraint.match.__code__.co_freevars,
                constraint.match.__closure__ or (),
                strict=True,
            )
        }
        if set(cells) == {"o", "b"} and cells["o"] in _COMPARED:
            self.conditions["in CLIPS"] += 1
            return f"({_COMPARED[cells['o']]} {variable} {written(cells['b'])})"
        if set(cells) == {"words"}:
            self.conditions["in CLIPS"] += 1
            words = " ".join(map(written, sorted(cells["words"])))
            return f"(member$ {variable} (create$ {words}))"
        return self.called_back(constraint.match, [variable])

    def slot(self, name: str, constraint: Any, fresh: Iterator[str]) -> str:
        """Return the constraint of one slot."""
        variable = f"?{_bound(constraint) or next(fresh)}"
        parts = (variable, "~nil", *self._asked(constraint, variable))
        return f"({_slot(name)} {'&'.join(parts)})"

    def _asked(self, constraint: Any, variable: str) -> Iterator[str]:
        match type(constraint).__name__:
            case "W":
                return
            case "str" | "bool" | "int" | "float":
                self.conditions["in CLIPS"] += 1
                yield f":(eq {variable} {written(constraint)})"
            case "P":
                yield f":{self.expression(constraint, variable)}"
            case "ANDFC":
                for part in constraint:
                    yield from self._asked(part, variable)
            case other:
                raise TypeError(f"{other} is not translated")


def _bound(constraint: Any) -> str | None:
    if type(constraint).__name__ == "ANDFC":
        names = [name for part in constraint if (name := _bound(part))]
        return names[0] if names else None
    name = getattr(constraint, "__bind__", None)
    return None if name is None else str(name)


def _slot(name: str) -> str:
    return f"f-{name}"


def written(value: Any) -> str:
    """Return a value as CLIPS reads it."""
    if value is None:
        return "nil"
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, int | float):
        return repr(float(max(value, LOWEST)))
    if isinstance(value, str):
        escaped = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"{escaped}"'
    return written(_LIST + json.dumps(list(value)))


@cache
def _listed(text: str) -> tuple[Any, ...]:
    return tuple(json.loads(text))


def _from_clips(value: Any) -> Any:
    if isinstance(value, clips.Symbol):
        return {"TRUE": True, "FALSE": False, "nil": None}[str(value)]
    if isinstance(value, str) and value.startswith(_LIST):
        return _listed(value.removeprefix(_LIST))
    return value


def translated(engine_class: type[Any], facts: Iterable[Fact]) -> Translated:
    """Return the rules of an engine written for CLIPS, with templates for these facts."""
    made = Translated()
    for router in made.env.routers():  # CLIPS asks it for every letter that it reads
        router.deactivate()
    seen: dict[str, set[str]] = {}
    for fact in facts:
        seen.setdefault(type(fact).__name__, set()).update(fact.as_dict())
    rules = [
        (name, one)
        for name, value in sorted(_rules(engine_class).items())
        for one in _conditions(prepare_rule(value))
    ]
    for _, condition in rules:
        for part in condition:
            pattern = part[0] if isinstance(part, NOT) else part
            if isinstance(pattern, Fact) and not isinstance(pattern, InitialFact):
                seen.setdefault(type(pattern).__name__, set()).update(map(str, pattern))
    for kind, names in sorted(seen.items()):
        slots = [f"(slot {_slot(name)} (default nil))" for name in sorted(names)]
        made.env.build(f"(deftemplate {kind} {' '.join(slots)})")
    for n, (name, condition) in enumerate(rules):
        parts = " ".join(_parts(made, condition))
        made.env.build(f"(defrule {name}--{n} {parts} => )")
    return made


def _rules(engine_class: type[Any]) -> dict[str, Any]:
    return {
        name: value
        for owner in reversed(engine_class.__mro__)
        for name, value in vars(owner).items()
        if isinstance(value, Rule)
    }


def _conditions(prepared: Any) -> Iterator[list[Any]]:
    """Yield a condition's alternatives, each without an OR."""
    if len(prepared) == 1 and isinstance(prepared[0], OR):
        for one in prepared[0]:
            yield [one] if isinstance(one, Fact | NOT | TEST) else list(one)
    else:
        yield list(prepared)


def _parts(made: Translated, condition: list[Any]) -> Iterator[str]:
    fresh = (f"v{n}" for n in range(1000))
    for part in condition:
        if isinstance(part, InitialFact):
            continue
        if isinstance(part, TEST):
            names = [f"?{name}" for name in signature(part[0]).parameters]
            yield f"(test {made.called_back(part[0], names)})"
        elif isinstance(part, NOT):
            yield f"(not {_pattern(made, part[0], fresh)})"
        else:
            yield _pattern(made, part, fresh)


def _pattern(made: Translated, pattern: Fact, fresh: Iterator[str]) -> str:
    slots = [made.slot(str(name), value, fresh) for name, value in pattern.items()]
    return f"({type(pattern).__name__} {' '.join(slots)})"


def as_text(facts: tuple[Fact, ...]) -> str:
    """Return facts as CLIPS reads them."""
    rows = []
    for fact in facts:
        slots = (f"({_slot(k)} {written(v)})" for k, v in fact.as_dict().items())
        rows.append(f"({type(fact).__name__} {' '.join(slots)})")
    return "\n".join(rows)
