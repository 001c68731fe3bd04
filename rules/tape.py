"""Shrink tape on a mandrel: where it serves, how hard it presses, and winding it."""

import math

from advisor.calculations import tape
from advisor.knowledge.tables import limit, limit_span
from advisor.reasoning.conclusions import (
    Condition,
    Doubtful,
    Finding,
    HoldPoint,
    Quantity,
    Question,
    RuledOut,
    Step,
    Use,
)
from advisor.reasoning.expert import GT, LE, LT, MATCH, NE, NOT, TEST, Rule, W, among
from advisor.reasoning.facts import (
    Bagging,
    Cure,
    Finish,
    Found,
    Laminate,
    Part,
    Run,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .laying import for_the_run  # noqa: TID251 (a sibling, not a copy)

ENDS = limit("bag_allowance")
LAYERS_MOST = limit("tape_layers_most")
OVERLAP = limit("tape_overlap")
ROUND_WITHIN = limit("tape_round_within")
SHRINKS_FROM = limit("tape_shrinks_from")
STRESS_LOW, _, STRESS_HIGH = limit_span("tape_stress")
TAPER = limit("tape_taper_most")
THICKNESS = limit("tape_thickness")
WANTED = limit("tape_pressure")
WIDTH = limit("tape_width")
CUT_FREE = (
    "Slit the tape along the tube with a knife guard or start it at its last turn, and "
    "unwind it the way it went on; the cured edge of each turn is sharp."
)


def is_round(width: float, depth: float, radius: float) -> bool:
    """Return whether a section is near enough to round to be pressed by tape all round."""
    least = (1 - ROUND_WITHIN) * max(width, depth) / 2
    return min(width, depth) / 2 >= least and radius >= least


def passes_of(layers: int) -> int:
    """Return the passes of winding that lay so many layers, each over half of itself."""
    return math.ceil(layers * (1 - OVERLAP))


class AskAboutTape:
    """What has to be known before tape is wound, and what tape cannot be."""

    stage = "ask"

    @Rule(Cure(pressure="tape"), Part(shape=MATCH.shape & NE("closed")))
    @advice(
        id="ASK-143",
        title=(
            "Is it a tube? cure.pressure is tape and part.shape is {shape}; accepted: "
            "shape closed, or vacuum or autoclave."
        ),
        reason="Tape presses only where it goes right round: a tube on a mandrel.",
    )
    def ask_tape_or_tube(self, shape: str) -> Question:
        return Question("cure.pressure")

    @Rule(Cure(pressure="tape"), Part(shape="closed", tool_side="female"))
    @advice(
        id="ASK-153",
        title=(
            "Is the inside moulded? cure.pressure is tape and part.tool_side is female; "
            "accepted: male, or vacuum or autoclave."
        ),
        reason="Tape is wound over plies on a mandrel; inside a female tool it has no way.",
    )
    def ask_tape_or_female(self) -> Question:
        return Question("part.tool_side")

    @Rule(
        Cure(pressure="tape"),
        Part(shape="closed"),
        NOT(Part(smallest_radius_m=W())),
    )
    @advice(
        id="ASK-163",
        title="What is the tightest radius of the section (part.smallest_radius)?",
        reason="Tape presses as one over the radius: a flat or a hollow gets nothing.",
    )
    def ask_radius_under_tape(self) -> Question:
        return Question("part.smallest_radius")

    @Rule(Cure(pressure="tape", autoclave_pressure_pa=MATCH.pressure_pa))
    @advice(
        id="ASK-173",
        title=(
            "Tape, or an autoclave? cure.pressure is tape and cure.autoclave_pressure is "
            "{pressure_pa:pressure}; accepted: one or the other."
        ),
        reason="The tape presses by its own tension, in an oven that is open to the air.",
    )
    def ask_tape_or_autoclave(self, pressure_pa: float) -> Question:
        return Question("cure.autoclave_pressure")


class TapePressure:
    """What the tape brings on the plies, in place of a bag."""

    stage = "needs"

    @Rule(
        Cure(pressure="tape"),
        Part(shape="closed", tool_side="male", width_m=MATCH.width, depth_m=MATCH.depth),
        Found(key="laminate-thickness", value=MATCH.thick),
    )
    @advice(
        id="TAPE-013",
        title="Wind as many layers as the radius asks for",
        reason=(
            "Tape presses with its tension over the radius: small tubes hard, large ones "
            "hardly. At the low end of what tapes are believed to pull, {tape_pressure:"
            "pressure} over the largest radius takes the layers counted here; the span is "
            "that of the tension, which the tape's sheet or a first short tube settles."
        ),
        cites=("tape-compression-page", "hoop-stress-problem"),
        limits=(
            "tape_pressure",
            "tape_stress",
            "tape_thickness",
            "tape_overlap",
            "tape_layers_most",
        ),
    )
    def tape_pressure(self, width: float, depth: float, thick: float) -> list[Finding]:
        radius = max(width, depth) / 2 + thick
        least = tape.tape_layers(WANTED, STRESS_LOW, THICKNESS, radius)
        passes = passes_of(least)
        layers = passes / (1 - OVERLAP)
        low, high = (
            tape.tape_pressure_pa(stress, THICKNESS, layers, radius)
            for stress in (STRESS_LOW, STRESS_HIGH)
        )
        return [
            Finding(
                "cure-pressure",
                "Pressure on the part, by its tape, counted on",
                low,
                "kPa",
                "n · s · h / r",
                low=low,
                high=high,
                limit=WANTED,
                judgement="ok" if low >= WANTED else "watch",
            ),
            Finding(
                "tape-layers",
                "Layers of shrink tape, at least",
                float(least),
                "count",
                "p · r / (s · h), rounded up",
                limit=LAYERS_MOST,
                judgement="ok" if least <= LAYERS_MOST else "fail",
            ),
        ]


class JudgeTape:
    """Whether tape serves this section, this heat and this mandrel."""

    stage = "bagging"

    @Rule(
        Part(
            shape="closed",
            width_m=MATCH.width,
            depth_m=MATCH.depth,
            smallest_radius_m=MATCH.radius,
        ),
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
        TEST(lambda width, depth, radius: not is_round(width, depth, radius)),
    )
    @advice(
        id="TAPE-023",
        title="Keep tape for round tubes",
        reason=(
            "A section of {width:length} by {depth:length} with a radius down to "
            "{radius:length} has places flatter than round: {bag} spans a flat without "
            "pressing it, and crushes the corner beside it."
        ),
        cites=("tape-compression-page", "common-practice"),
        limits=("tape_round_within",),
    )
    def not_round(self, width: float, depth: float, radius: float, bag: str) -> RuledOut:
        return RuledOut("a round section, or a vacuum bag")

    @Rule(
        Part(undercut=True, shape="closed"),
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
    )
    @advice(
        id="TAPE-033",
        title="Keep tape for straight tubes",
        reason=(
            "A section that locks its core is bent or narrow in the middle: {bag} opens "
            "outside the bend and bridges the hollow."
        ),
    )
    def not_straight(self, bag: str) -> RuledOut:
        return RuledOut("a straight tube, or a vacuum bag")

    @Rule(
        Part(draft_deg=MATCH.taper & GT(TAPER), shape="closed"),
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
    )
    @advice(
        id="TAPE-043",
        title="Keep tape for a slight taper",
        reason=(
            "On a taper of {taper:angle} the turns of {bag} creep to the small end as they "
            "shrink; up to {tape_taper_most:angle} they hold."
        ),
        limits=("tape_taper_most",),
    )
    def too_steep(self, taper: float, bag: str) -> RuledOut:
        return RuledOut("less taper, or a vacuum bag")

    @Rule(
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
        Tool(tightness=NE("tight"), name=MATCH.name),
    )
    @advice(
        id="TAPE-053",
        title="Wind tape on a hard mandrel",
        reason=(
            "{bag} presses the plies on to the mandrel, which is then drawn through the "
            "part: the seal of {name} scrapes off with it."
        ),
    )
    def soft_mandrel(self, bag: str, name: str) -> RuledOut:
        return RuledOut("a mandrel that needs no seal, of metal or of laminate")

    @Rule(
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
        Found(key="tape-layers", value=MATCH.layers & GT(LAYERS_MOST)),
    )
    @advice(
        id="TAPE-063",
        title="Press a large tube with a bag",
        reason=(
            "Over this radius {bag} takes {layers:number} layers to press as a bag does; "
            "{tape_layers_most:number} are about what is wound."
        ),
        cites=("tape-compression-page", "common-practice"),
        limits=("tape_layers_most", "tape_pressure", "tape_stress"),
    )
    def too_many_layers(self, bag: str, layers: float) -> RuledOut:
        return RuledOut("a smaller tube, a thicker tape by its sheet, or a vacuum bag")

    @Rule(
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
        Found(key="tape-layers", value=MATCH.layers & LE(LAYERS_MOST)),
        Found(key="cure-pressure", value=MATCH.pressure, low=MATCH.low, high=MATCH.high),
    )
    @advice(
        id="TAPE-073",
        title="Cut up a first tube before the run",
        reason=(
            "No air is drawn out, and what {bag} presses with is known only within "
            "{low:pressure} to {high:pressure}: pores show only in a cut."
        ),
        cites=("tape-ring-study", "tape-gaps-forum"),
        limits=("tape_stress", "tape_pressure", "tape_layers_most"),
    )
    def prove_the_tape(
        self, bag: str, layers: float, pressure: float, low: float, high: float
    ) -> Doubtful:
        return Doubtful(
            "A first, short tube cut across at both ends and in the middle shows no pores "
            "and an even wall; the tape's sheet gives its pull at the cure.",
            "cut ends ground and looked at under a glass, wall measured at eight places",
        )

    @Rule(
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
        Tool(form="laminate", name=MATCH.name),
        Found(key="cure-pressure", high=MATCH.high),
    )
    @advice(
        id="TAPE-093",
        title="Show that a hollow mandrel keeps its shape",
        reason=(
            "{name} is a thin shell, and tape may close on it with up to {high:pressure}: "
            "it folds in, and the tube with it."
        ),
        limits=("tape_stress",),
    )
    def hollow_mandrel(self, bag: str, name: str, high: float) -> Doubtful:
        return Doubtful(
            "The mandrel, filled or ribbed inside and wound bare as the tube will be, is "
            "round within its tolerance after a whole cure.",
            "measured across at five places before and after, on a mandrel without plies",
        )

    @Rule(
        Bagging(pressure="tape", name=MATCH.bag),
        Cure(pressure="tape"),
        Found(key="tool-temperature", value=MATCH.hot & LT(SHRINKS_FROM)),
    )
    @advice(
        id="TAPE-083",
        title="Find a tape that shrinks before the resin sets",
        reason=(
            "Polyester tape pulls fully only from {tape_shrinks_from:temperature} on, and "
            "the cure is {hot:temperature}: the resin would set under slack tape."
        ),
        cites=("tape-compression-page",),
        limits=("tape_shrinks_from",),
    )
    def shrinks_too_late(self, bag: str, hot: float) -> Doubtful:
        return Doubtful(
            "The tape's sheet shows its full pull at {hot:temperature} or below.",
            "the sheet, or a strip between two clips in the oven at that temperature",
        )


class TapeSteps:
    """Rolling, winding, and what is done to the surface after."""

    stage = "plan"

    @Rule(
        Cure(pressure="tape"),
        Laminate(plies=MATCH.plies),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-533",
        title="Roll every ply on tight",
        reason=(
            "There is no bag to draw air out: what is rolled in under a ply stays in, and "
            "slack in a ply is a wrinkle once the tape shrinks."
        ),
        cites=("tape-small-tubes-page", "common-practice"),
    )
    def roll_plies(self, plies: int, name: str) -> Step:
        return Step(
            "lay-up",
            "Mark a line along the mandrel, tack the edge of the ply on it and roll it up "
            "on a flat table under a stiff, padded board, pressing hard, always the same "
            "way round. Move the seam of each of the {plies} plies round the tube, lapped "
            "10 to 15 mm (0.4 to 0.6 in), never butted. Press out air towards the open "
            "edge as it goes; prick and press what is caught.",
            does=("handles-prepreg",),
            hold_point=HoldPoint(
                "Ply count, angles and seams",
                "as the kit list; no slack, no bubble; second person signs",
                "backings counted",
                signers=2,
            ),
        )

    @Rule(
        Cure(pressure="tape"),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="class-shrink-tape", value=MATCH.stands),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-603",
        title="Read the class on the tape before it is wound",
        reason=(
            "A tape of too low a class goes slack or melts at {hot:temperature}, one of "
            "too high a class has not shrunk when the resin sets."
        ),
        cites=("tape-compression-page", "common-practice"),
    )
    def read_the_tape(self, hot: float, stands: float, name: str) -> Step:
        return Step(
            "bag",
            "Read on its sheet what the tape stands, from what temperature it shrinks, "
            "which face is released, and its pull at the cure; count the layers again "
            "with that pull.",
            quantities=(Quantity("Shrink tape: class, at least", stands, "degC"),),
            hold_point=HoldPoint(
                "Tape's sheet read",
                "shrinks below the dwell and stands it",
                "grade, lot, pull",
            ),
        )

    @Rule(
        Cure(pressure="tape"),
        Bagging(pressure="tape", margin_m=MATCH.margin),
        Found(key="tape-layers", value=MATCH.layers),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-613",
        title="Wind the tape, lapped by half and without a gap",
        reason=(
            "Plies are pressed out of a gap and are pressed thin under an uneven lap; a "
            "turn that creeps to the small end must close on the turn before it."
        ),
        cites=("tape-gaps-forum", "tape-films-page", "common-practice"),
        limits=("tape_overlap", "tape_width"),
    )
    def wind_tape(self, margin: float, layers: float, name: str) -> Step:
        passes = passes_of(int(layers))
        return Step(
            "bag",
            "With the mandrel turned on its stands, start square to the axis with three "
            "turns on the bare end, the small end if there is one, and fix them with "
            "flash tape. Wind the way the plies were rolled, so that the last ply is "
            "drawn tighter, at a steady, firm pull from a roll with a brake: each turn "
            "laps the one before by {tape_overlap:percent} of its width. End with three "
            "square turns on the other bare end, fix them, and wind the next pass from "
            "the same end. No peel ply and no felt under the tape: they wrinkle. "
            "Perforated tape only where the prepreg's sheet wants bleed.",
            does=("handles-prepreg",),
            quantities=(
                Quantity("Passes, at least", float(passes), "count"),
                Quantity("Tape, wide about", WIDTH, "mm"),
                Quantity("Wound on to the bare ends, at least", margin / 2, "mm"),
            ),
            hold_point=HoldPoint(
                "Tape closed and even",
                "no gap, no fold, same pitch all along; both ends fixed",
                "passes",
            ),
        )

    @Rule(
        Cure(pressure="tape"),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-753",
        title="Cool in the tape",
        reason=(
            "The tape keeps its pull while it cools and holds the tube round; the colder "
            "{name} is, the easier it is drawn."
        ),
        cites=("tape-compression-page",),
        limits=("demould_temperature",),
    )
    def cool_in_tape(self, hot: float, name: str) -> Step:
        return Step(
            "cure",
            "Heat off, door shut, fan on, until part and mandrel are below "
            "{demould_temperature:temperature}; then let them hang to room temperature.",
            does=("heats", "heats-tool", "heats-bag"),
            hold_point=HoldPoint(
                "Cool before it is taken down",
                "hottest laminate thermocouple below {demould_temperature:temperature}",
                "time, temperature",
            ),
        )

    @Rule(Cure(pressure="tape"), Part(draft_deg=MATCH.taper), Tool(name=MATCH.name))
    @advice(
        id="STEP-803",
        title="Take the tape off before the mandrel is drawn",
        reason="Left on, the tape holds the part on to {name}.",
        cites=("tape-small-tubes-page", "common-practice"),
    )
    def unwind(self, taper: float, name: str) -> Step:
        return Step(
            "demould",
            CUT_FREE + " Look at both bare ends for resin that hooks over them, and clear "
            "it before anything is pulled.",
            does=("demoulds", "cuts-with-knife"),
            hold_point=HoldPoint("Tape off, ends clear", "none left under a fold", ""),
        )

    @Rule(
        Cure(pressure="tape"),
        Finish(target=MATCH.target & among("paint", "gloss")),
    )
    @advice(
        id="STEP-863",
        title="Sand the ridges of the tape off the outside",
        reason=(
            "Each edge of the tape leaves a ridge of resin, rough one way like a cat's "
            "tongue: sanded to the resin it is even, sanded further it cuts fibre."
        ),
        cites=("taped-rod-page", "tape-small-tubes-page"),
    )
    def sand_ridges(self, target: str) -> Step:
        return Step(
            "demould",
            "Sand along the tube, wet or with extraction on the sander, until the ridges "
            "are gone and no fibre shows; stop at the first fibre and fill instead. "
            "The outside is then primed or coated for the finish asked ({target}).",
            does=("sands-part", "cleans-dust"),
            hold_point=HoldPoint(
                "Outside even, fibre whole",
                "no ridge a fingernail finds, no dry fibre; diameter at five places",
                "diameters",
            ),
        )

    @Rule(
        Cure(pressure="tape"),
        Part(tool_side="male"),
        Finish(target=MATCH.target & among("paint", "gloss")),
    )
    @advice(
        id="FACE-013",
        title="Settle which face of the tube is seen",
        reason=(
            "On a mandrel the inside is moulded; the outside is as the tape leaves it, "
            "with ridges, and a tube sanded smooth loses resin and a little of its size."
        ),
        cites=("taped-rod-page", "common-practice"),
    )
    def outside_is_ridged(self, target: str) -> Condition:
        return Condition(
            "The customer has seen a taped surface, with its ridges and sanded, and the "
            "diameter he asks for is that after sanding.",
            "a sample tube signed by the customer",
        )

    @Rule(
        Cure(pressure="tape"),
        Found(key="face-area", value=MATCH.area),
        Found(key="tape-layers", value=MATCH.layers),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-023",
        title="Pull tape for one tube, order it for the run",
        reason=(
            "{layers:number} layers over {area:area}, {bag_allowance:percent} more for the "
            "bare ends; the run is {parts:parts}, and none is used twice."
        ),
        limits=("bag_allowance", "tape_width", "tape_overlap"),
    )
    def use_tape(self, area: float, layers: float, parts: int) -> list[Use]:
        laid = passes_of(int(layers)) / (1 - OVERLAP)
        length = tape.tape_length_m(area * (1 + ENDS), laid, WIDTH)
        return for_the_run("Shrink tape", length, "m", "bare ends included", parts)
