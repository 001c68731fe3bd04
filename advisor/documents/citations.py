"""Reasons as printed: with the numbers of their sources and how sure they are."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from advisor.plan import SourceRecord
from advisor.reasoning.provenance import Conclusion

# Stands among the numbers of sources for common practice, which nobody can look up.
PRACTICE = 0


# What is said of a reason's basis: nothing of a published or a common one.
REMARK = {
    "published": "",
    "common-practice": "",
    "from-memory": "from memory",
    "shop": "the shop's own figure",
    "invented": "invented prices",
}


BASIS = {
    "published": "published",
    "common-practice": "common practice, no source",
    "from-memory": "from memory, not read",
    "shop": "the shop's own figure",
    "invented": "invented for the demonstration",
}


KIND = {
    "standard": "standard",
    "law": "law or regulator",
    "paper": "paper or report",
    "handbook": "handbook or manual",
    "data-sheet": "maker's sheet",
    "trade": "trade page",
    "library": "software library",
    "none": "",
}


@dataclass(frozen=True)
class Reason:
    """A sentence with the numbers of its sources and how sure they are."""

    id: str
    text: str
    sources: tuple[int, ...]
    basis: str


@dataclass(frozen=True)
class SourceView:
    """A numbered source."""

    n: int
    citation: str
    kind: str
    basis: str


class Citations:
    """Numbers of a plan's sources, given as they are first cited.

    A source that cannot be looked up has none; one that nothing on the page cites gets
    none and is not listed.
    """

    def __init__(self, sources: Iterable[SourceRecord]) -> None:
        self._sources = {one.id: one for one in sources if one.kind != "none"}
        self._numbers: dict[str, int] = {}

    def __contains__(self, source: str) -> bool:
        return source in self._sources

    def __getitem__(self, source: str) -> int:
        if source not in self._sources:
            raise KeyError(source)
        return self._numbers.setdefault(source, len(self._numbers) + 1)

    def listed(self) -> tuple[SourceView, ...]:
        """Return what was cited so far, by number."""
        cited = ((n, self._sources[id]) for id, n in self._numbers.items())
        return tuple(
            SourceView(n, one.citation, KIND[one.kind], BASIS[one.basis])
            for n, one in cited
        )


def reason(conclusion: Conclusion, refs: Citations) -> Reason:
    """Return a conclusion as a reason that is printed, with the numbers of its sources."""
    return Reason(
        id=conclusion.id,
        text=conclusion.sentence,
        sources=cited(conclusion.sources, refs),
        basis=REMARK[conclusion.basis],
    )


def numbered(sources: Collection[str], refs: Citations) -> tuple[int, ...]:
    """Return the numbers of those sources that can be looked up."""
    return tuple(sorted(refs[source] for source in sources if source in refs))


def cited(sources: Collection[str], refs: Citations) -> tuple[int, ...]:
    """Return the numbers of what can be looked up, and `PRACTICE` for what cannot."""
    numbers = numbered(sources, refs)
    return numbers if len(numbers) == len(sources) else (PRACTICE, *numbers)
