"""Making the tool: blank, drying, joints, scale, cut, edges; and the dust volume."""

from dataclasses import replace

from advisor.calculations import expansion, post_cure, volumes
from advisor.knowledge.tables import limit
from advisor.measures import STYLES, worked
from advisor.reasoning.conclusions import Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import (
    Bagging,
    Found,
    Part,
    Pattern,
    Route,
    Sealing,
    Shop,
    Tool,
)
from advisor.reasoning.rulebook import advice

BASE = limit("base_thickness")
WALL = limit("metal_wall")
ROOM = limit("room_temperature")
SANDED = limit("sanded_depth")
GROWTH_WATCHED = limit("growth_watched")
CLIMB = limit("post_cure_ramp")
HELD = limit("post_cure_hold")
OVER = limit("post_cure_over")
PATTERN_MARGIN = limit("laminate_tool_margin")
STAIR = limit("post_cure_step")
LAID_UP = "Balanced lay-up with a flange all round; debulk the first ply and every third. "
KEPT = "and keep it there, bagged, until it is cold."
ADHESIVE = (
    "The adhesive must hold at {hot:temperature}, and in the bake of the coat where there "
    "is one, {bake_hold:difference} higher. Room-temperature epoxy holds to about 60 °C "
    "(140 °F), tooling epoxy post-cured to about 120 °C (248 °F), thin-bed mortar more, "
    "but it leaks and brings water in: dry to constant mass again after it. Keep joints 10 "
    "mm (0.4 in) below the face or skim over all of it."
)

STEADY = HoldPoint(
    "Steady mass",
    "no more than {steady_loss:percent} between weighings {steady_wait:hours} apart or "
    "more, on a scale that shows half of that",
    "mass, time",
)


FACE_TO_SIZE = HoldPoint(
    "Face to size",
    "five to ten points and one length within a quarter of the tolerance",
    "sizes, temperature",
)


def _chips(key: str, label: str, cut: float, area: float, density: float) -> Finding:
    """Return what a volume cut away and a face sanded come to as chips and dust."""
    sanded = volumes.sanding_volume_m3(area, SANDED)
    return Finding(
        key,
        label,
        volumes.dust_mass_kg(cut + sanded, density),
        "kg",
        "ρ · (volume cut away + face · depth sanded)",
        judgement="watch",
        worked=worked(
            "{} · ({} + {} · {})",
            (density, "kg/m**3"),
            (cut, "m**3"),
            (area, "m**2"),
            (SANDED, "mm"),
        ),
    )


class MakingNumbers:
    """What comes off the block."""

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
        Tool(
            name=MATCH.name,
            form=MATCH.form & among("block", "pocketed", "board", "sheet", "core"),
            density=MATCH.density,
            owned=False,
        ),
    )
    @advice(
        id="MAKE-010",
        title="Plan for the chips and dust of one tool",
        reason=(
            "Cutting the face of {name} and sanding {sanded_depth:gap} off it turns about "
            "{value:mass} into chips and dust, to be caught at the cut; how much of it can "
            "be breathed is not known: have it measured, do not rely on this figure."
        ),
        limits=("sanded_depth", "base_thickness", "metal_wall"),
    )
    def dust_mass(
        self,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        name: str,
        form: str,
        density: float,
    ) -> Finding:
        size = (shape, side, length, width, depth, margin)
        cut = volumes.removed_volume_m3(*size)
        if form == "pocketed":
            cut += volumes.pocket_volume_m3(*size, BASE, WALL)
        area = volumes.sealed_area_m2(shape, length, width, depth, margin)
        return _chips("dust-mass", "Chips and dust from one tool", cut, area, density)


