"""Typed rows of the tables: every figure with value, range, unit, source and basis."""

import re
from collections.abc import Mapping
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, field_validator, model_validator

from advisor.measures import to_si

Basis = Literal["published", "common-practice", "from-memory", "shop", "invented"]
Construction = Literal["one-piece", "loose-piece", "split", "break-out", "wash-out"]


class Row(BaseModel):
    """A table row: immutable, and an unknown key is an error."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Source(Row):
    """Where figures come from, and how well the place was seen."""

    citation: str
    kind: Literal[
        "standard", "law", "paper", "handbook", "data-sheet", "trade", "library", "none"
    ]
    seen: Literal["read", "second-hand", "memory", "none"]
    address: str | None = None

    @property
    def basis(self) -> Basis:
        """Return how far a statement that cites this source may be trusted."""
        if self.kind == "none" and self.seen == "none":
            return "common-practice"
        return "from-memory" if self.seen == "memory" else "published"


class Figure(Row):
    """A number with its span, unit and source."""

    value: float = Field(allow_inf_nan=False)
    low: float | None = None
    high: float | None = None
    unit: str
    source: tuple[str, ...]
    at: str | None = None
    note: str | None = None

    @field_validator("source", mode="before")
    @classmethod
    def _one_or_many(cls, given: object) -> object:
        return (given,) if isinstance(given, str) else given

    @model_validator(mode="after")
    def _in_order(self) -> "Figure":
        if not self.source:
            raise ValueError("a figure must cite at least one source")
        low = self.value if self.low is None else self.low
        high = self.value if self.high is None else self.high
        if not low <= self.value <= high:
            raise ValueError(
                f"value {self.value} lies outside its own range {low} to {high}"
            )
        return self

    @property
    def si(self) -> float:
        """Value in SI units, save those of `advisor.measures.KEPT_UNITS`."""
        return to_si(self.value, self.unit)

    @property
    def low_si(self) -> float:
        """Low end of the range, as `si`; the value itself if none is given."""
        return to_si(self.value if self.low is None else self.low, self.unit)

    @property
    def high_si(self) -> float:
        """High end of the range, as `si`; the value itself if none is given."""
        return to_si(self.value if self.high is None else self.high, self.unit)


class Option(Row):
    """A row that a route may choose; a word without a source here is common practice."""

    word_sources: Mapping[str, tuple[str, ...]] = {}


class ToolMaterial(Option):
    """What a tool can be made of."""

    family: str
    name: str
    form: Literal[
        "block",
        "pocketed",
        "board",
        "sheet",
        "cast",
        "laminate",
        "printed",
        "plate",
        "core",
    ]
    dust: Literal["silica", "wood", "polymer", "carbon", "glass", "metal", "gypsum", "none"]
    tightness: Literal["tight", "tight-when-sealed", "leaks-through"]
    constructions: tuple[Construction, ...]
    needs_pattern: bool
    pattern: str | None = None
    drying: Literal["none", "bake-dry", "condition"]
    joint: Literal["bonded-blocks", "laminated-boards", "none"]
    combustible_dust: bool
    porous: bool
    soft: bool
    brittle: bool
    density: Figure
    expansion: Figure
    conductivity: Figure
    specific_heat: Figure
    service_limit: Figure
    short_limit: Figure
    compressive_strength: Figure
    tensile_strength: Figure | None = None
    modulus: Figure
    fracture_energy: Figure | None = None
    open_porosity: Figure | None = None
    pore_size: Figure | None = None
    permeability: Figure | None = None
    cycles: Figure
    cutting_rate: Figure
    shrinkage: Figure | None = None
    lead_days: Figure | None = None
    heat_on_pattern: Figure | None = None


class StockSize(Row):
    """A size that a tool's stock is sold in."""

    name: str
    materials: tuple[str, ...]
    piece: Literal["block", "sheet", "board", "slab"]
    turning: Literal["any way", "flat"]
    length: Figure
    width: Figure
    thickness: Figure
    joint: Figure


