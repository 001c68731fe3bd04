"""What a decision rests on that is not known to a point: figures, prices, inputs."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from advisor.decision import Decision, Ids
from advisor.job import Job
from advisor.knowledge.rows import Figure, Row
from advisor.knowledge.tables import Knowledge
from advisor.measures import in_sentence
from advisor.questioning.fields import field_at, value_at
from advisor.questioning.inputs import Move, moved
from advisor.reading import InputError
from advisor.shop import Shop

# The tables whose rows a route is made of, and what the rows of narrowing.toml call them.
_KINDS = {
    "tool_materials": "tool",
    "sealers": "sealer",
    "releases": "release",
    "bagging": "bag",
    "resins": "resin",
    "fibres": "fibre",
    "prices": "price",
}


@dataclass(frozen=True)
class Range:
    """A figure of a table, or an input, that lies between two ends.

    Attributes
    ----------
    path : tuple of str
        Table, row and column of a figure; the dotted field of an input.
    name : str
        What it is, in the words of the shop.
    value, low, high : float
        What the decision took, and the ends [unit].
    unit : str
        As pint spells it.
    narrowing : str
        The row of ``narrowing.toml`` that says how to know it better.
    """

    path: tuple[str, ...]
    name: str
    value: float
    low: float
    high: float
    unit: str
    narrowing: str

    @property
    def whole(self) -> bool:
        """Whether it counts things."""
        return self.unit == "count"

    @property
    def is_input(self) -> bool:
        """Whether it is an input of the job or the shop."""
        return len(self.path) == 1


Values = Mapping[Range, float]


def behind(decision: Decision, route: Ids) -> Iterator[Range]:
    """Yield the figures with a range that a route is decided by, prices left out."""
    job, knowledge = decision.job, decision.knowledge
    tables = ("tool_materials", "sealers", "releases", "bagging", "resins", "fibres")
    for table, id in zip(tables, (*route, job.cure.resin, job.laminate.fibre), strict=True):
        yield from _of_row(knowledge, table, id)


def prices(knowledge: Knowledge, shop: Shop) -> Iterator[Range]:
    """Yield the planning prices with a range, those left out that the shop gives itself."""
    for id in knowledge.prices:
        own = id in shop.prices or (id == "labour-rate" and shop.rates.labour is not None)
        if not own:
            yield from _of_row(knowledge, "prices", id)


def given(job: Job, shop: Shop) -> list[Range]:
    """Return the ranges of inputs that the job file gives.

    Raises
    ------
    InputError
        If one names no number of the job or the shop, or its ends are not accepted or
        not in order.
    """
    return [_of_input(n, job, shop) for n in range(len(job.uncertain))]


def _of_row(knowledge: Knowledge, table: str, id: str) -> Iterator[Range]:
    row = getattr(knowledge, table)[id]
    for column in type(row).model_fields:
        figure = getattr(row, column)
        if isinstance(figure, Figure) and _spans(figure):
            narrowing = f"{_KINDS[table]}-{column}".replace("_", "-")
            yield Range(
                path=(table, id, column),
                name=f"{knowledge.narrowing[narrowing].name}, {in_sentence(row.name)}",
                value=figure.value,
                low=figure.value if figure.low is None else figure.low,
                high=figure.value if figure.high is None else figure.high,
                unit=figure.unit,
                narrowing=narrowing,
            )


def _spans(figure: Figure) -> bool:
    return any(end not in (None, figure.value) for end in (figure.low, figure.high))


def _of_input(n: int, job: Job, shop: Shop) -> Range:
    asked = job.uncertain[n]
    where = f"uncertain.{n}"
    field = field_at(asked.field)
    if field is None or field.kind not in ("measure", "count", "number"):
        raise InputError(
            [
                f"{where}.field: given {asked.field!r}; accepted an input that is a "
                "number, such as run.parts or cure.temperature"
            ]
        )
    value = value_at(job, shop, asked.field)
    if value is None:
        wanted = "an input that the files give"
        raise InputError([f"{where}.field: given {asked.field!r}; accepted {wanted}"])
    low, high = (
        value_at(*moved(job, shop, [Move(asked.field, end)], where), asked.field)
        for end in (asked.low, asked.high)
    )
    if not low <= value <= high:
        raise InputError(
            [
                f"{where}: given {asked.low} to {asked.high}; accepted ends with the value "
                f"of {asked.field} between them, {value:g}"
            ]
        )
    unit = "count" if field.kind == "count" else field.unit or "1"
    return Range((asked.field,), asked.field, value, low, high, unit, "input")


def tables_with(knowledge: Knowledge, values: Values) -> Knowledge:
    """Return the tables with some figures known to a point."""
    changed: dict[str, dict[str, Row]] = {}
    for one, value in values.items():
        if one.is_input:
            continue
        table, id, column = one.path
        rows = changed.setdefault(table, dict(getattr(knowledge, table)))
        figure = getattr(rows[id], column)
        known = figure.model_copy(update={"value": value, "low": None, "high": None})
        rows[id] = rows[id].model_copy(update={column: known})
    frozen = {table: MappingProxyType(rows) for table, rows in changed.items()}
    return replace(knowledge, **frozen) if frozen else knowledge  # type: ignore[arg-type]


def inputs_with(job: Job, shop: Shop, values: Values) -> tuple[Job, Shop]:
    """Return job and shop with some inputs moved."""
    moves = [
        Move(one.path[0], field.written(value))
        for one, value in values.items()
        if one.is_input and (field := field_at(one.path[0]))
    ]
    return moved(job, shop, moves)
