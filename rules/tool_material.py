"""Which tool materials stand: heat and time, growth, crushing, removal, means, shape."""

from advisor.calculations import expansion, strength
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import Doubtful, Finding, Good, RuledOut
from advisor.reasoning.expert import GE, LT, MATCH, NE, NOT, TEST, Rule, among
from advisor.reasoning.facts import (
    Cure,
    Found,
    Laminate,
    Need,
    Part,
    Run,
    Shop,
    Tool,
)
from advisor.reasoning.rulebook import RuleBody, advice

FEW = limit("short_use_parts")
MARGIN = limit("temperature_margin")
WOOD_DRIES = limit("wood_dries")
ROOM = limit("room_temperature")
LOCK_UNCERTAINTY = limit("lock_uncertainty")
GROWTH_WATCHED = limit("growth_watched")
LEFT_HOT = limit("strength_left_hot")
SOFTENING = ("polymer", "wood", "carbon")
LEAST_FACTOR = limit("bearing_factor_least")
EASY_FACTOR = limit("bearing_factor_easy")
BRITTLE_RADIUS = limit("brittle_radius")
HALF_USED = limit("tolerance_share")


def warmed(growth: float, hot: float) -> tuple[tuple[float, str], tuple[float, str]]:
    """Return growth and warming as the two figures of a worked line."""
    return (growth, "um/(m*K)"), (hot - ROOM, "K")


class Heat:
    """What the cure temperature leaves standing."""

    stage = "tool"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, short_limit_c=MATCH.stop),
        TEST(lambda hot, stop: hot > stop),
    )
    @advice(
        id="TOOL-010",
        title="Do not heat this material so far",
        reason=(
            "{name} must never be taken above {stop:temperature}; the tool sees "
            "{hot:temperature}."
        ),
        cites=("prepreg-makers-guide", "layup-tooling-slides"),
    )
    def too_hot(self, name: str, hot: float, stop: float) -> RuledOut:
        return RuledOut("a tool temperature of {stop:temperature} or less")

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, service_limit_c=MATCH.service, short_limit_c=MATCH.stop),
        Run(parts=MATCH.parts & GE(FEW + 1)),
        TEST(lambda hot, service, stop: service < hot <= stop),
    )
    @advice(
        id="TOOL-020",
        title="Do not use this material so hot for a run",
        reason=(
            "{name} serves to {service:temperature}; at {hot:temperature} it is past that, "
            "where at most {short_use_parts:parts} are tried after an empty cycle, and "
            "{parts} are wanted."
        ),
        cites=("prepreg-makers-guide", "layup-tooling-slides"),
        limits=("short_use_parts",),
    )
    def too_hot_for_the_run(
        self, name: str, hot: float, service: float, stop: float, parts: int
    ) -> RuledOut:
        return RuledOut(
            "a tool temperature of {service:temperature} or less, or a run of "
            "{short_use_parts:parts}"
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, service_limit_c=MATCH.service, short_limit_c=MATCH.stop),
        Run(parts=MATCH.parts & LT(FEW + 1)),
        TEST(lambda hot, service, stop: service < hot <= stop),
    )
    @advice(
        id="TOOL-030",
        title="Try this material empty before trusting it so hot",
        reason=(
            "{name} serves to {service:temperature} and is pushed to {hot:temperature} "
            "for {parts:parts}: it may warp, crack or let go."
        ),
        cites=("open-tooling-article", "mdf-mould-forum", "common-practice"),
        limits=("short_use_parts",),
    )
    def pushed_for_a_few(
        self, name: str, hot: float, service: float, stop: float, parts: int
    ) -> Doubtful:
        return Doubtful(
            "The tool keeps its shape through one full empty cycle at {hot:temperature}.",
            "bag the tool empty, run the whole cycle, measure before and after",
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, service_limit_c=MATCH.service),
        TEST(lambda hot, service: hot <= service - MARGIN),
    )
    @advice(
        id="TOOL-040",
        title="Use it: the heat is well within its range",
        reason=(
            "{name} serves to {service:temperature}, at least "
            "{temperature_margin:difference} above the {hot:temperature} it will see."
        ),
        cites=("prepreg-makers-guide", "glass-mould-forum"),
        limits=("temperature_margin",),
    )
    def heat_to_spare(self, name: str, hot: float, service: float) -> Good:
        return Good()

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot & GE(WOOD_DRIES)),
        Tool(name=MATCH.name, dust="wood", service_limit_c=MATCH.service),
        TEST(lambda hot, service: hot <= service),
    )
    @advice(
        id="TOOL-050",
        title="Prove that the wood keeps its shape as it dries",
        reason=(
            "{name} loses its last water at {hot:temperature}; sheets shrink, check and "
            "curl more from drying than from heat."
        ),
        cites=("mdf-mould-forum", "mdf-industry-moisture"),
        limits=("wood_dries",),
    )
    def wood_dries_out(self, name: str, hot: float, service: float) -> Doubtful:
        return Doubtful(
            "The dried and sealed wood tool holds its size through an empty cycle.",
            "dry to steady mass, seal all faces, run one empty cycle, measure",
        )


