"""What the rule book's template gets: every word and number ready to print."""

from dataclasses import dataclass

from advisor.documents.citations import SourceView


@dataclass(frozen=True)
class LimitView:
    """A threshold with its figure."""

    meaning: str
    value: str
    basis: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class RuleView:
    """A rule as printed."""

    id: str
    title: str
    why: str
    looks_at: str
    limits: tuple[LimitView, ...]
    sources: tuple[int, ...]
    basis: str


@dataclass(frozen=True)
class TopicView:
    """The rules of one subject."""

    id: str
    title: str
    intro: str
    rules: tuple[RuleView, ...]


@dataclass(frozen=True)
class Cell:
    """A figure of an option and where it comes from."""

    text: str
    span: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class OptionTable:
    """Options of one kind with their figures."""

    id: str
    title: str
    columns: tuple[tuple[str, str], ...]
    rows: tuple[tuple[str, str, tuple[Cell, ...]], ...]


@dataclass(frozen=True)
class CautionView:
    """A caution in full."""

    hazard: str
    sign: str
    text: str
    defers_to: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class WordView:
    """A word of the trade and what it means."""

    term: str
    means: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class RuleBookPage:
    """Everything the rule book prints."""

    version: str
    counts: tuple[tuple[str, str], ...]
    topics: tuple[TopicView, ...]
    options: tuple[OptionTable, ...]
    limits: tuple[LimitView, ...]
    cautions: tuple[CautionView, ...]
    words: tuple[WordView, ...]
    sources: tuple[SourceView, ...]