class Sealer(Option):
    """A way to seal a tool's face, as a stack in order."""

    name: str
    layers: tuple[str, ...]
    contains: tuple[
        Literal["epoxy", "styrene", "peroxide", "solvent", "isocyanate", "none"], ...
    ]
    vacuum: Literal["none", "slows", "tight-if-no-pinhole", "tight"]
    polished: bool
    first_grit: int | None = None
    film_only: bool = False
    limit_as_painted: Figure
    limit_baked: Figure
    fills_pores_to: Figure
    build: Figure
    effort: Figure
    elapsed: Figure
    parts_on_porous: Figure
    material_use: Figure | None = None
    skin_modulus: Figure | None = None
    skin_expansion: Figure | None = None
    skin_plies: Figure | None = None
    skin_of: str | None = None


class Release(Option):
    """A release agent or film."""

    name: str
    surface: Literal["sealed", "any-dry", "smooth"]
    curvature: tuple[str, ...]
    poor_on: tuple[str, ...] = ()
    finish: Literal["gloss", "satin", "matt", "texture"]
    transfers: bool
    fluoropolymer: bool
    solvent: bool
    is_film: bool
    film_thickness: Figure | None = None
    modulus_cool: Figure | None = None
    modulus_warm: Figure | None = None
    limit: Figure
    pulls: Figure
    effort: Figure
    elapsed: Figure


BagRole = Literal[
    "bag-film",
    "sealant-tape",
    "release-film",
    "breather",
    "peel-ply",
    "edge-breather",
    "flash-tape",
    "shrink-tape",
    "bladder",
]


class Bagging(Option):
    """A way to bag the part; `on_core` are its layers where the tool is a core."""

    name: str
    pressure: Literal["vacuum", "autoclave", "tape", "bladder"]
    needs_tight_tool: bool
    all_round: bool
    below: tuple[str, ...] = ()
    both_faces: bool = False
    inside: bool = False
    bladder: bool = False
    layers: tuple[str, ...]
    on_core: tuple[str, ...] = ()
    materials: tuple[BagRole, ...]
    effort: Figure
    margin: Figure
    pulls: Figure | None = None


class Layer(Row):
    """What a layer under the bag does, by how its line in ``bagging.toml`` begins."""

    name: str
    begins: tuple[str, ...]
    does: str
    source: tuple[str, ...]


class Consumable(Row):
    """A bagging material in one temperature class."""

    name: str
    role: BagRole
    limit: Figure
    areal_weight: Figure | None = None


class ExposureLimit(Row):
    """A legal or advised limit of exposure."""

    agent: str
    jurisdiction: str
    averaging: str
    fraction: str | None = None
    clause: str
    limit: Figure
    short_averaging: str | None = None
    short_term: Figure | None = None
    action_level: Figure | None = None
    upper_action_level: Figure | None = None
    respirable: Figure | None = None
    inhalable: Figure | None = None
    total: Figure | None = None
    cristobalite: Figure | None = None


class ListedCure(Row):
    """A cure that a class of resin lists between its coolest and its hottest."""

    temperature: Figure
    hold: Figure


class Resin(Row):
    """A class of matrix resin the job may name."""

    name: str
    form: Literal["prepreg", "wet"]
    kinetics: tuple[Literal["resin-of-1982", "toughened-resin-180c"], ...] = ()
    cure_low: Figure
    cure_high: Figure
    density: Figure
    dwell_at_low: Figure | None = None
    dwell_at_high: Figure | None = None
    between: tuple[ListedCure, ...] = ()
    glass_transition_rise: Figure | None = None
    glass_transition_post_cured: Figure | None = None

    def cures(self) -> list[tuple[Figure, Figure]]:
        """Return temperature and hold of each cure the class lists, coolest first."""
        ends = [
            (self.cure_low, self.dwell_at_low),
            *((one.temperature, one.hold) for one in self.between),
            (self.cure_high, self.dwell_at_high),
        ]
        held = [(at, hold) for at, hold in ends if hold is not None]
        return sorted(held, key=lambda cure: cure[0].si)


