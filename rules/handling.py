"""Weight: what the tool weighs, how it is lifted, and the cautions that go with it."""

import math

from advisor.calculations import lifting, volumes
from advisor.knowledge.tables import limit, limit_span
from advisor.measures import worked
from advisor.reasoning.conclusions import Caution, Condition, Finding
from advisor.reasoning.expert import GE, GT, LE, LT, MATCH, TEST, Rule
from advisor.reasoning.facts import Activity, Bagging, Found, Part, Pattern, Shop, Tool
from advisor.reasoning.rulebook import advice

BASE = limit("base_thickness")
PATTERN_MARGIN = limit("laminate_tool_margin")
PLATE = limit("plate_thickness")
WALLS = {
    "laminate": limit("laminate_tool_thickness"),
    "pocketed": limit("metal_wall"),
}
DAMP = limit("block_moisture")
REACHES = limit_span("lift_reach")
LOW_HANDS = limit("lift_low_hands")
FLOOR_HANDS = limit_span("lift_low_hands")[0]
TRAVEL = limit("lift_travel")
TWIST = limit("lift_twist")
RARELY = limit("lifts_a_minute")
HOURS = limit("lifting_hours")
BY_TWO = limit("lifting_index_of_two")
NEVER_BY_HAND = limit("lifting_index_most")
BOTH_SIDES: tuple[volumes.Side, ...] = ("female", "male")


def finished_kg(
    form: str,
    shape: volumes.Shape,
    sides: tuple[volumes.Side, ...],
    length: float,
    width: float,
    depth: float,
    margin: float,
    density: float,
) -> float:
    """Return the mass of a tool, or of both halves of a pair."""
    base, size = PLATE if form == "plate" else BASE, (length, width, depth, margin)
    area = volumes.sealed_area_m2(shape, length, width, depth, margin)
    walls = len(sides) * density * area * WALLS.get(form, math.inf)
    whole = sum(
        volumes.tool_mass_kg(
            volumes.tool_blank(shape, side, *size, base).volume_m3,
            volumes.removed_volume_m3(shape, side, *size),
            density,
            0.0,
        )
        for side in sides
    )
    return min(walls, whole)


def two_suffice(index: float, people: int) -> bool:
    """Say whether two of the people at hand may carry the heaviest lift."""
    return people > 1 and index <= BY_TWO


