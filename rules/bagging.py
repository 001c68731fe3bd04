"""How the part is bagged: judged for each tool, then written as steps."""

import math

from advisor.calculations import atmosphere, vacuum
from advisor.knowledge.tables import limit
from advisor.measures import STYLES, worked
from advisor.reasoning.conclusions import (
    Caution,
    Condition,
    Doubtful,
    Finding,
    HoldPoint,
    Quantity,
    Refusal,
    RuledOut,
    Step,
)
from advisor.reasoning.expert import GT, LT, MATCH, NE, NOT, TEST, Rule, among
from advisor.reasoning.facts import (
    Activity,
    Bagging,
    Cure,
    Finish,
    Found,
    Laminate,
    Need,
    Part,
    Sealing,
    Shop,
    Tool,
)
from advisor.reasoning.rulebook import advice

WANTED_SHARE = limit("vacuum_for_prepreg")
LEAK_DROP = limit("leak_drop")
LEAST_READING = limit("least_vacuum")
LEAK_TIME = limit("leak_test_time")
BAG_MOST = limit("bag_pressure_most")
BREATHER = limit("breather_plies") * limit("breather_ply_thickness")
LEAKS = "leaks-through"
SOLID = limit("block_solid_density")
UNDERSIDE = "Fix the thermocouple of the underside to the tool first. "
UPTAKE = limit("bleeder_uptake")
LONG_RUN = limit("long_run_to_edge")
COLD_HOLD = limit("cold_hold")
COLD_HOLD_LONG = limit("cold_hold_long")
PEEL_PLY = "peel ply"


def cold_hold_h(shape: str, length: float, width: float, depth: float) -> float:
    """Return how long gas is let out cold, by its way along the plies to an edge, in h."""
    ends_only = shape == "closed"
    run = length / 2 if ends_only else min(length, width) / 2 + depth
    return COLD_HOLD_LONG if run > LONG_RUN else COLD_HOLD


def hides_leaks(porous: bool, soft: bool, taped: bool) -> bool:
    """Return whether the pores of the tool lie under the bag and feed a drop test."""
    return porous and soft and not taped


def laid_on_a_core(shape: str, side: str) -> bool:
    """Return whether the plies go all round a core, so that no side may lie on a bed."""
    return shape == "closed" and side == "male"


def on_a_bed(below: list[str], shape: str, side: str) -> bool:
    """Return whether the tool stands on a bed under the bag."""
    return len(below) > 0 and not laid_on_a_core(shape, side)


class Pressure:
    """What presses the plies together, and whether the shop can make it."""

    stage = "needs"

    @Rule(Shop(pump=False), Cure(pressure=among("vacuum", "autoclave")))
    @advice(
        id="BAG-010",
        title="Find a vacuum pump first",
        reason="Prepreg without pressure is porous, and the shop has no vacuum pump.",
        cites=("army-composites-manual",),
    )
    def no_pump(self) -> Refusal:
        return Refusal("a vacuum pump")

    @Rule(
        Cure(pressure="vacuum"),
        Shop(altitude_m=MATCH.altitude, vacuum_reading_pa=MATCH.reading),
    )
    @advice(
        id="BAG-020",
        title="Count on the pressure the local air gives",
        reason=(
            "The pump reads {reading:vacuum} below the air at {altitude:distance}, and "
            "that is what presses on the part; {vacuum_for_prepreg:percent} of that air is "
            "the least that prepreg wants."
        ),
        cites=("iso-2533", "vacuum-bag-basics"),
        limits=("vacuum_for_prepreg",),
    )
    def vacuum_pressure(self, altitude: float, reading: float) -> Finding:
        local = atmosphere.pressure_at_altitude_pa(altitude)
        share = reading / local
        return Finding(
            "cure-pressure",
            "Pressure on the part",
            reading,
            "kPa",
            "best gauge reading of the pump",
            limit=WANTED_SHARE * local,
            judgement="ok" if share >= WANTED_SHARE else "watch",
        )

    @Rule(
        Cure(pressure="autoclave", autoclave_pressure_pa=MATCH.gauge),
        Shop(vacuum_reading_pa=MATCH.reading),
    )
    @advice(
        id="BAG-030",
        title="Count vessel pressure and vacuum together",
        reason=(
            "Until the bag is vented the tool carries {gauge:pressure} of vessel pressure "
            "and {reading:vacuum} of vacuum together."
        ),
    )
    def autoclave_pressure(self, gauge: float, reading: float) -> Finding:
        formula = "vessel gauge pressure + vacuum"
        return Finding(
            "cure-pressure", "Pressure on the part", gauge + reading, "kPa", formula
        )


