"""Says which avoidable hazards a route brings, and breaks a tie of price by them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from advisor.costing import Pieces
from advisor.knowledge.rows import Avoidable
from advisor.knowledge.tables import Knowledge

if TYPE_CHECKING:
    from advisor.routes import Candidate


def brought(pieces: Pieces, knowledge: Knowledge) -> set[str]:
    """Return the avoidable hazards that a route brings.

    A tool in stock is not cut any more, but the half that is to close on it is.
    """
    cut = not pieces.owned or pieces.bagging.both_faces
    return {
        id
        for id, row in knowledge.avoidable.items()
        if of_seal(row, pieces.sealing.contains)
        or (cut and of_tool(row, pieces.tool.dust, pieces.tool.family))
    }


def of_seal(row: Avoidable, contains: Sequence[str]) -> bool:
    """Return whether a seal of these contents brings the hazard."""
    return bool(set(row.contains) & set(contains))


def of_tool(row: Avoidable, dust: str, family: str) -> bool:
    """Return whether a tool of this dust and family brings the hazard when it is cut."""
    return dust in row.dust or family in row.families


def is_without(pieces: Pieces, row: Avoidable) -> bool:
    """Return whether no piece holds it; in stock or not, a tool holds what it holds."""
    tool = pieces.tool
    return not (
        of_seal(row, pieces.sealing.contains)
        or of_tool(row, tool.dust, tool.family)
        or tool.dust in row.dust_till_shown
    )


def spared(one: Candidate, other: Candidate, knowledge: Knowledge) -> set[str]:
    """Return the avoidable hazards that another route brings and this one is without."""
    return {
        id
        for id in brought(other.pieces, knowledge)
        if is_without(one.pieces, knowledge.avoidable[id])
    }


def brings_more(one: Candidate, other: Candidate, knowledge: Knowledge) -> str:
    """Say which avoidable hazards a route brings, or may bring, that another does not."""
    has, had = (brought(each.pieces, knowledge) for each in (one, other))
    rows = knowledge.avoidable
    may = {
        id
        for id, row in rows.items()
        if is_without(other.pieces, row) and not is_without(one.pieces, row)
    }
    groups = (("brings", has - had), ("may bring", may - has))
    return " and ".join(
        f"{verb} {' and '.join(rows[id].hazard for id in sorted(ids))}"
        for verb, ids in groups
        if ids
    )


def first(
    by_merit: Iterable[Candidate], priority: str, knowledge: Knowledge
) -> Candidate | None:
    """Return the best of some routes, of which no more are looked at than is needed.

    Where cost decides, that is the one that spares a hazard at nearly the price of the
    cheapest: only a route that keeps as much of the proposal, leaves no more to prove,
    brings no other hazard in place of the one it spares, and costs more than the cheapest
    by no more than `price_tie` allows. What spares the most comes first, then the order
    of merit.
    """
    rest = iter(by_merit)
    cheapest = next(rest, None)
    if cheapest is None or priority != "cost":
        return cheapest
    had = brought(cheapest.pieces, knowledge)
    most = cheapest.cost.total * (1 + knowledge.limits["price_tie"].figure.si)
    doubtful = bool(cheapest.doubts)
    best, spares = cheapest, 0
    for one in rest:
        if (one.kept, bool(one.doubts)) != (cheapest.kept, doubtful):
            break
        if one.cost.total > most:
            break
        more = len(spared(one, cheapest, knowledge))
        no_worse = len(one.doubts) <= len(cheapest.doubts)
        if more > spares and no_worse and brought(one.pieces, knowledge) <= had:
            best, spares = one, more
    return best
