"""Cracking of a brittle tool by heat: how fast it may be warmed and cooled."""

from advisor.calculations.ramp_limits import (
    RampResponse,
    fastest_ramp_k_per_s,
    ramp_response,
    shock_resistance_k,
)
from advisor.calculations.strength import longest_span_m
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import GT, MATCH, Rule
from advisor.reasoning.facts import Bagging, Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import advice

from .heat import BASE, FILMS, ROOM, bagged  # noqa: TID251 (a sibling, not a copy)

COLD = limit("demould_temperature")
LONGEST = limit("longest_cooling")
MOST = limit("oven_fastest")
POISSON = limit("brittle_poisson_ratio")
SHARE = limit("brittle_strength_share")


def responses(
    form: str,
    shape: str,
    side: str,
    depth: float,
    laminate: tuple[float, float, float, float],
    conducts: tuple[float, float, float],
    tool: tuple[float, float],
) -> list[RampResponse]:
    """Return how the bagged tool follows the air: as taken, at worst and at best.

    Heat that crosses the body slowly in air that brings it fast is the worst.
    """
    return [
        ramp_response(bagged(form, shape, side, depth, laminate, (k, *tool), film), "tool")
        for k, film in zip(conducts, FILMS, strict=True)
    ]


def fastest_k_per_min(
    response: RampResponse, change_k: float, allowed_k: float, cooling: bool
) -> float:
    """Return the fastest ramp of the air, no more than is of use in an oven, in K/min."""
    fastest = fastest_ramp_k_per_s(response, max(0.0, change_k), allowed_k, cooling)
    return min(MOST, 60.0 * fastest)


class Cracking:
    """How fast a tool may be heated; what heats the laminate needs to know it."""

    stage = "heat"

    @Rule(Cure(ramp=MATCH.ramp), Tool(brittle=False, name=MATCH.name))
    @advice(
        id="CRACK-005",
        title="Heat at the ramp of the job",
        reason="{name} does not crack by heat, so the ramp of the job stands: {ramp:ramp}.",
    )
    def ramp_of_the_job(self, ramp: float, name: str) -> Finding:
        return Finding(
            "heating-ramp", "Heating, at most", ramp, "delta_degC/min", "ramp of the job"
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(
            name=MATCH.name,
            brittle=True,
            expansion=MATCH.growth,
            expansion_low=MATCH.growth_low,
            expansion_high=MATCH.growth_high,
            modulus_pa=MATCH.stiff,
            modulus_low_pa=MATCH.stiff_low,
            modulus_high_pa=MATCH.stiff_high,
            tensile_strength_pa=MATCH.strong,
            tensile_strength_low_pa=MATCH.strong_low,
            tensile_strength_high_pa=MATCH.strong_high,
        ),
    )
    @advice(
        id="CRACK-010",
        title="Keep the whole block at nearly one temperature",
        reason=(
            "Where {name} is colder than the rest of itself it is pulled: with "
            "{brittle_strength_share:percent} of its {strong:strength} of tensile "
            "strength in use, held flat by the bag, a plane may be {value:difference} "
            "below the mean of the block ({low:difference} to {high:difference} over the "
            "range of its figures)."
        ),
        cites=("shock-resistance-page",),
        limits=("brittle_strength_share", "brittle_poisson_ratio", "room_temperature"),
    )
    def coldest_plane(
        self,
        hot: float,
        name: str,
        growth: float,
        growth_low: float,
        growth_high: float,
        stiff: float,
        stiff_low: float,
        stiff_high: float,
        strong: float,
        strong_low: float,
        strong_high: float,
    ) -> Finding:
        def stands(strength: float, modulus: float, expansion: float) -> float:
            allowed = SHARE * strength
            resists = shock_resistance_k(allowed, modulus, expansion, POISSON)
            return min(resists, warmest)

        warmest = max(1.0, hot - ROOM)
        value = stands(strong, stiff, growth)
        return Finding(
            "coldest-allowed",
            "Coldest plane below the mean of the block, at most",
            value,
            "K",
            "share · σt · (1 − ν) / (E · α), or hot less room",
            low=stands(strong_low, stiff_high, growth_high),
            high=stands(strong_high, stiff_low, growth_low),
            judgement="ok" if value == warmest else "watch",
        )

    @Rule(
        Found(key="coldest-allowed", value=MATCH.stands, low=MATCH.least, high=MATCH.most),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Laminate(
            density=MATCH.ply_rho, conductivity=MATCH.ply_k, specific_heat=MATCH.ply_c
        ),
        Tool(
            name=MATCH.name,
            form=MATCH.form,
            density=MATCH.rho,
            specific_heat=MATCH.c,
            conductivity=MATCH.k,
            conductivity_low=MATCH.k_low,
            conductivity_high=MATCH.k_high,
        ),
        Cure(ramp=MATCH.ramp),
    )
    @advice(
        id="CRACK-020",
        title="Heat no faster than the core of the block stands",
        reason=(
            "Heat crosses {name} slowly, and while it does its core is pulled: from room "
            "temperature to {hot:temperature}, bagged, this body stands {value:ramp} of "
            "the oven air ({low:ramp} to {high:ramp}); the job asks for {ramp:ramp}."
        ),
        cites=("shock-resistance-page", "conduction-textbook"),
        limits=(
            "film_coefficient",
            "oven_fastest",
            "base_thickness",
            "room_temperature",
            "breather_conductivity",
        ),
    )
    def fastest_heating(
        self,
        stands: float,
        least: float,
        most: float,
        hot: float,
        thick: float,
        shape: str,
        side: str,
        depth: float,
        ply_rho: float,
        ply_k: float,
        ply_c: float,
        name: str,
        form: str,
        rho: float,
        c: float,
        k: float,
        k_low: float,
        k_high: float,
        ramp: float,
    ) -> Finding:
        ply, conducts = (thick, ply_k, ply_rho, ply_c), (k, k_low, k_high)
        value, low, high = (
            fastest_k_per_min(response, hot - ROOM, allowed, cooling=False)
            for response, allowed in zip(
                responses(form, shape, side, depth, ply, conducts, (rho, c)),
                (stands, least, most),
                strict=True,
            )
        )
        return Finding(
            "heating-ramp",
            "Heating of the block, at most",
            value,
            "delta_degC/min",
            "coldest plane below the mean, in the bagged stack, = what it stands",
            low=low,
            high=high,
            limit=ramp,
            judgement="ok" if value >= ramp else "watch",
        )


