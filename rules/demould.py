"""Getting the part off, and what comes after."""

from advisor.calculations import expansion
from advisor.knowledge.tables import limit
from advisor.measures import STYLES, worked
from advisor.reasoning.conclusions import Finding, HeldFor, HoldPoint, Quantity, Step
from advisor.reasoning.expert import GT, LT, MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import (
    Finish,
    Found,
    Laminate,
    Part,
    Release,
    Route,
    Run,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .tool_material import warmed  # noqa: TID251 (a sibling, not a copy)

AGAIN = (
    "Then all of lay-up, bag, cure and demoulding again; coupon, empty cycle and the full "
    "measuring of the first part are not repeated on the same tool."
)
ROOM = limit("room_temperature")
GRIP = limit("grip_watched")
WARM = limit("demould_temperature")


class CoolingFit:
    """Which way part and tool move on cooling."""

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Part(shape=NE("flat"), tool_side="male", width_m=MATCH.width),
        Found(key="part-expansion", value=MATCH.part_growth),
        Tool(name=MATCH.name, expansion=MATCH.tool_growth),
    )
    @advice(
        id="DEM-010",
        title="See whether the male tool lets go on cooling",
        reason=(
            "Across {width:length} a gap of {value:gap} opens between the part and a male "
            "tool of {name} on cooling; a negative gap means the part is gripped."
        ),
        cites=("thin-ring-statics",),
        limits=("room_temperature",),
    )
    def male_fit(
        self, hot: float, width: float, part_growth: float, name: str, tool_growth: float
    ) -> Finding:
        gap = expansion.cooling_fit_m(width, tool_growth, part_growth, hot, ROOM)
        return Finding(
            "cooling-gap",
            "Gap to the male tool on cooling",
            gap,
            "mm",
            "W · ((1 + αt · ΔT) / (1 + αp · ΔT) − 1)",
            judgement="ok" if gap >= 0 else "watch",
            worked=worked(
                "{} · ((1 + {} · {}) / (1 + {} · {}) − 1)",
                (width, "mm"),
                *warmed(tool_growth, hot),
                *warmed(part_growth, hot),
            ),
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Part(shape=NE("flat"), tool_side="female", width_m=MATCH.width),
        Found(key="part-expansion", value=MATCH.part_growth),
        Tool(name=MATCH.name, expansion=MATCH.tool_growth),
    )
    @advice(
        id="DEM-020",
        title="See whether the female tool grips on cooling",
        reason=(
            "Across {width:length} the gap between the part and a female tool of {name} "
            "is {value:gap} on cooling; a negative gap means the tool shrinks on to the "
            "part."
        ),
        cites=("thin-ring-statics",),
        limits=("room_temperature",),
    )
    def female_fit(
        self, hot: float, width: float, part_growth: float, name: str, tool_growth: float
    ) -> Finding:
        gap = -expansion.cooling_fit_m(width, tool_growth, part_growth, hot, ROOM)
        return Finding(
            "cooling-gap",
            "Gap to the female tool on cooling",
            gap,
            "mm",
            "W · (1 − (1 + αt · ΔT) / (1 + αp · ΔT))",
            judgement="ok" if gap >= 0 else "watch",
            worked=worked(
                "{} · (1 − (1 + {} · {}) / (1 + {} · {}))",
                (width, "mm"),
                *warmed(tool_growth, hot),
                *warmed(part_growth, hot),
            ),
        )


