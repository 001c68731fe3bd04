"""A bladder in a closed mould: where it serves, what it reaches, and what holds it."""

from advisor.calculations import atmosphere, bladder, cost, hollow, strength
from advisor.knowledge.tables import limit, limit_span
from advisor.measures import STYLES
from advisor.reasoning.conclusions import (
    Condition,
    Doubtful,
    Finding,
    Good,
    Question,
    Refusal,
    RuledOut,
)
from advisor.reasoning.expert import GT, LT, MATCH, NE, NOT, TEST, Rule, W, among
from advisor.reasoning.facts import (
    Bagging,
    Cure,
    Finish,
    Found,
    Grade,
    Part,
    Route,
    Run,
    Shop,
    Tool,
)
from advisor.reasoning.rulebook import RuleBody, advice

from .shelf import needed_c  # noqa: TID251 (a sibling, not a copy)

BOLT = bladder.proof_load_n(limit("mould_bolt_proof"), limit("mould_bolt_area"))
BOLT_SHARE = limit("mould_bolt_share")
CORNER_SHARE = limit("bladder_corner_share")
EXPANSIONS = limit_span("bladder_expansion")
GRAVITY = limit("gravity")
LAW = limit("pressure_law_from")
LEAST = limit("bladder_section_least")
MOST = limit("bladder_pressure_most")
PITCH = limit("mould_bolt_pitch")
ROOM = limit("room_temperature")
RUBBER = limit("bladder_modulus")
SLENDER = limit("bladder_slender")
STRETCH = limit("bladder_undersize")
MOULD = limit("metal_wall")
WALL = limit("bladder_wall")
WALL_FACTOR = limit("mould_wall_factor")


def in_the_corner_m(radius: float, thick: float) -> float:
    """Return the radius that a bladder takes over the plies; no sharper than its wall."""
    return max(radius - thick, WALL)


def slender(length: float, width: float, depth: float) -> bool:
    """Return whether a section is so long and narrow that a bladder hardly comes out."""
    return length > SLENDER * min(width, depth)


class AskAboutBladder:
    """What has to be known before a bladder is blown up, and what one cannot be."""

    stage = "ask"

    @Rule(Cure(pressure="bladder"), Part(shape=MATCH.shape & NE("closed")))
    @advice(
        id="ASK-208",
        title=(
            "Is it a hollow section? cure.pressure is bladder and part.shape is {shape}; "
            "accepted: shape closed, or vacuum or autoclave."
        ),
        reason="A bladder presses outward, against a mould that is shut all round it.",
    )
    def ask_bladder_or_open(self, shape: str) -> Question:
        return Question("cure.pressure")

    @Rule(Cure(pressure="bladder"), Part(shape="closed", tool_side="male"))
    @advice(
        id="ASK-218",
        title=(
            "Is the outside moulded? cure.pressure is bladder and part.tool_side is male; "
            "accepted: female, or vacuum, autoclave or tape."
        ),
        reason="On a core there is nothing outside the plies to press them against.",
    )
    def ask_bladder_or_core(self) -> Question:
        return Question("part.tool_side")

    @Rule(Cure(pressure="bladder"), NOT(Cure(bladder_pressure_pa=W())))
    @advice(
        id="ASK-228",
        title=(
            "With what pressure is the bladder blown up (cure.bladder_pressure, bar "
            "gauge)? For a bladder that is open to the room, with the mould in a bag: "
            "cure.pressure as vacuum."
        ),
        reason="Pressure times the size of the section is what the bolts have to hold.",
    )
    def ask_bladder_pressure(self) -> Question:
        return Question("cure.bladder_pressure")

    @Rule(
        Cure(
            pressure=MATCH.mode & among("vacuum", "autoclave", "tape"),
            bladder_pressure_pa=MATCH.blown,
        )
    )
    @advice(
        id="ASK-238",
        title=(
            "Is a bladder blown up? cure.pressure is {mode} and cure.bladder_pressure is "
            "{blown:pressure}; accepted: one or the other."
        ),
        reason=(
            "A bladder under pressure wants a mould and fittings made for it; one that is "
            "open to the room has no pressure of its own."
        ),
    )
    def ask_bladder_or_other(self, mode: str, blown: float) -> Question:
        return Question("cure.bladder_pressure")

    @Rule(Cure(pressure="bladder", autoclave_pressure_pa=MATCH.pressure_pa))
    @advice(
        id="ASK-248",
        title=(
            "Bladder, or an autoclave? cure.pressure is bladder and "
            "cure.autoclave_pressure is {pressure_pa:pressure}; accepted: one or the other."
        ),
        reason="The mould round a bladder stands in an oven that is open to the air.",
    )
    def ask_bladder_or_autoclave(self, pressure_pa: float) -> Question:
        return Question("cure.autoclave_pressure")