class Growth:
    """How much longer the part comes out, and whether a scale factor mends it."""

    stage = "tool"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Part(length_m=MATCH.length),
        Found(key="part-expansion", value=MATCH.part_growth),
        Tool(name=MATCH.name, expansion=MATCH.tool_growth),
    )
    @advice(
        id="TOOL-110",
        title="Work out how much longer the part comes out",
        reason=(
            "{name} grows {tool_growth:expansion} and the laminate "
            "{part_growth:expansion}; over {length:length} at {hot:temperature} the part "
            "comes out {value:gap} long if the tool is cut to nominal size."
        ),
        cites=("thin-ring-statics",),
        limits=("room_temperature", "growth_watched"),
    )
    def growth(
        self, name: str, hot: float, length: float, part_growth: float, tool_growth: float
    ) -> Finding:
        value = expansion.growth_mismatch_m(length, tool_growth, part_growth, hot, ROOM)
        return Finding(
            "growth",
            "Growth of the part over nominal",
            value,
            "mm",
            "L · (1/S − 1)",
            limit=GROWTH_WATCHED,
            judgement="ok" if abs(value) < GROWTH_WATCHED else "watch",
            worked=worked(
                "{} · ((1 + {} · {}) / (1 + {} · {}) − 1)",
                (length, "mm"),
                *warmed(tool_growth, hot),
                *warmed(part_growth, hot),
            ),
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="part-expansion", value=MATCH.part_growth),
        Tool(name=MATCH.name, expansion=MATCH.tool_growth),
    )
    @advice(
        id="TOOL-120",
        title="Work out the factor to cut the tool by",
        reason=(
            "Cut {value:factor} times the drawing, {name} grows to size by "
            "{hot:temperature}."
        ),
        cites=("thin-ring-statics",),
        limits=("room_temperature",),
    )
    def scale_factor(
        self, name: str, hot: float, part_growth: float, tool_growth: float
    ) -> Finding:
        value = expansion.scale_factor(tool_growth, part_growth, hot, ROOM)
        return Finding(
            "scale-factor",
            "Scale of the tool",
            value,
            "factor",
            "S = (1 + αp · ΔT) / (1 + αt · ΔT)",
            worked=worked(
                "(1 + {} · {}) / (1 + {} · {})",
                *warmed(part_growth, hot),
                *warmed(tool_growth, hot),
            ),
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Part(
            shape=NE("flat"),
            length_m=MATCH.length,
            tolerance_over_m=MATCH.over,
            tolerance_m=MATCH.tolerance,
        ),
        Found(
            key="part-expansion",
            value=MATCH.part_growth,
            low=MATCH.part_low,
            high=MATCH.part_high,
        ),
        Tool(
            id=MATCH.id,
            name=MATCH.name,
            expansion=MATCH.growth,
            expansion_low=MATCH.low_growth,
            expansion_high=MATCH.high_growth,
        ),
    )
    @advice(
        id="TOOL-130",
        title="Hold the error left after scaling against the tolerance",
        reason=(
            "After scaling, {value:gap} may be left over {over:length} on {name}, from "
            "what is not known of its expansion and of the temperature at which the part "
            "locks on; the tolerance is {tolerance:gap}."
        ),
        cites=("thin-ring-statics",),
        limits=("lock_uncertainty", "room_temperature", "tolerance_share"),
    )
    def left_after_scaling(
        self,
        id: str,
        name: str,
        hot: float,
        length: float,
        over: float,
        tolerance: float,
        part_growth: float,
        part_low: float,
        part_high: float,
        growth: float,
        low_growth: float,
        high_growth: float,
    ) -> RuleBody:
        left = expansion.residual_mismatch_m(
            min(length, over),
            low_growth,
            high_growth,
            growth,
            part_low,
            part_high,
            part_growth,
            hot,
            LOCK_UNCERTAINTY,
            ROOM,
        )
        ratio = left / tolerance
        finding = Finding(
            "residual-growth",
            "Error of length left after scaling, at most",
            left,
            "mm",
            "worst corner of αt, αp and lock temperature",
            limit=tolerance,
            judgement="ok" if ratio <= HALF_USED else "watch" if ratio <= 1 else "fail",
        )
        if ratio <= 1:
            return finding
        return [
            finding,
            RuledOut(
                "a tolerance of {value:gap}, or a measured expansion of the stock in hand"
            ),
        ]


