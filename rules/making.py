"""Making the tool: blank, drying, joints, scale, cut, edges; and the dust volume."""

from advisor.calculations import volumes
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Bagging, Found, Part, Route, Sealing, Shop, Tool
from advisor.reasoning.rulebook import advice

BASE = limit("base_thickness")
GROWTH_WATCHED = limit("growth_watched")


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
            form=MATCH.form & among("block", "board", "sheet", "cast", "core"),
            density=MATCH.density,
            owned=False,
        ),
    )
    @advice(
        id="MAKE-010",
        title="Plan for the chips and dust of one tool",
        reason=(
            "Cutting the face of {name} turns about {value:mass} into chips and dust, to "
            "be caught at the cut; how much of it can be breathed is not known: have it "
            "measured, do not rely on this figure."
        ),
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
        cut = volumes.removed_volume_m3(shape, side, length, width, depth, margin)
        mass = volumes.dust_mass_kg(cut, density) if cut > 0 else 0.0
        return Finding(
            "dust-mass",
            "Chips and dust from one tool",
            mass,
            "kg",
            "ρ · volume cut away",
            judgement="watch",
        )


class MakingSteps:
    """The tool as work on the bench."""

    stage = "plan"

    @Rule(Tool(owned=True, name=MATCH.name))
    @advice(
        id="STEP-105",
        title="Inspect the tool in stock",
        reason=(
            "A tool that has stood has been knocked, waxed and warmed since it was last "
            "true."
        ),
    )
    def inspect_owned(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Look at {name} under a low lamp, lay a straight edge on it in four "
            "directions, and read its record. Mark and mend what catches a fingernail.",
            does=("lifts",),
            hold_point=HoldPoint(
                "Tool flat and whole",
                "no gap over 0.2 mm (8 mil) in 1 m (40 in) under the straight edge",
                "gap",
            ),
        )

    @Rule(
        Tool(owned=False, drying="bake-dry", dust=NE("wood"), name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-120",
        title="Dry the block to constant mass before the finish cut",
        reason=(
            "Damp {name} shrinks on its first heat by as much as it later grows, and "
            "water sealed in turns to steam: dry first, cut after, seal last."
        ),
        cites=("block-moisture-page", "pore-steam-paper"),
    )
    def dry_block(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Rough cut, then dry unbagged and unsealed with air all round: first at 60 °C "
            "(140 °F), then up to the tool temperature of {hot:temperature}, slowly. "
            "Weigh every few hours.",
            does=("heats", "heats-porous", "lifts"),
            hold_point=HoldPoint(
                "Constant mass",
                "two weighings an hour apart differ by less than 0.1 %",
                "mass, temperature, time",
            ),
        )

    @Rule(
        Tool(owned=False, drying="bake-dry", dust="wood", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-125",
        title="Dry the board to steady mass before the finish cut",
        reason=(
            "{name} shrinks by millimetres a metre as it dries, far more than heat moves "
            "it."
        ),
        cites=("mdf-industry-moisture", "mdf-mould-forum"),
    )
    def dry_board(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Glue up and rough out, then hold at 60 to 80 °C (140 to 176 °F) until the "
            "mass is steady, flat and weighted, about a day; finish cut after that. "
            "Ventilate the oven outdoors.",
            does=("heats", "lifts"),
            hold_point=HoldPoint("Steady mass", "less than 0.1 % in an hour", "mass, time"),
        )

    @Rule(Tool(owned=False, drying="condition", needs_pattern=False, name=MATCH.name))
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
            "Rough with about 1 mm (0.04 in) left, soak 4 to 8 h at the tool temperature "
            "plus 10 °C (18 °F) or the board's own limit, whichever is lower, cool "
            "slowly, then finish.",
            does=("heats", "cuts-tool"),
        )

    @Rule(Tool(owned=False, needs_pattern=True, name=MATCH.name))
    @advice(
        id="STEP-150",
        title="Make the pattern first",
        reason=(
            "{name} is formed on a pattern: every fault of the pattern is in the tool and "
            "in every part."
        ),
    )
    def make_pattern(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Cut the pattern oversize by the scale of the tool, in stock that stands the "
            "tool's first cure, seal it, polish it to the finish of the part, release it, "
            "and make a coupon before the tool goes on.",
            does=("cuts-tool", "sands-tool", "mixes-resin"),
            hold_point=HoldPoint(
                "Pattern to size, sealed, released", "measured, coupon peeled", "sizes"
            ),
        )

    @Rule(
        Tool(owned=False, form="laminate", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-160",
        title="Lay up the tool and post-cure it standing free",
        reason=(
            "A tool laminate gets a low first cure on the pattern and then stands free "
            "while its glass transition is walked up past the {hot:temperature} of the "
            "parts."
        ),
        cites=("tooling-laminate-article", "debulk-article", "post-cure-article"),
    )
    def lay_up_tool(self, name: str, hot: float) -> Step:
        return Step(
            "make-tool",
            "Balanced lay-up with a flange all round; debulk the first ply and every "
            "third. First cure on the pattern as the tooling prepreg's sheet says (about "
            "50 to 65 °C, 122 to 149 °F), then off the pattern on its frame in steps, at "
            "10 °C (18 °F) an hour or slower, to at least 20 °C (36 °F) above the tool "
            "temperature of {hot:temperature}.",
            does=("handles-prepreg", "mixes-resin", "heats", "pulls-vacuum", "lifts"),
            hold_point=HoldPoint(
                "Post-cured above the part's cure before the first part",
                "chart shows the last step; no print on the face",
                "chart number",
            ),
        )

    @Rule(Tool(owned=False, form="cast", name=MATCH.name))
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
            "set and cool on the pattern. Measure the cast: setting expansion belongs in "
            "the scale.",
            does=("cleans-dust", "lifts"),
        )

    @Rule(Tool(owned=False, form="printed", name=MATCH.name))
    @advice(
        id="STEP-170",
        title="Print the tool thick enough to hold vacuum",
        reason="Gas goes between the roads of a print: walls, not fill, hold the bag.",
        cites=("printed-tooling-guide", "common-practice"),
    )
    def print_tool(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Dry the filament, print with at least four walls and the scale of this plan, "
            "support the back fully, and soak it once unbagged at the tool temperature.",
            does=("heats", "sands-tool"),
        )

    @Rule(
        Found(key="scale-factor", value=MATCH.scale),
        Found(key="growth", value=MATCH.growth),
        Tool(owned=False, name=MATCH.name),
        Sealing(build_m=MATCH.build),
        TEST(lambda growth: abs(growth) >= GROWTH_WATCHED),
    )
    @advice(
        id="STEP-180",
        title="Cut to the scaled drawing, under by the build of the seal",
        reason=(
            "Cut to nominal the part would come out {growth:gap} long; the face is cut "
            "{build:gap} under so that the seal brings it back."
        ),
        cites=("thin-ring-statics",),
        limits=("growth_watched",),
    )
    def scaled_cut(self, scale: float, growth: float, name: str, build: float) -> Step:
        return Step(
            "make-tool",
            "Scale the drawing of the part by {scale:factor} in length, width and depth, "
            "then offset the face by {build:gap} into the tool.",
            quantities=(
                Quantity("Scale", scale, "1"),
                Quantity("Offset into the tool", build, "mm"),
            ),
            hold_point=HoldPoint(
                "Scale and offset in the cutting file",
                "one known length on the file equals drawing times scale",
                "length, file name",
            ),
        )

    @Rule(
        Found(key="growth", value=MATCH.growth),
        Tool(owned=False, name=MATCH.name),
        Sealing(build_m=MATCH.build),
        TEST(lambda growth: abs(growth) < GROWTH_WATCHED),
    )
    @advice(
        id="STEP-185",
        title="Cut to the drawing, under by the build of the seal",
        reason="Growth over the part is only {growth:gap}, so the drawing is not scaled.",
        cites=("thin-ring-statics",),
        limits=("growth_watched",),
    )
    def plain_cut(self, growth: float, name: str, build: float) -> Step:
        return Step(
            "make-tool",
            "Cut to the drawing with the face offset {build:gap} into the tool.",
            quantities=(Quantity("Offset into the tool", build, "mm"),),
        )

    @Rule(
        Tool(
            owned=False,
            form=MATCH.form & among("block", "board", "sheet", "core"),
            name=MATCH.name,
        ),
        Shop(machining=MATCH.machining),
    )
    @advice(
        id="STEP-190",
        title="Cut the tool with the dust held at the cut",
        reason="Most of the dust of the whole job is made here, in one afternoon.",
    )
    def cut_tool(self, form: str, name: str, machining: str) -> Step:
        return Step(
            "make-tool",
            "Start the extraction or the water before the cutter; rough with 1 mm (0.04 "
            "in) left, then finish with light cuts, exit edges backed. Leave extraction "
            "on after the cut; clean with the vacuum or wet wipes. Others stay out.",
            does=("cuts-tool", "cleans-dust", "lifts"),
            hold_point=HoldPoint(
                "Face to size",
                "five to ten points and one length within a quarter of the tolerance",
                "sizes, temperature",
            ),
        )

    @Rule(Tool(owned=False, dust="metal", form="block", name=MATCH.name))
    @advice(
        id="STEP-192",
        title="Take the machined face to its finish",
        reason="Cutter marks on metal print into every part for the life of the tool.",
    )
    def finish_metal(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Polish along the draw, finer grits to the finish asked; round outer edges so "
            "that bag film does not cut.",
            does=("sands-tool",),
        )

    @Rule(Tool(owned=False, brittle=True, soft=True, name=MATCH.name))
    @advice(
        id="STEP-195",
        title="Break and harden the edges; keep the knife off",
        reason=(
            "Thin edges of {name} chip under bag, wedge and sanding block, and a knife "
            "cuts it like cheese."
        ),
    )
    def harden_edges(self, name: str) -> Step:
        return Step(
            "make-tool",
            "Round every edge to at least 2 mm (0.08 in), saturate 5 to 10 mm (0.2 to 0.4 "
            "in) of it with thin epoxy, and let in wood or resin strips under tape and "
            "wedge lines. From here on nothing is cut on the tool.",
            does=("sands-tool", "mixes-resin", "cleans-dust"),
        )

    @Rule(Route(construction="split"), Tool(owned=False, name=MATCH.name))
    @advice(
        id="STEP-197",
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
            does=("lifts",),
            hold_point=HoldPoint(
                "Halves close on their dowels", "no step a fingernail finds", "initials"
            ),
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
                "Bag the empty tool, pull full vacuum, shut the pump off, read for ten "
                "minutes."
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
    def empty_cycle(self, name: str, hot: float) -> Step:
        return Step(
            "prove",
            "Bag the finished tool empty and run the whole cycle to {hot:temperature}, "
            "slowly up and down. Cold, measure the same points as before.",
            does=("heats", "heats-porous", "pulls-vacuum", "lifts"),
            hold_point=HoldPoint(
                "Same size, no crack, no blister",
                "no point moved more than half the tolerance",
                "sizes before and after",
            ),
        )
