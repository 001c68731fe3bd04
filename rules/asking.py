"""What must be asked before anything is advised: missing facts, and contradictions."""

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Question
from advisor.reasoning.expert import GT, LE, MATCH, NE, NOT, TEST, Rule, W, among
from advisor.reasoning.facts import Cure, JobFile, Part, Run
from advisor.reasoning.rulebook import advice

FLAT_DEPTH = limit("flat_depth")
FLATTEST = limit("flattest_curve")


class AskForDecidingFacts:
    """Nothing is advised on a default where the fact decides the route."""

    stage = "ask"

    @Rule(JobFile(title=W()), NOT(Part(length_m=W())))
    @advice(
        id="ASK-010",
        title="How long is the part (part.length)?",
        reason="Size decides growth, weight, oven fit and cost.",
    )
    def ask_length(self) -> Question:
        return Question("part.length")

    @Rule(JobFile(title=W()), NOT(Part(width_m=W())))
    @advice(
        id="ASK-020",
        title="How wide is the part (part.width)?",
        reason="Size decides growth, weight, oven fit and cost.",
    )
    def ask_width(self) -> Question:
        return Question("part.width")

    @Rule(JobFile(title=W()), NOT(Part(shape=W())))
    @advice(
        id="ASK-030",
        title=(
            "What shape is it (part.shape: flat, single-curvature, double-curvature, "
            "closed)?"
        ),
        reason=(
            "Shape decides whether film, one-piece tools and plain bags can be used at all."
        ),
    )
    def ask_shape(self) -> Question:
        return Question("part.shape")

    @Rule(Part(shape=NE("flat")), NOT(Part(depth_m=W())))
    @advice(
        id="ASK-040",
        title="How deep is the shape (part.depth)?",
        reason="Depth decides the block, the walls that grip the part, and the bag.",
    )
    def ask_depth(self) -> Question:
        return Question("part.depth")

    @Rule(Part(shape=NE("flat")), NOT(Part(draft_deg=W())))
    @advice(
        id="ASK-050",
        title="What is the least wall angle to the draw (part.draft, degrees)?",
        reason="How the tool leaves the part decides whether it may be in one piece.",
    )
    def ask_draft(self) -> Question:
        return Question("part.draft")

    @Rule(Part(shape=NE("flat")), NOT(Part(undercut=W())))
    @advice(
        id="ASK-060",
        title=(
            "Is any face hidden when looking along the draw (part.undercut, true or false)?"
        ),
        reason="A hidden face locks the part on a one-piece tool.",
    )
    def ask_undercut(self) -> Question:
        return Question("part.undercut")

    @Rule(
        Part(shape=among("single-curvature", "double-curvature")),
        NOT(Part(tool_side=W())),
    )
    @advice(
        id="ASK-070",
        title=(
            "Which side is moulded (part.tool_side: female for the outside, male for the "
            "inside)?"
        ),
        reason=(
            "The side decides which face is true to size, and which tool grips on cooling."
        ),
    )
    def ask_tool_side(self) -> Question:
        return Question("part.tool_side")

    @Rule(JobFile(title=W()), NOT(Cure(temperature_c=W())))
    @advice(
        id="ASK-080",
        title="What is the highest cure temperature on the tool (cure.temperature)?",
        reason="Temperature decides which tool, seal, release and bag survive.",
    )
    def ask_cure_temperature(self) -> Question:
        return Question("cure.temperature")

    @Rule(JobFile(title=W()), NOT(Run(parts=W())))
    @advice(
        id="ASK-090",
        title="How many parts are wanted over the whole run (run.parts)?",
        reason="The run decides how long a tool must last and what it may cost.",
    )
    def ask_run_length(self) -> Question:
        return Question("run.parts")


