"""The rule book: every rule, option, limit, caution and source made ready to print."""

import string
from collections import Counter
from collections.abc import Mapping, Sequence

from markupsafe import Markup, escape

from advisor import __version__
from advisor.documents.citations import BASIS, KIND, SourceView
from advisor.documents.rule_book import (
    CautionView,
    Cell,
    LimitView,
    OptionTable,
    RuleBookPage,
    RuleView,
    TopicView,
    WordView,
)
from advisor.knowledge.rows import Figure, Row
from advisor.knowledge.tables import Knowledge
from advisor.measures import JOIN, THIN, plain_number, sign
from advisor.reasoning.rulebook import RuleEntry
from advisor.rule_base.looked_at import in_words, looked_at

# Table, heading, and the columns of figures printed: field and head.
_OPTIONS: tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...] = (
    (
        "tool_materials",
        "Tool materials",
        (
            ("density", "Density"),
            ("service_limit", "Stands, cure on cure"),
            ("short_limit", "Stands for a short time"),
            ("expansion", "Growth by heat"),
            ("conductivity", "Heat conducted"),
            ("cycles", "Parts"),
        ),
    ),
    (
        "sealers",
        "Ways to seal",
        (
            ("limit_as_painted", "Stands as painted"),
            ("limit_baked", "Stands when baked"),
            ("fills_pores_to", "Fills pores to"),
            ("build", "Thickness"),
            ("elapsed", "Takes"),
        ),
    ),
    (
        "releases",
        "Releases",
        (
            ("limit", "Stands"),
            ("pulls", "Parts before renewal"),
            ("effort", "Work"),
            ("elapsed", "Takes"),
        ),
    ),
    ("bagging", "Ways to bag", (("margin", "Margin round the part"), ("effort", "Work"))),
    ("resins", "Resins", (("cure_low", "Cures from"), ("cure_high", "Cures to"))),
    (
        "consumables",
        "Bagging materials",
        (("limit", "Stands"), ("areal_weight", "Weight")),
    ),
)


# What a rule's own name for a thing says too little of.
_SUPPLIED = {"name": "tool material", "value": "the figure found"}

_SHORT = {
    "published": "published",
    "common-practice": "common practice",
    "from-memory": "from memory",
}


def rule_book(entries: Sequence[RuleEntry], knowledge: Knowledge) -> RuleBookPage:
    """Prepare the rule book for print.

    Parameters
    ----------
    entries : sequence of RuleEntry
        Every rule to print, in the order of ids.
    knowledge : Knowledge
        The tables they reason over.
    """
    cited = [id for id, row in knowledge.sources.items() if row.kind != "none"]
    refs = {id: n for n, id in enumerate(cited, 1)}
    topics = sorted(knowledge.topics.items(), key=lambda one: one[1].order)
    return RuleBookPage(
        version=f"advisor {__version__}, rule base {knowledge.version}",
        counts=_counts(entries, knowledge),
        topics=tuple(
            TopicView(
                id,
                topic.title,
                topic.intro,
                tuple(
                    _rule(entry, knowledge, refs)
                    for module in topic.modules
                    for entry in entries
                    if entry.module == module
                ),
            )
            for id, topic in topics
        ),
        options=tuple(
            _options(table, title, columns, knowledge, refs)
            for table, title, columns in _OPTIONS
        ),
        limits=tuple(_limit(id, knowledge, refs) for id in _by_meaning(knowledge)),
        cautions=tuple(
            CautionView(
                row.hazard, row.sign, row.text, row.defers_to, _refs(row.source, refs)
            )
            for row in sorted(knowledge.cautions.values(), key=lambda row: row.gravity)
        ),
        words=tuple(
            WordView(word.term, word.means, _refs(word.source, refs))
            for word in sorted(
                knowledge.glossary.values(), key=lambda word: word.term.lower()
            )
        ),
        sources=tuple(
            SourceView(n, row.citation, KIND[row.kind], BASIS[row.basis])
            for id, n in refs.items()
            for row in (knowledge.sources[id],)
        ),
    )