class Strength:
    """Whether the body carries the pressure of the cure."""

    stage = "tool"

    @Rule(
        Found(key="cure-pressure", value=MATCH.pressure),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(
            name=MATCH.name,
            dust=MATCH.dust,
            service_limit_c=MATCH.limit_c,
            compressive_strength_pa=MATCH.crush,
        ),
    )
    @advice(
        id="TOOL-210",
        title="Hold the cure pressure against the crushing strength",
        reason=(
            "{name} crushes at {crush:strength} cold; at {hot:temperature} that is "
            "{value:number} times the {pressure:pressure} of the cure. "
            "{bearing_factor_least:number} is the least, for pins, edges and wedges press "
            "harder than the bag."
        ),
        cites=("prepreg-makers-guide", "cure-tool-factors", "common-practice"),
        limits=(
            "bearing_factor_least",
            "bearing_factor_easy",
            "room_temperature",
            "strength_left_hot",
        ),
    )
    def crushing(
        self,
        name: str,
        pressure: float,
        hot: float,
        dust: str,
        limit_c: float,
        crush: float,
    ) -> RuleBody:
        if dust in SOFTENING:
            crush = strength.strength_when_hot_pa(crush, hot, ROOM, limit_c, LEFT_HOT)
        factor = strength.bearing_safety_factor(pressure, crush)
        enough, easy = factor >= LEAST_FACTOR, factor >= EASY_FACTOR
        finding = Finding(
            "bearing-factor",
            "Safety against crushing",
            factor,
            "1",
            "crushing strength, hot / cure pressure",
            limit=LEAST_FACTOR,
            judgement="ok" if easy else "watch" if enough else "fail",
            worked=worked("{} / {}", (crush, "MPa"), (pressure, "MPa")),
        )
        return finding if enough else [finding, RuledOut("a lower cure pressure")]

    @Rule(
        Cure(pressure="autoclave"),
        Tool(name=MATCH.name, porous=True, brittle=True),
    )
    @advice(
        id="TOOL-220",
        title="Prove a porous brittle tool under pressure first",
        reason=(
            "{name} is porous and brittle: under autoclave pressure local edges and "
            "joints decide, and no published trial covers it."
        ),
    )
    def brittle_in_autoclave(self, name: str) -> Doubtful:
        return Doubtful(
            (
                "A sealed block of the same stock comes through a full pressure cycle in "
                "an envelope."
            ),
            "a sacrificial block in the vessel, inspected for cracks and crushing",
        )

    @Rule(
        Part(smallest_radius_m=MATCH.radius & LT(BRITTLE_RADIUS)),
        Tool(name=MATCH.name, brittle=True, soft=True),
    )
    @advice(
        id="TOOL-230",
        title="Build tight radii in a tougher material",
        reason=(
            "At {radius:length} an edge of {name} crumbles under the sanding block and "
            "the bag; {brittle_radius:length} is the least to trust bare."
        ),
        limits=("brittle_radius",),
    )
    def crumbling_edge(self, name: str, radius: float) -> Doubtful:
        return Doubtful(
            "Edges and radii under {brittle_radius:length} are let in with resin putty or "
            "wood and hold a thumbnail.",
            "a corner sample, sanded and bagged once",
        )


