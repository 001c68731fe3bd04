"""What the user writes about the part: the pydantic model of ``job.toml``.

Deciding facts (size, shape, how the tool leaves the part, cure temperature, run length)
have no default: left out, they become questions. Other defaults are stated here and
listed in the plan as assumptions.
"""

import hashlib
import json
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    JsonValue,
    StringConstraints,
)

from advisor.calculations.layup import ply_angles_deg
from advisor.measures import In, Measure, sign

Text = Annotated[
    str, StringConstraints(strip_whitespace=True, min_length=1, max_length=200)
]
LongText = Annotated[str, StringConstraints(strip_whitespace=True, max_length=2000)]
OptionId = Annotated[
    str, StringConstraints(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=40)
]
Shape = Literal["flat", "single-curvature", "double-curvature", "closed"]

PartSize = Annotated[Measure, In("mm", 1, 20_000)]
Depth = Annotated[Measure, In("mm", 0, 5_000)]
UndercutDepth = Annotated[Measure, In("mm", 0, 1_000, low_included=False)]
Radius = Annotated[Measure, In("mm", 0, 20_000, low_included=False)]
Corner = Annotated[Measure, In("deg", 20, 175)]
Draft = Annotated[Measure, In("deg", 0, 45)]
Tolerance = Annotated[Measure, In("mm", 0.01, 100)]
ArealWeight = Annotated[Measure, In("g/m**2", 20, 2_000)]
ResinContent = Annotated[Measure, In("1", 0.2, 0.6)]
CureTemperature = Annotated[Measure, In("degC", 20, 250)]
ServiceTemperature = Annotated[Measure, In("degC", -60, 250)]
Roughness = Annotated[Measure, In("um", 0.15, 3)]
FibreVolume = Annotated[Measure, In("1", 0.3, 0.7)]
Hold = Annotated[Measure, In("h", 0.05, 200)]
Ramp = Annotated[Measure, In("delta_degC/min", 0.01, 20)]
VesselPressure = Annotated[Measure, In("bar", 0.5, 15)]
BladderPressure = Annotated[Measure, In("bar", 0.2, 15)]


def _readable(text: str) -> str:
    """Return a lay-up as given; refuse one that cannot be read."""
    ply_angles_deg(text)
    return text


LayUp = Annotated[Text, AfterValidator(_readable)]


class Table(BaseModel):
    """One table of a user's file: immutable, and an unknown key is an error."""

    model_config = ConfigDict(extra="forbid", frozen=True)


def absent(meaning: str) -> dict[str, JsonValue]:
    """Return the schema note that says what is done when a field is left out."""
    return {"when_absent": meaning}


class LocalUndercut(Table):
    """One hidden face that does not run right round the part."""

    place: Text = Field(description="where on the part, in words")
    depth: UndercutDepth = Field(
        description="how far it reaches behind the edge that hides it, mm"
    )
    length: PartSize = Field(description="how far it runs along the part, mm")


PartDuty = Literal[
    "none",
    "aircraft",
    "lifting",
    "medical",
    "personal-protection",
    "pressure",
    "road-safety",
]


class Part(Table):
    """Size, shape and removal of the part."""

    length: PartSize | None = Field(None, description="longest side, mm")
    width: PartSize | None = Field(None, description="second side, mm")
    depth: Depth | None = Field(None, description="height of the shape, mm")
    shape: Shape | None = Field(None, description="flat, single, double curvature, closed")
    smallest_radius: Radius | None = Field(
        None,
        description="tightest radius of the moulded face, mm",
        json_schema_extra=absent("no tight radius was assumed"),
    )
    draft: Draft | None = Field(None, description="least wall angle to the draw, degrees")
    undercut: bool | None = Field(None, description="some face is hidden along the draw")
    local_undercut: tuple[LocalUndercut, ...] = Field(
        (),
        max_length=20,
        description="every hidden face, where each is local, [[part.local_undercut]]",
        json_schema_extra=absent("an undercut, if there is one, was taken to run round"),
    )
    tool_side: Literal["female", "male"] | None = Field(
        None, description="female: the outside face is moulded; male: the inside"
    )
    corner: Corner | None = Field(
        None,
        description="angle between two flanges of the part, degrees",
        json_schema_extra=absent("no corner was corrected for spring-in"),
    )
    service_temperature: ServiceTemperature | None = Field(
        None,
        description="hottest the part gets in use, degC",
        json_schema_extra=absent("the part's use was not held against its resin"),
    )
    duty: PartDuty | None = Field(
        None,
        description="what law the part's approval falls under, none if none",
        json_schema_extra=absent("the part was taken as one that needs no approval"),
    )
    tolerance: Tolerance | None = Field(
        None,
        description="allowed error over `tolerance_over`, mm",
        json_schema_extra=absent("growth is stated but not judged against a tolerance"),
    )
    tolerance_over: PartSize | None = Field(
        None,
        description="length the tolerance holds over, mm",
        json_schema_extra=absent("the whole length of the part was taken"),
    )


