"""Cracking of a brittle tool by heat: how fast it may be warmed and cooled."""

from advisor.calculations.heat_stack import Stack
from advisor.calculations.ramp_limits import (
    RampResponse,
    fastest_ramp_k_per_s,
    ramp_response,
    shock_resistance_k,
)
from advisor.calculations.strength import (
    longest_span_m,
    plate_bending_stress_pa,
    plate_deflection_m,
)
from advisor.calculations.tool_heating import OvenCure, cooled_s
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import GT, MATCH, TEST, Rule, among
from advisor.reasoning.facts import Bagging, Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import advice

from .heat import BASE, FILMS, ROOM, STACK, bagged  # noqa: TID251 (a sibling, not a copy)

WAITED_S = 14 * 86_400.0
LONGEST = limit("longest_cooling")
MOST = limit("oven_fastest")
POISSON = limit("brittle_poisson_ratio")
SHARE = limit("brittle_strength_share")
SHARE_BENT = limit("brittle_bending_share")


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


def cooled_h(stack: Stack, hot: float, k_per_min: float, opens: float) -> float:
    """Return the hours until the whole of a tool is down to `opens`.

    Where the ramp alone takes weeks nobody waits: then the ramp's own time.
    """
    if hot <= opens:
        return 0.0
    cooling = OvenCure(hot, ROOM, k_per_min / 60, WAITED_S)
    if cooling.ramp_s > WAITED_S:
        return (hot - opens) / k_per_min / 60
    return cooled_s(stack, cooling, opens) / 3600


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
            worked=worked("{} − {}", (hot, "degC"), (ROOM, "degC"))
            if value == warmest
            else worked(
                "{} · {} · (1 − {}) / ({} · {})",
                SHARE,
                (strong, "MPa"),
                POISSON,
                (stiff, "MPa"),
                (growth, "um/(m*K)"),
            ),
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
        limits=(*STACK, "oven_fastest", "room_temperature"),
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
        limits=(*STACK, "oven_fastest", "room_temperature"),
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
        Found(key="coldest-allowed", value=MATCH.stands),
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
        ),
    )
    @advice(
        id="CRACK-040",
        title="Leave the block time to cool, right through",
        reason=(
            "A face that meets room air while the core is more than {stands:difference} "
            "warmer is pulled beyond what {name} stands, so the door stays shut until the "
            "core is that near: {value:hours} from {hot:temperature} at {ramp:ramp}."
        ),
        cites=("shock-resistance-page", "guide-to-prepregs"),
        limits=(*STACK, "room_temperature", "longest_cooling"),
    )
    def cooling_time(
        self,
        ramp: float,
        slowest: float,
        quickest: float,
        stands: float,
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
    ) -> list[Finding]:
        ply, opens = (thick, ply_k, ply_rho, ply_c), min(hot, ROOM + stands)
        stack = bagged(form, shape, side, depth, ply, (k, rho, c), FILMS[0])
        value, low, high = (
            cooled_h(stack, hot, one, opens) for one in (ramp, quickest, slowest)
        )
        return [
            Finding(
                "cooling-time",
                "Cooling of the block until the door may be opened",
                value,
                "h",
                "hottest of the block = room + what it stands, in the bagged stack",
                low=low,
                high=high,
                limit=LONGEST,
                judgement="ok" if value <= LONGEST else "watch",
            ),
            Finding(
                "opens-at",
                "Core at which the door may be opened, at most",
                opens,
                "degC",
                "room + coldest plane allowed below the mean",
            ),
        ]

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
            "The block is hollowed from below to an even wall, or the shop accepts "
            "{hours:about_hours} of cooling a part.",
            "wall thickness measured, or the cooling time in the run's calendar",
        )


class EveryHeat:
    """The ramps of a brittle block hold in the oven long before the first cure."""

    stage = "plan"

    @Rule(
        Found(key="heating-ramp", value=MATCH.up, low=MATCH.weak_up),
        Found(key="cooling-ramp", value=MATCH.down, low=MATCH.weak_down),
        Found(key="opens-at", value=MATCH.opens),
        Tool(name=MATCH.name, brittle=True, owned=False),
    )
    @advice(
        id="STEP-118",
        title="Keep to the block's own ramps in every heat",
        reason=(
            "{name} cracks in the drying oven as it would in the cure; lots differ so much "
            "that the weakest would stand only {weak_up:ramp} up and {weak_down:ramp} "
            "down: the first heat, empty, shows which this is."
        ),
        cites=("shock-resistance-page",),
    )
    def ramps_of_every_heat(
        self,
        up: float,
        weak_up: float,
        down: float,
        weak_down: float,
        opens: float,
        name: str,
    ) -> Step:
        return Step(
            "make-tool",
            "Write on the block and on the oven's sheet: in every heat, drying, bakes and "
            "the empty cycle too, up no faster than {up:ramp}, down no faster than "
            "{down:ramp}, door shut until the core is below {opens:temperature}. The "
            "slower of these and of what a coat's sheet asks for counts. Drill the hole "
            "for the core's thermocouple now, from below or from a bare end, plug it, and "
            "keep the bond out of it.",
            does=("cuts-tool",),
            quantities=(
                Quantity("Up, at most", up, "delta_degC/min"),
                Quantity("Down, at most", down, "delta_degC/min"),
            ),
        )


