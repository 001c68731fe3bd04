"""How the part itself changes shape: growth by its plies, bow of a lay-up, spring-in."""

from functools import lru_cache

from advisor.calculations import layup, spring_in
from advisor.calculations.laminate_expansion import free_shape, plane_expansion
from advisor.calculations.laminate_stiffness import Ply, laminate_moduli
from advisor.knowledge.tables import limit, limit_span, load_knowledge
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import GT, MATCH, NOT, TEST, Rule, W
from advisor.reasoning.facts import Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import advice

BOW_WATCHED = limit("growth_watched")
ROOM = limit("room_temperature")
SCATTER = limit("ply_angle_scatter")
SHRINKS = limit_span("thickness_shrinkage")
SWELLS = limit_span("thickness_expansion")

HELD = ("kaw-ply-table", "twente-ply-data", "memory-failure-exercise")
FIBRES_WITH_PLIES = frozenset(row.fibre for row in load_knowledge().plies.values())


def reading_of(text: str, plies: int) -> str:
    """Return what a lay-up is: even, unbalanced, unsymmetric or miscounted."""
    angles = layup.ply_angles_deg(text)
    if len(angles) != plies:
        return "miscounted"
    if not layup.is_symmetric(angles):
        return "unsymmetric"
    return "even" if layup.is_balanced(angles) else "unbalanced"


def is_even(text: str, plies: int, weave: str) -> bool:
    """Return whether a lay-up has a growth of its own; a weave is even by itself."""
    reading = reading_of(text, plies)
    woven = weave != "unidirectional" and reading in ("unbalanced", "unsymmetric")
    return reading == "even" or woven


def is_not_even(text: str, plies: int, weave: str) -> bool:
    """Return the opposite of `is_even`."""
    return not is_even(text, plies, weave)


def bends(text: str, plies: int) -> bool:
    """Return whether straight plies bend or twist the part as it cools."""
    return reading_of(text, plies) in ("unsymmetric", "unbalanced")


def is_miscounted(text: str, plies: int) -> bool:
    """Return whether a lay-up has another number of plies than the job."""
    return reading_of(text, plies) == "miscounted"


def _ply_sets(fibre: str) -> list[Ply]:
    return [
        Ply(
            row.along_modulus.si,
            row.across_modulus.si,
            row.poisson_ratio.si,
            row.shear_modulus.si,
            row.along_expansion.si,
            row.across_expansion.si,
        )
        for row in load_knowledge().plies.values()
        if row.fibre == fibre
    ]


def _woven(ply: Ply) -> Ply:
    """Return a woven ply as a cross-ply of straight ones, held flat."""
    cross = (0.0, 90.0, 90.0, 0.0)
    stiff, grows = laminate_moduli(ply, cross), plane_expansion(ply, cross)
    return Ply(
        stiff.along_pa,
        stiff.across_pa,
        stiff.poisson_ratio,
        stiff.shear_pa,
        grows.along_per_k,
        grows.across_per_k,
    )


