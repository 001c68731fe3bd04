"""Answers to questions about a plan, as lines of the terminal."""

import textwrap
from collections.abc import Iterable, Iterator
from itertools import zip_longest

from advisor.measures import enumerated
from advisor.plan import Plan
from advisor.questioning.whatif import Changed, Comparison
from advisor.questioning.why import Answer, Link, Reason
from advisor.reasoning.provenance import Ground
from advisor.terminal import WIDTH

_BASES = {
    "common-practice": "common practice",
    "from-memory": "from memory",
    "shop": "the shop's own",
    "invented": "invented",
}
_KINDS = {
    "job": "you gave",
    "shop": "you gave",
    "assumption": "taken, for it was not given",
    "table": "figures",
}


def answer_told(answer: Answer, plan: Plan) -> str:
    """Return an answer in plain lines: what became of it, each reason, the sources."""
    sources = Sources(plan)
    lines = [answer.about]
    if answer.outcome:
        lines.append(_filled(answer.outcome, "  "))
    for reason in answer.reasons:
        lines += ["", *_reason(reason, sources)]
    lines += ["", *sources.lines()]
    return "\n".join(lines).rstrip()


class Sources:
    """Numbers the sources of a plan in the order in which they are cited."""

    def __init__(self, plan: Plan):
        self._rows = {one.id: one for one in plan.sources}
        self._cited: dict[str, int] = {}

    def cite(self, ids: Iterable[str]) -> str:
        """Return the numbers of some sources in brackets; practice has none."""
        rows = [self._rows[id] for id in ids if id in self._rows]
        published = [row.id for row in rows if row.kind != "none"]
        numbers = sorted(
            self._cited.setdefault(id, len(self._cited) + 1) for id in published
        )
        return f" [{', '.join(map(str, numbers))}]" if numbers else ""

    def lines(self) -> Iterator[str]:
        """Yield the sources that were cited."""
        if self._cited:
            yield "Sources"
        for id, n in self._cited.items():
            row = self._rows[id]
            sure = "" if row.basis == "published" else f" ({_BASES[row.basis]}, not read)"
            yield _filled(f"{row.citation}{sure}", f"  {n:>3}. ")


def _reason(reason: Reason, sources: Sources) -> Iterator[str]:
    weight = f"{reason.weight.capitalize()}. " if reason.weight else ""
    yield _filled(f"{weight}{reason.title}", "  ") + f"  ({reason.id})"
    last = len(reason.chain)
    for link in reason.chain:
        yield from _link(link, sources, last)


def _link(link: Link, sources: Sources, last: int) -> Iterator[str]:
    said = link.said
    basis = said.reason_basis or said.basis
    sure = f" ({_BASES[basis]})" if basis in _BASES else ""
    so = "So: " if link.n == last and last > 1 else ""
    yield _filled(
        f"{so}{said.sentence}{sources.cite(_own_sources(link))}{sure}", f"  {link.n:>3}. "
    )
    if said.formula:
        yield _filled(f"worked out as {said.formula}", " " * 7)
    if link.follows:
        yield _filled(f"follows from {enumerated([str(n) for n in link.follows])}", " " * 7)
    for kind in dict.fromkeys(_KINDS.values()):
        told = [_input(one, sources) for one in link.inputs if _KINDS[one.kind] == kind]
        if told:
            yield _filled(f"{kind}: {'; '.join(told)}", " " * 7)


def _own_sources(link: Link) -> tuple[str, ...]:
    """Return the sources of the sentence itself, without those of what it rests on."""
    below = {source for one in link.said.grounds for source in one.sources}
    return tuple(one for one in link.said.sources if one not in below)


def _input(ground: Ground, sources: Sources) -> str:
    sure = f" ({_BASES[ground.basis]})" if ground.basis in _BASES else ""
    return f"{ground.name} = {ground.value}{sources.cite(ground.sources)}{sure}"


def _filled(text: str, first: str) -> str:
    return textwrap.fill(
        text, WIDTH, initial_indent=first, subsequent_indent=" " * len(first)
    )


_LABEL = 9  # characters before the two columns of a comparison
_COLUMN = (WIDTH - _LABEL - 6) // 2


def comparison_told(comparison: Comparison, heads: tuple[str, str]) -> str:
    """Return two plans side by side: the decision in columns, then what else differs."""
    lines = [_side_by_side("", *heads)]
    for one in comparison.decision:
        mark = " " if one.before == one.after else "*"
        lines.append(_side_by_side(f"{mark} {one.label}", one.before, one.after))
    if comparison.same:
        lines += ["", "Nothing else changes."]
    for group in comparison.groups:
        lines += ["", group.title]
        lines += [_filled(text, "  - ") for text in group.gone]
        lines += [_filled(text, "  + ") for text in group.came]
        lines += [line for one in group.changed for line in _changed(one)]
    return "\n".join(lines)


def _side_by_side(label: str, before: str, after: str) -> str:
    left = textwrap.wrap(before, _COLUMN) or [""]
    right = textwrap.wrap(after, _COLUMN) or [""]
    rows = zip_longest((label,), left, right, fillvalue="")
    return "\n".join(f"{a:<{_LABEL + 2}} {b:<{_COLUMN}}  {c}".rstrip() for a, b, c in rows)


def _changed(one: Changed) -> Iterator[str]:
    label = f"{one.label}: " if one.label else ""
    short = f"{label}{one.before} -> {one.after}"
    if len(short) < 2 * WIDTH:
        yield _filled(short, "  * ")
        return
    yield _filled(f"{label}before: {one.before}", "  * ")
    yield _filled(f"after: {one.after}", "    ")