class Cooling:
    """How fast the chosen tool may be cooled, and for how long."""

    stage = "plan"

    @Rule(
        Found(key="coldest-allowed", value=MATCH.stands, low=MATCH.least, high=MATCH.most),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Laminate(
            density=MATCH.ply_rho, conductivity=MATCH.ply_k, specific_heat=MATCH.ply_c
        ),
        Tool(
            name=MATCH.name,
            form=MATCH.form,
            density=MATCH.rho,
            specific_heat=MATCH.c,
            conductivity=MATCH.k,
            conductivity_low=MATCH.k_low,
            conductivity_high=MATCH.k_high,
        ),
    )
    @advice(
        id="CRACK-030",
        title="Cool no faster than the faces of the block stand",
        reason=(
            "On cooling the faces of {name} are in tension, about twice as hard as its "
            "core on heating: this body stands {value:ramp} ({low:ramp} to {high:ramp})."
        ),
        cites=("shock-resistance-page", "conduction-textbook"),
        limits=(
            "film_coefficient",
            "oven_fastest",
            "base_thickness",
            "room_temperature",
            "breather_conductivity",
        ),
    )
    def fastest_cooling(
        self,
        stands: float,
        least: float,
        most: float,
        hot: float,
        thick: float,
        shape: str,
        side: str,
        depth: float,
        ply_rho: float,
        ply_k: float,
        ply_c: float,
        name: str,
        form: str,
        rho: float,
        c: float,
        k: float,
        k_low: float,
        k_high: float,
    ) -> list[Finding]:
        ply, conducts = (thick, ply_k, ply_rho, ply_c), (k, k_low, k_high)
        usual, *others = responses(form, shape, side, depth, ply, conducts, (rho, c))
        value = fastest_k_per_min(usual, hot - ROOM, stands, cooling=True)
        low, high = (
            fastest_k_per_min(response, hot - ROOM, allowed, cooling=True)
            for response, allowed in zip(others, (least, most), strict=True)
        )
        return [
            Finding(
                "cooling-ramp",
                "Cooling of the block, at most",
                value,
                "delta_degC/min",
                "coldest plane below the mean, in the bagged stack, = what it stands",
                low=low,
                high=high,
                judgement="watch" if value < MOST else "ok",
            ),
            Finding(
                "core-warmer",
                "Core above the colder face, cooled at that rate",
                usual.apart_k(max(0.0, hot - ROOM), value / 60.0),
                "K",
                "core − face, in the bagged stack",
            ),
        ]

    @Rule(
        Found(key="cooling-ramp", value=MATCH.ramp, low=MATCH.slowest, high=MATCH.quickest),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
    )
    @advice(
        id="CRACK-040",
        title="Leave the block time to cool",
        reason=(
            "At {ramp:ramp} {name} takes {value:hours} from {hot:temperature} to "
            "{demould_temperature:temperature} in the closed oven."
        ),
        limits=("demould_temperature", "longest_cooling"),
    )
    def cooling_time(
        self, ramp: float, slowest: float, quickest: float, hot: float, name: str
    ) -> Finding:
        fall = max(0.0, hot - COLD)
        hours = fall / ramp / 60
        return Finding(
            "cooling-time",
            "Cooling of the block to the bench",
            hours,
            "h",
            "fall to the demould temperature / ramp",
            low=fall / quickest / 60,
            high=fall / slowest / 60,
            limit=LONGEST,
            judgement="ok" if hours <= LONGEST else "watch",
        )

    @Rule(
        Found(key="cooling-time", value=MATCH.hours & GT(LONGEST)),
        Tool(name=MATCH.name),
    )
    @advice(
        id="CRACK-050",
        title="Make a thick block thinner",
        reason=(
            "{name} this thick needs {hours:hours} to cool without a crack, more than "
            "{longest_cooling:hours}; at half the thickness it needs a quarter."
        ),
        limits=("longest_cooling",),
    )
    def too_thick(self, hours: float, name: str) -> Condition:
        return Condition(
            "The block is hollowed from below or cut to an even wall, so that no part of "
            "it is far from the air; or the shop accepts {hours:hours} of cooling a part.",
            "wall thickness measured, or the cooling time in the run's calendar",
        )


