"""What to have on the shelf before the first day, beside prepreg, bag and release."""

import math

from advisor.calculations import consumables, volumes
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Use
from advisor.reasoning.expert import GT, MATCH, NE, Rule, among
from advisor.reasoning.facts import (
    Bagging,
    Finish,
    Found,
    Part,
    Route,
    Run,
    Sealing,
    Shelf,
    Shop,
    StockPiece,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .cure import places_on  # noqa: TID251 (a sibling, not a copy)
from .laying import for_the_run  # noqa: TID251 (a sibling, not a copy)

OFFCUT = limit("offcut_share")
VENTS = limit("vent_spacing")


def sealed_m2(
    shape: volumes.Shape,
    length: float,
    width: float,
    depth: float,
    margin: float,
    both: bool,
) -> float:
    """Return the face and land of one tool that is sealed, of both halves if it has two."""
    area = volumes.sealed_area_m2(shape, length, width, depth, margin)
    return area * (1 + both)


class ForTheTool:
    """What the tools of the run are made and sealed with."""

    stage = "plan"

    @Rule(
        Tool(owned=False, standard_sizes=True, name=MATCH.name),
        StockPiece(piece=MATCH.piece),
        Found(key="stock-pieces", value=MATCH.pieces),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="USE-042",
        title="Have the stock of every tool on hand",
        reason=(
            "{name} is bought in whole {piece}s of one lot, {pieces:number} a tool, for "
            "{tools:tools}."
        ),
    )
    def use_stock(self, name: str, piece: str, pieces: float, tools: int) -> Use:
        return Use(
            f"{piece.capitalize()}s for the tools of the run",
            pieces * tools,
            "count",
            "whole ones, offcut in them",
        )

    @Rule(
        Tool(owned=False, standard_sizes=False, name=MATCH.name),
        Found(key="tool-mass", value=MATCH.mass),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="USE-052",
        title="Have the stuff of every tool on hand",
        reason="{name} weighs {mass:mass} in the finished tool, for {tools:tools}.",
    )
    def use_stuff(self, name: str, mass: float, tools: int) -> Use:
        return Use(
            "Tool material, as it stays in the tools of the run",
            mass * tools,
            "kg",
            "what is cut away or lost comes on top",
        )

    @Rule(
        Tool(owned=False, standard_sizes=True, name=MATCH.name),
        Found(key="bond-adhesive", value=MATCH.adhesive & GT(0.0)),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="USE-062",
        title="Have the adhesive for the joints of the blank on hand",
        reason=(
            "The joints of one blank of {name} hold {adhesive:volume} of adhesive, for "
            "{tools:tools}."
        ),
    )
    def use_adhesive(self, name: str, adhesive: float, tools: int) -> Use:
        return Use(
            "Adhesive for the joints of the blanks",
            adhesive * tools,
            "liter",
            "squeeze-out comes on top",
            lot="tool",
        )

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(id=NE("none"), name=MATCH.seal, material_use=MATCH.each_m2),
        Part(
            shape=MATCH.shape,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin, both_faces=MATCH.both),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="USE-072",
        title="Have the seal of every tool on hand",
        reason=(
            "{seal} on face and land of {name}, for {tools:tools}; back, edges and holes "
            "come on top where they are sealed too."
        ),
    )
    def use_seal(
        self,
        name: str,
        seal: str,
        each_m2: float,
        shape: volumes.Shape,
        length: float,
        width: float,
        depth: float,
        margin: float,
        both: bool,
        tools: int,
    ) -> Use:
        area = sealed_m2(shape, length, width, depth, margin, both)
        return Use(
            "Seal, its coats and plies together",
            each_m2 * area * tools,
            "kg",
            "face and land; what is left in the pot comes on top",
            lot="tool",
        )

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(name=MATCH.seal, skin_plies=MATCH.plies, skin_of=MATCH.cloth),
        Part(
            shape=MATCH.shape,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin, both_faces=MATCH.both),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="USE-082",
        title="Have the cloth of the skin on hand",
        reason=(
            "{seal} takes {plies:number} plies of {cloth} over face and land of {name}, "
            "{offcut_share:percent} more for offcut, for {tools:tools}."
        ),
        limits=("offcut_share",),
    )
    def use_cloth(
        self,
        name: str,
        seal: str,
        plies: float,
        cloth: str,
        shape: volumes.Shape,
        length: float,
        width: float,
        depth: float,
        margin: float,
        both: bool,
        tools: int,
    ) -> Use:
        area = sealed_m2(shape, length, width, depth, margin, both)
        return Use(
            f"{cloth.capitalize()} for the skin of the tools",
            plies * area * tools * (1 + OFFCUT),
            "m**2",
            "{offcut_share:percent} offcut",
            lot="tool",
        )