class Laminate(Table):
    """Plies of the part."""

    plies: Annotated[int, Field(ge=1, le=200)] = Field(4, description="number of plies")
    areal_weight: ArealWeight = Field(
        Measure(200.0, "g/m**2", "200"), description="fibre areal weight of a ply, g/m2"
    )
    resin_content: ResinContent = Field(
        Measure(0.42, "1", "0.42"), description="resin mass share of the prepreg"
    )
    fibre_volume: FibreVolume | None = Field(
        None,
        description="share of fibre wanted in the cured laminate, by volume",
        json_schema_extra=absent("all resin of the prepreg was taken to stay"),
    )
    fibre: Literal["carbon", "glass", "aramid"] = Field("carbon", description="fibre")
    weave: Literal["unidirectional", "plain", "twill", "satin"] = Field(
        "twill", description="form of the ply"
    )
    layup: LayUp | None = Field(
        None,
        description='ply angles, for example "[0/45/-45/90]s"',
        json_schema_extra=absent("a balanced, symmetric lay-up was assumed"),
    )


class SheetCure(Table):
    """One line of the cure table on the prepreg maker's sheet."""

    temperature: CureTemperature = Field(description="temperature of the laminate, degC")
    hold: Hold = Field(description="time at that temperature, h")


class Cure(Table):
    """The resin maker's cure and how pressure is applied."""

    resin: OptionId = Field("epoxy-low-temperature", description="resin class")
    temperature: CureTemperature | None = Field(None, description="highest cure, degC")
    hold: Hold = Field(Measure(4.0, "h", "4"), description="dwell at temperature, h")
    ramp: Ramp = Field(Measure(1.0, "delta_degC/min", "1"), description="heating, K/min")
    pressure: Literal["vacuum", "autoclave", "tape", "bladder"] = Field(
        "vacuum",
        description="what presses the plies; tape: shrink tape wound on a round tube; "
        "bladder: rubber blown up with air inside a bolted mould",
    )
    autoclave_pressure: VesselPressure | None = Field(
        None,
        description="pressure over atmosphere, bar (autoclave only)",
        json_schema_extra=absent("vacuum alone was assumed"),
    )
    bladder_pressure: BladderPressure | None = Field(
        None,
        description="pressure in the bladder over atmosphere, bar (bladder only)",
        json_schema_extra=absent("no bladder was blown up"),
    )
    free_standing_post_cure: bool = Field(
        False, description="may a low first cure be followed by a post-cure off the tool"
    )
    first_cure: CureTemperature | None = Field(
        None,
        description="first cure on the tool, degC, when a free-standing post-cure follows",
        json_schema_extra=absent("the tool sees the full cure temperature"),
    )
    sheet: tuple[SheetCure, ...] = Field(
        (),
        max_length=20,
        description="lines of the maker's cure table, [[cure.sheet]]",
        json_schema_extra=absent("the cures that the resin's class lists were taken"),
    )


class Finish(Table):
    """What the moulded face must look like and what follows."""

    target: Literal["as-moulded", "paint", "gloss"] = Field(
        "paint",
        description="as-moulded: hidden face; paint: fit to prime; gloss: show face",
    )
    roughness: Roughness | None = Field(
        None,
        description="roughness Ra wanted of the tool's face, um",
        json_schema_extra=absent("the grit usual for the finish was taken"),
    )
    after: Literal["none", "paint", "bond"] = Field(
        "none", description="what is done to the moulded face afterwards"
    )
    both_faces: bool = Field(
        False,
        description="must both faces of the part be moulded, the bag side too",
        json_schema_extra=absent("one moulded face was taken to be enough"),
    )