class Mandrels:
    """A straight closed part on a male tool: and whether it shrinks free."""

    stage = "tool"

    @Rule(
        Need(kind="removal", value="shrinks-or-goes"),
        Laminate(expansion_high=MATCH.part_growth),
        Tool(
            name=MATCH.name,
            brittle=False,
            one_piece=True,
            expansion_low=MATCH.tool_growth,
        ),
        TEST(lambda part_growth, tool_growth: tool_growth > part_growth),
    )
    @advice(
        id="TOOL-312",
        title="Prove that the mandrel slides out cold",
        reason=(
            "{name} shrinks more than the laminate on cooling ({tool_growth:expansion} "
            "against {part_growth:expansion} at most), so a gap opens; without taper a "
            "scratch or a bow still holds it."
        ),
        cites=("thin-ring-statics", "tube-mandrel-page"),
    )
    def shrinks_free(self, name: str, part_growth: float, tool_growth: float) -> Doubtful:
        return Doubtful(
            "A first, short part slides off the cold, polished and released mandrel.",
            "a trial piece of one diameter's length, pulled straight with a cap on the end",
        )

    @Rule(
        Need(kind="removal", value="shrinks-or-goes"),
        Laminate(expansion_high=MATCH.part_growth),
        Tool(
            name=MATCH.name,
            breaks_out=False,
            washes_out=False,
            expansion_low=MATCH.tool_growth,
        ),
        TEST(lambda part_growth, tool_growth: tool_growth <= part_growth),
    )
    @advice(
        id="TOOL-314",
        title="Do not rely on this material to shrink out of the part",
        reason=(
            "{name} may shrink no more than the laminate ({tool_growth:expansion} against "
            "{part_growth:expansion}), and it can be neither washed nor broken out."
        ),
        cites=("thin-ring-statics",),
    )
    def does_not_shrink_free(
        self, name: str, part_growth: float, tool_growth: float
    ) -> RuledOut:
        return RuledOut("taper on the section, or a core that goes")

    @Rule(
        Need(kind="removal", value="shrinks-or-goes"),
        Tool(
            name=MATCH.name,
            brittle=True,
            one_piece=True,
            breaks_out=False,
            washes_out=False,
        ),
    )
    @advice(
        id="TOOL-316",
        title="Do not pull a brittle core",
        reason=(
            "{name} is brittle and cannot be washed or broken out: pulled, it breaks "
            "inside."
        ),
    )
    def brittle_core(self, name: str) -> RuledOut:
        return RuledOut("taper on the section, or a core that goes")


