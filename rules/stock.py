"""Stock: how many blocks or sheets make up the blank, its joints and the offcut."""

from functools import lru_cache

from advisor.calculations import blanks, volumes
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import (
    BlankLayout,
    Finding,
    HoldPoint,
    Quantity,
    Step,
)
from advisor.reasoning.expert import GE, MATCH, Rule
from advisor.reasoning.facts import Bagging, Found, Part, Route, StockPiece, Tool
from advisor.reasoning.rulebook import advice

from .making import ADHESIVE  # noqa: TID251 (a sibling, not a copy)

BASE = limit("base_thickness")
OFFCUT_WATCHED = limit("offcut_watched")
PLATE = limit("plate_thickness")


@lru_cache(maxsize=1000)
def laid_up(
    shape: volumes.Shape,
    side: volumes.Side,
    length: float,
    width: float,
    depth: float,
    margin: float,
    piece: tuple[float, float, float],
    turning: blanks.Turning,
    joint: float,
) -> blanks.BlankYield:
    """Return the yield of the blank for a part of this size."""
    size = volumes.tool_blank(shape, side, length, width, depth, margin, BASE)
    blank = (size.length_m, size.width_m, size.height_m)
    return blanks.blank_yield(blank, piece, turning, joint)


class StockNumbers:
    """Pieces to buy, joints to bond, and what is left over."""

    stage = "plan"

    @Rule(
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin),
        Tool(name=MATCH.name, owned=False, standard_sizes=True),
        StockPiece(
            piece=MATCH.piece,
            turning=MATCH.turning,
            length_m=MATCH.piece_length,
            width_m=MATCH.piece_width,
            thickness_m=MATCH.thickness,
            joint_m=MATCH.joint,
        ),
    )
    @advice(
        id="STOCK-010",
        title="Lay the blank up from the sizes that are sold",
        reason=(
            "A {piece} of {name} is {piece_length:length} by {piece_width:length} by "
            "{thickness:length}, and the blank is made up of whole ones."
        ),
        limits=("base_thickness", "offcut_watched"),
    )
    def blank_from_stock(
        self,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        name: str,
        piece: str,
        turning: blanks.Turning,
        piece_length: float,
        piece_width: float,
        thickness: float,
        joint: float,
    ) -> list[Finding | BlankLayout]:
        size = (piece_length, piece_width, thickness)
        made = laid_up(shape, side, length, width, depth, margin, size, turning, joint)
        return [
            Finding(
                "stock-pieces",
                f"{piece.capitalize()}s for the blank of one tool",
                float(made.pieces),
                "count",
                "n = ceil((L + j) / (l + j)) in each direction",
            ),
            Finding(
                "bond-lines",
                "Joints right through the blank",
                float(made.bond_lines),
                "count",
                "rows along, across and up, less one each",
            ),
            Finding(
                "bond-adhesive",
                "Adhesive in the joints of one blank",
                made.bond_area_m2 * joint,
                "liter",
                "area of the joints · thickness of a joint",
                worked=worked("{} · {}", (made.bond_area_m2, "m**2"), (joint, "mm")),
            ),
            Finding(
                "stock-offcut",
                "Share of the stock bought that is offcut",
                made.offcut_share,
                "percent",
                "1 − blank / pieces bought",
                limit=OFFCUT_WATCHED,
                judgement="ok" if made.offcut_share < OFFCUT_WATCHED else "watch",
            ),
            BlankLayout(piece, made.blank_m, made.parts_m),
        ]


class PlateSteps:
    """A flat plate that has to be bought."""

    stage = "plan"

    @Rule(
        Tool(owned=False, form="plate", name=MATCH.name),
        Part(length_m=MATCH.length, width_m=MATCH.width),
        Bagging(name=MATCH.bag, margin_m=MATCH.margin),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="STEP-111",
        title="Order the plate to size, flat and stress-relieved",
        reason=(
            "None in stock carries the part; {bag} takes {margin:length} of bare plate all "
            "round it, and rolled plate as it comes warps when it is sawn and heated."
        ),
        limits=("plate_thickness",),
    )
    def order_plate(
        self,
        name: str,
        length: float,
        width: float,
        bag: str,
        margin: float,
        tools: int,
    ) -> Step:
        return Step(
            "make-tool",
            "Order {name} for {tools:tools}, at least {plate_thickness:length} thick: cast "
            "and milled, or rolled and stretched (a stress-relieved temper), faces under "
            "film, sawn and not sheared, no through holes. Ask for flatness, temper and "
            "alloy on the paper that comes with it. Lay it on three supports and check it "
            "before the film comes off; send back what is bent, pitted or scratched.",
            does=("lifts",),
            quantities=(
                Quantity("Length, at least", length + 2 * margin, "mm"),
                Quantity("Width, at least", width + 2 * margin, "mm"),
                Quantity("Thickness, at least", PLATE, "mm"),
            ),
            hold_point=HoldPoint(
                "Plate as ordered",
                "sizes and temper as ordered; no gap over 0.2 mm (8 mil) in 1 m (40 in) "
                "under the straight edge, either way",
                "sizes, gap, paper number",
            ),
        )


