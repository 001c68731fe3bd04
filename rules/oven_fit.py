"""Whether the bagged tool goes through the door, lies down and has air round it."""

from collections.abc import Callable
from functools import lru_cache
from typing import Literal

from advisor.calculations import oven_fit
from advisor.calculations.oven_fit import Box
from advisor.calculations.volumes import Shape, Side, is_core
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import (
    Condition,
    Doubtful,
    Finding,
    Judgement,
    RuledOut,
)
from advisor.reasoning.expert import MATCH, NOT, TEST, Rule, W
from advisor.reasoning.facts import Bagging, Found, Oven, Part, Tool
from advisor.reasoning.rulebook import advice

BASE = limit("base_thickness")
LIGHT = limit("shelf_light")
CLEARANCE = limit("oven_clearance")
BAG_HEIGHT = limit("bag_height")

Fit = Literal["fits", "aslant", "stops at the door", "no place"]


@lru_cache(maxsize=10_000)
def judge(
    oven_length: float,
    oven_width: float,
    oven_height: float,
    door_width: float,
    door_height: float,
    shape: Shape,
    side: Side,
    length: float,
    width: float,
    depth: float,
    margin: float,
    form: str,
) -> Fit:
    """Return how the bagged tool goes in: kept level, for a bag is not tipped."""
    opening = (oven_length, oven_width, oven_height, door_width, door_height)
    if min(opening) <= 2 * CLEARANCE:
        return "no place"
    bodiless = form in ("laminate", "plate") or is_core(shape, side)
    body = 0.0 if bodiless else BASE
    bagged = Box(length + 2 * margin, width + 2 * margin, depth + body + BAG_HEIGHT)
    inside = Box(oven_length, oven_width, oven_height)
    found = oven_fit.oven_fit(bagged, inside, door_width, door_height, CLEARANCE)
    if found.placing == "none" or found.height_left_m < 0:
        return "no place"
    if not found.through_door:
        return "stops at the door"
    return "fits" if found.fits else "aslant"


def judged(verdict: Fit) -> Callable[..., bool]:
    """Return a test that a tool goes in so."""

    def goes_in_so(
        oven_length: float,
        oven_width: float,
        oven_height: float,
        door_width: float,
        door_height: float,
        shape: Shape,
        side: Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        form: str,
    ) -> bool:
        opening = (oven_length, oven_width, oven_height, door_width, door_height)
        return judge(*opening, shape, side, length, width, depth, margin, form) == verdict

    return goes_in_so


class ToolFit:
    """Whether the tool with its margin and bag goes into the oven."""

    stage = "bagging"

    @Rule(
        Oven(
            length_m=MATCH.oven_length,
            width_m=MATCH.oven_width,
            height_m=MATCH.oven_height,
            door_width_m=MATCH.door_width,
            door_height_m=MATCH.door_height,
        ),
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin, name=MATCH.bag),
        Tool(name=MATCH.name, form=MATCH.form),
        TEST(judged("no place")),
    )
    @advice(
        id="OVEN-050",
        title="Fit tool and bag margin in the oven",
        reason=(
            "{name} with {margin:length} of margin for {bag}, and {oven_clearance:length} "
            "of air all round, finds no room in an oven of {oven_length:length} by "
            "{oven_width:length} by {oven_height:length}, straight or corner to corner."
        ),
        cites=("wetzel-2000",),
        limits=("base_thickness", "oven_clearance", "bag_height"),
    )
    def tool_too_big(
        self,
        oven_length: float,
        oven_width: float,
        oven_height: float,
        door_width: float,
        door_height: float,
        shape: Shape,
        side: Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        form: str,
        bag: str,
        name: str,
    ) -> RuledOut:
        return RuledOut("a larger oven inside, or a bag with less margin")

    @Rule(
        Oven(
            length_m=MATCH.oven_length,
            width_m=MATCH.oven_width,
            height_m=MATCH.oven_height,
            door_width_m=MATCH.door_width,
            door_height_m=MATCH.door_height,
        ),
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin, name=MATCH.bag),
        Tool(name=MATCH.name, form=MATCH.form),
        TEST(judged("stops at the door")),
    )
    @advice(
        id="OVEN-052",
        title="Measure the door before the tool is bought or cut",
        reason=(
            "{name} with {margin:length} of margin for {bag} would lie in the oven but "
            "does not pass its door of {door_width:length} by {door_height:length} level; "
            "a bag under vacuum is not tipped."
        ),
        limits=("base_thickness", "oven_clearance", "bag_height"),
    )
    def too_big_for_the_door(
        self,
        oven_length: float,
        oven_width: float,
        oven_height: float,
        door_width: float,
        door_height: float,
        shape: Shape,
        side: Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        form: str,
        bag: str,
        name: str,
    ) -> RuledOut:
        return RuledOut("a larger door, or a bag with less margin")

    @Rule(
        Oven(
            length_m=MATCH.oven_length,
            width_m=MATCH.oven_width,
            height_m=MATCH.oven_height,
            door_width_m=MATCH.door_width,
            door_height_m=MATCH.door_height,
        ),
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin, name=MATCH.bag),
        Tool(name=MATCH.name, form=MATCH.form),
        TEST(judged("aslant")),
    )
    @advice(
        id="OVEN-054",
        title="Try the tool in the oven corner to corner first",
        reason=(
            "{name} with {margin:length} of margin for {bag} lies in the oven only aslant, "
            "and cannot be turned round once it is inside."
        ),
        cites=("wetzel-2000",),
        limits=("base_thickness", "oven_clearance", "bag_height"),
    )
    def lies_aslant(
        self,
        oven_length: float,
        oven_width: float,
        oven_height: float,
        door_width: float,
        door_height: float,
        shape: Shape,
        side: Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        form: str,
        bag: str,
        name: str,
    ) -> Doubtful:
        return Doubtful(
            "The bagged tool can be worked in past the open door and lies down with air "
            "all round.",
            "a sheet of card of the size of the bagged tool, carried in and laid down",
        )


