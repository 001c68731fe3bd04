"""The ids a job or a shop may name: each with its plain name, its limit, what decides."""

import textwrap
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, get_args

from advisor.knowledge.rows import (
    Bagging,
    Figure,
    Price,
    Release,
    Resin,
    Sealer,
    ToolMaterial,
)
from advisor.knowledge.tables import Knowledge
from advisor.measures import STYLES, plain_number
from advisor.shop import Jurisdiction

_WIDTH = 88
_TEMPERATURE = STYLES["temperature"]


@dataclass(frozen=True)
class Kind:
    """A kind of id: the field that takes it, the rows that have it, what is said of one."""

    field: str
    title: str
    rows: Callable[[Knowledge], Mapping[str, Any]]
    told: Callable[[Any], Iterator[str]]


def listed(knowledge: Knowledge, kinds: tuple[str, ...] = ()) -> str:
    """Return the ids of the kinds asked for, of all if none is named.

    Raises
    ------
    KeyError
        If there is no such kind.
    """
    return "\n\n".join(
        "\n".join(_of_kind(name, KINDS[name], knowledge)) for name in kinds or KINDS
    )


def _of_kind(name: str, kind: Kind, knowledge: Knowledge) -> Iterator[str]:
    yield f"{name}: {kind.title} ({kind.field})"
    for id, row in kind.rows(knowledge).items():
        yield f"  {id}"
        said = "; ".join(kind.told(row)).replace("_", " ")
        yield textwrap.fill(
            said, _WIDTH, initial_indent="      ", subsequent_indent="      "
        )


def _resin(row: Resin) -> Iterator[str]:
    yield row.name
    low, high = _TEMPERATURE(row.cure_low.si), _TEMPERATURE(row.cure_high.si)
    yield f"cures at {low} to {high}; the sheet of the resin decides"


def _tool(row: ToolMaterial) -> Iterator[str]:
    yield row.name
    yield f"of the family {row.family}"
    for_a_while = _TEMPERATURE(row.short_limit.si)
    yield f"{_stands(row.service_limit)} cure on cure, {for_a_while} for a while"
    yield {
        "tight": "holds vacuum",
        "tight-when-sealed": "holds vacuum once sealed",
        "leaks-through": "leaks through its body",
    }[row.tightness]
    if row.needs_pattern:
        yield "is laid or cast on a pattern"
    if row.dust != "none":
        yield f"{row.dust} dust"
    yield f"about {STYLES['parts'](row.cycles.si)}"


def _seal(row: Sealer) -> Iterator[str]:
    yield row.name
    if row.contains != ("none",):
        baked = _TEMPERATURE(row.limit_baked.si)
        yield f"{_stands(row.limit_as_painted)} as painted, {baked} when baked"
    yield {
        "none": "holds no vacuum of itself",
        "slows": "slows a leak and stops none",
        "tight-if-no-pinhole": "holds vacuum where it has no pinhole",
        "tight": "holds vacuum",
    }[row.vacuum]
    if row.film_only:
        yield "under a release film only"
    yield "takes a polish" if row.polished else "takes no polish"


def _release(row: Release) -> Iterator[str]:
    yield row.name
    yield _stands(row.limit)
    yield {
        "sealed": "on a sealed face",
        "any-dry": "on any dry face",
        "smooth": "on a smooth face",
    }[row.surface]
    yield f"leaves the part {row.finish}"
    yield f"renewed after {STYLES['parts'](row.pulls.si)}"


def _bag(row: Bagging) -> Iterator[str]:
    yield row.name
    yield "by air in a bladder" if row.pressure == "bladder" else f"under {row.pressure}"
    yield (
        "asks for a tool that holds vacuum"
        if row.needs_tight_tool
        else "takes a leaking tool"
    )
    if row.both_faces:
        yield "moulds both faces"
    if row.inside:
        yield "for a closed part"


def _price(row: Price) -> Iterator[str]:
    yield row.name
    yield f"{plain_number(row.price.value)} {row.price.unit}"


def _stands(figure: Figure) -> str:
    return f"stands {_TEMPERATURE(figure.si)}"


_PLACES = {
    "us-osha": "United States, what the workplace law allows",
    "us-niosh": "United States, what its institute for health at work recommends",
    "us-acgih": "United States, what the hygienists' conference recommends",
    "uk": "United Kingdom",
    "eu": "European Union, what its directives bind",
    "de": "Germany",
    "au": "Australia",
    "ca-qc": "Canada, Quebec",
    "ca-on": "Canada, Ontario",
    "ca-other": "Canada, another province or territory",
    "unknown": "not known: the lowest limit held of each substance is printed",
}


def _places(_: Knowledge) -> Mapping[str, str]:
    return {id: _PLACES[id] for id in get_args(Jurisdiction)}


KINDS: dict[str, Kind] = {
    "resins": Kind("job: cure.resin", "classes of resin", lambda k: k.resins, _resin),
    "tools": Kind(
        "job: proposal.tool, an id or a family; shop: stock.material",
        "what a tool is made of",
        lambda k: k.tool_materials,
        _tool,
    ),
    "seals": Kind("job: proposal.sealing", "ways to seal", lambda k: k.sealers, _seal),
    "releases": Kind("job: proposal.release", "releases", lambda k: k.releases, _release),
    "bags": Kind("job: proposal.bagging", "ways to bag", lambda k: k.bagging, _bag),
    "places": Kind(
        "shop: rates.jurisdiction",
        "whose exposure limits are printed",
        _places,
        lambda name: iter((name,)),
    ),
    "prices": Kind(
        "shop: prices", "planning prices to replace", lambda k: k.prices, _price
    ),
}