class PatternNumbers:
    """What comes off the pattern, where the tool is formed on one."""

    stage = "plan"

    @Rule(
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Tool(name=MATCH.name, needs_pattern=True, owned=False),
        Pattern(name=MATCH.pattern, density=MATCH.density),
    )
    @advice(
        id="MAKE-013",
        title="Plan for the chips and dust of the pattern",
        reason=(
            "{name} is formed on a pattern, and cutting that in {pattern} and sanding "
            "{sanded_depth:gap} off its face turns about {value:mass} into chips and dust, "
            "to be caught at the cut; how much of it can be breathed is not known: have "
            "it measured, do not rely on this figure."
        ),
        limits=("sanded_depth", "laminate_tool_margin"),
    )
    def pattern_dust_mass(
        self,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        name: str,
        pattern: str,
        density: float,
    ) -> Finding:
        other: volumes.Side = "male" if side == "female" else "female"
        size = (length, width, depth, PATTERN_MARGIN)
        cut = volumes.removed_volume_m3(shape, other, *size)
        area = volumes.sealed_area_m2(shape, *size)
        label = "Chips and dust from the pattern"
        return _chips("pattern-dust-mass", label, cut, area, density)

    @Rule(
        Tool(name=MATCH.name, form="laminate", owned=False, expansion=MATCH.growth),
        Pattern(name=MATCH.pattern, expansion=MATCH.pattern_growth, heat_c=MATCH.heat),
    )
    @advice(
        id="MAKE-023",
        title="Scale the pattern once more than the tool",
        reason=(
            "{name} sets on its pattern at about {heat:temperature}, at the size that "
            "{pattern} has grown to by then ({pattern_growth:expansion} against "
            "{growth:expansion}): the pattern's drawing is the tool's own, times {value:"
            "factor}; drying moves wood besides."
        ),
        cites=("thin-ring-statics",),
        limits=("room_temperature",),
    )
    def pattern_scale(
        self,
        name: str,
        growth: float,
        pattern: str,
        pattern_growth: float,
        heat: float,
    ) -> Finding:
        return Finding(
            "pattern-scale",
            "Scale of the pattern, over the tool's own drawing",
            expansion.scale_factor(pattern_growth, growth, heat, ROOM),
            "factor",
            "(1 + αt · ΔT) / (1 + αpattern · ΔT)",
        )


class DrawingSteps:
    """The size the tool is made to, before anything is bought."""

    stage = "plan"

    @Rule(
        Found(key="scale-factor", value=MATCH.scale),
        Found(key="growth", value=MATCH.growth),
        Tool(owned=False, name=MATCH.name, form=NE("plate")),
        TEST(lambda growth: abs(growth) >= GROWTH_WATCHED),
    )
    @advice(
        id="STEP-105",
        title="Scale the drawing",
        reason=(
            "Made to nominal size, the tool would give a part {growth:gap} long (minus: "
            "short), because {name} and the laminate grow differently."
        ),
        cites=("thin-ring-statics",),
        limits=("growth_watched",),
    )
    def scale_drawing(self, scale: float, growth: float, name: str) -> Step:
        return Step(
            "make-tool",
            "Multiply length, width and depth of the part's drawing by {scale:factor} for "
            "the tool; where a tool is formed on a pattern the pattern is made to the "
            "tool's drawing, times the scale of the pattern if one is given.",
            quantities=(Quantity("Scale", scale, "factor"),),
            hold_point=HoldPoint(
                "Scale in the cutting file, the print or the templates",
                "one known length equals drawing times scale",
                "length, file or template name",
            ),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name, needs_pattern=False),
        Sealing(id=NE("none"), name=MATCH.seal, build_m=MATCH.build),
    )
    @advice(
        id="STEP-107",
        title="Leave room for the seal",
        reason="{seal} builds {build:gap} on the face; the body is cut that much under.",
    )
    def leave_room_for_the_seal(self, name: str, seal: str, build: float) -> Step:
        return Step(
            "make-tool",
            "Offset the face of the drawing by {build:gap} into the tool.",
            quantities=(Quantity("Offset into the tool", build, "mm"),),
        )


class CoreSteps:
    """A core that the part goes all round: it is held, and drawn, by its ends."""

    stage = "plan"

    @Rule(
        Part(shape="closed", tool_side="male"),
        Bagging(name=MATCH.bag, margin_m=MATCH.margin),
        Tool(owned=False, name=MATCH.name),
    )
    @advice(
        id="STEP-103",
        title="Make the core longer than the part",
        reason=(
            "Plies cover {name} all round: only bare ends can carry it, and take seal, "
            "release and breather past the part."
        ),
    )
    def spare_length(self, bag: str, margin: float, name: str) -> Step:
        return Step(
            "make-tool",
            "On the drawing and in the order, let the core run at least {margin:length} "
            "past the part at either end.",
            quantities=(Quantity("Bare core at either end, at least", margin, "mm"),),
        )

    @Rule(
        Part(shape="closed", tool_side="male"),
        Route(construction="one-piece"),
        Tool(owned=False, name=MATCH.name),
    )
    @advice(
        id="STEP-104",
        title="Give the core something to be drawn by",
        reason=(
            "The part grips {name} on every side: there is no edge to wedge at, and a core "
            "pulled out of line jams."
        ),
    )
    def draw_by_the_end(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Let every taper run to one end. On the axis of the large end set a tapped "
            "insert for a draw bolt, or leave a shoulder that a puller can stand behind; "
            "in soft stock it is bonded deep, well past the end of the part.",
        )