class Bending:
    """A brittle tool that the bag presses down on a table."""

    stage = "plan"

    @Rule(
        Bagging(id="bag-to-table", name=MATCH.bag),
        Found(key="cure-pressure", value=MATCH.pressure),
        Part(width_m=MATCH.width),
        Tool(
            name=MATCH.name,
            brittle=True,
            tensile_strength_pa=MATCH.strong,
            tensile_strength_low_pa=MATCH.strong_low,
            tensile_strength_high_pa=MATCH.strong_high,
        ),
    )
    @advice(
        id="CRACK-060",
        title="Leave no wide gap under a brittle tool",
        reason=(
            "The bag presses {name} on the table with {pressure:pressure}; where it lies "
            "hollow it bends, and {base_thickness:length} of it bridges no more than "
            "{value:length} ({low:length} to {high:length})."
        ),
        cites=("roark",),
        limits=("brittle_strength_share", "base_thickness"),
    )
    def longest_span(
        self,
        bag: str,
        pressure: float,
        width: float,
        name: str,
        strong: float,
        strong_low: float,
        strong_high: float,
    ) -> Finding:
        value, low, high = (
            longest_span_m(pressure, BASE, SHARE * one)
            for one in (strong, strong_low, strong_high)
        )
        return Finding(
            "longest-span",
            "Gap that the tool may bridge, at most",
            value,
            "mm",
            "t · root of (share · σt / (0.75 · p))",
            low=low,
            high=high,
            judgement="ok" if value >= width else "watch",
        )

    @Rule(
        Found(key="longest-span", value=MATCH.span),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-605",
        title="Bed the tool on the table",
        reason=(
            "Bagged down over a gap wider than {span:length}, {name} cracks from below "
            "where nobody looks."
        ),
        cites=("roark",),
    )
    def bed_the_tool(self, span: float, name: str) -> Step:
        return Step(
            "bag",
            "Set the tool down on the table over breather and rock it by its corners. "
            "Fill what is hollow under it with blocks of the same stock, so that no gap is "
            "wider than {span:length}; leave air its way to the port.",
            does=("lifts",),
            quantities=(Quantity("Gap under the tool, at most", span, "mm"),),
            hold_point=HoldPoint(
                "Tool bedded",
                "it does not rock; no gap wider than {span:length}",
                "widest gap",
            ),
        )
