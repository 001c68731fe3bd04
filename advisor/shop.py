"""What the user writes about the shop: the pydantic model of ``shop.toml``.

Every default is the cautious one: a shop that says nothing is taken to own little.
"""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from advisor.calculations.atmosphere import pressure_at_altitude_pa
from advisor.job import OptionId, PartSize, Table, Text, absent
from advisor.measures import In, Measure

OvenLimit = Annotated[Measure, In("degC", 40, 500)]
Load = Annotated[Measure, In("kg", 1, 100_000)]
Altitude = Annotated[Measure, In("m", -430, 5_000)]
VacuumReading = Annotated[Measure, In("mbar", 100, 1_100)]
Humidity = Annotated[Measure, In("1", 0.01, 1)]
ScaleStep = Annotated[Measure, In("g", 0.1, 5_000)]
RoomVolume = Annotated[Measure, In("m**3", 5, 100_000)]
AirChanges = Annotated[float, Field(gt=0, le=200, allow_inf_nan=False)]
PumpFlow = Annotated[Measure, In("m**3/h", 0.1, 1_000)]

Jurisdiction = Literal[
    "us-osha",
    "us-niosh",
    "us-acgih",
    "uk",
    "eu",
    "de",
    "au",
    "ca-qc",
    "ca-on",
    "ca-other",
    "unknown",
]


class Oven(Table):
    """The oven or autoclave the tool must fit in."""

    kind: Literal["industrial", "home-built", "kitchen", "autoclave"] = Field(
        "home-built", description="what kind of oven it is"
    )
    length: PartSize | None = Field(
        None, description="inside, mm", json_schema_extra=absent("fit was not checked")
    )
    width: PartSize | None = Field(
        None, description="inside, mm", json_schema_extra=absent("fit was not checked")
    )
    height: PartSize | None = Field(
        None, description="inside, mm", json_schema_extra=absent("fit was not checked")
    )
    door_width: PartSize | None = Field(
        None,
        description="clear opening of the door, mm",
        json_schema_extra=absent("a door as wide as the inside was taken"),
    )
    door_height: PartSize | None = Field(
        None,
        description="clear opening of the door, mm",
        json_schema_extra=absent("a door as high as the inside was taken"),
    )
    limit: OvenLimit | None = Field(
        None,
        description="highest temperature, degC",
        json_schema_extra=absent("reaching the cure temperature was not checked"),
    )
    shelf_load: Load | None = Field(
        None,
        description="what the shelf or car carries, kg",
        json_schema_extra=absent("the tool's weight was not checked against the shelf"),
    )
    over_temperature_trip: bool = Field(
        False, description="has an independent over-temperature cut-out"
    )
    fuel_fired: bool | None = Field(
        None,
        description="burns gas or oil",
        json_schema_extra=absent("a burner was not ruled out"),
    )


class Making(Table):
    """How the shop cuts and shapes."""

    machining: Literal["hand", "hand-router", "cnc-router"] = Field(
        "hand", description="how a block is shaped"
    )
    printer: bool = Field(False, description="owns a large polymer printer")
    metal_machining: bool = Field(False, description="can machine or buy machined metal")


class Dust(Table):
    """Dust control at the cut."""

    extraction: Literal["none", "household", "class-m", "class-h"] = Field(
        "none", description="extraction at the tool (IEC 60335-2-69 class)"
    )
    wet_cutting: bool = Field(False, description="can cut wet and dry the block afterwards")
    respirators: bool = Field(False, description="fitted respirators under a programme")
    air_changes: AirChanges = Field(
        1.0, description="changes of the cutting room's air in an hour"
    )
    room_volume: RoomVolume = Field(
        Measure(150.0, "m**3", "150"), description="volume of the cutting room, m3"
    )


class Room(Table):
    """The room where prepreg lies open, and the scale."""

    humidity: Humidity = Field(
        Measure(0.5, "1", "0.5"), description="relative humidity, as a share"
    )
    scale_step: ScaleStep = Field(
        Measure(50.0, "g", "50"), description="smallest step of the scale, g"
    )


class Vacuum(Table):
    """Pump and place."""

    pump: bool = Field(True, description="owns a vacuum pump")
    reading: VacuumReading = Field(
        Measure(900.0, "mbar", "900"),
        description="best reading below local atmosphere, mbar",
    )
    flow: PumpFlow = Field(Measure(5.0, "m**3/h", "5"), description="pump flow, m3/h")
    altitude: Altitude = Field(Measure(0.0, "m", "0"), description="height above sea, m")

    @model_validator(mode="after")
    def _reading_within_the_atmosphere(self) -> "Vacuum":
        local = pressure_at_altitude_pa(self.altitude.to("m")) / 100
        if self.reading.value > local:
            raise ValueError(
                f"reading: given {self.reading.given!r} ({self.reading.value:.0f} mbar), "
                f"more "
                f"than the whole atmosphere at {self.altitude.value:.0f} m; accepted up to "
                f"{local:.0f} mbar"
            )
        return self


class People(Table):
    """Hands and lifting."""

    count: Annotated[int, Field(ge=1, le=1000)] = Field(1, description="people at hand")
    hoist: bool = Field(False, description="has a hoist, crane or lift table")


class StockItem(Table):
    """Something the shop already owns that could serve as a tool."""

    kind: Literal["plate", "tool"] = Field(description="a flat plate, or a finished tool")
    material: OptionId = Field(description="a tool material id, for example metal-plate")
    length: PartSize = Field(description="mm")
    width: PartSize = Field(description="mm")
    made_for: Text | None = Field(
        None, description="title of the job a finished tool was made for"
    )


class Rates(Table):
    """Money and law."""

    currency: Text = Field("EUR", description="label of all money")
    labour: Annotated[float, Field(gt=0, le=1000, allow_inf_nan=False)] | None = Field(
        None,
        description="cost of an hour of work",
        json_schema_extra=absent("the planning rate of the price table was taken"),
    )
    planning_factor: Annotated[float, Field(gt=0, le=1e5, allow_inf_nan=False)] = Field(
        1.0, description="units of the shop's currency for one of the price table (EUR)"
    )
    jurisdiction: Jurisdiction = Field(
        "unknown", description="whose exposure limits are printed"
    )
    invented: bool = Field(False, description="prices are made up, for a demonstration")


class Shop(Table):
    """A whole ``shop.toml``."""

    name: Text = Field("The shop", description="printed on the plan")
    oven: Oven = Field(default_factory=Oven)
    making: Making = Field(default_factory=Making)
    dust: Dust = Field(default_factory=Dust)
    room: Room = Field(default_factory=Room)
    vacuum: Vacuum = Field(default_factory=Vacuum)
    people: People = Field(default_factory=People)
    rates: Rates = Field(default_factory=Rates)
    prices: dict[OptionId, Annotated[float, Field(ge=0, le=1e6, allow_inf_nan=False)]] = (
        Field(default_factory=dict, description="own prices by row of the price table")
    )
    stock: tuple[StockItem, ...] = ()