class BladderPressure:
    """What the bladder brings on the plies."""

    stage = "needs"

    @Rule(Cure(pressure="bladder", bladder_pressure_pa=MATCH.gauge))
    @advice(
        id="BLADDER-018",
        title="Count on the gauge pressure of the bladder, and no vacuum",
        reason=(
            "The bladder presses with {gauge:pressure} over the air outside; nothing draws "
            "air from between the plies, which leaves along them and through the joint."
        ),
        cites=("bladder-tube-forum", "common-practice"),
    )
    def bladder_pressure(self, gauge: float) -> Finding:
        return Finding(
            "cure-pressure",
            "Pressure on the part, by its bladder",
            gauge,
            "kPa",
            "gauge pressure in the bladder",
        )

    @Rule(Cure(pressure="bladder", bladder_pressure_pa=MATCH.gauge & GT(MOST)))
    @advice(
        id="BLADDER-028",
        title="Stay under the pressure that a bolted mould is planned for",
        reason=(
            "{gauge:pressure} is over the {bladder_pressure_most:pressure} that this plan "
            "covers: the load on the joint and what is stored in the air grow with it."
        ),
        cites=("bladder-tube-forum", "pressure-bag-page"),
        limits=("bladder_pressure_most",),
    )
    def too_much_pressure(self, gauge: float) -> Refusal:
        return Refusal("{bladder_pressure_most:pressure} or less, or a certified autoclave")


