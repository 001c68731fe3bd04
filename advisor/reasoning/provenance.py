"""Conclusions that remember: rule, sentence, the grounds they rest on, sources, basis."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict

from advisor.knowledge.rows import Basis, Figure
from advisor.knowledge.tables import Knowledge
from advisor.measures import plain_number, sign

_WEAKEST_LAST: tuple[Basis, ...] = (
    "published",
    "shop",
    "common-practice",
    "from-memory",
    "invented",
)

_DECISIONS = frozenset({"chosen", "step", "use"})


class Record(BaseModel):
    """A part of a plan: immutable, closed to unknown keys."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Ground(Record):
    """One thing a conclusion rests on.

    ``job`` and ``shop`` are the user's own input, ``assumption`` a stated default,
    ``table`` a sourced figure, ``conclusion`` an earlier conclusion, held in full. A
    ground's `basis` counts towards the basis of what rests on it.
    """

    kind: Literal["job", "shop", "assumption", "table", "conclusion"]
    name: str
    value: str
    sources: tuple[str, ...] = ()
    basis: Basis | None = None
    conclusion: Conclusion | None = None


class Conclusion(Record):
    """What a rule concluded, and why it may be believed.

    `kind` is the kind of outcome: ``ruled-out``, ``doubtful``, ``good``, ``finding``,
    ``step`` and so on; ``joined`` for what follows from other conclusions together,
    ``chosen`` for why the route is taken.
    `basis` is that of the weakest thing it rests on, `reason_basis` that of the sentence
    alone, its figures and earlier conclusions left out; these two have none.
    """

    id: str
    kind: str
    rule: str
    title: str
    sentence: str
    grounds: tuple[Ground, ...]
    sources: tuple[str, ...]
    basis: Basis
    reason_basis: Basis | None = None
    formula: str | None = None


Ground.model_rebuild()


def resting_on(conclusion: Conclusion) -> Ground:
    """Return an earlier conclusion as a ground, no surer than it is itself."""
    return Ground(
        kind="conclusion",
        name=conclusion.title,
        value=conclusion.sentence,
        basis=conclusion.basis,
        conclusion=conclusion,
    )


def figure_shown(figure: Figure) -> str:
    """Return a sourced figure with its span and unit."""
    span = ""
    if figure.low is not None and figure.high is not None and figure.low != figure.high:
        span = f" ({plain_number(figure.low)} to {plain_number(figure.high)})"
    return f"{plain_number(figure.value)}{span} {sign(figure.unit)}".strip()


def table_ground(knowledge: Knowledge, name: str, figure: Figure) -> Ground:
    """Return the origin of a sourced figure."""
    return Ground(
        kind="table",
        name=name,
        value=figure_shown(figure),
        sources=figure.source,
        basis=knowledge.basis(figure.source),
    )


def conclusions_in(content: Any) -> Iterator[Conclusion]:
    """Walk a plan or part of one and yield every conclusion, earlier ones too."""
    if isinstance(content, Conclusion):
        yield content
        for ground in content.grounds:
            if ground.conclusion:
                yield from conclusions_in(ground.conclusion)
    elif isinstance(content, Mapping):
        for value in content.values():
            yield from conclusions_in(value)
    elif isinstance(content, tuple | list):
        for value in content:
            yield from conclusions_in(value)
    elif isinstance(content, Record):
        for name in type(content).model_fields:
            yield from conclusions_in(getattr(content, name))


def weakest(bases: list[Basis]) -> Basis:
    """Return the least sure of several bases: a chain is as strong as its weakest link."""
    return max(bases, key=_WEAKEST_LAST.index)


def is_decision(conclusion: Conclusion) -> bool:
    """Tell whether it says what the plan does: its route, a step, a thing it uses."""
    return conclusion.kind in _DECISIONS


def basis_as_decided(conclusion: Conclusion) -> Basis:
    """Return the weakest basis of the evidence, what the plan decided taken as given.

    Why a route was chosen makes nothing truer or falser that is said of it: silica dust
    flies from aerated concrete whatever the reason it was taken. So the walk stops at an
    earlier decision as it stops at the user's input, while every finding and every figure
    in between counts. A decision itself is weighed by its own chain, like all the others.
    """
    below = [one for one in conclusion.grounds if one.conclusion]
    bases = [
        basis_as_decided(c) for one in below if (c := one.conclusion) and not is_decision(c)
    ]
    bases += [one.basis for one in conclusion.grounds if one.basis and not one.conclusion]
    if conclusion.reason_basis:
        bases.append(conclusion.reason_basis)
    return weakest(bases or [conclusion.basis])
