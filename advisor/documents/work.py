"""The work of a plan step by step: what is done, guarded against, held and signed."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from advisor.documents.citations import Citations, Reason, cited, reason
from advisor.documents.shown import looked_at
from advisor.measures import in_styles
from advisor.plan import CautionRecord, HoldPointRecord, Plan, StepRecord


@dataclass(frozen=True)
class Guard:
    """A caution as printed at a step: in full where it first applies."""

    id: str
    hazard: str
    sign: str
    text: str
    defers_to: str
    sources: tuple[int, ...]
    first_step: int


@dataclass(frozen=True)
class StepView:
    """A step of the work."""

    n: int
    title: str
    text: str
    lines: tuple[str, ...]
    short: bool
    why: Reason
    listed: tuple[str, ...]
    quantities: tuple[str, ...]
    picture: str
    hold: HoldPointRecord | None
    first_cautions: tuple[Guard, ...]
    cautions_again: tuple[Guard, ...]


@dataclass(frozen=True)
class PhaseView:
    """The steps of one phase."""

    title: str
    steps: tuple[StepView, ...]


def phases_of(plan: Plan, refs: Citations) -> tuple[PhaseView, ...]:
    """Return the steps of a plan by phase, each caution in full where it first applies."""
    guards = {caution.id: _guard(caution, refs) for caution in plan.cautions}
    phases: dict[str, list[StepView]] = {}
    for step in plan.steps:
        phases.setdefault(step.phase, []).append(_step(step, guards, refs))
    return tuple(PhaseView(title, tuple(steps)) for title, steps in phases.items())


def _guard(caution: CautionRecord, refs: Citations) -> Guard:
    return Guard(
        id=caution.id,
        hazard=caution.hazard,
        sign=caution.sign,
        text=caution.text,
        defers_to=caution.defers_to,
        sources=cited(caution.conclusion.sources, refs),
        first_step=min(caution.applies_to_steps, default=0),
    )


# A step of more words than this is told line by line, or may run over a page's end.
LONG_TEXT, SHORT_STEP = 45, 110


_SENTENCE_END = re.compile(r"(?<=[.!?])(?<!e\.g\.)(?<!i\.e\.)\s+(?=[A-Z])")


_ITEMS = re.compile(r"(?P<lead>[^:;.]{4,40}:) (?P<items>[^;]+(?:; [^;]+){3,})")


def sentences_of(text: str) -> tuple[str, ...]:
    """Part a text into its sentences."""
    return tuple(_SENTENCE_END.split(text))


def in_lines(text: str) -> tuple[str, tuple[str, ...]]:
    """Part a long text into its opening words and its lines; a short one stays whole.

    Examples
    --------
    >>> in_lines("From below: table; breather; tool; plies.")
    ('From below:', ('table', 'breather', 'tool', 'plies.'))
    >>> in_lines("Saw it. Dry it.")
    ('Saw it. Dry it.', ())
    """
    listed = _ITEMS.fullmatch(text)
    if listed:
        return listed["lead"], tuple(listed["items"].split("; "))
    sentences = sentences_of(text)
    if len(text.split()) <= LONG_TEXT or len(sentences) < 3:
        return text, ()
    return "", sentences


def _step(step: StepRecord, guards: Mapping[str, Guard], refs: Citations) -> StepView:
    text, lines = in_lines(step.text)
    here = [guards[id] for id in step.cautions]
    return StepView(
        n=step.n,
        title=step.title,
        text=text,
        lines=lines,
        short=len(" ".join((step.text, step.why, *step.listed)).split()) < SHORT_STEP,
        why=reason(step.conclusion, refs),
        listed=step.listed,
        quantities=tuple(
            f"{q.label}: {in_styles(q.value, q.unit)}" for q in step.quantities
        ),
        picture=looked_at(step.conclusion.rule),
        hold=step.hold_point,
        first_cautions=tuple(g for g in here if g.first_step == step.n),
        cautions_again=tuple(g for g in here if g.first_step != step.n),
    )