class AskAboutContradictions:
    """Two inputs that cannot both be true are asked about, never settled in silence."""

    stage = "ask"

    @Rule(Part(shape="flat", smallest_radius_m=MATCH.radius_m))
    @advice(
        id="ASK-110",
        title=(
            "Is it flat, or has it a radius? part.shape is flat and part.smallest_radius "
            "is {radius_m:length}; accepted: flat without a radius, or another shape."
        ),
        reason=(
            "A flat part has no radius; a curved one is tooled, filmed and bagged "
            "differently."
        ),
    )
    def ask_flat_or_curved(self, radius_m: float) -> Question:
        return Question("part.smallest_radius")

    @Rule(Part(shape="flat", undercut=True))
    @advice(
        id="ASK-120",
        title=(
            "Is it flat, or has it an undercut? part.shape is flat and part.undercut is "
            "true; accepted: flat with undercut false, or another shape."
        ),
        reason="A flat part lifts off; an undercut part does not.",
    )
    def ask_flat_or_undercut(self) -> Question:
        return Question("part.undercut")

    @Rule(Part(shape="flat", depth_m=MATCH.depth_m & GT(FLAT_DEPTH)))
    @advice(
        id="ASK-130",
        title=(
            "Is it flat, or {depth_m:length} deep? part.shape is flat; accepted: a depth "
            "up to {flat_depth:length}, or another shape."
        ),
        reason="A tray or a box has walls that a flat tool cannot form.",
        limits=("flat_depth",),
    )
    def ask_flat_or_deep(self, depth_m: float) -> Question:
        return Question("part.depth")

    @Rule(Part(undercut=False, undercut_length_m=MATCH.hidden_m))
    @advice(
        id="ASK-123",
        title=(
            "Is any face hidden along the draw? part.local_undercut lists "
            "{hidden_m:length} of it and part.undercut is false, or the shape is flat; "
            "accepted: undercut true, or none listed."
        ),
        reason="A hidden face locks the part; where there is none, none is listed.",
    )
    def ask_listed_or_none(self, hidden_m: float) -> Question:
        return Question("part.undercut")

    @Rule(
        Part(
            undercut_length_m=MATCH.hidden_m,
            length_m=MATCH.length_m,
            width_m=MATCH.width_m,
        ),
        TEST(lambda hidden_m, length_m, width_m: hidden_m > 2 * (length_m + width_m)),
    )
    @advice(
        id="ASK-133",
        title=(
            "How long are the hidden faces? part.local_undercut comes to "
            "{hidden_m:length}, more than once round a part of {length_m:length} by "
            "{width_m:length}; accepted: less, or an undercut that runs round and no list."
        ),
        reason="A loose piece serves a hidden face that is local.",
    )
    def ask_hidden_length(
        self, hidden_m: float, length_m: float, width_m: float
    ) -> Question:
        return Question("part.local_undercut")

    @Rule(Cure(pressure="vacuum", autoclave_pressure_pa=MATCH.pressure_pa))
    @advice(
        id="ASK-140",
        title=(
            "Vacuum alone, or an autoclave? cure.pressure is vacuum and "
            "cure.autoclave_pressure is {pressure_pa:pressure}; accepted: one or the "
            "other."
        ),
        reason=(
            "Pressure decides whether a tool is crushed and whether a certified vessel is "
            "needed."
        ),
    )
    def ask_vacuum_or_autoclave(self, pressure_pa: float) -> Question:
        return Question("cure.autoclave_pressure")

    @Rule(Cure(pressure="autoclave"), NOT(Cure(autoclave_pressure_pa=W())))
    @advice(
        id="ASK-150",
        title=(
            "At what pressure does the autoclave run (cure.autoclave_pressure, bar gauge)?"
        ),
        reason="Pressure decides whether a tool is crushed.",
    )
    def ask_autoclave_pressure(self) -> Question:
        return Question("cure.autoclave_pressure")

    @Rule(Cure(free_standing_post_cure=False, first_cure_c=MATCH.first_c))
    @advice(
        id="ASK-160",
        title=(
            "May the part be post-cured off the tool? cure.first_cure is "
            "{first_c:temperature} and cure.free_standing_post_cure is false; accepted: "
            "true with a first cure, or no first cure."
        ),
        reason=(
            "Only a part that may stand free lets the tool off the full cure temperature."
        ),
    )
    def ask_free_standing(self, first_c: float) -> Question:
        return Question("cure.first_cure")

    @Rule(Cure(free_standing_post_cure=True), NOT(Cure(first_cure_c=W())))
    @advice(
        id="ASK-165",
        title="At what temperature is the first cure on the tool (cure.first_cure)?",
        reason="With a free-standing post-cure the tool sees only the first cure.",
    )
    def ask_first_cure(self) -> Question:
        return Question("cure.first_cure")

    @Rule(
        Cure(first_cure_c=MATCH.first_c, temperature_c=MATCH.cure_c),
        TEST(lambda first_c, cure_c: first_c > cure_c),
    )
    @advice(
        id="ASK-170",
        title=(
            "Which is hotter? cure.first_cure is {first_c:temperature} and "
            "cure.temperature {cure_c:temperature}; accepted: a first cure not above the "
            "full cure."
        ),
        reason="A first cure is the cooler of the two, or it is the cure.",
    )
    def ask_which_is_hotter(self, first_c: float, cure_c: float) -> Question:
        return Question("cure.first_cure")

    @Rule(
        Cure(
            resin=MATCH.resin,
            free_standing_post_cure=False,
            temperature_c=MATCH.cure_c,
            class_low_c=MATCH.low_c,
            class_high_c=MATCH.high_c,
        ),
        TEST(lambda cure_c, low_c, high_c: not low_c <= cure_c <= high_c),
    )
    @advice(
        id="ASK-180",
        title=(
            "Which resin is it? cure.resin is {resin}, a class cured from "
            "{low_c:temperature} to {high_c:temperature}, and cure.temperature is "
            "{cure_c:temperature}; accepted: a cure within the class, or the right class."
        ),
        reason="Outside its range a resin stays soft or burns; no tool makes that good.",
    )
    def ask_resin_or_cure(
        self, resin: str, cure_c: float, low_c: float, high_c: float
    ) -> Question:
        return Question("cure.resin")

    @Rule(
        Cure(
            resin=MATCH.resin,
            free_standing_post_cure=True,
            first_cure_c=MATCH.first_c,
            class_low_c=MATCH.low_c,
            class_high_c=MATCH.high_c,
        ),
        TEST(lambda first_c, low_c, high_c: not low_c <= first_c <= high_c),
    )
    @advice(
        id="ASK-185",
        title=(
            "Does this resin set at its first cure? cure.resin is {resin}, a class cured "
            "from {low_c:temperature} to {high_c:temperature}, and cure.first_cure is "
            "{first_c:temperature}; accepted: a first cure within the class, or the right "
            "class."
        ),
        reason="A first cure too cool for its resin leaves a part that cannot stand free.",
    )
    def ask_resin_or_first_cure(
        self, resin: str, first_c: float, low_c: float, high_c: float
    ) -> Question:
        return Question("cure.first_cure")

    @Rule(
        Part(tolerance_over_m=MATCH.over_m, length_m=MATCH.length_m),
        TEST(lambda over_m, length_m: over_m > length_m),
    )
    @advice(
        id="ASK-190",
        title=(
            "Over what length does the tolerance hold? part.tolerance_over is "
            "{over_m:length} and the part is {length_m:length} long; accepted: up to the "
            "length."
        ),
        reason="A tolerance cannot hold over more than the part.",
    )
    def ask_tolerance_length(self, over_m: float, length_m: float) -> Question:
        return Question("part.tolerance_over")

    @Rule(
        Part(shape=NE("flat"), smallest_radius_m=MATCH.radius_m, length_m=MATCH.length_m),
        TEST(lambda radius_m, length_m: radius_m > FLATTEST * length_m),
    )
    @advice(
        id="ASK-195",
        title=(
            "Is the tightest radius right? part.smallest_radius is {radius_m:distance} "
            "and the part only {length_m:length} long; accepted: a radius up to "
            "{flattest_curve:number} times the length, or a flat part."
        ),
        reason="A radius that large is flat to the eye; flat parts have cheaper routes.",
        limits=("flattest_curve",),
    )
    def ask_radius(self, radius_m: float, length_m: float) -> Question:
        return Question("part.smallest_radius")

    @Rule(
        Part(length_m=MATCH.length_m, width_m=MATCH.width_m),
        TEST(lambda length_m, width_m: width_m > length_m),
    )
    @advice(
        id="ASK-196",
        title=(
            "Which side is the longer? part.width is {width_m:length} and part.length "
            "{length_m:length}; accepted: the longer side as the length."
        ),
        reason="Growth is worked out over the length, which is the longest side.",
    )
    def ask_longer_side(self, length_m: float, width_m: float) -> Question:
        return Question("part.width")

    @Rule(Part(shape=MATCH.shape & NE("flat"), depth_m=MATCH.depth_m & LE(0.0)))
    @advice(
        id="ASK-198",
        title=(
            "Is it {shape}, or flat? part.depth is {depth_m:length}; accepted: a depth "
            "above nothing, or shape flat."
        ),
        reason="A shape without depth is flat, and is tooled and bagged as such.",
    )
    def ask_depth_of_shape(self, shape: str, depth_m: float) -> Question:
        return Question("part.depth")