class JudgeBladder:
    """Whether a bladder goes into this section, reaches its corners and comes out."""

    stage = "bagging"

    @Rule(
        Part(shape="closed", width_m=MATCH.width, depth_m=MATCH.depth),
        Bagging(bladder=True, name=MATCH.bag),
        TEST(lambda width, depth: min(width, depth) < LEAST),
    )
    @advice(
        id="BLADDER-038",
        title="Keep a bladder for a section it goes into",
        reason=(
            "{bag}: in a section of {width:length} by {depth:length} plies and rubber fill "
            "the mould before it is shut, and rubber comes into the joint; "
            "{bladder_section_least:length} across is the least."
        ),
        limits=("bladder_section_least",),
    )
    def section_too_narrow(self, width: float, depth: float, bag: str) -> RuledOut:
        return RuledOut("a wider section, or a core that is drawn")

    @Rule(
        Part(shape="closed", tool_side="female", smallest_radius_m=MATCH.radius),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="cure-pressure", value=MATCH.pressure),
        Bagging(bladder=True, name=MATCH.bag),
    )
    @advice(
        id="BLADDER-048",
        title="See what the bladder brings into the tightest corner",
        reason=(
            "{bag} is {bladder_undersize:percent} smaller round than the section and "
            "stretches to reach it: of {pressure:pressure} its own tension leaves "
            "{value:pressure} for the plies in a corner of {radius:length}."
        ),
        cites=("hoop-stress-problem", "silicone-expansion-2023", "common-practice"),
        limits=(
            "bladder_wall",
            "bladder_modulus",
            "bladder_undersize",
            "bladder_corner_share",
        ),
    )
    def into_the_corner(
        self, radius: float, thick: float, pressure: float, bag: str
    ) -> RuleBody:
        left = bladder.corner_pressure_pa(
            pressure, RUBBER, STRETCH, WALL, in_the_corner_m(radius, thick)
        )
        wanted = CORNER_SHARE * pressure
        finding = Finding(
            "corner-pressure",
            "Pressure on the plies in the tightest corner",
            left,
            "kPa",
            "p − E · stretch · wall / r",
            limit=wanted,
            judgement="ok" if left >= wanted else "watch" if left > 0 else "fail",
        )
        if left >= wanted:
            return finding
        if left <= 0:
            return [finding, RuledOut("a larger radius, or more pressure in the bladder")]
        return [
            finding,
            Doubtful(
                "The bladder is made to the shape of the section, corners too, or a soft "
                "strip fills the corner; in the shut, empty mould it lies in every corner.",
                "a dry rehearsal with putty in the corners, looked at after",
            ),
        ]

    @Rule(
        Part(shape="closed", undercut=True),
        Bagging(bladder=True, name=MATCH.bag),
    )
    @advice(
        id="BLADDER-058",
        title="Show that the bladder comes out of a section with a bend or a neck",
        reason=(
            "{bag} is drawn out of an end once the part is cured: past a bend or a neck "
            "it jams, tears, and what is left stays in the part."
        ),
        cites=("removable-tooling-page", "common-practice"),
    )
    def bent_section(self, bag: str) -> Doubtful:
        return Doubtful(
            "The bladder, empty and folded under vacuum, slides whole through the "
            "narrowest end, past every bend.",
            "a trial in the shut, empty mould, and in a first part cut open after",
        )

    @Rule(
        Part(
            shape="closed",
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(bladder=True, name=MATCH.bag),
        TEST(slender),
    )
    @advice(
        id="BLADDER-068",
        title="Show that a long bladder comes out",
        reason=(
            "{length:length} of section is more than {bladder_slender:number} times its "
            "least width: {bag} sticks all along, and rubber that is pulled at one end "
            "stretches there instead of letting go."
        ),
        limits=("bladder_slender",),
    )
    def long_section(self, length: float, width: float, depth: float, bag: str) -> Doubtful:
        return Doubtful(
            "The bladder comes out of a first part of full length whole, drawn from both "
            "ends, or air let in between it and its film.",
            "a first part, cut open if the bladder tears",
        )

    @Rule(
        Finish(after=MATCH.after & among("paint", "bond")),
        Bagging(bladder=True, name=MATCH.bag),
    )
    @advice(
        id="BLADDER-078",
        title="Keep silicone off what is painted or glued",
        reason=(
            "{bag} is of silicone rubber: a trace of its oil on hands, bench or part makes "
            "craters in paint and weakens a bond, and the part gets {after} afterwards."
        ),
        cites=("silicone-bond-study", "silicone-paint-page"),
    )
    def silicone_spreads(self, after: str, bag: str) -> Doubtful:
        return Doubtful(
            "Film lies between rubber and plies everywhere, the bladder is stored and "
            "handled apart in gloves of its own, and a witness panel that was pressed by "
            "it takes the {after} of the part.",
            "water-break test and a test of the {after} on the witness panel",
        )


class JudgeBlownMould:
    """What body holds a bladder that is blown up: it is pulled apart, not pressed."""

    stage = "bagging"

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(brittle=True, name=MATCH.name),
    )
    @advice(
        id="BLADDER-108",
        title="Never blow up a bladder in a brittle mould",
        reason=(
            "{bag} pulls the halves of {name} apart and bends them outward: a brittle body "
            "is weak in tension, splits without a warning and is thrown by the air."
        ),
    )
    def brittle_mould(self, bag: str, name: str) -> RuledOut:
        return RuledOut("halves of metal, or a bladder that is open to the room")

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(soft=True, brittle=False, name=MATCH.name),
    )
    @advice(
        id="BLADDER-118",
        title="Never blow up a bladder in a soft mould",
        reason=(
            "{bag} pulls on the bolts, and {name} gives under their heads, the more as it "
            "warms: the joint opens, rubber is pressed into it and bursts."
        ),
    )
    def soft_mould(self, bag: str, name: str) -> RuledOut:
        return RuledOut("halves of metal, or a bladder that is open to the room")

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(
            soft=False,
            brittle=False,
            dust=NE("metal"),
            form=NE("laminate"),
            name=MATCH.name,
        ),
    )
    @advice(
        id="BLADDER-128",
        title="Blow up a bladder in metal, not in board or print",
        reason=(
            "{name} is bonded of boards or laid in layers and loses strength as it warms; "
            "{bag} pulls across the layers for the whole cure, where nothing is known of "
            "what they hold."
        ),
    )
    def layered_mould(self, bag: str, name: str) -> RuledOut:
        return RuledOut("halves of metal, or a bladder that is open to the room")

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(form="laminate", name=MATCH.name),
        Cure(bladder_pressure_pa=MATCH.gauge),
    )
    @advice(
        id="BLADDER-138",
        title="Back a shell before a bladder is blown up in it",
        reason=(
            "{name} is a thin shell: {gauge:pressure} from inside bows its flats and opens "
            "its flanges between the bolts."
        ),
    )
    def shell_mould(self, bag: str, name: str, gauge: float) -> Doubtful:
        return Doubtful(
            "Both shells lie all over in a metal frame that takes the bolts and the load; "
            "a competent person has calculated it, and the joint stays shut in the proof.",
            "calculation and proof with water, feeler along the joint, signed",
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(owned=True, form=NE("plate"), name=MATCH.name),
    )
    @advice(
        id="BLADDER-148",
        title="Blow up no bladder in a tool that was made for a bag",
        reason=(
            "A bag presses {name} together and {bag} pulls it apart: flanges and bolts of "
            "a tool in hand were not made for that unless it is written."
        ),
    )
    def mould_not_rated(self, bag: str, name: str) -> Doubtful:
        return Doubtful(
            "The mould in hand was designed, proved and rated for this pressure.",
            "its rating in writing, with the date of the proof",
        )

    @Rule(
        Part(length_m=MATCH.length, width_m=MATCH.width, depth_m=MATCH.depth),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(soft=False, brittle=False, name=MATCH.name),
    )
    @advice(
        id="BLADDER-158",
        title="Hold the load on the joint against its bolts",
        reason=(
            "{gauge:pressure} on {length:length} of section parts the halves of {name}: "
            "with bolts M10 of class 8.8 every {mould_bolt_pitch:length} on both sides "
            "each carries {value:mass} of load, before anything is added for safety; "
            "{mould_bolt_share:percent} of its proof load is planned."
        ),
        cites=("hatch-force-problem", "bolt-class-page", "bolt-area-table"),
        limits=(
            "mould_bolt_pitch",
            "mould_bolt_proof",
            "mould_bolt_area",
            "mould_bolt_share",
            "gravity",
        ),
    )
    def load_on_a_bolt(
        self, length: float, width: float, depth: float, gauge: float, bag: str, name: str
    ) -> RuleBody:
        load = hollow.parting_force_n(gauge, length, max(width, depth))
        each = load / bladder.bolts_along(length, PITCH)
        most = BOLT_SHARE * BOLT
        finding = Finding(
            "bolt-load",
            "Load on each bolt of the joint",
            each / GRAVITY,
            "kg",
            "p · L · max(W, D) / (g · bolts)",
            limit=most / GRAVITY,
            judgement="ok" if each <= most else "fail",
        )
        if each <= most:
            return finding
        return [finding, RuledOut("less pressure, or a bladder that is open to the room")]

    @Rule(
        Part(length_m=MATCH.length, width_m=MATCH.width, depth_m=MATCH.depth),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(
            dust="metal",
            brittle=False,
            form="pocketed",
            tensile_strength_pa=MATCH.strong,
            name=MATCH.name,
        ),
    )
    @advice(
        id="BLADDER-168",
        title="Hold the wall of the mould against its strength",
        reason=(
            "With {metal_wall:length} of {name} behind the section, bent like a plate by "
            "{gauge:pressure}, no rib counted, its strength is {value:number} times the "
            "stress; {mould_wall_factor:number} is the least to plan with."
        ),
        cites=("roark", "common-practice"),
        limits=("metal_wall", "mould_wall_factor"),
    )
    def wall_of_the_mould(
        self,
        length: float,
        width: float,
        depth: float,
        gauge: float,
        bag: str,
        strong: float,
        name: str,
    ) -> RuleBody:
        across = max(width, depth)
        stress = strength.plate_bending_stress_pa(gauge, across, length, MOULD)
        factor = strong / stress
        finding = Finding(
            "mould-wall-factor",
            "Strength of the mould's wall over its stress",
            factor,
            "1",
            "strength / (β · p · W² / t²)",
            limit=WALL_FACTOR,
            judgement="ok" if factor >= WALL_FACTOR else "fail",
        )
        if factor >= WALL_FACTOR:
            return finding
        return [
            finding,
            Doubtful(
                "The wall of each half is as thick, or as ribbed, as a competent person "
                "calculates for this pressure.",
                "the calculation, signed, before the stock is ordered",
            ),
        ]