class JudgeBagging:
    """Which bag suits this tool."""

    stage = "bagging"

    @Rule(
        Cure(pressure=MATCH.mode),
        Bagging(name=MATCH.bag, pressure=MATCH.bag_mode),
        TEST(lambda mode, bag_mode: mode != bag_mode),
    )
    @advice(
        id="BAG-110",
        title="Bag for the pressure the cure uses",
        reason="{bag} goes with {bag_mode} pressure; the cure uses {mode} pressure.",
    )
    def wrong_pressure(self, mode: str, bag: str, bag_mode: str) -> RuledOut:
        other = "a bladder" if bag_mode == "bladder" else bag_mode
        return RuledOut(f"a cure under {other}")

    @Rule(
        Bagging(name=MATCH.bag, needs_tight_tool=True),
        NOT(Need(kind="bag-on-face")),
        Tool(name=MATCH.name, tightness="leaks-through"),
        Sealing(name=MATCH.seal, vacuum=NE("tight")),
    )
    @advice(
        id="BAG-120",
        title="Bag all round a tool that leaks",
        reason=(
            "The body of {name} leaks from behind even when its face is sealed; a bag "
            "taped to its face loses vacuum where no drop test shows it."
        ),
        cites=("army-composites-manual",),
    )
    def leaks_from_behind(self, bag: str, name: str, seal: str) -> RuledOut:
        return RuledOut("an envelope bag, or a glass skin that is shown to be tight")

    @Rule(
        Bagging(name=MATCH.bag, needs_tight_tool=True),
        Tool(name=MATCH.name, tightness="leaks-through"),
        Sealing(name=MATCH.seal, vacuum="tight"),
    )
    @advice(
        id="BAG-130",
        title="Prove the skin tight before bagging to it",
        reason=(
            "{name} leaks in the body; only an unbroken skin over face and edge lets a "
            "bag seal to it."
        ),
        cites=("prepreg-makers-guide", "layup-tooling-slides"),
        limits=("leak_drop",),
    )
    def skin_must_be_tight(self, bag: str, name: str, seal: str) -> Doubtful:
        return Doubtful(
            (
                "The skinned tool alone holds vacuum: no more than {leak_drop:vacuum} "
                "lost in a minute."
            ),
            (
                "a bag on the bare tool, pump shut off for ten minutes, and steady "
                "pressure read with it on"
            ),
        )

    @Rule(
        Bagging(name=MATCH.bag, needs_tight_tool=True),
        Tool(name=MATCH.name, tightness="tight-when-sealed"),
        Sealing(name=MATCH.seal, vacuum=MATCH.holds & among("none", "slows")),
    )
    @advice(
        id="BAG-140",
        title="Seal tight or bag all round",
        reason="{seal} does not make {name} tight, so a bag taped to it leaks.",
        cites=("prepreg-makers-guide",),
    )
    def seal_not_tight(self, bag: str, name: str, seal: str, holds: str) -> RuledOut:
        return RuledOut("a tight seal, or an envelope bag")

    @Rule(
        Bagging(id="bag-to-table", name=MATCH.bag),
        NOT(Need(kind="table", value="fits")),
        Part(shape=MATCH.shape),
    )
    @advice(
        id="BAG-150",
        title="Bag to a table only if there is one",
        reason=(
            "{bag} needs a leak-tested plate larger than the tool, and none in stock is "
            "known to fit."
        ),
    )
    def no_table(self, bag: str, shape: str) -> RuledOut:
        return RuledOut("a leak-tested plate larger than the tool")

    @Rule(
        Bagging(id=among("bag-to-table", "envelope", "autoclave-envelope"), name=MATCH.bag),
        Tool(form="plate", name=MATCH.name),
    )
    @advice(
        id="BAG-155",
        title="Tape the bag to the plate itself",
        reason=(
            "The {name} is table and tool in one; more film round it only adds seals that "
            "can leak."
        ),
    )
    def plate_is_the_table(self, bag: str, name: str) -> RuledOut:
        return RuledOut("a tool that stands on a table")

    @Rule(
        Part(shape="closed", tool_side="male"),
        Bagging(all_round=False, name=MATCH.bag),
    )
    @advice(
        id="BAG-160",
        title="Wrap a core all round",
        reason=(
            "A closed part goes all round its core: there is no rim to tape to, and no "
            "side may lie on a table."
        ),
        cites=("army-composites-manual",),
    )
    def no_rim_on_a_core(self, bag: str) -> RuledOut:
        return RuledOut("a female tool")

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(inside=False, both_faces=False, name=MATCH.bag),
    )
    @advice(
        id="BAG-162",
        title="Press a closed part from inside",
        reason=(
            "{bag} lies over the opening of a closed section: it bridges the section, and "
            "the far wall gets no pressure."
        ),
    )
    def no_pressure_inside(self, bag: str) -> RuledOut:
        return RuledOut("a tube of film through the section, or a bladder in it")

    @Rule(
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Bagging(inside=True, name=MATCH.bag),
        TEST(lambda shape, side: (shape, side) != ("closed", "female")),
    )
    @advice(
        id="BAG-163",
        title="Keep the tube for a section that is closed round it",
        reason="{bag} needs a closed section in a female tool to press against.",
    )
    def nothing_round_the_tube(self, shape: str, side: str, bag: str) -> RuledOut:
        return RuledOut("a closed part in a female tool")

    @Rule(
        Bagging(id="bag-to-table", name=MATCH.bag),
        Tool(form="laminate", name=MATCH.name),
    )
    @advice(
        id="BAG-165",
        title="Bag a shell to its own flange",
        reason=(
            "Bagged over on a table, {name} is pressed down on its own hollow and crushed."
        ),
        cites=("army-composites-manual",),
    )
    def table_crushes_shell(self, bag: str, name: str) -> RuledOut:
        return RuledOut("a solid tool")

    @Rule(
        Bagging(all_round=True, name=MATCH.bag),
        Tool(form="laminate", name=MATCH.name),
    )
    @advice(
        id="BAG-170",
        title="Keep a thin tool out of an envelope",
        reason=(
            "An envelope crushes and bends the flanges of {name}, a thin shell that is "
            "tight by itself."
        ),
        cites=("army-composites-manual",),
    )
    def envelope_bends_shell(self, bag: str, name: str) -> Doubtful:
        return Doubtful(
            "The shell in its frame keeps its shape under an empty envelope.",
            "an empty envelope pulled down slowly, flange measured",
        )