def _counts(
    entries: Sequence[RuleEntry], knowledge: Knowledge
) -> tuple[tuple[str, str], ...]:
    bases = Counter(knowledge.basis(entry.advice.cites) for entry in entries)
    return (
        (str(len(entries)), "rules"),
        *((str(n), f"of them {BASIS[basis]}") for basis, n in bases.most_common()),
        (str(len(knowledge.limits)), "limits that rules compare with"),
        (str(len(knowledge.cautions)), "cautions"),
        (str(len(knowledge.glossary)), "words explained"),
        (str(sum(s.kind != "none" for s in knowledge.sources.values())), "sources"),
    )


def _rule(entry: RuleEntry, knowledge: Knowledge, refs: Mapping[str, int]) -> RuleView:
    advice = entry.advice
    return RuleView(
        id=advice.id,
        title=_spoken(advice.title),
        why=_spoken(advice.reason),
        looks_at=looked_at(entry.rule),
        limits=tuple(_limit(name, knowledge, refs) for name in advice.limits),
        sources=_refs(advice.cites, refs),
        basis=BASIS[knowledge.basis(advice.cites)],
    )


def _by_meaning(knowledge: Knowledge) -> list[str]:
    return sorted(knowledge.limits, key=lambda id: knowledge.limits[id].meaning.lower())


def _limit(id: str, knowledge: Knowledge, refs: Mapping[str, int]) -> LimitView:
    row = knowledge.limits[id]
    span = _span(row.figure)
    value = f"{_value(row.figure)}{THIN}{sign(row.figure.unit)}".rstrip(THIN)
    return LimitView(
        row.meaning,
        f"{value} ({span})" if span else value,
        BASIS[knowledge.basis(row.figure.source)],
        _refs(row.figure.source, refs),
    )


def _options(
    table: str,
    title: str,
    columns: tuple[tuple[str, str], ...],
    knowledge: Knowledge,
    refs: Mapping[str, int],
) -> OptionTable:
    rows = list(getattr(knowledge, table).values())
    units = {
        field: next(sign(f.unit) for row in rows if (f := getattr(row, field)))
        for field, _ in columns
    }
    return OptionTable(
        table,
        title,
        tuple((head, units[field]) for field, head in columns),
        tuple(
            (
                _printed(str(row.name)),
                _counted(row, [field for field, _ in columns], knowledge),
                tuple(_cell(getattr(row, field), refs) for field, _ in columns),
            )
            for row in rows
        ),
    )


def _printed(name: str) -> str:
    """Return a name of the tables with its units as they are printed."""
    return name.replace(" degC", f"{THIN}°C").replace("g/m2", f"g/{JOIN}m²")


def _cell(figure: Figure | None, refs: Mapping[str, int]) -> Cell:
    if figure is None:
        return Cell("", "", ())
    return Cell(_value(figure), _span(figure), _refs(figure.source, refs))


def _counted(row: Row, columns: Sequence[str], knowledge: Knowledge) -> str:
    """Count the bases of the figures printed of an option."""
    figures = [f for name in columns if (f := getattr(row, name)) is not None]
    bases = Counter(knowledge.basis(figure.source) for figure in figures)
    return ", ".join(f"{n} {_SHORT[basis]}" for basis, n in bases.most_common())


def _value(figure: Figure) -> str:
    return plain_number(figure.value)


def _span(figure: Figure) -> str:
    low = figure.value if figure.low is None else figure.low
    high = figure.value if figure.high is None else figure.high
    return f"{plain_number(low)} to {plain_number(high)}" if low != high else ""


def _refs(sources: Sequence[str], refs: Mapping[str, int]) -> tuple[int, ...]:
    """Return the numbers of what can be looked up; common practice has no number."""
    return tuple(sorted(refs[source] for source in sources if source in refs))


def _spoken(template: str) -> Markup:
    """Return a sentence with the name of each number, in italics, in place of it."""
    return Markup().join(
        escape(text) + Markup("<i>{}</i>").format(_SUPPLIED.get(name, in_words(name)))
        if name is not None
        else escape(text)
        for text, name, _, _ in string.Formatter().parse(template)
    )
