"""The numbers of a plan: each with its formula and what went into it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from advisor.documents.citations import REMARK, Citations, cited
from advisor.measures import JOIN, THIN, in_styles
from advisor.plan import FindingRecord, Plan
from advisor.reasoning.provenance import Ground


@dataclass(frozen=True)
class Number:
    """A finding as a row of the table of numbers."""

    id: str
    label: str
    value: str
    span: str
    limit: str
    judgement: str
    formula: str
    worked: str
    inputs: tuple[str, ...]
    figures: tuple[tuple[int, int], ...]
    sources: tuple[int, ...]


@dataclass(frozen=True)
class FigureRow:
    """A figure of the tables that went into numbers, printed once for all of them."""

    n: int
    name: str
    value: str
    sources: tuple[int, ...]
    basis: str


def numbers_of(plan: Plan, refs: Citations) -> tuple[Number, ...]:
    """Return the numbers; what went into several in a row is printed once."""
    figures = {figure: n for n, figure in enumerate(taken_figures(plan), 1)}
    found = {finding.conclusion.id: finding for finding in plan.findings}
    currency = plan.shop["rates"]["currency"]
    rows = [_number(finding, figures, found, refs, currency) for finding in plan.findings]
    last: tuple[tuple[str, ...], tuple[tuple[int, int], ...]] = (), ()
    for n, row in enumerate(rows):
        if len(row.inputs) > 1 and (row.inputs, row.figures) == last:
            same = ("the same as the number above",)
            rows[n] = replace(row, inputs=same, figures=())
        last = row.inputs, row.figures
    return tuple(rows)


def _number(
    finding: FindingRecord,
    figures: Mapping[Ground, int],
    found: Mapping[str, FindingRecord],
    refs: Citations,
    currency: str,
) -> Number:
    span = ""
    if finding.low is not None and finding.high is not None and finding.low != finding.high:
        low, high = (in_styles(x, finding.unit) for x in (finding.low, finding.high))
        span = f"{low} to {high}"
    priced = f"{THIN}{currency}" if finding.unit == "money" else ""
    grounds = finding.conclusion.grounds
    taken = [ground for ground in grounds if ground in figures]
    of_figures = {source for figure in taken for source in figure.sources}
    return Number(
        id=finding.id,
        label=finding.label,
        value=f"{in_styles(finding.value, finding.unit)}{priced}",
        span=span,
        limit="" if finding.limit is None else in_styles(finding.limit, finding.unit),
        judgement=finding.judgement,
        formula=finding.conclusion.formula or "",
        worked=finding.worked,
        inputs=tuple(filter(None, (_input(ground, found) for ground in grounds))),
        figures=_runs(sorted({figures[figure] for figure in taken})),
        sources=cited([s for s in finding.conclusion.sources if s not in of_figures], refs),
    )


def _runs(numbers: list[int]) -> tuple[tuple[int, int], ...]:
    """Return runs of numbers that follow one another, as first and last."""
    runs: list[tuple[int, int]] = []
    for n in numbers:
        first = runs.pop()[0] if runs and runs[-1][1] == n - 1 else n
        runs.append((first, n))
    return tuple(runs)


def _input(ground: Ground, found: Mapping[str, FindingRecord]) -> str:
    """Return what a number took from the user or from another number, else nothing."""
    if ground.conclusion:
        other = found.get(ground.conclusion.id)
        return f"{other.label} {in_styles(other.value, other.unit)}" if other else ""
    if ground.kind == "table" or ground.name.startswith("title"):
        return ""
    taken = " (taken)" if ground.kind == "assumption" else ""
    return f"{ground.name} {unbroken(ground.value)}{taken}"


def unbroken(value: str) -> str:
    """Return a value as a table or the user gave it, its unit kept on one line."""
    return value.replace("/", f"/{JOIN}")


def taken_figures(plan: Plan) -> list[Ground]:
    """Return the figures of the tables that numbers rest on, in order of first use."""
    return list(
        dict.fromkeys(
            ground
            for finding in plan.findings
            for ground in finding.conclusion.grounds
            if ground.kind == "table" and is_a_figure(ground)
        )
    )


def is_a_figure(ground: Ground) -> bool:
    """Return whether what a table gave is a number."""
    return any(sign.isdigit() for sign in ground.value)


def figure_rows(plan: Plan, refs: Citations) -> tuple[FigureRow, ...]:
    """Return the figures of the tables that numbers rest on, each printed once."""
    return tuple(
        FigureRow(
            n,
            figure.name,
            unbroken(figure.value),
            cited(figure.sources, refs),
            REMARK[figure.basis or "published"],
        )
        for n, figure in enumerate(taken_figures(plan), 1)
    )
