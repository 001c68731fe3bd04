"""A closed section: core that washes out, or inner tube; way out, soak and drying."""

from advisor.calculations import hollow
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import (
    Condition,
    Doubtful,
    Finding,
    Good,
    HoldPoint,
    Quantity,
    Question,
    Step,
    Trial,
)
from advisor.reasoning.expert import LE, MATCH, NOT, TEST, Rule, W
from advisor.reasoning.facts import (
    Bagging,
    Finish,
    Found,
    Part,
    Route,
    Run,
    Tool,
)
from advisor.reasoning.rulebook import advice

BLADDER = limit("bladder_watched")
CORES = limit("cores_in_a_run")
COUPON = limit("core_coupon")
DRYING = limit("part_drying")
GRAVITY = limit("gravity")
HAND = limit("tube_section_least")
RATE = limit("core_soak_rate")


class AskWhichFace:
    """Core or tube goes with the face that must be true."""

    stage = "ask"

    @Rule(Part(shape="closed"), NOT(Part(tool_side=W())))
    @advice(
        id="ASK-183",
        title=(
            "Which face of the closed section must be true to size (part.tool_side)? male: "
            "the inside, on a core that is drawn, washed or broken out; female: the "
            "outside, in a mould that opens, pressed by a tube of film or a bladder from "
            "inside."
        ),
        reason=(
            "A core gives a clean inside and needs no mould, but a trapped one is spent on "
            "each part and must stand the cure and find a way out; a mould with a tube is "
            "made once for many parts, and its tube needs room to be worked in and leaves "
            "folds inside; a bladder goes into a narrower one, and wears out."
        ),
        cites=("removable-tooling-page", "common-practice"),
    )
    def ask_core_or_tube(self) -> Question:
        return Question("part.tool_side")


class JudgeTube:
    """Whether a tube of film can be worked into the section."""

    stage = "bagging"

    @Rule(
        Part(shape="closed", tool_side="female", width_m=MATCH.width, depth_m=MATCH.depth),
        Bagging(inside=True, bladder=False, name=MATCH.bag),
        TEST(lambda width, depth: min(width, depth) < HAND),
    )
    @advice(
        id="HOLLOW-013",
        title="Rehearse the tube in a narrow section",
        reason=(
            "A section of {width:length} by {depth:length} is under "
            "{tube_section_least:length} across: no hand gets in, and a tube that bridges "
            "a corner there is not seen."
        ),
        limits=("tube_section_least",),
    )
    def narrow_section(self, width: float, depth: float, bag: str) -> Doubtful:
        return Doubtful(
            "In the closed, empty mould the tube pulled down lies in every corner, end to "
            "end.",
            "a dry rehearsal with carbon paper or putty in the corners, looked at after",
        )


class WhyThisWay:
    """Say why a core that goes, or a mould with a tube, fits the run, heat and face."""

    stage = "route"

    @Rule(
        Part(shape="closed", tool_side="male"),
        Route(construction="wash-out", tools=MATCH.cores & LE(CORES)),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, service_limit_c=MATCH.stands),
        TEST(lambda hot, stands: hot <= stands),
    )
    @advice(
        id="HOLLOW-073",
        title="Take a core that washes out for a short run with a clean inside",
        reason=(
            "{cores:parts} spend a core each, {name} stands {stands:temperature} against "
            "{hot:temperature}, the inside copies its face, and no mould that opens is "
            "made; for a longer run, or a true outside, a split mould with a tube of film "
            "is made once."
        ),
        cites=("removable-tooling-page", "salt-core-2017", "common-practice"),
        limits=("cores_in_a_run",),
    )
    def core_fits(self, cores: int, hot: float, name: str, stands: float) -> Good:
        return Good()

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(inside=True, bladder=False, name=MATCH.bag, pressure=MATCH.mode),
        Route(construction="split", parts_per_tool=MATCH.life),
        Run(parts=MATCH.parts),
        Tool(name=MATCH.name),
    )
    @advice(
        id="HOLLOW-083",
        title="Take a tube of film where the outside is seen and the run is long",
        reason=(
            "One mould of {name} gives about {life:parts} of the {parts:parts} wanted, "
            "each with a new tube that costs little, and nothing has to find a way out but "
            "film; the inside is as the film leaves it, and the pressure is what {mode} "
            "gives: a bladder that is blown up wears out in 2 to 30 pulls and wants a "
            "mould made for its pressure."
        ),
        cites=("removable-tooling-page", "common-practice"),
    )
    def tube_fits(self, bag: str, mode: str, life: int, parts: int, name: str) -> Good:
        return Good()


class TubeOrBladder:
    """Why the tube is open to the air, and what a blown one would do."""

    stage = "plan"

    @Rule(
        Part(shape="closed", length_m=MATCH.length, width_m=MATCH.width),
        Bagging(inside=True, bladder=False, name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="HOLLOW-023",
        title="Do not turn the tube into a bladder",
        reason=(
            "The air presses {bag} out and the bag outside holds the halves shut; blown up "
            "with {bladder_watched:pressure}, the section would part them with about "
            "{value:mass} of load, and clamps that let go throw the halves."
        ),
        cites=("bladder-tube-forum", "removable-tooling-page"),
        limits=("bladder_watched", "gravity"),
    )
    def blown_up(
        self, length: float, width: float, bag: str, name: str
    ) -> list[Finding | Condition]:
        return [
            Finding(
                "parting-force",
                "Load that would part the halves if the tube were blown up",
                hollow.parting_force_n(BLADDER, length, width) / GRAVITY,
                "kg",
                "p · L · W / g",
                judgement="watch",
            ),
            Condition(
                "Nobody blows the tube up. Where one bar is not enough, the part goes to a "
                "certified autoclave, or to a bladder, fittings and mould that are made "
                "and rated for the pressure (cure.pressure as bladder), and to people "
                "trained on them.",
                "signed on the traveller before the tube goes in",
            ),
        ]

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(inside=True, bladder=False, name=MATCH.bag),
        Finish(target=MATCH.target),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="HOLLOW-033",
        title="Show what the inside will look like",
        reason=(
            "The outside is moulded; the inside is as {bag} leaves it, with ridges where "
            "film or felt was folded, and loose film may stay in it."
        ),
    )
    def inside_is_bag_side(self, bag: str, target: str, parts: int) -> Condition:
        return Condition(
            "The customer has seen the inside of such a section and agrees to it; a "
            "passage for air or fluid is looked through, and no film is left.",
            "a sample cut open, signed by the customer",
        )