class WhyABladder:
    """Say why a bladder fits this run."""

    stage = "route"

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(bladder=True, pressure="vacuum", name=MATCH.bag, pulls=MATCH.pulls),
        Run(parts=MATCH.parts),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-208",
        title="Leave the bladder open to the room where one bar will do",
        reason=(
            "{bag} lasts about {pulls:parts} of the {parts:parts}, finds its way into the "
            "corners without hands, and {name} is pressed together by the bag instead of "
            "being pulled apart."
        ),
        cites=("removable-tooling-page", "common-practice"),
    )
    def open_bladder_fits(self, bag: str, pulls: float, parts: int, name: str) -> Good:
        return Good()

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(pressure="bladder", name=MATCH.bag, pulls=MATCH.pulls),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Tool(name=MATCH.name, dust="metal"),
    )
    @advice(
        id="BLADDER-218",
        title="Blow the bladder up where one bar is not enough",
        reason=(
            "{gauge:pressure} presses a hollow section harder than the air of the room "
            "can, without a vessel, in halves of {name} that a bolted joint can be made "
            "of; each bladder lasts about {pulls:parts}."
        ),
        cites=("bladder-tube-forum", "removable-tooling-page"),
    )
    def blown_bladder_fits(self, bag: str, pulls: float, gauge: float, name: str) -> Good:
        return Good()


