"""Film on curves and over pores: strips, how many, and what prints through."""

from advisor.calculations import film, print_through, volumes
from advisor.knowledge.tables import limit, limit_span
from advisor.reasoning.conclusions import (
    Doubtful,
    Finding,
    HoldPoint,
    Quantity,
    RuledOut,
    Step,
    StripLayout,
)
from advisor.reasoning.expert import GT, MATCH, TEST, Rule
from advisor.reasoning.facts import Found, Need, Part, Release, Sealing, Tool
from advisor.reasoning.rulebook import RuleBody, advice

STRAIN_LOW, STRAIN, STRAIN_HIGH = limit_span("film_strip_strain")
NARROWEST = limit("film_strip_width")
PAST_PART = limit("film_past_part")
LAP = limit("film_lap")
POISSON = limit("film_poisson")
COOL = limit("film_cool")
WARM = limit("film_warm")
PRINT = limit("print_hidden")


def strips_over(length: float, width: float, depth: float, strain: float) -> int:
    """Return the strips that lie side by side along a cap, run past its edge."""
    widest = film.strip_width_m(film.crown_curvature_per_m2(length, width, depth), strain)
    breadth = volumes.arc_length_m(width, depth) + 2 * PAST_PART
    return film.strips_needed(breadth, widest)


class FilmOnCurves:
    """Whether film can be laid on a double curve, and in how many strips."""

    stage = "release"

    @Rule(
        Part(shape=MATCH.shape, smallest_radius_m=MATCH.radius),
        Release(name=MATCH.release, poor_on=MATCH.strips, is_film=True),
        TEST(lambda shape, strips: shape in strips),
    )
    @advice(
        id="REL-040",
        title="Lay film in strips on a double curve, or not at all",
        reason=(
            "A {shape} face is the worst case for {release}: at a radius of "
            "{radius:length} strips may be {value:length} wide before the film is "
            "strained over {film_strip_strain:percent}, and under "
            "{film_strip_width:length} they are not worth laying."
        ),
        cites=("geometry-handout", "student-wiki-film"),
        limits=("film_strip_strain", "film_strip_width"),
    )
    def film_in_strips(
        self, shape: str, radius: float, release: str, strips: list[str]
    ) -> RuleBody:
        tightest = film.gaussian_curvature_per_m2(radius, radius)
        width = film.strip_width_m(tightest, STRAIN)
        finding = Finding(
            "film-strip",
            "Widest film strip at the tightest radius",
            width,
            "mm",
            "w = 2 · arccos(1 − ε) / √K",
            low=film.strip_width_m(tightest, STRAIN_LOW),
            high=film.strip_width_m(tightest, STRAIN_HIGH),
            limit=NARROWEST,
            judgement="ok"
            if width >= 2 * NARROWEST
            else "watch"
            if width >= NARROWEST
            else "fail",
        )
        if width < NARROWEST:
            return [finding, RuledOut("a gentler curve, or a release that is brushed on")]
        return [
            finding,
            Doubtful(
                "Film strips lie without wrinkles and their seams do not leak resin.",
                (
                    "one strip pair on the tightest area, pressed out, bagged cold and "
                    "looked at"
                ),
            ),
        ]