class BedSteps:
    """What lies under the tool, laid before there are plies on it."""

    stage = "plan"

    @Rule(
        Bagging(name=MATCH.bag, below=MATCH.below),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Tool(name=MATCH.name, porous=True, brittle=MATCH.brittle),
        TEST(on_a_bed),
    )
    @advice(
        id="STEP-504",
        title="Lay the bed, and set the tool down on it to stay",
        reason=(
            "Nothing can be laid under {name} once plies are on it. Gas leaves its pores "
            "for hours: without breather under it and up its sides it leaves through the "
            "laminate."
        ),
        cites=("army-composites-manual", "common-practice"),
    )
    def bed_of_a_porous_tool(
        self, bag: str, below: list[str], shape: str, side: str, name: str, brittle: bool
    ) -> Step:
        return _bed(below, UNDERSIDE if brittle else "")

    @Rule(
        Bagging(name=MATCH.bag, below=MATCH.below),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Tool(name=MATCH.name, porous=False),
        TEST(on_a_bed),
    )
    @advice(
        id="STEP-506",
        title="Lay the bed, and set the tool down on it to stay",
        reason=(
            "Nothing can be laid under {name} once plies are on it; without breather the "
            "film sticks to it and air is shut in below."
        ),
        cites=("army-composites-manual", "common-practice"),
    )
    def bed_of_a_tight_tool(
        self, bag: str, below: list[str], shape: str, side: str, name: str
    ) -> Step:
        return _bed(below)

    @Rule(Part(shape="closed", tool_side="male"), Tool(name=MATCH.name))
    @advice(
        id="STEP-502",
        title="Hang the core by its bare ends",
        reason=(
            "The plies go all round {name}: set down, it would rest on plies that are not "
            "cured and thin them."
        ),
    )
    def hang_the_core(self, name: str) -> Step:
        return Step(
            "lay-up",
            "Carry the core by its bare ends on two padded stands, clear of everything "
            "all round and free to be turned. A core too weak to hang so gets a bar right "
            "through it. It hangs like this through lay-up, bagging and cure.",
            does=("lifts",),
            hold_point=HoldPoint("Core hangs free", "touches nothing; turns", ""),
        )