class Fibre(Row):
    """A reinforcement and the in-plane expansion of its balanced laminate."""

    name: str
    density: Figure
    laminate_density: Figure
    laminate_expansion: Figure
    laminate_conductivity: Figure
    laminate_specific_heat: Figure


class PlySet(Row):
    """Stiffness and expansion of a ply of straight fibres."""

    fibre: str
    name: str
    along_modulus: Figure
    across_modulus: Figure
    poisson_ratio: Figure
    shear_modulus: Figure
    along_expansion: Figure
    across_expansion: Figure


Sign = Literal[
    "general",
    "hot",
    "electric",
    "fire",
    "explosion",
    "crushing",
    "sharp",
    "pressure",
    "toxic",
    "corrosive",
]


class CautionText(Row):
    """The words of a caution, and what is worn against its hazard when all else is done."""

    hazard: str
    sign: Sign = "general"
    gravity: Literal[1, 2, 3]
    text: str
    defers_to: str
    wear: tuple[str, ...] = ()
    source: tuple[str, ...]


class Avoidable(Row):
    """A hazard that comes with a piece of a route, and goes if the piece does.

    A dust of `dust_till_shown` is not offered as free of it, one of `dust_if_filled` only
    with the word that its data sheet be read for fillers.
    """

    hazard: str
    cautions: tuple[str, ...]
    dust: tuple[str, ...] = ()
    dust_till_shown: tuple[str, ...] = ()
    dust_if_filled: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    contains: tuple[str, ...] = ()
    source: tuple[str, ...]


def _whole(words: str) -> re.Pattern[str]:
    """Return what finds words as they stand alone, in the singular or the plural."""
    return re.compile(rf"\b{words}(e?s)?\b")


class Duty(Row):
    """A kind of part whose making the law hands to those who may approve it."""

    name: str
    law: str
    approver: str
    words: tuple[str, ...]
    but: tuple[str, ...] = ()
    source: tuple[str, ...]

    def hint(self, title: str) -> str:
        """Return the first of `words` that stands in a title; of none, nothing."""
        said = " ".join(re.findall(r"[a-z]+", title.lower()))
        for phrase in self.but:
            said = _whole(phrase).sub("", said)
        return next((word for word in self.words if _whole(word).search(said)), "")


class Price(Row):
    """A planning price."""

    name: str
    price: Figure


class Narrowing(Row):
    """How a shop narrows the range of one kind of figure, and what the figure is called."""

    name: str
    how: str
    source: tuple[str, ...]


class Asked(Row):
    """A question of the interview about one field of the job file.

    It is worth asking where every field of `only_if` has one of the values named.
    """

    order: int
    text: str
    why: str
    only_if: Mapping[str, tuple[str | bool, ...]] = {}


class Limit(Row):
    """A threshold that rules compare with."""

    meaning: str
    figure: Figure


class Phase(Row):
    """A phase of the work, in the order of the bench, and how often its holds are held."""

    order: int
    title: str
    held_for: Literal["tool", "part"]


class Topic(Row):
    """A subject of the rule book and the rule modules that belong to it."""

    order: int
    title: str
    intro: str
    modules: tuple[str, ...]


class Word(Row):
    """A word of the trade in one plain sentence; `forms` are the spellings of it."""

    term: str
    forms: tuple[str, ...]
    means: str
    source: tuple[str, ...]

    def stands_in(self, text: str) -> bool:
        """Return whether a text uses it in one of its forms; abbreviations by their case.

        Examples
        --------
        >>> row = Word(term="LEL", forms=("LEL",), means="A share.", source=("x",))
        >>> [row.stands_in(text) for text in ("below the LEL", "a lapelled coat", "a lel")]
        [True, False, False]
        """
        return any(
            re.search(
                rf"(?<!\w){re.escape(form)}(?!\w)",
                text,
                0 if form.isupper() else re.IGNORECASE,
            )
            for form in self.forms
        )