class Bending:
    """A tool that the bag presses down on a table, should it lie hollow."""

    stage = "plan"

    @Rule(
        Bagging(id="bag-to-table", name=MATCH.bag),
        Found(key="cure-pressure", value=MATCH.pressure),
        Part(length_m=MATCH.length, width_m=MATCH.width),
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
            "hollow it bends, and {base_thickness:length} of it over {length:length} by "
            "{width:length} may crack if its rim alone carries it."
        ),
        cites=("roark",),
        limits=("brittle_bending_share", "base_thickness", "brittle_poisson_ratio"),
    )
    def lies_hollow(
        self,
        bag: str,
        pressure: float,
        length: float,
        width: float,
        name: str,
        strong: float,
        strong_low: float,
        strong_high: float,
    ) -> list[Finding]:
        pulled = plate_bending_stress_pa(pressure, length, width, BASE, POISSON)
        span, low, high = (
            longest_span_m(pressure, BASE, SHARE_BENT * one)
            for one in (strong, strong_low, strong_high)
        )
        return [
            Finding(
                "hollow-stress",
                "Pull in the tool if its rim alone carried it",
                pulled,
                "MPa",
                "β · p · b² / t², rectangle on four edges",
                limit=SHARE_BENT * strong,
                judgement="ok" if pulled <= SHARE_BENT * strong_low else "fail",
            ),
            Finding(
                "longest-span",
                "Gap that the tool may bridge, at most",
                span,
                "mm",
                "t · √(share · σt / (0.75 · p))",
                low=low,
                high=high,
                judgement="ok" if span >= width else "watch",
                worked=worked(
                    "{} · √({} · {} / (0.75 · {}))",
                    (BASE, "mm"),
                    SHARE_BENT,
                    (strong, "MPa"),
                    (pressure, "kPa"),
                ),
            ),
        ]

    @Rule(
        Found(key="hollow-stress", value=MATCH.pulled),
        Found(key="longest-span", value=MATCH.span),
        Tool(name=MATCH.name, tensile_strength_low_pa=MATCH.strong_low),
        TEST(lambda pulled, strong_low: pulled > SHARE_BENT * strong_low),
    )
    @advice(
        id="STEP-508",
        title="Bed the tool on the table",
        reason=(
            "Bagged down over a gap wider than {span:length}, {name} cracks from below "
            "where nobody looks."
        ),
        cites=("roark",),
        limits=("brittle_bending_share",),
    )
    def bed_the_tool(
        self, pulled: float, span: float, name: str, strong_low: float
    ) -> Step:
        return _bedding(span, "it does not rock; no gap wider than {span:length}")

    @Rule(
        Bagging(id="bag-to-table", name=MATCH.bag),
        Found(key="cure-pressure", value=MATCH.pressure),
        Part(length_m=MATCH.length, width_m=MATCH.width, tolerance_m=MATCH.tolerance),
        Tool(
            name=MATCH.name,
            brittle=False,
            form=among("block", "board", "sheet"),
            modulus_pa=MATCH.stiff,
        ),
        TEST(
            lambda pressure, length, width, tolerance, stiff: (
                sinks(pressure, length, width, stiff) > tolerance / 2
            )
        ),
    )
    @advice(
        id="STEP-509",
        title="Bed the tool so that the bag does not bend it",
        reason=(
            "Carried by its rim alone, {base_thickness:length} of {name} would sink by "
            "{value:gap} under {pressure:pressure}, and the part would be made to that "
            "shape; {tolerance:gap} is allowed."
        ),
        cites=("roark",),
        limits=("base_thickness", "brittle_poisson_ratio"),
    )
    def bends_out_of_shape(
        self,
        bag: str,
        pressure: float,
        length: float,
        width: float,
        tolerance: float,
        name: str,
        stiff: float,
    ) -> list[Finding | Step]:
        finding = Finding(
            "hollow-sink",
            "Sink of the tool if its rim alone carried it",
            sinks(pressure, length, width, stiff),
            "mm",
            "α · p · b⁴ / (E · t³), rectangle on four edges",
            limit=tolerance / 2,
            judgement="watch",
        )
        return [finding, _bedding(0.0, "it does not rock; no light under a straight edge")]


def sinks(pressure: float, length: float, width: float, stiff: float) -> float:
    """Return how far a tool of base thickness sinks that its rim alone carries, in m."""
    return plate_deflection_m(pressure, length, width, BASE, stiff, POISSON)


def _bedding(span: float, accepted: str) -> Step:
    """Return the step of bedding; `span` is the gap a brittle tool may bridge, or 0."""
    gap = "so that no gap is wider than {span:length}" if span else "all over"
    return Step(
        "lay-up",
        "Rock the tool on its breather by its corners. Fill "
        f"what is hollow under it with blocks of the same stock, {gap}; leave air its way "
        "to the port.",
        does=("lifts",),
        quantities=(Quantity("Gap under the tool, at most", span, "mm"),) if span else (),
        hold_point=HoldPoint("Tool bedded", accepted, "widest gap"),
    )