class CoreOut:
    """What lets a core that washes out leave, and when it has left."""

    stage = "plan"

    @Rule(
        Route(construction="wash-out"),
        Part(shape=MATCH.shape, length_m=MATCH.length),
        Tool(name=MATCH.name),
    )
    @advice(
        id="HOLLOW-043",
        title="See that water reaches the core and the core finds a way out",
        reason=(
            "Water gets in only at openings, from {length:length} of section: a blind end, "
            "a neck or a sealed end face keeps {name} in the part."
        ),
        cites=("sand-core-2025", "common-practice"),
    )
    def a_way_out(self, shape: str, length: float, name: str) -> Condition:
        return Condition(
            "The drawing has an opening at either end, or at the lowest place and at the "
            "farthest, wide enough for a hose and for what comes out; the seal is cut away "
            "from the core there.",
            "drawing, with the openings marked",
        )

    @Rule(
        Route(construction="wash-out"),
        Part(length_m=MATCH.length),
        Tool(name=MATCH.name),
    )
    @advice(
        id="HOLLOW-053",
        title="Count on the core's own rate, not on a guess",
        reason=(
            "Wash-out is governed by the way from an open end, the warmth and movement of "
            "the water, and the binder. From both ends of {length:length} one published "
            "core would be wet through in {value:minutes}, the quickest found; another is "
            "printed at 1 to 6 g a minute, hours for a core of this kind."
        ),
        cites=("sand-core-2025", "bead-core-2024"),
        limits=("core_soak_rate",),
    )
    def soak(self, length: float, name: str) -> Finding:
        return Finding(
            "core-soak",
            "Water through the core, at the very quickest",
            hollow.soak_time_s(length / 2, RATE),
            "min",
            "half the length / rate of the quickest core published",
            judgement="watch",
        )

    @Rule(
        Route(construction="wash-out"),
        Found(key="tool-temperature", value=MATCH.hot),
        Part(length_m=MATCH.length),
        Tool(name=MATCH.name),
    )
    @advice(
        id="HOLLOW-063",
        title="Wash a coupon of the core after the full cure, and time it",
        reason=(
            "Heat can make a binder that dissolved at the bench stay: what "
            "{hot:temperature} leaves of it shows only after the whole cure, and its time "
            "tells that of the core."
        ),
        cites=("memory-washout-core-sheets", "common-practice"),
        limits=("core_coupon",),
    )
    def wash_a_coupon(self, hot: float, length: float, name: str) -> Trial:
        return Trial(
            "core",
            "A bar of {name} {core_coupon:length} long, from the same lot, sealed and "
            "released as the core but open at one end, through the whole cure at "
            "{hot:temperature}, then washed as the core will be and timed.",
            "it runs out to the last grain by water alone, and the time is written down",
            "grains that stay or have to be scraped: another binder, or a cooler cure",
        )

    @Rule(
        Route(construction="wash-out"),
        Part(length_m=MATCH.length),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-843",
        title="Plan the time of the wash by the coupon",
        reason=(
            "Half of {length:length} lies between the middle of {name} and an open end, "
            "{value:number} times the coupon's way, and the farther in, the slower."
        ),
        limits=("core_coupon",),
    )
    def time_the_wash(self, length: float, name: str) -> list[Finding | Step]:
        times = length / 2 / COUPON
        return [
            Finding(
                "core-over-coupon",
                "Way of the water in the core, over that in the coupon",
                times,
                "1",
                "half the length / length of the coupon",
            ),
            Step(
                "demould",
                "Take the coupon's time at least {value:number} times over, from both ends "
                "and with the water moving; still water takes longer. Keep to the warmth "
                "of the core's sheet, and below what softens the part.",
                does=(),
                quantities=(Quantity("Coupon's time, at least times", times, "count"),),
            ),
        ]

    @Rule(
        Route(construction="wash-out"),
        Found(key="part-mass", value=MATCH.mass),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-853",
        title="Dry the washed part before heat, paint or glue",
        reason=(
            "Water in the laminate and in its cut ends boils under a later heat and lifts "
            "plies; under glue or paint it spoils the bond."
        ),
        cites=("army-composites-manual", "drying-repair-page"),
        limits=("part_drying",),
    )
    def dry_the_part(self, mass: float, name: str) -> Step:
        return Step(
            "demould",
            "Drain it, wipe it, let air move right through. Then warm it slowly, no faster "
            "than 5 °C (9 °F) a minute, to {part_drying:temperature} or 20 °C (36 °F) "
            "under its glass transition, whichever is lower, ends open to moving air, "
            "until its mass is steady. Only then a post-cure, glue or paint.",
            does=("heats", "lifts"),
            quantities=(
                Quantity("Drying", DRYING, "degC"),
                Quantity("Part, dry, about", mass, "kg"),
            ),
            hold_point=HoldPoint(
                "Steady mass", "two weighings an hour apart agree", "mass, time"
            ),
        )
