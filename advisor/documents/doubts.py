"""What of a plan is open: trials with their sheets, and ranges within which it turns."""

from dataclasses import dataclass

from advisor.documents.citations import Citations, Reason, cited, reason
from advisor.measures import phrase, plain_number, sign
from advisor.plan import TrialRecord, TurnRecord


@dataclass(frozen=True)
class TurnRow:
    """A range within which the answer turns."""

    name: str
    taken: str
    turns: str
    text: str
    narrow_by: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class PatchRow:
    """One patch of a trial."""

    n: int
    name: str
    cost: str
    beware: str


@dataclass(frozen=True)
class TrialView:
    """A trial, with its sheet to fill in where it has patches."""

    title: str
    text: str
    piece: str
    takes: str
    passes_if: str
    fails_if: str
    why: Reason
    patches: tuple[PatchRow, ...]
    gauged: tuple[tuple[str, str, str, tuple[int, ...]], ...]
    outcomes: tuple[tuple[str, str], ...]


def trial_view(one: TrialRecord, refs: Citations) -> TrialView:
    """Return a trial with its sheet to fill in."""
    return TrialView(
        title=one.conclusion.title,
        text=one.text,
        piece=f"{one.piece[:1].upper()}{one.piece[1:]}",
        takes=f"{one.takes[:1].upper()}{one.takes[1:]}",
        passes_if=one.passes_if,
        fails_if=one.fails_if,
        why=reason(one.conclusion, refs),
        patches=tuple(
            PatchRow(
                patch.n,
                patch.name,
                phrase("{x:money}", x=patch.cost_total),
                patch.beware,
            )
            for patch in one.patches
        ),
        gauged=tuple(
            (
                gauged.measure,
                gauged.how,
                gauged.passes_if,
                cited(gauged.conclusion.sources, refs),
            )
            for gauged in one.gauged
        ),
        outcomes=tuple((row.outcome, row.then) for row in one.outcomes),
    )


def turn_row(one: TurnRecord, refs: Citations) -> TurnRow:
    """Return a range as a row: what was taken, where it turns, and what then."""
    unit = sign(one.unit)
    value, low, high, at = map(plain_number, (one.value, one.low, one.high, one.at))
    at_the_end = one.at == (one.low if one.end == "low" else one.high)
    side = "" if at_the_end else "or less" if one.end == "low" else "or more"
    then = "" if one.effect != "doubt" else "To be proved then: "
    return TurnRow(
        name=one.name,
        taken=f"{value} ({low} to {high}) {unit}".strip(),
        turns=f"{at} {unit} {side}".strip().replace("  ", " "),
        text=f"{then}{one.text}",
        narrow_by=one.narrow_by,
        sources=cited(one.sources, refs),
    )
