"""Draping: how far woven plies shear over a double curve, and whether they are darted."""

import math
from functools import lru_cache

from advisor.calculations import drape, film, volumes
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Finding, HoldPoint, Judgement, Quantity, Step
from advisor.reasoning.expert import MATCH, TEST, Rule, among
from advisor.reasoning.facts import Laminate, Part
from advisor.reasoning.rulebook import advice

SHEAR = {weave: limit(f"shear_{weave}") for weave in ("plain", "twill", "satin")}
DART_SHARE = limit("dart_share")
STAGGER = limit("dart_stagger")

JUDGEMENTS: dict[drape.Outcome, Judgement] = {
    "drapes": "ok",
    "darts advised": "watch",
    "darts needed": "fail",
}
WORDS: dict[drape.Outcome, str] = {
    "drapes": "No dart is planned; if a fold starts, the ply was not started square.",
    "darts advised": (
        "Mark a dart at each corner where a fold starts, lapped, not butted; darts "
        "staggered {dart_stagger:length} from ply to ply."
    ),
    "darts needed": (
        "Draw each ply with a dart at every corner, or in two pieces lapped on the middle "
        "line, staggered {dart_stagger:length} from ply to ply: uncut it will "
        "wrinkle."
    ),
}


@lru_cache(maxsize=1000)
def corner_shear_deg(length: float, width: float, depth: float) -> float:
    """Return the shear of a ply at the corner of a cap, started square on the crown."""
    # Half the chord of the cap along the bias, and the arc over it.
    half = length * width / math.sqrt(2 * (length**2 + width**2))
    reach = volumes.arc_length_m(2 * half, min(depth, half)) / 2
    return drape.bias_shear_deg(reach, film.crown_curvature_per_m2(length, width, depth))


def is_a_cap(length: float, width: float, depth: float) -> bool:
    """Return whether the part is no deeper than half its width, as a cap is."""
    return 0 < depth <= min(length, width) / 2


class Draping:
    """Woven plies over a crown."""

    stage = "plan"

    @Rule(
        Part(
            shape="double-curvature",
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Laminate(weave=MATCH.weave & among("plain", "twill", "satin"), fibre=MATCH.fibre),
        TEST(is_a_cap),
    )
    @advice(
        id="STEP-518",
        title="Try a ply over the shape before the kit is cut",
        reason=(
            "Woven cloth shears over a double curve until its yarns lock: a ply started "
            "square on the crown shears about {value:angle} on the bias at the rim. "
            "Without darts plain is planned to {shear_plain:angle}, twill to "
            "{shear_twill:angle}, satin to {shear_satin:angle}; this ply is {weave}."
        ),
        cites=("spherical-draping-abstract", "prepreg-shear-limit", "common-practice"),
        limits=("shear_plain", "shear_twill", "shear_satin", "dart_share", "dart_stagger"),
    )
    def drape_a_cap(
        self, length: float, width: float, depth: float, weave: str, fibre: str
    ) -> list[Finding | Step]:
        shear = corner_shear_deg(length, width, depth)
        outcome = drape.drape(shear, SHEAR[weave], DART_SHARE).outcome
        return [
            Finding(
                "drape-shear",
                "Shear of a woven ply at the rim, on the bias",
                shear,
                "deg",
                "s γ″ + γ′ = cos γ, net of yarns from two shortest lines",
                limit=SHEAR[weave],
                judgement=JUDGEMENTS[outcome],
            ),
            Step(
                "lay-up",
                "Lay dry cloth of the same weave, or a spare ply with film under it, over "
                "the shape from its middle outward along the weave, and make the template "
                "from it. " + WORDS[outcome],
                does=("handles-prepreg", "cuts-with-knife"),
                quantities=(Quantity("Shear at the rim, on the bias", shear, "deg"),),
                hold_point=None
                if outcome == "drapes"
                else HoldPoint(
                    "Ply tried over the tool before the kit is cut",
                    "no fold but at a dart; template marked where darts go",
                    "darts counted",
                    held_for="first part",
                ),
            ),
        ]

    @Rule(
        Part(
            shape="double-curvature",
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Laminate(weave=MATCH.weave & among("plain", "twill", "satin")),
        TEST(lambda length, width, depth: not is_a_cap(length, width, depth)),
    )
    @advice(
        id="STEP-519",
        title="Split plies over a deep double curve",
        reason=(
            "At {depth:length} deep the part is deeper than half its width: {weave} "
            "shears beyond what any weave takes, and wrinkles."
        ),
        limits=("dart_stagger",),
    )
    def drape_a_deep_part(
        self, length: float, width: float, depth: float, weave: str
    ) -> Step:
        return Step(
            "lay-up",
            "Cut each ply in pieces, one for the crown and one for each wall, lapped where "
            "they meet; laps staggered {dart_stagger:length} from ply to ply.",
            does=("handles-prepreg", "cuts-with-knife"),
            hold_point=HoldPoint(
                "Pieces tried dry over the tool before the kit is cut",
                "no fold; laps where the drawing allows them",
                "pieces counted",
                held_for="first part",
            ),
        )

    @Rule(
        Part(
            shape="double-curvature",
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Laminate(weave=MATCH.weave & among("plain", "twill", "satin")),
        TEST(is_a_cap),
    )
    @advice(
        id="STEP-527",
        title="Drape from the middle outward",
        reason=(
            "{weave} cloth started at an edge pushes its shear ahead of the hand until it "
            "folds; from the middle it has four ways out."
        ),
        cites=("common-practice",),
    )
    def drape_outward(self, weave: str, length: float, width: float, depth: float) -> Step:
        return Step(
            "lay-up",
            "Start each ply, or each piece of one, square on the middle of what it covers "
            "and work outward along the weave, then on the bias; warm by hand or to 40 to "
            "50 °C (104 to 122 °F) only. A fold is lifted and laid again, never pressed "
            "flat.",
            does=("handles-prepreg",),
        )