class NextPartSteps:
    """The second part and those after it."""

    stage = "plan"

    @Rule(
        Run(parts=MATCH.parts & GT(1)),
        Route(
            construction=among("one-piece", "loose-piece", "split"),
            parts_per_tool=MATCH.life & GT(1),
        ),
        Release(is_film=False, name=MATCH.release, pulls=MATCH.pulls),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-880",
        title="Before each next part, make the tool ready again",
        reason=(
            "{release} lasts about {pulls:parts}, fewer where the part drags, and "
            "{parts:parts} are wanted: one that sticks costs the face of the tool."
        ),
        cites=("release-guidelines", "common-practice"),
    )
    def next_part(
        self, parts: int, life: int, release: str, pulls: float, name: str
    ) -> Step:
        return Step(
            "demould",
            "Wipe the face clean, never scrape it; look for scratches, resin and anything "
            "that has lifted, and mend it first. Tape test at four places: renew the "
            "release where tape drags, and all over at the first part that drags or after "
            "{pulls:parts}, by its own steps: extent, coats, flash-off and tape test. "
            + AGAIN,
            does=("uses-solvent",),
            quantities=(Quantity("Parts between two renewals, at most", pulls, "count"),),
            hold_point=_ready("tape slides off evenly; face whole", "part, pulls since"),
        )

    @Rule(
        Run(parts=MATCH.parts & GT(1)),
        Route(
            construction=among("one-piece", "loose-piece", "split"),
            parts_per_tool=MATCH.life & GT(1),
        ),
        Release(is_film=True, name=MATCH.release, pulls=MATCH.pulls),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-882",
        title="Before each next part, look the film over again",
        reason=(
            "{release} lasts about {pulls:parts} before it lifts or tears, {parts:parts} "
            "are wanted, and resin gets under at the first gap."
        ),
    )
    def next_part_on_film(
        self, parts: int, life: int, release: str, pulls: float, name: str
    ) -> Step:
        return Step(
            "demould",
            "Wipe the film, look along every seam and edge under a low lamp. Lay new film, "
            "by its own step, where it is lifted, torn or creased, and all over after "
            "{pulls:parts}. " + AGAIN,
            does=("handles-film",),
            quantities=(Quantity("Parts between two films, at most", pulls, "count"),),
            hold_point=_ready("no bubble, no gap, no tear", "part, pulls since"),
        )

    @Rule(
        Run(parts=MATCH.parts & GT(1)),
        Route(construction=among("break-out", "wash-out")),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-884",
        title="Make a new core for each next part",
        reason="Every one of {parts:parts} spends its tool of {name}.",
    )
    def next_core(self, parts: int, name: str) -> Step:
        return Step(
            "demould",
            "Every core is dried, bonded, cut, sealed, proved and released as the first "
            "was; then all of lay-up, bag, cure and demoulding again. The coupon stands "
            "for all cores that use its batches.",
            does=(),
        )


def _ready(accept: str, record: str) -> HoldPoint:
    """Return what is signed before a tool goes round again."""
    return HoldPoint("Tool ready for the next part", accept, record)