class PartingAndShape:
    """Whether a tool of this material can let the part go, and has the shape."""

    stage = "tool"

    @Rule(
        Need(kind="removal", value="opens-or-goes"),
        Part(tool_side="male"),
        Tool(name=MATCH.name, breaks_out=False, washes_out=False),
    )
    @advice(
        id="TOOL-310",
        title="Do not trap a hard tool inside the part",
        reason=(
            "The part is locked round a male tool, and {name} can be neither washed nor "
            "broken out of it."
        ),
        cites=("tool-design-sheet", "softening-mandrel-2022"),
    )
    def trapped_inside(self, name: str) -> RuledOut:
        return RuledOut(
            "a part that slides off, or one moulded in a female tool that opens"
        )

    @Rule(
        Need(kind="removal", value="opens-or-goes"),
        Part(tool_side="female"),
        Tool(name=MATCH.name, splits=False, breaks_out=False),
    )
    @advice(
        id="TOOL-320",
        title="Do not lock the part in a tool that cannot open",
        reason=(
            "The part is locked in a female tool, and {name} can be neither split nor "
            "broken away."
        ),
    )
    def locked_inside(self, name: str) -> RuledOut:
        return RuledOut("a part that draws out")

    @Rule(
        Need(kind="removal", value=among("one-piece", "one-piece-with-care")),
        Tool(name=MATCH.name, one_piece=False),
    )
    @advice(
        id="TOOL-330",
        title="Keep wash-out cores for parts that trap them",
        reason="This part comes off a lasting tool; {name} would be spent on every part.",
        cites=("salt-core-2017", "tool-design-sheet"),
    )
    def spent_for_nothing(self, name: str) -> RuledOut:
        return RuledOut("a part that traps its core")

    @Rule(
        Need(kind="removal", value="one-piece-with-care"),
        Tool(name=MATCH.name, brittle=True, soft=True),
    )
    @advice(
        id="TOOL-340",
        title="Give a brittle tool more draft",
        reason=(
            "With little draft the part scrapes along {name} to the end of the draw; soft "
            "faces want one or two degrees more."
        ),
    )
    def scraping_off(self, name: str) -> Doubtful:
        return Doubtful(
            "A part comes off without lifting the seal from the walls.",
            "first part with a barrier film, edges freed all round before drawing",
        )

    @Rule(Part(shape=NE("flat")), Tool(form="plate", name=MATCH.name))
    @advice(
        id="TOOL-350",
        title="Keep the plate for flat work",
        reason="A flat plate cannot form this shape.",
        cites=("tool-design-sheet",),
    )
    def plate_is_flat(self, name: str) -> RuledOut:
        return RuledOut("a flat part")

    @Rule(
        Need(kind="plate", value="fits"),
        Tool(form="plate", name=MATCH.name, owned=True),
    )
    @advice(
        id="TOOL-360",
        title="Use the plate in the shop",
        reason="The shop owns a plate that is large enough: flat, tight, and paid for.",
    )
    def plate_in_stock(self, name: str) -> Good:
        return Good()

    @Rule(
        Part(shape="flat", length_m=MATCH.length, width_m=MATCH.width),
        Tool(form="plate", name=MATCH.name, owned=True),
        NOT(Need(kind="plate", value="fits")),
    )
    @advice(
        id="TOOL-370",
        title="Do not hang the part over the plate's edge",
        reason=(
            "No plate in stock carries a part of {length:length} by {width:length} with "
            "its edge margin."
        ),
        limits=("film_past_part",),
    )
    def plate_too_small(self, name: str, length: float, width: float) -> RuledOut:
        return RuledOut("a plate larger than {length:length} by {width:length} all round")