@lru_cache(maxsize=200)
def _growth_per_k(fibre: str, weave: str, text: str) -> tuple[float, float, float]:
    """Return the least, middle and most growth along the part over the ply sets held."""
    angles = layup.ply_angles_deg(text)
    straight = weave == "unidirectional"
    sets = [one if straight else _woven(one) for one in _ply_sets(fibre)]
    # Mirrored, so that a lay-up of weave, which does not bend, may be taken as it is.
    grown = sorted(plane_expansion(one, angles + angles[::-1]).along_per_k for one in sets)
    return grown[0] - SCATTER, grown[len(grown) // 2], grown[-1] + SCATTER


class PartGrowth:
    """How much the part grows by heat: from its lay-up, or as its fibre does."""

    stage = "needs"

    @Rule(
        Laminate(
            fibre=MATCH.fibre, weave=MATCH.weave, layup=MATCH.layup, plies=MATCH.plies
        ),
        TEST(lambda fibre: fibre in FIBRES_WITH_PLIES),
        TEST(lambda layup, plies, weave: is_even(layup, plies, weave)),
    )
    @advice(
        id="LAM-010",
        title="Take the growth of the part from its lay-up",
        reason=(
            "{layup} of {fibre} {weave} grows {value:expansion} along the part "
            "({low:expansion} to {high:expansion} over the ply figures held and a few "
            "degrees of error in laying)."
        ),
        cites=(*HELD, "li-2024"),
        limits=("ply_angle_scatter",),
    )
    def growth_of_layup(self, fibre: str, weave: str, layup: str, plies: int) -> Finding:
        low, value, high = _growth_per_k(fibre, weave, layup)
        formula = "α = A⁻¹ · Σ Q · α · t"
        return Finding(
            "part-expansion",
            "Growth of the laminate by heat",
            value,
            "um/(m*K)",
            formula,
            low=low,
            high=high,
        )

    @Rule(
        Laminate(
            fibre=MATCH.fibre,
            weave=MATCH.weave,
            layup=MATCH.layup,
            plies=MATCH.plies,
            expansion=MATCH.value_k,
            expansion_low=MATCH.low_k,
            expansion_high=MATCH.high_k,
        ),
        TEST(
            lambda fibre, layup, plies, weave: (
                fibre not in FIBRES_WITH_PLIES or is_not_even(layup, plies, weave)
            )
        ),
    )
    @advice(
        id="LAM-020",
        title="Take the growth usual for the fibre",
        reason=(
            "{layup} gives no growth by plate theory here, so that of a balanced "
            "{fibre} laminate is taken: {value:expansion}."
        ),
        cites=("kaw-ply-table", "twente-ply-data"),
    )
    def growth_despite_layup(
        self,
        fibre: str,
        weave: str,
        layup: str,
        plies: int,
        value_k: float,
        low_k: float,
        high_k: float,
    ) -> Finding:
        return _usual(value_k, low_k, high_k)

    @Rule(
        Laminate(
            fibre=MATCH.fibre,
            expansion=MATCH.value_k,
            expansion_low=MATCH.low_k,
            expansion_high=MATCH.high_k,
        ),
        NOT(Laminate(layup=W())),
    )
    @advice(
        id="LAM-025",
        title="Take the growth of a balanced lay-up",
        reason=(
            "The job gives no lay-up; a balanced, symmetric {fibre} laminate grows "
            "{value:expansion}."
        ),
        cites=("kaw-ply-table", "twente-ply-data"),
    )
    def growth_without_layup(
        self, fibre: str, value_k: float, low_k: float, high_k: float
    ) -> Finding:
        return _usual(value_k, low_k, high_k)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot & GT(ROOM)),
        Found(key="laminate-thickness", value=MATCH.thick),
        Part(length_m=MATCH.length, width_m=MATCH.width),
        Laminate(
            fibre=MATCH.fibre,
            weave="unidirectional",
            layup=MATCH.layup,
            plies=MATCH.plies,
        ),
        TEST(lambda fibre: fibre in FIBRES_WITH_PLIES),
        TEST(lambda layup, plies: bends(layup, plies)),
    )
    @advice(
        id="LAM-030",
        title="Work out the bow of an uneven lay-up",
        reason=(
            "{layup} pulls to one side as it cools from {hot:temperature}: over "
            "{length:length} by {width:length} the part comes off bent, twisted or skewed "
            "by about {value:gap}."
        ),
        cites=(*HELD, "kaw-examples"),
        limits=("room_temperature", "growth_watched"),
    )
    def bow(
        self,
        hot: float,
        thick: float,
        length: float,
        width: float,
        fibre: str,
        layup: str,
        plies: int,
    ) -> Finding:
        """Small deflections: a thin sheet that bends far bends rather less than this."""
        sizes = sorted(
            _distortion_m(one, layup, thick / plies, ROOM - hot, length, width)
            for one in _ply_sets(fibre)
        )
        value = sizes[len(sizes) // 2]
        return Finding(
            "bow",
            "Bow, twist or skew of the part by its lay-up",
            value,
            "mm",
            "largest of κ · L² / 8, κxy · L · W / 2 and γ · W",
            low=sizes[0],
            high=sizes[-1],
            limit=BOW_WATCHED,
            judgement="ok" if value <= BOW_WATCHED else "watch",
        )


def _usual(value: float, low: float, high: float) -> Finding:
    return Finding(
        "part-expansion",
        "Growth of the laminate by heat",
        value,
        "um/(m*K)",
        "table of fibres",
        low=low,
        high=high,
    )


def _distortion_m(
    ply: Ply, text: str, ply_m: float, change_k: float, length_m: float, width_m: float
) -> float:
    """Return the largest departure from the shape of the tool."""
    shape = free_shape(ply, layup.ply_angles_deg(text), ply_m, change_k)
    along, across, twist = shape.curvature_per_m
    return max(
        abs(along) * length_m**2 / 8,
        abs(across) * width_m**2 / 8,
        abs(twist) * length_m * width_m / 2,
        abs(shape.strain[2]) * width_m,
    )


class LayupConditions:
    """What an odd lay-up asks for."""

    stage = "plan"

    @Rule(
        Found(key="bow", value=MATCH.bow & GT(BOW_WATCHED)),
        Laminate(layup=MATCH.layup),
    )
    @advice(
        id="LAM-040",
        title="Make the lay-up even, or accept the bow",
        reason=(
            "{layup} is not both balanced and mirrored, and comes off about {bow:gap} out "
            "of shape whatever the tool."
        ),
        cites=("kaw-examples",),
        limits=("growth_watched",),
    )
    def uneven(self, bow: float, layup: str) -> Condition:
        return Condition(
            "The lay-up is changed to one that mirrors about its middle, with a minus for "
            "each plus; or a trial panel shows a bow that the drawing allows.",
            "new lay-up in the job, or a flat trial panel measured on a table",
        )

    @Rule(
        Laminate(layup=MATCH.layup, plies=MATCH.plies),
        TEST(lambda layup, plies: is_miscounted(layup, plies)),
    )
    @advice(
        id="LAM-050",
        title="Settle how many plies there are",
        reason=(
            "The job says {plies} plies, and {layup} has another number; thickness, "
            "weight and cost here follow the {plies}."
        ),
    )
    def miscounted(self, layup: str, plies: int) -> Condition:
        return Condition(
            "The lay-up and the number of plies of the job agree.",
            "the job corrected, and a new plan",
        )


class SpringIn:
    """How far a corner closes, and the angle to cut the tool to."""

    stage = "needs"

    @Rule(
        Part(corner_deg=MATCH.corner),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="part-expansion", value=MATCH.plane),
    )
    @advice(
        id="SPRING-010",
        title="Work out how far the corner springs in",
        reason=(
            "A corner of {corner:angle} closes by about {value:angle} ({low:angle} to "
            "{high:angle}) as it cures and cools, for a laminate shrinks more through its "
            "thickness than along its fibres."
        ),
        cites=("spring-in-thesis", "memory-spring-in"),
        limits=("thickness_expansion", "thickness_shrinkage", "room_temperature"),
    )
    def spring_in(self, corner: float, hot: float, plane: float) -> Finding:
        low, value, high = (
            spring_in.spring_in_deg(180 - corner, plane, swell, hot, 0, shrink, ROOM)
            for swell, shrink in zip(SWELLS, SHRINKS, strict=True)
        )
        formula = "θ · [(αi − αr) · ΔT / (1 + αr · ΔT) + shrinkage]"
        return Finding(
            "spring-in",
            "Spring-in of the corner",
            value,
            "deg",
            formula,
            low=low,
            high=high,
            judgement="watch",
        )

    @Rule(
        Part(corner_deg=MATCH.corner),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="part-expansion", value=MATCH.plane),
    )
    @advice(
        id="SPRING-020",
        title="Work out the angle of the tool's corner",
        reason="Cut to {value:angle}, the tool gives a part of {corner:angle}.",
        cites=("spring-in-thesis", "memory-spring-in"),
        limits=("thickness_expansion", "thickness_shrinkage", "room_temperature"),
    )
    def tool_corner(self, corner: float, hot: float, plane: float) -> Finding:
        low, value, high = (
            spring_in.tool_angle_deg(corner, plane, swell, hot, 0, shrink, ROOM)
            for swell, shrink in zip(SWELLS, SHRINKS, strict=True)
        )
        return Finding(
            "tool-corner",
            "Corner of the tool",
            value,
            "deg",
            "180° − (180° − corner) / (1 + share)",
            low=low,
            high=high,
        )


class SpringInStep:
    """The corner as work on the bench."""

    stage = "plan"

    @Rule(
        Part(corner_deg=MATCH.corner),
        Found(key="tool-corner", value=MATCH.angle),
        Found(key="spring-in", value=MATCH.closes),
        Tool(name=MATCH.name, owned=False),
    )
    @advice(
        id="STEP-106",
        title="Open the corner of the tool for spring-in",
        reason=(
            "The part closes by about {closes:angle} whatever the tool is made of; the "
            "figure is good to about half of itself, so the first part decides."
        ),
        cites=("spring-in-thesis", "memory-spring-in"),
    )
    def open_corner(self, corner: float, angle: float, closes: float, name: str) -> Step:
        return Step(
            "make-tool",
            "Cut the corner of the tool, or of its pattern, to {angle:angle} where the "
            "part has {corner:angle}. Measure the first part "
            "cold and off the tool, and correct the tool by what is left.",
            quantities=(Quantity("Corner of the tool", angle, "deg"),),
            hold_point=HoldPoint(
                "Corner of the tool",
                "a template cut to {angle:angle} shows no light",
                "angle of the tool; angle of the first part",
            ),
        )