class ShelfLoad:
    """Whether the shelf carries the tool."""

    stage = "plan"

    @Rule(
        Oven(shelf_load_kg=MATCH.shelf, length_m=MATCH.floor_length, width_m=MATCH.floor),
        Found(key="tool-mass", value=MATCH.mass),
        Part(length_m=MATCH.length, width_m=MATCH.width),
        Bagging(margin_m=MATCH.margin),
        Tool(name=MATCH.name),
    )
    @advice(
        id="OVEN-140",
        title="Hold the tool's weight against the shelf",
        reason=(
            "The tool weighs about {mass:mass}; the shelf carries {shelf:mass} spread "
            "evenly, cold: loaded to {value:percent}. From {shelf_light:percent} of the "
            "rating on, the load under the tool's own foot counts."
        ),
        limits=("shelf_light",),
    )
    def load_on_the_shelf(
        self,
        shelf: float,
        floor_length: float,
        floor: float,
        mass: float,
        length: float,
        width: float,
        margin: float,
        name: str,
    ) -> list[Finding | Condition]:
        area = floor_length * floor
        foot = min((length + 2 * margin) * (width + 2 * margin), area)
        load = oven_fit.shelf_load(mass, foot, shelf, area)
        most = load.total if load.total <= LIGHT else max(load.total, load.local)
        judgement: Judgement = "ok" if most <= 1 else "watch" if load.total <= 1 else "fail"
        finding = Finding(
            "shelf-load",
            "Load on the oven shelf, share of its rating",
            most,
            "percent",
            "(m / foot) / (rating / shelf), or m / rating if more",
            limit=1.0,
            judgement=judgement,
            worked=worked("{} / {}", (mass, "kg"), (shelf, "kg"))
            if most == load.total
            else worked(
                "({} / {}) / ({} / {})",
                (mass, "kg"),
                (foot, "m**2"),
                (shelf, "kg"),
                (area, "m**2"),
            ),
        )
        if judgement == "ok":
            return [finding]
        text = (
            "The tool stands on something rated for its weight, hot."
            if judgement == "fail"
            else "A stiff plate under the tool spreads its weight over the shelf, whose "
            "rating holds hot."
        )
        return [finding, Condition(text, "rating plate read; tool weighed")]

    @Rule(
        Oven(shelf_load_kg=MATCH.shelf),
        NOT(Oven(length_m=W(), width_m=W())),
        Found(key="tool-mass", value=MATCH.mass),
        Tool(name=MATCH.name),
        TEST(lambda shelf, mass: mass > shelf),
    )
    @advice(
        id="OVEN-142",
        title="Stand the tool on the floor or a car",
        reason="The tool weighs about {mass:mass}; the shelf carries {shelf:mass}.",
    )
    def shelf_of_unknown_size(self, shelf: float, mass: float, name: str) -> Condition:
        return Condition(
            "The tool stands on something rated for its weight, hot.",
            "rating plate read; tool weighed",
        )