class StockSteps:
    """Ordering, laying out and bonding stock that is sold in sizes."""

    stage = "plan"

    @Rule(
        Tool(owned=False, standard_sizes=True, name=MATCH.name),
        StockPiece(
            piece=MATCH.piece,
            length_m=MATCH.length,
            width_m=MATCH.width,
            thickness_m=MATCH.thickness,
        ),
        Found(key="stock-pieces", value=MATCH.pieces),
        Found(key="stock-offcut", value=MATCH.offcut),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="STEP-112",
        title="Order whole {piece}s of one lot, and read their sheet",
        reason=(
            "Each tool takes whole {piece}s, {pieces:number} in all, and {offcut:percent} "
            "is offcut; grades under one name differ, so the sheet of the lot decides, "
            "not this plan."
        ),
        cites=("polish-block-maker-en-771-4", "memory-tooling-board-sheets"),
        limits=("offcut_watched",),
    )
    def order_pieces(
        self,
        name: str,
        piece: str,
        length: float,
        width: float,
        thickness: float,
        pieces: float,
        offcut: float,
        tools: int,
    ) -> Step:
        cheaper = (
            " More than {offcut_watched:percent} would be offcut: ask for a nearer size "
            "or a piece sawn to order before buying."
            if offcut >= OFFCUT_WATCHED
            else ""
        ).replace("{offcut_watched:percent}", f"{100 * OFFCUT_WATCHED:.0f} %")
        further = (
            " Cut a further tool only when the first has let its part go."
            if tools > 1
            else ""
        )
        return Step(
            "make-tool",
            "Order {name} for {tools:tools} from one lot, in {piece}s of {length:length} "
            "by {width:length} by {thickness:length}; if the stockist's size is another, "
            "count again." + cheaper + " Ask for density, strength, expansion, highest "
            "temperature and the safety data sheet. Refuse cracked or damaged stock."
            + further,
            does=("lifts",),
            quantities=(
                Quantity(f"{piece.capitalize()}s for all tools", pieces * tools, "count"),
            ),
            hold_point=HoldPoint(
                "Sheet read: expansion and heat limit as planned; size as counted",
                "within the ranges of this plan, else plan again",
                "lot number, size, expansion, limit",
            ),
        )

    @Rule(
        Tool(owned=False, standard_sizes=True, name=MATCH.name),
        Found(key="bond-lines", value=MATCH.joints & GE(1)),
        StockPiece(piece=MATCH.piece),
    )
    @advice(
        id="STEP-116",
        title="Lay the {piece}s out dry, and number them",
        reason=(
            "The blank of {name} has {joints:joints}: where they fall is settled before "
            "anything is sawn, dried or bonded."
        ),
    )
    def lay_out(self, name: str, joints: float, piece: str) -> Step:
        return Step(
            "make-tool",
            "Lay the blank out dry, so that no joint falls on a thin edge and as few as "
            "can be cross the show face: each that does is filled and sealed with care, "
            "for it prints first. Mark each {piece}'s place and number on it, then take "
            "them apart.",
            does=("lifts",),
        )

    @Rule(
        Tool(owned=False, standard_sizes=True, name=MATCH.name),
        Found(key="bond-lines", value=MATCH.joints & GE(1)),
        Found(key="bond-adhesive", value=MATCH.adhesive),
        StockPiece(joint_m=MATCH.joint, piece=MATCH.piece),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-123",
        title="Bond the blank with a joint that outlives the cure",
        reason=(
            "The blank has {joints:joints}; one weaker or softer than the block "
            "at {hot:temperature} opens, leaks and shows, and one that is harder stands "
            "proud after sanding."
        ),
        cites=("bond-tests-nepal", "common-practice"),
        limits=("bake_hold",),
    )
    def bond_pieces(
        self,
        name: str,
        joints: float,
        adhesive: float,
        joint: float,
        piece: str,
        hot: float,
    ) -> Step:
        return Step(
            "make-tool",
            "Vacuum the mating faces of the {piece}s, spread the adhesive over the whole "
            "joint, {joint:gap} thick, clamp square. " + ADHESIVE,
            does=("mixes-resin", "cleans-dust", "lifts"),
            quantities=(
                Quantity("Joints through the blank", joints, "count"),
                Quantity("Adhesive in the joints, at least", adhesive, "liter"),
            ),
            hold_point=HoldPoint(
                "Joint full and cured",
                "squeeze-out all round, no gap to a 0.1 mm (4 mil) feeler",
                "adhesive, batch",
            ),
        )