class ForThePart:
    """What each part takes besides prepreg and bag."""

    stage = "plan"

    @Rule(
        Finish(after="bond"),
        Found(key="face-area", value=MATCH.area),
        Bagging(both_faces=False, name=MATCH.bag),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-092",
        title="Pull peel ply for one part, order it for the run",
        reason="{area:area} of bag side is bonded too; the run is {parts:parts}.",
    )
    def use_peel_ply(self, area: float, bag: str, parts: int) -> list[Use]:
        laid = consumables.breather_area_m2(area)
        return for_the_run("Peel ply", laid, "m**2", "laps included", parts)

    @Rule(
        Part(
            shape=MATCH.shape,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(both_faces=False, pressure=among("vacuum", "autoclave"), name=MATCH.bag),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-102",
        title="Pull dam and vent strings for one part, order them for the run",
        reason=(
            "Every ply edge gets a dam and, each {vent_spacing:length}, a string of dry "
            "glass tow; the run is {parts:parts}."
        ),
        limits=("vent_spacing",),
    )
    def use_edge(
        self,
        shape: volumes.Shape,
        length: float,
        width: float,
        depth: float,
        bag: str,
        parts: int,
    ) -> list[Use]:
        edge = volumes.ply_edge_length_m(shape, length, width, depth)
        ends = 2 if shape == "closed" else 1
        strings = float(ends * math.ceil(edge / ends / VENTS))
        return [
            *for_the_run("Edge dam", edge, "m", "as high as the laminate", parts),
            *for_the_run(
                "Vent strings of dry glass tow",
                strings,
                "count",
                "each from the ply edge to the breather",
                parts,
            ),
        ]

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Tool(name=MATCH.name, brittle=MATCH.brittle),
        Shelf(roles=MATCH.roles),
    )
    @advice(
        id="USE-112",
        title="Have the thermocouples ready, and tape to hold their wires",
        reason=(
            "At least {thermocouples_least:number} at the laminate, one more for each "
            "{thermocouple_area:area} of {area:area}, one in the air, and two in {name} "
            "if it is brittle."
        ),
        cites=("army-composites-manual", "helicopter-repair-manual"),
        limits=("thermocouples_least", "thermocouple_area"),
    )
    def use_thermocouples(
        self, area: float, name: str, brittle: bool, roles: list[str]
    ) -> list[Use]:
        uses = [
            Use(
                "Thermocouples, checked",
                float(sum(places_on(area, brittle))),
                "count",
                "used again; one or two to spare",
            )
        ]
        if "flash-tape" in roles:
            tape = "for wires and film edges"
            uses.append(Use("Flash tape, roll", 1.0, "count", tape, lot="part"))
        return uses

    @Rule(Shop(people=MATCH.people), Run(parts=MATCH.parts))
    @advice(
        id="USE-122",
        title="Have gloves for prepreg and resin for everyone",
        reason=(
            "Uncured resin can make the skin allergic to it, and bare hands spoil plies "
            "and release: {people:number} at work, {parts:parts}."
        ),
        cites=("uk-epoxy-sensitisation", "common-practice"),
    )
    def use_gloves(self, people: int, parts: int) -> Use:
        return Use(
            "Gloves that the resin's safety sheet names, pairs in use at once",
            float(people),
            "count",
            "changed when soiled, torn or wet: a box, not a pair",
        )