class OwnedToolSteps:
    """A tool that is in the shop already."""

    stage = "plan"

    @Rule(Tool(owned=True, name=MATCH.name))
    @advice(
        id="STEP-109",
        title="Inspect the tool in stock",
        reason=(
            "A tool that has stood has been knocked, waxed and warmed since it was last "
            "true."
        ),
        cites=("part-cosmetics-article", "common-practice"),
    )
    def inspect_owned(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Look at the {name} under a low lamp, lay a straight edge on it in four "
            "directions, and read its record. Mark and mend what catches a fingernail.",
            does=("lifts",),
            hold_point=HoldPoint(
                "Tool true and whole",
                (
                    "flat face: no gap over 0.2 mm (8 mil) in 1 m (40 in) under the "
                    "straight edge"
                ),
                "gap",
            ),
        )


class StockSteps:
    """A tool cut from block, board or sheet."""

    stage = "plan"

    @Rule(
        Tool(
            owned=False,
            standard_sizes=False,
            name=MATCH.name,
            form=MATCH.form & among("block", "pocketed", "board", "sheet", "core"),
        ),
        Route(tools=MATCH.tools),
    )
    @advice(
        id="STEP-110",
        title="Read the sheet of the stock, and order one lot",
        reason=(
            "Grades under one name differ in strength, expansion and heat; the sheet of "
            "the lot decides, not this plan."
        ),
        cites=("polish-block-maker-en-771-4", "memory-tooling-board-sheets"),
    )
    def order_stock(self, name: str, form: str, tools: int) -> Step:
        return Step(
            "make-tool",
            "Order {name} for {tools:tools} from one lot; ask for density, strength, "
            "expansion, highest temperature and the safety data sheet. Refuse cracked or "
            "damaged stock.",
            does=("lifts",),
            hold_point=HoldPoint(
                "Sheet read: expansion and heat limit as planned",
                "within the ranges of this plan, else plan again",
                "lot number, expansion, limit",
            ),
        )

    @Rule(
        Tool(
            owned=False,
            standard_sizes=False,
            joint=among("bonded-blocks", "laminated-boards"),
            name=MATCH.name,
        ),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-122",
        title="Bond the blank with a joint that outlives the cure",
        reason=(
            "A joint weaker or softer than the block at {hot:temperature} opens, leaks "
            "and shows; one that is harder stands proud after sanding."
        ),
        cites=("bond-tests-nepal", "common-practice"),
        limits=("bake_hold",),
    )
    def bond_blank(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Where one piece is not enough: vacuum the mating faces, spread the adhesive "
            "over the whole joint, clamp square. " + ADHESIVE,
            does=("mixes-resin", "cleans-dust", "lifts"),
            hold_point=HoldPoint(
                "Joint full and cured",
                "squeeze-out all round, no gap to a 0.1 mm (4 mil) feeler",
                "adhesive, batch",
            ),
        )

    @Rule(
        Tool(owned=False, drying="bake-dry", dust="wood", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-125",
        title="Rough out, then dry to steady mass before the finish cut",
        reason=(
            "{name} shrinks by millimetres a metre as it dries, far more than heat moves "
            "it."
        ),
        cites=("mdf-industry-moisture", "mdf-mould-forum"),
        limits=("steady_loss", "steady_wait"),
    )
    def dry_board(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Rough out with about 3 mm (0.1 in) left, then hold at 60 to 80 °C (140 to "
            "176 °F), flat and weighted, until the mass is steady, a day or more; finish "
            "cut after that. Lead the air of the oven outdoors.",
            does=("cuts-tool", "cleans-dust", "heats", "heats-tool", "lifts"),
            hold_point=STEADY,
        )

    @Rule(
        Tool(
            owned=False,
            drying="condition",
            form=among("block", "board", "sheet"),
            name=MATCH.name,
        )
    )
    @advice(
        id="STEP-130",
        title="Relieve the blank before the finish cut",
        reason=(
            "Cast and bonded stock creeps when it is first warmed: warm it before it is "
            "cut to size."
        ),
    )
    def relieve_stress(self, name: str) -> Step:
        return Step(
            "make-tool",
            "With the dust held as for the finish cut, rough with about 1 mm (0.04 in) "
            "left, soak 4 to 8 h at the tool temperature plus 10 °C (18 °F) or the board's "
            "own limit, whichever is lower, cool slowly, then finish.",
            does=("cuts-tool", "cleans-dust", "heats", "heats-tool"),
        )

    @Rule(
        Tool(
            owned=False,
            form=among("block", "board", "sheet", "core"),
            dust=MATCH.dust & NE("metal"),
            name=MATCH.name,
        ),
        Shop(extraction=MATCH.extraction),
    )
    @advice(
        id="STEP-140",
        title="Cut the tool with the dust held at the cut",
        reason="Most of the dust of the whole job is made here, in one afternoon.",
    )
    def cut_tool(self, dust: str, name: str, extraction: str) -> Step:
        return Step(
            "make-tool",
            "Start the dust control before the cutter: extraction at the cut, or water "
            "where the block is mineral, does not dissolve and can be dried again. Rough "
            "with 1 mm (0.04 in) left, then finish with light cuts, exit edges backed. "
            "Leave extraction on after the cut; clean with the vacuum. Others stay out.",
            does=("cuts-tool", "cleans-dust", "lifts"),
            hold_point=FACE_TO_SIZE,
        )

    @Rule(
        Tool(
            owned=False, dust="silica", drying="bake-dry", washes_out=False, name=MATCH.name
        ),
        Shop(wet_cutting=True),
    )
    @advice(
        id="STEP-142",
        title="Dry again after wet cutting",
        reason="Water from the cut is back in {name}: sealed in, it turns to steam.",
        cites=("pore-steam-paper",),
        limits=("steady_loss", "steady_wait"),
    )
    def dry_after_wet_cut(self, name: str) -> Step:
        return Step(
            "make-tool",
            "If water was used at the cut, dry to constant mass once more before any seal.",
            does=("heats", "heats-tool", "heats-porous"),
            hold_point=replace(STEADY, check="Constant mass after wet cutting"),
        )

    @Rule(
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Tool(owned=False, form="pocketed", name=MATCH.name),
        TEST(lambda shape, side: not volumes.is_core(shape, side)),
    )
    @advice(
        id="STEP-145",
        title="Machine the tool and take its face to its finish",
        reason=(
            "Cutter marks on metal print into every part for the life of the tool; and a "
            "body of metal left whole takes days to warm, where a wall takes hours."
        ),
        cites=("composite-course", "moulded-finish-page", "common-practice"),
        limits=("metal_wall",),
    )
    def machine_metal(self, shape: str, side: str, name: str) -> Step:
        return Step(
            "make-tool",
            "Rough the face and pocket the back to an even wall of about "
            "{metal_wall:length}, ribs and feet left for stiffness; let the metal relax, "
            "finish cut, then polish along the draw with finer grits to the finish asked; "
            "round outer edges so that bag film is not cut. Bought machining gets this "
            "plan's scale, wall and finish with the order.",
            does=("cuts-tool", "lifts"),
            hold_point=FACE_TO_SIZE,
        )

    @Rule(
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Tool(owned=False, form="pocketed", name=MATCH.name),
        TEST(lambda shape, side: volumes.is_core(shape, side)),
    )
    @advice(
        id="STEP-146",
        title="Turn the core from tube, or bore it, and polish it along its axis",
        reason=(
            "The part slides off along the marks of polishing or hangs on those across; a "
            "core of metal left whole warms slowly and is heavy to draw."
        ),
        cites=("composite-course", "moulded-finish-page", "common-practice"),
        limits=("metal_wall",),
    )
    def machine_metal_core(self, shape: str, side: str, name: str) -> Step:
        return Step(
            "make-tool",
            "Take tube where there is one, or bore the bar, to a wall of "
            "{metal_wall:length} or less. Rough, let the metal relax, finish, then polish "
            "along the axis with finer grits; break every edge. Bought machining gets this "
            "plan's scale, wall and finish with the order.",
            does=("cuts-tool", "lifts"),
            hold_point=FACE_TO_SIZE,
        )

    @Rule(
        Route(construction="split"),
        Tool(owned=False, needs_pattern=False, name=MATCH.name),
    )
    @advice(
        id="STEP-147",
        title="Split the tool on the silhouette, and key it",
        reason=(
            "A joint off the silhouette leaves an undercut; one without keys comes back "
            "in another place."
        ),
        cites=("mould-textbook-chapter",),
    )
    def split_tool(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Split where the wall turns from the draw, away from the show face; flanges "
            "of at least 50 mm (2 in), two dowels or more, bolts every 100 to 150 mm (4 "
            "to 6 in); seal the joint outside the part.",
            does=("cuts-tool", "cleans-dust", "lifts", "closes-mould"),
            hold_point=HoldPoint(
                "Halves close on their dowels", "no step a fingernail finds", ""
            ),
        )

    @Rule(
        Tool(owned=False, brittle=True, soft=True, form="block", name=MATCH.name),
        Route(construction=among("one-piece", "loose-piece", "split")),
    )
    @advice(
        id="STEP-149",
        title="Break and harden the edges; keep the knife off",
        reason=(
            "Thin edges of {name} chip under bag, wedge and sanding block, and a knife "
            "cuts straight into it."
        ),
        cites=("block-government-guide", "block-masonry-article", "common-practice"),
    )
    def harden_edges(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Round every edge to at least 2 mm (0.08 in), more where a skin goes over it, "
            "saturate 5 to 10 mm (0.2 to 0.4 "
            "in) of it with thin epoxy, and let in wood or resin strips under tape and "
            "wedge lines. From here on no knife is used on the tool.",
            does=("sands-tool", "mixes-resin", "cleans-dust"),
        )


class FormedSteps:
    """A tool that is laid up, cast or printed."""

    stage = "plan"

    @Rule(
        Tool(owned=False, needs_pattern=True, name=MATCH.name),
        Pattern(name=MATCH.pattern, limit_c=MATCH.stands, heat_c=MATCH.heat),
    )
    @advice(
        id="STEP-143",
        title="Give the pattern a stiff frame before it is cut",
        reason=(
            "{pattern} that bends under vacuum, or warps while {name} hardens on it, "
            "prints its bend into the tool for good."
        ),
    )
    def frame_the_pattern(
        self, name: str, pattern: str, stands: float, heat: float
    ) -> Step:
        return Step(
            "make-tool",
            "Build a flat, stiff base with ribs, of stock that stands {heat:temperature} "
            "as well, wide enough for the flange of the tool and for a line of tape. Bond "
            "and screw what the pattern is cut from to it over its whole foot; leave no "
            "hollow closed under it: vacuum crushes what it cannot empty.",
            does=("makes-pattern", "mixes-resin", "lifts"),
            hold_point=HoldPoint(
                "Base flat and stiff",
                "no gap over 0.2 mm (8 mil) in 1 m (40 in) under the straight edge",
                "gap",
            ),
        )

    @Rule(
        Tool(owned=False, needs_pattern=True, name=MATCH.name),
        Pattern(
            name=MATCH.pattern,
            dust=NE("metal"),
            limit_c=MATCH.stands,
            heat_c=MATCH.heat,
        ),
    )
    @advice(
        id="STEP-150",
        title="Cut the pattern, seal it and release it",
        reason=(
            "{name} is formed on a pattern: every fault of the pattern is in the tool and "
            "in every part. It warms its pattern to about {heat:temperature}, and "
            "{pattern} is planned to {stands:temperature}."
        ),
        cites=("composite-course",),
        limits=("pattern_margin",),
    )
    def make_pattern(self, name: str, pattern: str, stands: float, heat: float) -> Step:
        return Step(
            "make-tool",
            f"Cut the pattern in {pattern} to the scaled drawing (a plaster's setting "
            "expansion taken off as well), with flanges and room to trim. Its sheet and "
            "that of its seal have to show {heat:temperature} and "
            "{pattern_margin:difference} more. Seal it, polish it to the finish of the "
            "part, release it, and peel a coupon before the tool goes on.",
            does=("makes-pattern", "mixes-resin", "uses-solvent", "lifts"),
            quantities=(Quantity("Pattern stands, planned", stands, "degC"),),
            hold_point=HoldPoint(
                "Pattern to size, sealed, released",
                "measured, coupon peeled; sheet stands the tool's heat",
                "sizes",
            ),
        )

    @Rule(
        Tool(owned=False, needs_pattern=True, name=MATCH.name),
        Pattern(
            name=MATCH.pattern,
            dust="metal",
            limit_c=MATCH.stands,
            heat_c=MATCH.heat,
        ),
    )
    @advice(
        id="STEP-153",
        title="Machine a master that stands the tool's first cure",
        reason=(
            "{name} first cures at about {heat:temperature}: board, and the seal on it, "
            "softens long before; {pattern} is planned to {stands:temperature}."
        ),
        cites=("tooling-laminate-article", "composite-course"),
        limits=("pattern_margin",),
    )
    def make_hot_master(self, name: str, pattern: str, stands: float, heat: float) -> Step:
        return Step(
            "make-tool",
            f"Have the master cut in {pattern} to a drawing of its own: it grows more than "
            "the tool up to the first cure, and the tool sets at that size. Flanges and "
            "room to trim; no seal, but a face polished to the finish of the part. Release "
            "it with what stands {heat:temperature} and {pattern_margin:difference} more, "
            "and peel a coupon cured at that heat before the tool goes on.",
            does=("makes-pattern", "uses-solvent", "lifts"),
            quantities=(Quantity("Master stands, planned", stands, "degC"),),
            hold_point=HoldPoint(
                "Master to size, polished, released",
                "measured; coupon cured and peeled",
                "sizes, temperature",
            ),
        )

    @Rule(
        Route(construction="split"), Tool(owned=False, needs_pattern=True, name=MATCH.name)
    )
    @advice(
        id="STEP-155",
        title="Set the split on the pattern",
        reason=(
            "A split is built in halves against a parting board; cut later it never closes."
        ),
        cites=("mould-textbook-chapter",),
    )
    def split_on_pattern(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Fit a released parting board on the silhouette, away from the show face; "
            "make the first half with its flange of at least 50 mm (2 in), then the "
            "second against it; drill for two dowels or more and bolts every 100 to 150 "
            "mm (4 to 6 in) before they are parted.",
            does=("makes-pattern", "lifts", "closes-mould"),
            hold_point=HoldPoint(
                "Halves close on their dowels", "no step a fingernail finds", ""
            ),
        )

    @Rule(
        Tool(owned=False, form="laminate", name=MATCH.name),
        Pattern(name=MATCH.pattern, dust=NE("metal"), heat_c=MATCH.heat),
    )
    @advice(
        id="STEP-160",
        title="Lay up the tool, and give it its first cure on the pattern",
        reason=(
            "A tool laminate gets a low first cure, {heat:temperature} or so, that "
            "{pattern} stands; what the parts need comes later, off the pattern."
        ),
        cites=("tooling-laminate-article", "debulk-article"),
    )
    def lay_up_tool(self, name: str, pattern: str, heat: float) -> Step:
        return Step(
            "make-tool",
            LAID_UP
            + "First cure on the pattern as the tooling prepreg's sheet says, no hotter "
            "than the pattern stands, " + KEPT,
            does=(
                "handles-prepreg",
                "mixes-resin",
                "heats",
                "heats-tool",
                "heats-pattern",
                "heats-bag",
                "pulls-vacuum",
                "lifts",
            ),
            quantities=(Quantity("First cure, planned", heat, "degC"),),
            hold_point=HoldPoint(
                "First cure as the sheet asks", "time and temperature on the chart", "chart"
            ),
        )

    @Rule(
        Tool(owned=False, form="laminate", name=MATCH.name),
        Pattern(name=MATCH.pattern, dust="metal", heat_c=MATCH.heat),
    )
    @advice(
        id="STEP-162",
        title="Lay up the tool on its master, and give it its first cure there",
        reason=(
            "{name} first cures at about {heat:temperature}, hotter than parts that want "
            "it often are; it sets at the size that {pattern} has then."
        ),
        cites=("tooling-laminate-article", "debulk-article"),
    )
    def lay_up_hot_tool(self, name: str, pattern: str, heat: float) -> Step:
        return Step(
            "make-tool",
            LAID_UP
            + "First cure on the released master as the tooling prepreg's sheet says, "
            + KEPT,
            does=(
                "handles-prepreg",
                "mixes-resin",
                "heats",
                "heats-tool",
                "heats-bag",
                "pulls-vacuum",
                "lifts",
            ),
            quantities=(Quantity("First cure, planned", heat, "degC"),),
            hold_point=HoldPoint(
                "First cure as the sheet asks", "time and temperature on the chart", "chart"
            ),
        )

    @Rule(
        Tool(owned=False, form="laminate", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-183",
        title="Bond the frame on before the shell leaves what it was made on",
        reason=(
            "{name} after its first cure is soft and thin: taken off bare it springs, and "
            "a frame bonded on later holds it out of shape."
        ),
    )
    def frame_the_shell(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Build ribs of the same laminate, slotted into each other, with feet in one "
            "plane; a frame of metal or wood grows otherwise and pulls. Join them to the "
            "back with strips of laminate, not with a thick line of glue that prints, "
            "using a resin that goes through the whole post-cure. Then free the edge all "
            "round and lift the shell off by its frame.",
            does=(
                "cuts-tool",
                "cleans-dust",
                "mixes-resin",
                "handles-prepreg",
                "demoulds",
                "lifts",
            ),
            hold_point=HoldPoint(
                "Frame on, feet in one plane", "no rocking; no print on the face", "gap"
            ),
        )

    @Rule(
        Tool(owned=False, form="laminate", name=MATCH.name),
        Pattern(heat_c=MATCH.heat),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-193",
        title="Post-cure the tool standing free, step by step",
        reason=(
            "From the {heat:temperature} of the first cure the glass transition has to be "
            "walked up past the {hot:temperature} of the parts; heated faster than it "
            "rises, {name} bends."
        ),
        cites=("tooling-laminate-article", "post-cure-article", "common-practice"),
        limits=(
            "post_cure_over",
            "post_cure_step",
            "post_cure_hold",
            "post_cure_ramp",
            "room_temperature",
        ),
    )
    def post_cure_tool(self, name: str, heat: float, hot: float) -> Step:
        top = max(heat, hot + OVER)
        stairs = post_cure.stairs_c(heat, top, STAIR)
        hours = post_cure.hours_in_oven(ROOM, heat, top, STAIR, HELD, CLIMB)
        listed = ", ".join(STYLES["temperature"](one) for one in stairs)
        return Step(
            "make-tool",
            "Stand the shell on its frame, unbagged, the cut-out set again for the tool by "
            "itself. Heat no faster than "
            f"{STYLES['ramp'](CLIMB)} in steps of {STYLES['difference'](STAIR)} or less, "
            f"{STYLES['hours'](HELD)} or more at each: {listed}; hold the last as the "
            "sheet says, or go to the last step of the sheet if that is hotter. Cool as "
            "slowly, the oven shut. Trim the flange after that.",
            does=("heats", "heats-tool", "cuts-tool", "cleans-dust", "lifts"),
            quantities=(
                Quantity("Last step, at least", top, "degC"),
                Quantity("Ramp, at most", CLIMB, "delta_degC/min"),
                Quantity("In the oven, heating and cooling included, at least", hours, "h"),
            ),
            hold_point=HoldPoint(
                "Post-cured above the part's cure before the first part",
                "chart shows the last step; no print on the face",
                "chart number",
            ),
        )

    @Rule(
        Tool(
            owned=False,
            form="cast",
            family=among("gypsum", "ceramic-gypsum"),
            name=MATCH.name,
        )
    )
    @advice(
        id="STEP-165",
        title="Cast the tool and let it set",
        reason=(
            "{name} is cast on its pattern: water and mix decide strength, and setting "
            "swells it a little."
        ),
        cites=("plaster-mixing-page", "gypsum-properties-page"),
    )
    def cast_tool(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Weigh powder and water as the sheet says, soak, stir, pour in one go, let it "
            "set and cool on the pattern. Measure the cast and write its setting "
            "expansion down.",
            does=("cleans-dust", "demoulds", "lifts"),
        )

    @Rule(Tool(owned=False, family="gypsum", name=MATCH.name))
    @advice(
        id="STEP-167",
        title="Dry the plaster warm, not hot",
        reason=(
            "From about 40 to 50 °C (104 to 122 °F) plaster begins to lose the water that "
            "binds it."
        ),
        cites=("gypsum-drying-paper", "clay-forum-plaster"),
        limits=("steady_loss", "steady_wait"),
    )
    def dry_plaster(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Dry at 40 to 45 °C (104 to 113 °F) with moving air to steady mass; the first "
            "cure is the first time it goes higher, unbagged and slowly.",
            does=("heats", "heats-tool", "heats-porous", "lifts"),
            hold_point=STEADY,
        )

    @Rule(
        Tool(owned=False, family="ceramic-gypsum", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-168",
        title="Bake the cast in stages",
        reason=(
            "Water bound in {name} leaves in the bake; left in, it leaves in the first "
            "cure."
        ),
        cites=("memory-plaster-handbook", "pore-steam-paper"),
        limits=("steady_loss", "steady_wait"),
    )
    def bake_cast(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Dry at 45 °C (113 °F), then raise in stages as its sheet says to above the "
            "tool temperature of {hot:temperature}, unsealed and unbagged, to steady mass.",
            does=("heats", "heats-tool", "heats-porous", "lifts"),
            hold_point=STEADY,
        )

    @Rule(Tool(owned=False, family="castable-ceramic", name=MATCH.name))
    @advice(
        id="STEP-163",
        title="Cast the ceramic wet on a sealed pattern, and keep it wet while it sets",
        reason=(
            "Water beyond what the sheet of {name} asks for leaves pores and takes its "
            "strength; a dry pattern drinks it out of the face."
        ),
        cites=("memory-refractory-sheets", "common-practice"),
    )
    def cast_ceramic(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Weigh powder and water as the sheet says; tip the powder low and slowly under "
            "extraction. Mix, tap or shake the air out, pour in one go from one side, and "
            "cover it wet for as long as the sheet says. The mix is alkaline: gloves and "
            "goggles. Take it off the pattern whole, never by prying at an edge.",
            does=("cleans-dust", "mixes-cement", "demoulds", "lifts"),
            hold_point=HoldPoint(
                "Cast set and measured",
                "no crack; bubbles at the face marked to be filled",
                "mix, water, sizes",
            ),
        )

    @Rule(
        Tool(owned=False, family="castable-ceramic", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-172",
        title="Bake the ceramic in stages before it is sealed",
        reason=(
            "{name} holds free water and water bound in its cement: heated fast, or sealed "
            "in, it turns to steam and bursts the cast."
        ),
        cites=("castable-drying-forum", "memory-refractory-sheets", "pore-steam-paper"),
        limits=("steady_loss", "steady_wait"),
    )
    def bake_ceramic(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "After about three days in air, unsealed and unbagged on bars: up slowly, hold "
            "overnight just over 100 °C (212 °F), again at 150 °C (302 °F), then in stages "
            "as its sheet says to above the tool temperature of {hot:temperature}, to "
            "steady mass; cool with the door shut.",
            does=("heats", "heats-tool", "heats-porous", "lifts"),
            hold_point=STEADY,
        )

    @Rule(Tool(owned=False, family="printed-sand", name=MATCH.name))
    @advice(
        id="STEP-173",
        title="Infiltrate the printed sand right through, and post-cure it",
        reason=(
            "As printed, sand is open from face to back and crumbles: only the resin that "
            "soaks it gives strength and holds vacuum, and it soaks about 20 mm (0.8 in) "
            "of wall without vacuum."
        ),
        cites=("printed-sand-infiltration", "printed-sand-paper", "common-practice"),
    )
    def infiltrate_sand(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Have it printed to the scaled drawing, hollow or ribbed, walls 20 mm (0.8 in) "
            "or less, the back supported. Take loose sand off with an H-class or HEPA "
            "vacuum cleaner and a brush held in its mouth, never with compressed air. "
            "Brush on a thin epoxy whose glass transition, post-cured, is 20 °C (36 °F) "
            "above the tool temperature, until the back is wet through too; wipe off what "
            "stands on the face. Harden, post-cure unbagged in steps as the resin's sheet "
            "says, then sand wet.",
            does=(
                "cleans-dust",
                "mixes-resin",
                "coats",
                "heats",
                "heats-tool",
                "sands-tool",
                "cuts-tool",
                "lifts",
            ),
            hold_point=HoldPoint(
                "Soaked through and post-cured",
                "back dark all over; a cut through a witness bar shows no dry middle",
                "resin, mass before and after, chart",
            ),
        )

    @Rule(Tool(owned=False, family="printed-thermoplastic", name=MATCH.name))
    @advice(
        id="STEP-170",
        title="Print the tool thick enough to hold vacuum",
        reason="Gas goes between the roads of a print: walls, not fill, hold the bag.",
        cites=("printed-tooling-guide", "common-practice"),
    )
    def print_tool(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Dry the filament, print with at least four walls to the scaled drawing, "
            "support the back fully, and soak it once unbagged at the tool temperature.",
            does=("heats", "heats-tool", "sands-tool", "cleans-dust"),
        )


class ProvingSteps:
    """What is proved before prepreg touches the tool."""

    stage = "plan"

    @Rule(Bagging(needs_tight_tool=True), Tool(name=MATCH.name))
    @advice(
        id="STEP-310",
        title="Leak test the tool alone",
        reason=(
            "A leak in the tool looks like a leak in the bag, and is looked for there for "
            "hours."
        ),
        cites=("army-composites-manual",),
        limits=("leak_drop",),
    )
    def leak_test_tool(self, name: str) -> Step:
        return Step(
            "prove",
            (
                "Bag the empty tool, solid film and breather between its face and the bag, "
                "pull full vacuum, shut the pump off, read for ten minutes."
            ),
            does=("pulls-vacuum",),
            hold_point=HoldPoint(
                "Tool holds vacuum",
                "no more than {leak_drop:vacuum} lost in a minute",
                "readings",
            ),
        )

    @Rule(
        Tool(owned=False, tightness=NE("tight"), name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="trip-setting", value=MATCH.trip),
    )
    @advice(
        id="STEP-320",
        title="Run one empty cycle and measure again",
        reason=(
            "What the first heat moves, cracks or blisters, it should do without a part "
            "on it."
        ),
        cites=("mdf-mould-forum", "common-practice"),
    )
    def empty_cycle(self, name: str, hot: float, trip: float) -> Step:
        return Step(
            "prove",
            "Bag the finished tool empty, solid film and breather between its face and the "
            "bag. Cold, tap it all over and listen, and read the leak rate: pump off, ten "
            "minutes. Set the cut-out for a bagged load, {trip:temperature} or less, and "
            "run the whole cycle to {hot:temperature}, slowly up and down. Cold again, "
            "measure the same points as before, tap, and read the leak rate once more.",
            does=(
                "heats",
                "heats-tool",
                "heats-porous",
                "heats-bag",
                "pulls-vacuum",
                "lifts",
            ),
            hold_point=HoldPoint(
                "Same size, no crack, no blister",
                "no point moved more than half the tolerance; same ring, same leak rate",
                "sizes and leak rate before and after",
            ),
        )
