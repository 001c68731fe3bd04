"""Reads ``rules/tables/*.toml`` into `Knowledge`; refuses a row that cites nothing."""

import hashlib
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields
from functools import cache, cached_property
from importlib.resources import files
from types import MappingProxyType
from typing import Any, TypeVar

from pydantic import ValidationError

from advisor.knowledge.rows import (
    Asked,
    Avoidable,
    Bagging,
    Basis,
    CautionText,
    Consumable,
    Duty,
    ExposureLimit,
    Fibre,
    Figure,
    Layer,
    Limit,
    Narrowing,
    Phase,
    PlySet,
    Price,
    Release,
    Resin,
    Row,
    Sealer,
    Source,
    StockSize,
    ToolMaterial,
    Topic,
    Word,
)

AnyRow = TypeVar("AnyRow", bound=Row)


class KnowledgeError(Exception):
    """A table of the rule base is wrong; the message names file, row and fault."""


@dataclass(frozen=True)
class Knowledge:
    """Every table of the rule base, rows in the order of their ids."""

    tool_materials: Mapping[str, ToolMaterial]
    stock_sizes: Mapping[str, StockSize]
    sealers: Mapping[str, Sealer]
    releases: Mapping[str, Release]
    bagging: Mapping[str, Bagging]
    layers: Mapping[str, Layer]
    consumables: Mapping[str, Consumable]
    exposure_limits: Mapping[str, ExposureLimit]
    resins: Mapping[str, Resin]
    fibres: Mapping[str, Fibre]
    plies: Mapping[str, PlySet]
    cautions: Mapping[str, CautionText]
    avoidable: Mapping[str, Avoidable]
    duties: Mapping[str, Duty]
    prices: Mapping[str, Price]
    narrowing: Mapping[str, Narrowing]
    limits: Mapping[str, Limit]
    phases: Mapping[str, Phase]
    interview: Mapping[str, Asked]
    topics: Mapping[str, Topic]
    glossary: Mapping[str, Word]
    sources: Mapping[str, Source]
    version: str

    def basis(self, sources: tuple[str, ...]) -> Basis:
        """Return the best basis among sources: one that was read backs a statement."""
        if sources not in self._bases:
            found = {self.sources[source].basis for source in sources}
            order: tuple[Basis, ...] = ("published", "common-practice")
            best = (basis for basis in order if basis in found)
            self._bases[sources] = next(best, "from-memory")
        return self._bases[sources]

    @cached_property
    def _bases(self) -> dict[tuple[str, ...], Basis]:
        return {}

    def exposure_limit(self, agent: str, jurisdiction: str) -> ExposureLimit:
        """Return the limit of a jurisdiction, or the lowest one held where it has none."""
        rows = [row for row in self.exposure_limits.values() if row.agent == agent]
        own = [row for row in rows if row.jurisdiction == jurisdiction]
        return min(own or rows, key=lambda one: (one.limit.si, one.jurisdiction))

    def pattern_for(self, tool: ToolMaterial) -> str | None:
        """Return what to cut a tool's pattern from: the cheapest that stands its heat.

        The prices are those of the table, so that every shop gets the same pattern.
        """
        if tool.heat_on_pattern is None:
            return None
        wanted = tool.heat_on_pattern.si + self.limits["pattern_margin"].figure.si
        standing = [
            (self.prices[f"tool-{id}"].price.si, id)
            for id, row in self.tool_materials.items()
            if row.pattern and row.service_limit.si >= wanted
        ]
        return min(standing)[1] if standing else None

    def stock_size(self, tool: str) -> StockSize | None:
        """Return the size that a tool material is sold in, or None if cut to order."""
        return next(
            (row for row in self.stock_sizes.values() if tool in row.materials), None
        )


_TABLES: dict[str, type[Row]] = {
    "tool_materials": ToolMaterial,
    "stock_sizes": StockSize,
    "sealers": Sealer,
    "releases": Release,
    "bagging": Bagging,
    "layers": Layer,
    "consumables": Consumable,
    "exposure_limits": ExposureLimit,
    "resins": Resin,
    "fibres": Fibre,
    "plies": PlySet,
    "cautions": CautionText,
    "avoidable": Avoidable,
    "duties": Duty,
    "prices": Price,
    "narrowing": Narrowing,
    "limits": Limit,
    "phases": Phase,
    "interview": Asked,
    "topics": Topic,
    "glossary": Word,
    "sources": Source,
}


def read_tables() -> dict[str, dict[str, Any]]:
    """Return the raw content of every table file, by table name."""
    folder = files("advisor.rules.tables")
    return {
        name: tomllib.loads(folder.joinpath(f"{name}.toml").read_text(encoding="utf-8"))
        for name in _TABLES
    }


def build_knowledge(raw: Mapping[str, Mapping[str, Any]]) -> Knowledge:
    """Check raw tables and return them as typed rows in the order of their ids.

    Raises
    ------
    KnowledgeError
        If a row has a wrong field, an impossible range, or cites nothing known.
    """
    tables = {
        name: MappingProxyType(
            {key: _row(model, name, key, raw[name][key]) for key in sorted(raw[name])}
        )
        for name, model in _TABLES.items()
    }
    for name, rows in tables.items():
        for key, row in rows.items():
            for source in _cited(row):
                if source not in tables["sources"]:
                    raise KnowledgeError(
                        f"{name}.toml: {key}: no source {source!r} is known"
                    )
    return Knowledge(version=_fingerprint(raw), **tables)  # type: ignore[arg-type]


@cache
def load_knowledge() -> Knowledge:
    """Return the tables that ship with the program."""
    return build_knowledge(read_tables())


def limit(name: str) -> float:
    """Return a threshold of ``limits.toml`` in SI units, for a rule's condition."""
    return load_knowledge().limits[name].figure.si


def limit_span(name: str) -> tuple[float, float, float]:
    """Return low end, value and high end of a row of ``limits.toml`` in SI units."""
    figure = load_knowledge().limits[name].figure
    return figure.low_si, figure.si, figure.high_si


def _row(model: type[AnyRow], table: str, key: str, content: Any) -> AnyRow:
    try:
        return model.model_validate(content)
    except ValidationError as error:
        faults = "; ".join(
            f"{'.'.join(map(str, one['loc']))}: {one['msg']}" for one in error.errors()
        )
        raise KnowledgeError(f"{table}.toml: {key}: {faults}") from None


def _cited(row: Row) -> Iterator[str]:
    for field in type(row).model_fields:
        value = getattr(row, field)
        if isinstance(value, Figure):
            yield from value.source
        elif field == "between":
            for cure in value:
                yield from _cited(cure)
        elif field == "source":
            yield from value
        elif field == "word_sources":
            for sources in value.values():
                yield from sources


def _fingerprint(raw: Mapping[str, Mapping[str, Any]]) -> str:
    """Return a hash of the tables and the rule modules, whatever the order of rows."""
    digest = hashlib.sha256()
    for name in sorted(raw):
        for key in sorted(raw[name]):
            digest.update(repr((name, key, _sorted(raw[name][key]))).encode())
    modules = files("advisor.rules").iterdir()
    for module in sorted(modules, key=lambda entry: entry.name):
        if module.name.endswith(".py"):
            digest.update(module.read_bytes())
    return digest.hexdigest()[:12]


def _sorted(value: Any) -> Any:
    if isinstance(value, dict):
        return [(key, _sorted(value[key])) for key in sorted(value)]
    return value


TABLE_NAMES = tuple(field.name for field in fields(Knowledge) if field.name != "version")