class Weight:
    """The mass of the blank and the tool, and one person's lift."""

    stage = "plan"

    @Rule(
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(both_faces=MATCH.both, margin_m=MATCH.margin),
        Tool(
            name=MATCH.name,
            form=MATCH.form,
            drying=MATCH.drying,
            density=MATCH.density,
            owned=False,
        ),
        TEST(lambda form: form not in ("laminate", "plate")),
    )
    @advice(
        id="LIFT-010",
        title="Weigh the blank in your head before you lift it",
        reason=(
            "A blank of {name} for this part weighs about {high:mass} whole, uncut and as "
            "damp as it may come, {low:mass} dry."
        ),
        cites=("manual-handling-directive",),
        limits=(
            "base_thickness",
            "block_moisture",
            "laminate_tool_thickness",
            "plate_thickness",
            "metal_wall",
        ),
    )
    def blank_mass(
        self,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        both: bool,
        name: str,
        form: str,
        drying: str,
        density: float,
    ) -> list[Finding]:
        blank = volumes.tool_blank(shape, side, length, width, depth, margin, BASE)
        dry = volumes.tool_mass_kg(blank.volume_m3, 0.0, density, 0.0)
        damp = DAMP if drying == "bake-dry" and form == "block" else 0.0
        wet = volumes.tool_mass_kg(blank.volume_m3, 0.0, density, damp)
        formula = "ρ · (L + 2m)(W + 2m)(D + base)"
        size = (length, width, depth, margin)
        closed = finished_kg(form, shape, BOTH_SIDES, *size, density) if both else 0.0
        label, mass = (
            ("Heaviest lift: both halves, closed", closed)
            if closed > wet
            else ("Heaviest lift: the blank, whole and uncut", wet)
        )
        how = "ρ · (blanks − cut away)" if closed > wet else formula
        sides = ((blank.length_m, "mm"), (blank.width_m, "mm"), (blank.height_m, "mm"))
        box = worked("{} · {} · {} · {}", (density, "kg/m**3"), *sides)
        heaviest = Finding(
            "heaviest-lift",
            label,
            mass,
            "kg",
            how,
            worked="" if closed > wet else box + worked(" · {}", 1 + damp) * (damp > 0),
        )
        return [
            Finding(
                "blank-mass", "Blank", dry, "kg", formula, low=dry, high=wet, worked=box
            ),
            heaviest,
        ]

    @Rule(
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(both_faces=MATCH.both, margin_m=MATCH.margin),
        Tool(name=MATCH.name, form=MATCH.form, density=MATCH.density),
    )
    @advice(
        id="LIFT-020",
        title="Know what the tool weighs",
        reason="The finished tool of {name} weighs about {value:mass}.",
        cites=("manual-handling-directive",),
        limits=(
            "base_thickness",
            "laminate_tool_thickness",
            "plate_thickness",
            "metal_wall",
        ),
    )
    def tool_mass(
        self,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        both: bool,
        name: str,
        form: str,
        density: float,
    ) -> Finding:
        sides, size = BOTH_SIDES if both else (side,), (length, width, depth, margin)
        mass = finished_kg(form, shape, sides, *size, density)
        formula = (
            "ρ · face and flange · wall" if form in WALLS else "ρ · (blank − cut away)"
        )
        label = "Tool, both halves, dry" if both else "Tool, finished and dry"
        return Finding("tool-mass", label, mass, "kg", formula)

    @Rule(
        Found(key="tool-mass", value=MATCH.mass),
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Tool(owned=False, form="laminate", needs_pattern=True, name=MATCH.name),
        Pattern(name=MATCH.pattern, density=MATCH.density),
    )
    @advice(
        id="LIFT-023",
        title="Take the pattern as the heaviest lift",
        reason=(
            "{name} of {mass:mass} is formed on a pattern cut from {pattern} and goes into "
            "the oven on it: whole and uncut, or with the tool on it, that weighs about "
            "{value:mass}, and its base and ribs come on top."
        ),
        limits=("base_thickness", "laminate_tool_margin"),
    )
    def pattern_is_heaviest(
        self,
        mass: float,
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
        whole = volumes.tool_blank(shape, other, *size, BASE).volume_m3
        cut = volumes.removed_volume_m3(shape, other, *size)
        heaviest = max(whole * density, (whole - cut) * density + mass)
        return Finding(
            "heaviest-lift",
            "Heaviest lift: the pattern, without its base and ribs",
            heaviest,
            "kg",
            "ρ · blank, or ρ · (blank − cut away) + tool; the larger",
        )

    @Rule(
        Found(key="tool-mass", value=MATCH.mass),
        Tool(owned=MATCH.owned, form=MATCH.form, needs_pattern=MATCH.formed),
        TEST(
            lambda owned, form, formed: (
                owned or form == "plate" or (form == "laminate" and not formed)
            )
        ),
    )
    @advice(
        id="LIFT-025",
        title="Take the tool itself as the heaviest lift",
        reason="Nothing heavier than the tool of {mass:mass} is lifted.",
    )
    def tool_is_heaviest(
        self, mass: float, owned: bool, form: str, formed: bool
    ) -> Finding:
        return Finding(
            "heaviest-lift", "Heaviest lift: the tool", mass, "kg", "as the tool"
        )

    @Rule(Tool(name=MATCH.name))
    @advice(
        id="LIFT-030",
        title="Know what one person should lift",
        reason=(
            "Held {lift_reach:length} out from the ankles, without handles, picked up "
            "{lift_low_hands:length} above the floor and set down {lift_travel:length} "
            "higher, one person should lift no more than {value:mass}; {low:mass} at arm's "
            "length from near the floor."
        ),
        cites=("lifting-equation",),
        limits=(
            "lift_reach",
            "lift_low_hands",
            "lift_travel",
            "lift_twist",
            "lifts_a_minute",
            "lifting_hours",
        ),
    )
    def one_person_lift(self, name: str) -> Finding:
        near, usual, far = REACHES
        low, most, high = (
            lifting.weight_limit_of_lift_kg(
                reach, hands, TRAVEL, TWIST, RARELY, HOURS, "poor"
            )
            for reach, hands in (
                (far, FLOOR_HANDS),
                (usual, LOW_HANDS),
                (near, LOW_HANDS),
            )
        )
        return Finding(
            "one-person-lift",
            "One person's lift, at most",
            most,
            "kg",
            "23 kg · HM · VM · DM · AM · FM · CM, lower of both ends",
            low=low,
            high=high,
        )

    @Rule(
        Found(key="heaviest-lift", value=MATCH.mass),
        Found(key="one-person-lift", value=MATCH.most),
    )
    @advice(
        id="LIFT-035",
        title="Hold the heaviest lift against what one person should lift",
        reason=(
            "The heaviest lift of {mass:mass} is {value:number} times the {most:mass} one "
            "person should lift."
        ),
        cites=("lifting-equation",),
        limits=("lifting_index_most",),
    )
    def lifting_index(self, mass: float, most: float) -> Finding:
        index = mass / most
        return Finding(
            "lifting-index",
            "Lifting index, one person",
            index,
            "1",
            "mass / one person's lift",
            limit=1.0,
            judgement="ok" if index <= 1 else "watch" if index < NEVER_BY_HAND else "fail",
            worked=worked("{} / {}", (mass, "kg"), (most, "kg")),
        )

    @Rule(
        Found(key="lifting-index", value=MATCH.index & GT(1.0) & LE(BY_TWO)),
        Shop(people=GT(1)),
    )
    @advice(
        id="LIFT-038",
        title="Carry the tool between two",
        reason=(
            "The heaviest lift is {index:number} times what one person should lift; two "
            "together lift about two thirds of what each could alone added up, "
            "{lifting_index_of_two:number} times."
        ),
        cites=("team-lifting-guidance",),
        limits=("lifting_index_of_two",),
    )
    def lift_by_two(self, index: float) -> Condition:
        return Condition(
            "Blank and tool are carried by two of like height and strength, a handhold "
            "each, one who calls, the way clear; or by a lifting aid.",
            "weighed; both names on the record",
        )

    @Rule(
        Found(key="lifting-index", value=MATCH.index & GT(1.0)),
        Shop(hoist=True, people=MATCH.people),
        TEST(lambda index, people: not two_suffice(index, people)),
    )
    @advice(
        id="LIFT-040",
        title="Lift the tool with the hoist",
        reason=(
            "The heaviest lift is {index:number} times what one person should lift, and "
            "the shop has a hoist."
        ),
        cites=("lifting-equation",),
        limits=("lifting_index_of_two",),
    )
    def lift_with_hoist(self, index: float, people: int) -> Condition:
        return Condition(
            (
                "A sling, pallet or lift points, rated for the weight, carry blank and "
                "tool on the hoist."
            ),
            "weighed on the hoist, lifted 100 mm (4 in) and held before it travels",
        )

    @Rule(
        Found(key="lifting-index", value=MATCH.index & GT(BY_TWO) & LT(NEVER_BY_HAND)),
        Shop(hoist=False, people=MATCH.people & GT(1)),
    )
    @advice(
        id="LIFT-045",
        title="Treat a lift by several as a lift to be assessed",
        reason=(
            "The heaviest lift is {index:number} times what one person should lift and "
            "{people} people are at hand; hands on one block never share its weight "
            "evenly, and the lifting equation says nothing of teams."
        ),
        cites=("lifting-equation", "team-lifting-guidance", "common-practice"),
        limits=("lifting_index_of_two", "lifting_index_most"),
    )
    def team_lift(self, index: float, people: int) -> Condition:
        return Condition(
            "Where a lift by two or more cannot be avoided, a competent person has looked "
            "at it: a handhold for each, one who calls, people of like height, a way that "
            "is clear and a place to set down half-way; never hot.",
            "lift tried with an empty frame; names on the record",
        )

    @Rule(
        Found(key="lifting-index", value=MATCH.index & GE(NEVER_BY_HAND)),
        Shop(hoist=False),
    )
    @advice(
        id="LIFT-048",
        title="Lift it by no hands, however many",
        reason=(
            "The heaviest lift is {index:number} times what one person should lift; from "
            "{lifting_index_most:number} times on nothing is lifted by hand, and the "
            "lifting equation does not make it right by more people."
        ),
        cites=("lifting-equation", "common-practice"),
        limits=("lifting_index_most",),
    )
    def no_hands(self, index: float) -> Condition:
        return Condition(
            "Blank and tool are moved by a hoist, crane or lift truck alone, rated for the "
            "weight and worked by someone trained for it; until one is found the tool is "
            "made in pieces that one person may lift, or not at all.",
            "rating plate read; first lift held at 100 mm (4 in) before it travels",
        )

    @Rule(
        Found(key="lifting-index", value=MATCH.index & GT(1.0) & LT(NEVER_BY_HAND)),
        Shop(hoist=False, people=MATCH.people),
        TEST(lambda index, people: not two_suffice(index, people)),
    )
    @advice(
        id="LIFT-050",
        title="Find a lifting aid before the tool is made",
        reason=(
            "The heaviest lift is {index:number} times what one person should lift, and "
            "the shop has no hoist; the lifting equation does not cover two people."
        ),
        cites=("lifting-equation",),
        limits=("lifting_index_of_two", "lifting_index_most"),
    )
    def no_hoist(self, index: float, people: int) -> Condition:
        return Condition(
            "A lift table, trolley or hoist carries the tool on its whole way from bench "
            "to oven; or the tool is made in pieces that one person may lift.",
            "way walked and measured before the tool is bought or cut",
        )


class LiftingCautions:
    """What weight can do."""

    stage = "people"

    @Rule(Activity(name="lifts"), Tool(name=MATCH.name))
    @advice(
        id="CAUT-610",
        title="Guard backs and fingers",
        reason=(
            "Blocks, tools and bagged tools are lifted far from the body and hot ones in "
            "a hurry."
        ),
        cites=("lifting-equation", "ccohs-lifting-page"),
    )
    def lifting_caution(self, name: str) -> Caution:
        return Caution("lifting", "lifts")