class FilmOverPores:
    """How wide a pore may stay open under film."""

    stage = "release"

    @Rule(
        Sealing(id="none"),
        Tool(porous=True, name=MATCH.name, pore_size_m=MATCH.pore),
        Release(
            is_film=True,
            name=MATCH.release,
            film_thickness_m=MATCH.thickness,
            modulus_cool_pa=MATCH.cool,
            modulus_cool_low_pa=MATCH.cool_low,
            modulus_warm_pa=MATCH.warm,
            modulus_warm_low_pa=MATCH.warm_low,
        ),
        Need(kind="face", value="any"),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="cure-pressure", value=MATCH.pressure),
        TEST(lambda hot: COOL <= hot <= WARM),
    )
    @advice(
        id="REL-092",
        title="Fill the pores that print through film",
        reason=(
            "At {hot:temperature} and {pressure:pressure} a film {thickness:gap} thick "
            "sinks {print_hidden:gap} into a pore {value:length} wide, {low:length} once "
            "it has crept; pores of {name} run to {pore:length}."
        ),
        cites=("roark-large-deflection", "memory-fluoropolymer-handbooks"),
        limits=("print_hidden", "film_poisson", "film_cool", "film_warm"),
    )
    def pores_print_through(
        self,
        name: str,
        pore: float,
        release: str,
        thickness: float,
        cool: float,
        cool_low: float,
        warm: float,
        warm_low: float,
        hot: float,
        pressure: float,
    ) -> RuleBody:
        def widest(at_cool: float, at_warm: float) -> float:
            modulus = print_through.film_modulus_pa(hot, COOL, at_cool, WARM, at_warm)
            return print_through.largest_unfilled_pore_m(
                PRINT, thickness, pressure, modulus, POISSON
            )

        usual, crept = widest(cool, warm), widest(cool_low, warm_low)
        finding = Finding(
            "open-pore",
            "Widest pore that may stay open under film",
            usual,
            "mm",
            "q a⁴ / (E t⁴) = K₁ y/t + K₂ (y/t)³, and shear",
            low=crept,
            high=usual,
            limit=pore,
            judgement="ok" if pore <= crept else "watch" if pore <= usual else "fail",
        )
        if pore > usual:
            return [finding, RuledOut("a finer block, or pores filled before the film")]
        if pore > crept:
            return [
                finding,
                Doubtful(
                    "The widest pores have been found and filled before the film goes on.",
                    "face looked over under a low lamp with a gauge; pores over the low "
                    "end of the range filled",
                ),
            ]
        return [finding]

    @Rule(
        Sealing(id="none"),
        Tool(porous=True, name=MATCH.name, pore_size_m=MATCH.pore),
        Release(is_film=True, name=MATCH.release),
        Found(key="tool-temperature", value=MATCH.hot & GT(WARM)),
    )
    @advice(
        id="REL-094",
        title="Try film over open pores where it is softer than its figures",
        reason=(
            "No stiffness of {release} is held above {film_warm:temperature}; at "
            "{hot:temperature} it is softer and sinks deeper into pores of {name}, which "
            "run to {pore:length}."
        ),
        cites=("memory-fluoropolymer-handbooks",),
        limits=("film_warm",),
    )
    def too_warm_to_reckon(
        self, name: str, pore: float, release: str, hot: float
    ) -> Doubtful:
        return Doubtful(
            "No pore prints through the film at the temperature of the cure.",
            "an offcut with its widest pores under film, bagged and cured with scrap plies",
            coupon_cures=1,
        )


class FilmSteps:
    """Film in strips as work on the bench."""

    stage = "plan"

    @Rule(
        Part(
            shape="double-curvature",
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Release(is_film=True, name=MATCH.release),
        TEST(lambda depth: depth > 0),
    )
    @advice(
        id="STEP-445",
        title="Cut the film in strips that lie down",
        reason=(
            "Film does not stretch over a double curve: each strip may be strained no "
            "more than {film_strip_strain:percent} at its edges, or it lifts in the heat."
        ),
        cites=("geometry-handout", "common-practice"),
        limits=("film_strip_strain", "film_lap", "film_past_part"),
    )
    def strips_step(
        self, length: float, width: float, depth: float, release: str
    ) -> list[Finding | Step | StripLayout]:
        size = (length, width, depth)
        widest = film.strip_width_m(film.crown_curvature_per_m2(*size), STRAIN)
        count = float(strips_over(*size, STRAIN))
        girth = volumes.arc_length_m(width, depth) + 2 * PAST_PART
        step = Step(
            "release",
            "Draw the middle lines of the strips on the tool, along the length, and cut "
            "each strip to the width below plus a lap of {film_lap:length}. Lay the middle "
            "strip first, from its centre line outwards; narrower where the radius is "
            "tighter.",
            does=("handles-film", "cuts-with-knife"),
            quantities=(
                Quantity("Strips side by side", count, "count"),
                Quantity("Middle lines apart, round the face", girth / count, "mm"),
                Quantity(
                    "First middle line from the end of the film", girth / count / 2, "mm"
                ),
                Quantity("Width of a strip over the crown, at most", widest, "mm"),
            ),
            hold_point=HoldPoint(
                "Strips down to their edges", "no edge lifted after an hour", ""
            ),
        )
        finding = Finding(
            "film-strips",
            "Film strips side by side",
            count,
            "count",
            "developed breadth / widest strip over the crown",
            low=float(strips_over(*size, STRAIN_HIGH)),
            high=float(strips_over(*size, STRAIN_LOW)),
        )
        past = 2 * PAST_PART
        layout = StripLayout(
            count=int(count),
            apart_m=girth / count,
            girth_m=girth,
            length_m=volumes.arc_length_m(length, depth) + past,
            lap_m=LAP,
        )
        return [finding, step, layout]