class DemouldSteps:
    """Off the tool."""

    stage = "plan"

    @Rule(
        Found(key="cooling-gap", value=MATCH.gap & LT(-GRIP)),
        Found(key="opens-at", value=MATCH.opens),
        Found(key="tool-temperature", value=MATCH.hot),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Route(construction="one-piece"),
        Tool(name=MATCH.name),
        TEST(lambda shape, side: not (shape == "closed" and side == "male")),
        TEST(lambda opens, hot: min(opens, hot, WARM) > ROOM),
    )
    @advice(
        id="STEP-806",
        title="Draw the part while it is warm",
        reason=(
            "Cooled to the room, {name} and the part grip each other: {gap:gap} over the "
            "width. At the heat where the bag may come off less of that has come about."
        ),
        cites=("thin-ring-statics", "common-practice"),
        limits=("grip_watched", "demould_temperature", "room_temperature"),
    )
    def draw_warm(
        self, gap: float, opens: float, hot: float, shape: str, side: str, name: str
    ) -> Step:
        warm = STYLES["temperature"](min(opens, hot, WARM))
        return Step(
            "demould",
            "Have shims, wedges, gloves for heat and a second pair of hands ready before "
            f"the oven is opened. As soon as {warm} is reached and the bag may come off, "
            "free the edge and draw, as the next step says. If it has grown cold and will "
            f"not come: warm tool and part together to {warm}, without bag, and draw then; "
            "never chill or hammer the part.",
            does=("demoulds", "lifts", "heats", "heats-tool", "heats-porous"),
        )

    @Rule(
        Route(construction="one-piece"),
        Part(shape=MATCH.shape & NE("flat"), tool_side=MATCH.side),
        Tool(name=MATCH.name),
        TEST(lambda shape, side: shape != "closed" or side != "male"),
    )
    @advice(
        id="STEP-810",
        title="Free all edges, then draw",
        reason=(
            "A part that is pried at one place breaks there, or takes the tool's face "
            "with it."
        ),
        cites=("small-moulds-page", "demould-safety-page", "mould-textbook-chapter"),
    )
    def draw_off(self, shape: str, side: str, name: str) -> Step:
        return Step(
            "demould",
            "Strip the bag, deburr the edge. Free the edge all round with thin plastic "
            "shims, then wedge from both sides with light taps, against hardened strips "
            "or the base, never against a bare edge; draw along the draw line. If it will "
            "not come: stop, look for resin past the release, cut it on the part's side.",
            does=("demoulds", "lifts"),
            hold_point=HoldPoint(
                "Tool looked at after the part",
                "nothing lifted off the face, no stuck yarn",
                "what was found",
            ),
        )

    @Rule(
        Route(construction="one-piece"),
        Part(shape="closed", tool_side="male"),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-815",
        title="Draw the core out along its axis",
        reason=(
            "A closed part can be freed at its ends only; pulled out of line, {name} jams "
            "and splits the part."
        ),
    )
    def draw_the_core(self, name: str) -> Step:
        return Step(
            "demould",
            "Let core and part cool right through. Strip bag or tape, cut the cured resin "
            "back to the net line at both ends, so that nothing is hooked over an end. "
            "Hold the part by a padded ring against its end, pull the core along its axis "
            "by the draw bolt or shoulder, from the large end, slowly and straight; tap "
            "the small end with a block, never the part. If it will not come: stop, look "
            "for resin past the release; cool core and part further where the core "
            "shrinks more than the part.",
            does=("demoulds", "trims-part", "lifts"),
            hold_point=HoldPoint(
                "Core looked at after the part",
                "no scratch, no resin, nothing lifted along the draw",
                "what was found",
            ),
        )

    @Rule(Part(shape="flat"), Tool(name=MATCH.name))
    @advice(
        id="STEP-820",
        title="Peel the panel off from one edge",
        reason="A flat panel comes off like a page once one edge is free.",
        cites=("small-moulds-page",),
    )
    def peel_off(self, name: str) -> Step:
        return Step(
            "demould",
            "Strip the bag, deburr the edge, slide a thin plastic shim along one edge and "
            "lift the panel off with two hands, not sharply bent.",
            does=("demoulds",),
            hold_point=HoldPoint(
                "Tool looked at after the part", "no mark, no residue", "what was found"
            ),
        )

    @Rule(Route(construction="split"), Tool(name=MATCH.name))
    @advice(
        id="STEP-830",
        title="Open the tool, do not pry the part",
        reason="The joint is what lets the part go; the part is not a lever.",
        cites=("mould-textbook-chapter",),
    )
    def open_split(self, name: str) -> Step:
        return Step(
            "demould",
            "Strip the bag, if there is one, take the bolts out, ease the halves apart on "
            "their dowels evenly with jacking screws or wedges in the flange, then lift "
            "the part out.",
            does=("opens-mould", "demoulds", "lifts"),
            hold_point=HoldPoint(
                "Halves and joint looked at",
                "nothing lifted off the faces, joint clean",
                "what was found",
            ),
        )

    @Rule(Route(construction="break-out"), Tool(name=MATCH.name, dust=MATCH.dust))
    @advice(
        id="STEP-840",
        title="Break the tool out of the part",
        reason=(
            "The part traps its tool; {name} is weak enough to go out in pieces and is "
            "planned as spent."
        ),
    )
    def break_out(self, name: str, dust: str) -> Step:
        return Step(
            "demould",
            "Damp the block or keep extraction at the hole. Drill it through, collapse it "
            "from the middle outward with blunt tools, away from the laminate; pull film "
            "and seal out last. Bag the rubble damp.",
            does=("breaks-tool", "demoulds", "cleans-dust", "discards"),
            hold_point=HoldPoint(
                "Inside clean", "no film, seal or block left", "looked at with a lamp"
            ),
        )

    @Rule(Route(construction="wash-out"), Tool(name=MATCH.name))
    @advice(
        id="STEP-850",
        title="Wash the core out",
        reason=(
            "The core dissolves or softens in water and runs out of the section it is "
            "trapped in."
        ),
        cites=("salt-core-2017", "sand-core-2025"),
    )
    def wash_out(self, name: str) -> Step:
        return Step(
            "demould",
            "Open both ends, flush with warm water as the core's sheet says until it runs "
            "clear, catch the slurry: it does not go down the drain.",
            does=("demoulds", "breaks-tool", "discards"),
            hold_point=HoldPoint(
                "Inside clean", "no core and no seal left", "looked at with a lamp"
            ),
        )

    @Rule(Laminate(fibre=MATCH.fibre), Part(shape=MATCH.shape))
    @advice(
        id="STEP-860",
        title="Trim to the line",
        reason="The edge is where resin ran, breather marked and plies end unevenly.",
        cites=("tool-design-sheet", "ply-template-page", "common-practice"),
    )
    def trim(self, fibre: str, shape: str) -> Step:
        return Step(
            "demould",
            "Trim off the tool with a diamond blade, wet or with extraction at the blade; "
            "seal sanded edges.",
            does=("trims-part",),
        )

    @Rule(
        Found(key="part-mass", value=MATCH.mass),
        Found(key="laminate-thickness", value=MATCH.thick),
        Finish(target=MATCH.target),
        Run(parts=MATCH.parts & GT(1)),
    )
    @advice(
        id="STEP-870",
        title="Measure the first part before the second is laid up",
        reason=(
            "What is wrong with the first is wrong with all {parts:parts}, and can still "
            "be mended."
        ),
        cites=("army-composites-manual", "common-practice"),
    )
    def first_part(self, mass: float, thick: float, target: str, parts: int) -> Step:
        return _measuring(
            mass, thick, "Part accepted, before the next is laid up", "first part"
        )

    @Rule(
        Found(key="part-mass", value=MATCH.mass),
        Found(key="laminate-thickness", value=MATCH.thick),
        Finish(target=MATCH.target),
        Run(parts=1),
    )
    @advice(
        id="STEP-872",
        title="Measure the part before the tool is put away",
        reason="While the tool stands ready a part that is refused can be made again.",
        cites=("army-composites-manual", "common-practice"),
    )
    def only_part(self, mass: float, thick: float, target: str) -> Step:
        return _measuring(mass, thick, "Part accepted", "part")

    @Rule(Finish(after="bond"), Tool(name=MATCH.name))
    @advice(
        id="STEP-875",
        title="Abrade and test the face before it is bonded",
        reason=(
            "Whatever the release, traces of it stay on the moulded face, and joints over "
            "them fail at a touch of load."
        ),
        cites=("peel-ply-far-06-28",),
    )
    def abrade_to_bond(self, name: str) -> Step:
        return _abrading(
            "Tear the peel ply off a bag side that is bonded too just before, and touch it "
            "no more.",
            does=("sands-part", "uses-solvent"),
        )

    @Rule(Finish(after="paint"), Tool(name=MATCH.name))
    @advice(
        id="STEP-877",
        title="Abrade and test the face before it is painted",
        reason=(
            "Whatever the release, traces of it stay on the moulded face: paint draws back "
            "from them in craters, and peels later."
        ),
        cites=("peel-ply-far-06-28", "common-practice"),
    )
    def abrade_to_paint(self, name: str) -> Step:
        return _abrading(
            "Prime it the same day, untouched.",
            does=("sands-part", "uses-solvent", "paints"),
        )


def _measuring(mass: float, thick: float, check: str, held_for: HeldFor) -> Step:
    """Return the step that holds a part against what was calculated and asked for."""
    return Step(
        "demould",
        "Measure length and width at the temperature noted, thickness at nine places, "
        "mass; tap for voids; hold the face against the finish asked ({target}).",
        quantities=(
            Quantity("Mass as calculated", mass, "kg"),
            Quantity("Thickness as calculated", thick, "mm"),
        ),
        hold_point=HoldPoint(
            check,
            "within tolerance and finish; customer or lead signs",
            "sizes, mass, photo",
            held_for,
        ),
    )


def _abrading(then: str, does: tuple[str, ...]) -> Step:
    """Return the step that readies a moulded face; `then` is what follows it."""
    return Step(
        "demould",
        "Abrade the moulded face evenly, wet or with extraction, wipe with the cleaner "
        f"its sheet names, and wet it with clean water. {then}",
        does=does,
        hold_point=HoldPoint(
            "Water-break test",
            "water stays a film for half a minute, no beads",
            "",
        ),
    )