class Means:
    """Whether the shop can make it, and what is known of it in this use."""

    stage = "tool"

    @Rule(
        Shop(metal_machining=False),
        Tool(name=MATCH.name, form="pocketed", owned=False),
    )
    @advice(
        id="TOOL-410",
        title="Leave metal tools to a shop that can machine them",
        reason="{name} has to be machined, and the shop neither does nor buys machining.",
        cites=("tooling-materials-page",),
    )
    def no_metal_machining(self, name: str) -> RuledOut:
        return RuledOut("metal machining, in the shop or bought")

    @Rule(Shop(printer=False), Tool(name=MATCH.name, form="printed"))
    @advice(
        id="TOOL-420",
        title="Leave printed tools to a shop with a printer",
        reason="{name} has to be printed, and the shop has no printer for it.",
        cites=("printed-autoclave-tools",),
    )
    def no_printer(self, name: str) -> RuledOut:
        return RuledOut("a printer, in the shop or bought")

    @Rule(
        Shop(machining="hand"),
        Tool(name=MATCH.name, form="board", owned=False),
        Part(shape="double-curvature"),
    )
    @advice(
        id="TOOL-430",
        title="Check that a double curve can be cut by hand in board",
        reason="{name} is shaped slowly by hand; templates at close spacing are needed.",
    )
    def board_by_hand(self, name: str) -> Doubtful:
        return Doubtful(
            "A template check shows the hand-cut face within the tolerance.",
            "section templates every 50 mm (2 in), gap measured with feelers",
        )

    @Rule(Tool(family="aerated-concrete", name=MATCH.name))
    @advice(
        id="TOOL-440",
        title="Make a coupon before trusting a porous mineral block",
        reason=(
            "No published trial of {name} as a prepreg tool was found; the nearest "
            "relative is a filled and painted porous carbon block, stated for under ten "
            "parts. This advice is by analogy."
        ),
        cites=("carbon-foam-tool",),
    )
    def by_analogy(self, name: str) -> Doubtful:
        return Doubtful(
            "A coupon of the same block, sealed and released the same way, lets go of a "
            "cured patch of the same prepreg and shows no pores.",
            "a coupon 150 mm (6 in) square through the full cycle, peeled, looked at",
            coupon_cures=1,
        )

    @Rule(Tool(family="castable-ceramic", name=MATCH.name))
    @advice(
        id="TOOL-441",
        title="Make a coupon before trusting a cast ceramic",
        reason=(
            "No published trial of {name} as a prepreg tool was read: it may dust at its "
            "edges, crack as it dries and leak through its seal. This advice is by analogy."
        ),
    )
    def cast_by_analogy(self, name: str) -> Doubtful:
        return Doubtful(
            "A coupon cast, dried and baked like the tool, sealed and released the same "
            "way, lets go of a cured patch of the same prepreg and holds vacuum.",
            (
                "a coupon of about 150 mm (6 in) square through the full cycle, bagged "
                "for 30 min, peeled, and looked at along its edges"
            ),
            coupon_cures=1,
        )

    @Rule(Tool(family="carbon-laminate", name=MATCH.name), Laminate(fibre="carbon"))
    @advice(
        id="TOOL-450",
        title="Use a carbon tool for a carbon part where size matters",
        reason=("{name} grows almost as the part does and lasts for hundreds of parts."),
        cites=("composite-tools-article",),
    )
    def grows_with_the_part(self, name: str) -> Good:
        return Good()

    @Rule(Tool(id="carbon-laminate-bmi", name=MATCH.name))
    @advice(
        id="TOOL-452",
        title="Find a master for a tool that first cures hot",
        reason=(
            "{name} gets its first cure at about 180 °C (356 °F) on its master: no board "
            "pattern stands that, and a master that does costs more than the board "
            "counted here."
        ),
        cites=("tooling-laminate-article", "common-practice"),
    )
    def hot_master(self, name: str) -> Doubtful:
        return Doubtful(
            "A master that stands the tool's first cure is found, and its price is agreed.",
            "the tooling prepreg's sheet against the sheet of the master's material",
        )

    @Rule(
        Tool(family="printed-sand", name=MATCH.name),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="TOOL-462",
        title="Prove the infiltrant of printed sand, not the sand",
        reason=(
            "{name} is as good at {hot:temperature} as the epoxy that was soaked into it, "
            "and that differs from one service to the next."
        ),
        cites=("printed-sand-paper", "common-practice"),
    )
    def infiltrant_decides(self, name: str, hot: float) -> Doubtful:
        return Doubtful(
            "The glass transition of the infiltrant, as post-cured, is known and high "
            "enough, and a witness bar is soaked right through.",
            "the resin's sheet, the post-cure chart, and a bar of the print cut in two",
        )

    @Rule(
        Need(kind="face", value="polished"),
        Tool(name=MATCH.name, form="printed"),
    )
    @advice(
        id="TOOL-460",
        title="Expect layer lines to print",
        reason=(
            "Layer lines of {name} creep back through a coat when it is warm under vacuum."
        ),
    )
    def layer_lines(self, name: str) -> Doubtful:
        return Doubtful(
            (
                "A gloss coupon from a printed and filled sample shows no lines after two "
                "cycles."
            ),
            "a coupon through two full cycles, looked at against a lamp",
            coupon_cures=2,
        )