class Run(Table):
    """How many parts, how fast."""

    parts: Annotated[int, Field(ge=1, le=100_000)] | None = Field(
        None, description="parts wanted over the whole run"
    )
    per_week: Annotated[float, Field(gt=0, le=1000, allow_inf_nan=False)] | None = Field(
        None,
        description="parts wanted in a week",
        json_schema_extra=absent("no weekly rate was asked of the tool"),
    )


class Budget(Table):
    """Money for tooling and parts, and what matters most."""

    total: Annotated[float, Field(gt=0, le=1e8, allow_inf_nan=False)] | None = Field(
        None,
        description="for tools and all parts, in the shop's currency, prepreg included",
        json_schema_extra=absent("no route was ruled out for its price"),
    )
    priority: Literal["cost", "lead-time", "certainty"] = Field(
        "cost", description="what decides between sound routes"
    )


class Proposal(Table):
    """The user's own idea, to be judged piece by piece."""

    tool: OptionId | None = Field(None, description="a tool material")
    sealing: OptionId | None = Field(None, description="a way to seal it")
    release: OptionId | None = Field(None, description="a release")
    bagging: OptionId | None = Field(None, description="a way to bag it")


class Uncertain(Table):
    """An input that is not known to a point."""

    field: Text = Field(description="the input, as run.parts; shop.oven.limit of the shop")
    low: int | float | str = Field(description="the least it may be, as the field takes it")
    high: int | float | str = Field(description="the most it may be")


class Job(Table):
    """A whole ``job.toml``."""

    title: Text = Field(description="name of the part or job")
    customer: Text | None = Field(None, description="who it is for")
    revision: Text = Field("A", description="revision of the job file")
    note: LongText | None = Field(None, description="anything a reader should know")
    part: Part = Field(default_factory=Part)
    laminate: Laminate = Field(default_factory=Laminate)
    cure: Cure = Field(default_factory=Cure)
    finish: Finish = Field(default_factory=Finish)
    run: Run = Field(default_factory=Run)
    budget: Budget = Field(default_factory=Budget)
    proposal: Proposal | None = None
    uncertain: tuple[Uncertain, ...] = Field(
        (),
        max_length=20,
        description="inputs with a range, [[uncertain]]: the decision is tried over it",
        json_schema_extra=absent("every input was taken as known"),
    )

    def sha256(self) -> str:
        """Return the hash of the job as read, whatever the layout of its file."""
        text = json.dumps(self.model_dump(mode="json"), sort_keys=True, ensure_ascii=False)
        return hashlib.sha256(text.encode()).hexdigest()


def assumptions(tables: Table, name: str, skip: frozenset[str] = frozenset()) -> list[str]:
    """List the defaults that stood in for what the user left out.

    Parameters
    ----------
    tables : Table
        A job or a shop as read.
    name : str
        What to call it: "job" or "shop".
    skip : frozenset of str
        Dotted fields that never count: deciding facts, labels.
    """
    found: list[str] = []
    for path, default, note in _left_out(tables, ""):
        if path in skip:
            continue
        if note:
            found.append(f"{name}: {path} was not given; {note}.")
        elif default is not None:
            found.append(f"{name}: {path} was not given; {_shown(default)} was taken.")
    return found


def _left_out(table: Table, prefix: str) -> list[tuple[str, Any, str]]:
    rows: list[tuple[str, Any, str]] = []
    for field, info in type(table).model_fields.items():
        value = getattr(table, field)
        path = f"{prefix}{field}"
        if isinstance(value, Table):
            rows += _left_out(value, f"{path}.")
        elif field not in table.model_fields_set:
            extra = info.json_schema_extra
            note = str(extra.get("when_absent", "")) if isinstance(extra, dict) else ""
            rows.append((path, value, note))
    return rows


def _shown(value: Any) -> str:
    if isinstance(value, Measure):
        return f"{value.value:g} {sign(value.unit)}".strip()
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