def _bed(below: list[str], first: str = "") -> Step:
    """Return the step that lays what goes under the tool."""
    return Step(
        "lay-up",
        f"{first}From below: " + "; ".join(below) + ". From here to demoulding "
        "the tool is carried with what it stands on, never lifted off it.",
        does=("lifts",),
        hold_point=HoldPoint("Bed matches the list; tool down", "it does not rock", ""),
    )


class BaggingSteps:
    """The bag as work on the bench."""

    stage = "plan"

    @Rule(
        Bagging(
            name=MATCH.bag,
            layers=MATCH.layers,
            margin_m=MATCH.margin,
            pressure=among("vacuum", "autoclave"),
        ),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Finish(after=MATCH.after),
        Tool(name=MATCH.name),
        TEST(lambda shape, side: not laid_on_a_core(shape, side)),
    )
    @advice(
        id="STEP-610",
        title="Lay the bag stack in order",
        reason=(
            "Each layer gives gas a way out or keeps resin in; one left out or swapped "
            "spoils the part."
        ),
        cites=("faa-ac-43-13-1b", "debulk-article"),
    )
    def bag_stack(
        self,
        bag: str,
        layers: list[str],
        margin: float,
        shape: str,
        side: str,
        after: str,
        name: str,
    ) -> Step:
        used = [one for one in layers if after == "bond" or not one.startswith(PEEL_PLY)]
        return Step(
            "bag",
            "From the tool outward: " + "; ".join(used) + ".",
            does=("handles-prepreg",),
            quantities=(Quantity("Margin round the part", margin, "mm"),),
            hold_point=HoldPoint(
                "Stack matches the list, layer by layer",
                "second person signs",
                "",
                signers=2,
            ),
        )

    @Rule(
        Part(shape="closed", tool_side="male"),
        Bagging(name=MATCH.bag, all_round=True, pressure=NE("tape"), on_core=MATCH.layers),
        Finish(after=MATCH.after),
    )
    @advice(
        id="STEP-612",
        title="Wrap the core in its layers all round",
        reason=(
            "Each layer gives gas a way out or keeps resin in, and on a core it has to do "
            "so on every side; the film closes past both ends."
        ),
        cites=("faa-ac-43-13-1b", "debulk-article"),
    )
    def wrap_the_core(self, bag: str, layers: list[str], after: str) -> Step:
        used = [one for one in layers if after == "bond" or not one.startswith(PEEL_PLY)]
        return Step(
            "bag",
            "From the core outward, all round: " + "; ".join(used) + "; the stands padded "
            "where the film now lies on them.",
            does=("lifts", "handles-prepreg"),
            hold_point=HoldPoint(
                "Layers closed all round, each in turn",
                "looked at from below too; second person signs",
                "",
                signers=2,
            ),
        )

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(inside=True, bladder=False, name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-630",
        title="Put an inner tube bag through a closed part",
        reason=(
            "A bag that only lies over the opening bridges the section and leaves its far "
            "wall without pressure."
        ),
    )
    def inner_tube(self, bag: str, name: str) -> Step:
        return Step(
            "bag",
            "Pass the inner tube, a tube of bag film, through the section with slack in "
            "every corner, and seal its ends to the outer bag, so that the air inside the "
            "tube presses the plies outward. Pull down in steps and work the slack into "
            "the corners by hand or with a padded rod from both ends before full vacuum. "
            "Never blow the tube up: a bladder under regulated pressure stores energy and "
            "wants a tool, fittings and people meant for it.",
            does=("pulls-vacuum",),
            hold_point=HoldPoint(
                "Tube lies in every corner",
                "looked through with a lamp from both ends; no bridge, air free to both "
                "ends",
                "",
            ),
        )

    @Rule(
        Part(shape=NE("flat")),
        Bagging(both_faces=False, pressure=among("vacuum", "autoclave"), name=MATCH.bag),
    )
    @advice(
        id="STEP-640",
        title="Pleat at every inside corner",
        reason=(
            "Film does not stretch into a corner: it bridges, and the corner under it "
            "gets no pressure."
        ),
        cites=("army-composites-manual",),
    )
    def pleats(self, bag: str) -> Step:
        return Step(
            "bag",
            "One pleat at each inside corner and every 500 mm (20 in), each at least as "
            "high as the depth it has to reach, as it was rehearsed dry.",
        )

    @Rule(
        Found(key="bleed", value=MATCH.bleed & GT(0.0)),
        Found(key="resin-left"),
        Bagging(both_faces=False, pressure=among("vacuum", "autoclave")),
    )
    @advice(
        id="STEP-615",
        title="Bleed what the fibre asked for does not hold",
        reason=(
            "{bleed:areal} of resin has to leave; a bleeder ply takes up about "
            "{bleeder_uptake:areal}, and one too many starves the face."
        ),
        cites=("memory-prepreg-sheets", "common-practice"),
        limits=("bleeder_uptake", "bleed_watched"),
    )
    def bleed(self, bleed: float) -> Step:
        return Step(
            "bag",
            "Over the plies: peel ply or perforated film, then the bleeder plies below, "
            "then solid film, then breather. Weigh bleeder before and after the first "
            "cure and correct the number of plies by what it took up.",
            does=("handles-prepreg",),
            quantities=(
                Quantity("Bleeder plies", float(math.ceil(bleed / UPTAKE)), "count"),
                Quantity("Resin to bleed", bleed, "g/m**2"),
            ),
            hold_point=HoldPoint(
                "Bleed as planned", "bleeder gained within a fifth of it", "mass gained"
            ),
        )

    @Rule(
        Found(key="resin-left", value=MATCH.needed),
        Laminate(resin_content=MATCH.resin, fibre_volume=MATCH.wanted),
        TEST(lambda needed, resin: needed > resin),
    )
    @advice(
        id="RES-150",
        title="Buy a prepreg that holds the resin",
        reason=(
            "{wanted:percent} of fibre by volume takes {needed:percent} of resin by mass, "
            "and the prepreg holds {resin:percent}: none can be added under a bag."
        ),
        cites=("maker-ply-sheet",),
    )
    def too_dry(self, needed: float, resin: float, wanted: float) -> Condition:
        return Condition(
            "The prepreg holds {needed:percent} of resin or more, or the customer accepts "
            "the fibre that comes of what it holds.",
            "the prepreg's sheet, or the customer's word in writing",
        )

    @Rule(
        Found(key="gauge-expected", value=MATCH.gauge),
        Found(key="face-area", value=MATCH.area),
        Found(key="tool-mass", value=MATCH.mass),
        Shop(pump_flow=MATCH.flow, vacuum_reading_pa=MATCH.best),
        Tool(name=MATCH.name, tightness=MATCH.tightness, density=MATCH.density),
    )
    @advice(
        id="VAC-020",
        title="Know how long the pump should take",
        reason=(
            "The pump has to empty breather and plies and, where the body leaks through, "
            "its pores too: about {value:minutes} at {flow:flow}. Much longer means a leak "
            "or a blocked port."
        ),
        cites=("evacuation-time-page", "memory-vacuum-textbook"),
        limits=(
            "breather_ply_thickness",
            "block_solid_density",
            "bag_pressure_most",
            "breather_plies",
        ),
    )
    def pull_down(
        self,
        gauge: float,
        area: float,
        mass: float,
        flow: float,
        best: float,
        name: str,
        tightness: str,
        density: float,
    ) -> Finding:
        outside = gauge + BAG_MOST
        end = outside - min(gauge, best)
        pores = max(0.0, mass / density - mass / SOLID) if tightness == LEAKS else 0.0
        seconds = vacuum.pull_down_time_s(area * BREATHER + pores, flow, outside, end)
        return Finding(
            "pull-down",
            "Time to pull the bag down, pump and pores alone",
            seconds,
            "min",
            "V / S · ln(p₀ / p₁)",
            worked=worked(
                "{} / {} · ln({} / {})",
                (area * BREATHER + pores, "liter"),
                (flow, "m**3/h"),
                (outside, "mbar"),
                (end, "mbar"),
            ),
        )

    @Rule(
        Found(key="gauge-expected", value=MATCH.gauge),
        Found(key="pull-down", value=MATCH.seconds),
        Shop(vacuum_reading_pa=MATCH.best),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-650",
        title="Leak test before any heat",
        reason=(
            "A leak found cold costs a strip of tape; found hot it costs the part. "
            "Published limits differ nearly sevenfold, and one in per cent of the gauge "
            "lets through less the higher the shop lies: in absolute pressure it is the "
            "same anywhere. The prepreg maker's limit comes first."
        ),
        cites=("prepreg-makers-guide", "faa-ac-43-13-1b", "army-composites-manual"),
        limits=("leak_drop", "leak_test_time", "bag_pressure_most", "pull_down_slow"),
    )
    def leak_test(self, gauge: float, seconds: float, best: float, name: str) -> Step:
        """Take the pump's own best where it does not reach what a good bag shows."""
        shown = min(gauge, best)
        start = BAG_MOST + gauge - shown
        end = start + LEAK_TIME * LEAK_DROP
        return Step(
            "bag",
            f"Pull down in steps until the gauge shows {STYLES['vacuum'](shown)} or more "
            f"below the air of the day, that is {STYLES['vacuum'](start)} absolute or "
            "less. If that takes more than two minutes and {pull_down_slow:number} times "
            "the calculated time, look for a leak or a blocked port first. Press the tape "
            "again all round, shut the pump off and read for {leak_test_time:number} "
            "minutes; then pump on.",
            does=("pulls-vacuum",),
            quantities=(
                *(
                    Quantity("Pull-down, calculated", s, "min")
                    for s in (seconds,)
                    if s > 10
                ),
                Quantity("Gauge, at least", shown, "mbar"),
                Quantity("Loss in a minute, at most", LEAK_DROP, "mbar"),
                Quantity("Absolute pressure at the end, at most", end, "mbar"),
            ),
            hold_point=HoldPoint(
                "Leak test, pump off, {leak_test_time:number} minutes",
                f"from {STYLES['vacuum'](start)} absolute or less up to no more than "
                f"{STYLES['vacuum'](end)} absolute "
                "({leak_drop:vacuum} a minute), or the prepreg maker's limit",
                "reading at start, middle and end; local barometer",
            ),
        )

    @Rule(
        Tool(porous=True, soft=True, name=MATCH.name),
        Bagging(needs_tight_tool=False),
        Found(key="gauge-expected", value=MATCH.gauge),
        Shop(vacuum_reading_pa=MATCH.best),
        Part(
            shape=MATCH.shape,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
    )
    @advice(
        id="STEP-660",
        title="Hold cold under vacuum, and read the steady pressure",
        reason=(
            "The pores of {name} lie under the bag and hide a leak from a drop test: "
            "their air has to come out first, and that of the plies with it, while they "
            "are still stiff and dry at the edge."
        ),
        cites=("gas-evacuation-paper", "common-practice"),
        limits=("bag_pressure_most", "long_run_to_edge", "cold_hold", "cold_hold_long"),
    )
    def steady_pressure(
        self,
        name: str,
        gauge: float,
        best: float,
        shape: str,
        length: float,
        width: float,
        depth: float,
    ) -> Step:
        steady = BAG_MOST + gauge - min(gauge, best)
        hold = cold_hold_h(shape, length, width, depth)
        return Step(
            "bag",
            f"With the pump on, hold at least {STYLES['hours'](hold)} at room temperature "
            "and read the absolute pressure every ten minutes; start heat only when it has "
            "stopped falling.",
            does=("pulls-vacuum",),
            quantities=(Quantity("Cold hold, at least", hold, "h"),),
            hold_point=HoldPoint(
                "Steady pressure with the pump on",
                "two readings ten minutes apart agree, at "
                f"{STYLES['vacuum'](steady)} absolute or less",
                "readings",
            ),
        )

    @Rule(
        Cure(pressure="vacuum"),
        Part(
            shape=MATCH.shape,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Tool(name=MATCH.name, porous=MATCH.porous, soft=MATCH.soft),
        Bagging(needs_tight_tool=MATCH.taped),
        TEST(lambda porous, soft, taped: not hides_leaks(porous, soft, taped)),
    )
    @advice(
        id="STEP-670",
        title="Hold cold under vacuum before heat",
        reason=(
            "Gas leaves prepreg sideways along the plies while they are still stiff and "
            "dry at the edge."
        ),
        cites=("gas-evacuation-paper",),
        limits=("long_run_to_edge", "cold_hold", "cold_hold_long"),
    )
    def cold_hold(
        self,
        shape: str,
        length: float,
        width: float,
        depth: float,
        name: str,
        porous: bool,
        soft: bool,
        taped: bool,
    ) -> Step:
        hold = cold_hold_h(shape, length, width, depth)
        return Step(
            "bag",
            f"Hold at least {STYLES['hours'](hold)} at room temperature, pump on.",
            does=("pulls-vacuum",),
            quantities=(Quantity("Cold hold, at least", hold, "h"),),
        )


class VacuumCautions:
    """What vacuum can do."""

    stage = "people"

    @Rule(
        Activity(name="pulls-vacuum"),
        Bagging(name=MATCH.bag),
        Tool(form=MATCH.form & NE("plate")),
    )
    @advice(
        id="CAUT-310",
        title="Guard against collapse under vacuum",
        reason=(
            "A bag under full vacuum presses with about ten tonnes on every square metre."
        ),
        cites=("army-composites-manual", "common-practice"),
    )
    def vacuum_caution(self, bag: str, form: str) -> Caution:
        return Caution("vacuum", "pulls-vacuum")

    @Rule(
        Cure(pressure="autoclave"),
        Activity(name=MATCH.activity & among("heats", "pressurises")),
    )
    @advice(
        id="CAUT-320",
        title="Guard against stored pressure",
        reason="An autoclave stores enough energy to kill.",
        cites=("ca-pressure-orders", "asme-viii-page"),
    )
    def pressure_caution(self, activity: str) -> Caution:
        return Caution("pressure", activity)


class ThinVacuum:
    """When the pump is not good enough."""

    stage = "needs"

    @Rule(
        Cure(pressure="vacuum"),
        Shop(vacuum_reading_pa=MATCH.reading & LT(LEAST_READING)),
    )
    @advice(
        id="BAG-040",
        title="Mend the pump or the plumbing",
        reason=(
            "A best reading of {reading:vacuum} is under the {least_vacuum:vacuum} that "
            "even a repair asks for: prepreg cures porous under it."
        ),
        cites=("faa-ac-43-13-1b", "army-composites-manual"),
        limits=("least_vacuum",),
    )
    def pump_too_weak(self, reading: float) -> Refusal:
        return Refusal("a reading of {least_vacuum:vacuum} or more")