class BlownMouldNumbers:
    """What the competent person starts from."""

    stage = "plan"

    @Rule(
        Part(length_m=MATCH.length, width_m=MATCH.width, depth_m=MATCH.depth),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-368",
        title="Know what parts the halves",
        reason=(
            "{gauge:pressure} on the section where it is widest, over {length:length}, "
            "parts the halves of {name} with {value:mass} of load."
        ),
        cites=("hatch-force-problem",),
        limits=("gravity",),
    )
    def parting_load(
        self, length: float, width: float, depth: float, gauge: float, bag: str, name: str
    ) -> Finding:
        return Finding(
            "parting-load",
            "Load that parts the halves at the pressure of the cure",
            hollow.parting_force_n(gauge, length, max(width, depth)) / GRAVITY,
            "kg",
            "p · L · max(W, D) / g",
            judgement="watch",
        )

    @Rule(
        Part(length_m=MATCH.length),
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-378",
        title="Count the bolts along the joint",
        reason=(
            "Every {mould_bolt_pitch:length} on both sides of {length:length} makes "
            "{value:number} bolts, those at the ends besides: between bolts farther apart "
            "the flanges of {name} bow and rubber comes out."
        ),
        limits=("mould_bolt_pitch",),
    )
    def bolts_of_the_joint(self, length: float, bag: str, name: str) -> Finding:
        return Finding(
            "bolts-least",
            "Bolts along the joint, both sides together",
            float(bladder.bolts_along(length, PITCH)),
            "count",
            "2 · (L / pitch + 1), rounded up",
        )

    @Rule(
        Part(width_m=MATCH.width, depth_m=MATCH.depth),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Bagging(pressure="bladder", name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-388",
        title="Know what pushes out the end plugs",
        reason=(
            "{gauge:pressure} on {width:length} by {depth:length} pushes each end plug of "
            "{name} out with {value:mass} of load, in line with whoever stands there."
        ),
        cites=("hatch-force-problem",),
        limits=("gravity",),
    )
    def end_load(
        self, width: float, depth: float, gauge: float, bag: str, name: str
    ) -> Finding:
        return Finding(
            "end-load",
            "Load on each end plug",
            hollow.parting_force_n(gauge, width, depth) / GRAVITY,
            "kg",
            "p · W · D / g",
            judgement="watch",
        )

    @Rule(
        Cure(pressure="bladder", bladder_pressure_pa=MATCH.gauge),
        Found(key="tool-temperature", value=MATCH.hot),
        Shop(altitude_m=MATCH.altitude),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-398",
        title="Let out what the heat adds to the pressure",
        reason=(
            "Air shut in the bladder cold at {gauge:pressure} presses with "
            "{value:pressure} at {hot:temperature}: a regulator that only lets in does "
            "not see it, and the joint of {name} carries it."
        ),
        cites=("tyre-pressure-problem",),
        limits=("room_temperature",),
    )
    def heated_shut(self, gauge: float, hot: float, altitude: float, name: str) -> Finding:
        outside = atmosphere.pressure_at_altitude_pa(altitude)
        return Finding(
            "shut-pressure",
            "Pressure in the bladder if shut off cold and heated",
            bladder.shut_pressure_pa(gauge, ROOM, hot, outside),
            "kPa",
            "(p + p₀) · T / T₀ − p₀",
            limit=gauge,
            judgement="watch",
        )


class BladderConditions:
    """What has to be settled before a bladder is used."""

    stage = "plan"

    @Rule(
        Cure(pressure="bladder", bladder_pressure_pa=MATCH.gauge & GT(LAW)),
        Shop(jurisdiction=MATCH.place),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-308",
        title="Settle what pressure law asks of mould, bladder and air line",
        reason=(
            "{gauge:pressure} is over the {pressure_law_from:pressure} from which European "
            "and British law speak of pressure equipment; other places have orders and "
            "codes of their own, and the shop's is given as {place}. Whether a bolted "
            "mould falls under them, and what proof and papers it then needs, is not for "
            "this plan."
        ),
        cites=("eu-2014-68-article-1", "uk-pssr-regulation-2", "ca-pressure-orders"),
        limits=("pressure_law_from",),
    )
    def pressure_law(self, gauge: float, place: str, name: str) -> Condition:
        return Condition(
            "A competent or licensed person has settled in writing what local "
            "pressure-equipment law asks of the mould of {name}, its air line and its "
            "compressor, has calculated halves, bolts and plugs, and has set the rating "
            "that the relief valve protects and when all is examined again.",
            "the paper with the rating, before any stock is ordered",
        )

    @Rule(
        Part(shape="closed", length_m=MATCH.length),
        Bagging(bladder=True, name=MATCH.bag),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="BLADDER-318",
        title="Cut the bladder for its growth",
        reason=(
            "Silicone rubber grows about {bladder_expansion:expansion}: over "
            "{length:length} that is {value:length} by {hot:temperature}, where mould and "
            "plies hardly grow, and a bladder that is too long folds and prints its fold."
        ),
        cites=("silicone-expansion-2023", "common-practice"),
        limits=("bladder_expansion", "room_temperature"),
    )
    def grows_along(self, length: float, bag: str, hot: float) -> Finding:
        low, value, high = (bladder.growth_m(length, one, hot, ROOM) for one in EXPANSIONS)
        return Finding(
            "bladder-growth",
            "Bladder made shorter than the section, for its growth",
            value,
            "mm",
            "L · α · ΔT",
            low=low,
            high=high,
        )

    @Rule(
        Bagging(bladder=True, name=MATCH.bag, pulls=MATCH.pulls),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="BLADDER-328",
        title="Plan how many bladders the run wears out",
        reason=(
            "A bladder wears out after about 2 to 30 pulls; with {pulls:parts} each "
            "{parts:parts} take {value:number}."
        ),
        cites=("removable-tooling-page",),
    )
    def bladders_worn(self, bag: str, pulls: float, parts: int) -> Finding:
        return Finding(
            "bladders",
            "Bladders over the run, without a spare",
            float(cost.tools_needed(parts, int(pulls))),
            "count",
            "parts / pulls, rounded up",
        )

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(bladder=True, name=MATCH.bag),
        Route(construction="split"),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="BLADDER-338",
        title="Show what a bladder leaves inside",
        reason=(
            "{bag} moulds nothing: the inside is as rubber and film leave it, with the "
            "laps of the film, and a passage may be narrower where plies lap."
        ),
    )
    def inside_of_a_bladder(self, bag: str, parts: int) -> Condition:
        return Condition(
            "The customer has seen the inside of such a section and agrees to it; no film "
            "and no piece of rubber is left in it.",
            "a sample cut open, signed by the customer",
        )

    @Rule(
        Bagging(bladder=True, name=MATCH.bag),
        Found(key="dwell-start", value=MATCH.start),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-348",
        title="Time the first heating in the laminate itself",
        reason=(
            "The air in the bladder does not move and rubber keeps heat off: the laminate "
            "warms through {name} alone, later than the {start:about_hours} that are "
            "calculated with a bag on the inside."
        ),
    )
    def warms_from_outside(self, bag: str, start: float, name: str) -> Condition:
        return Condition(
            "A first heating with bladder and scrap plies in the shut mould shows when the "
            "coldest laminate reaches its dwell; the dwell of every part is set by that.",
            "chart of thermocouples in the scrap laminate, at both ends and in the middle",
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Cure(bladder_pressure_pa=MATCH.gauge & LT(LAW)),
        Tool(name=MATCH.name),
    )
    @advice(
        id="BLADDER-358",
        title="Ask whether so little pressure is worth a bolted mould",
        reason=(
            "{gauge:pressure} is less than the air of the room gives to a bladder that is "
            "left open in a bagged mould, and {name} is pulled apart for it."
        ),
        limits=("pressure_law_from",),
    )
    def less_than_the_room(self, bag: str, gauge: float, name: str) -> Condition:
        return Condition(
            "The job is planned again with cure.pressure as vacuum, or it is written why "
            "the mould cannot be bagged.",
            "the two plans side by side",
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Grade(role="bladder", name=MATCH.grade, limit_c=MATCH.stands),
        Tool(name=MATCH.name),
        TEST(lambda hot, stands: stands < needed_c(hot)),
    )
    @advice(
        id="BLADDER-408",
        title="Find a rubber for the heat, by its own sheet",
        reason=(
            "The cure is {hot:temperature} and {grade} is planned to {stands:temperature}: "
            "hotter, common silicone hardens, sticks and tears within a few pulls."
        ),
        cites=("silicone-glossary-page", "rubber-cure-page", "common-practice"),
        limits=("shelf_margin", "air_lead"),
    )
    def rubber_by_its_sheet(
        self, hot: float, grade: str, stands: float, name: str
    ) -> Condition:
        return Condition(
            f"A rubber is at hand whose own sheet takes "
            f"{STYLES['temperature'](needed_c(hot))} for as long as all its cures last, "
            "and two of its bladders have been through a whole cure each and are still "
            "soft.",
            "the sheet, and both bladders felt, stretched and looked at after",
        )
