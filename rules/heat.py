"""Heating the laminate on its tool: lag, start of the dwell, core of a brittle block."""

from dataclasses import replace

from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.tool_heating import THICKEST_M, OvenCure, heat_up, stack_of
from advisor.calculations.tool_heating import HeatUp as Warmed
from advisor.knowledge.tables import limit, load_knowledge
from advisor.measures import phrase
from advisor.reasoning.conclusions import Condition, Doubtful, Finding
from advisor.reasoning.expert import LT, MATCH, TEST, Rule
from advisor.reasoning.facts import Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import advice

ROOM = limit("room_temperature")
BASE = limit("base_thickness")
SHELL = limit("laminate_tool_thickness")
PLATE = limit("plate_thickness")
WALL = limit("metal_wall")
THIN = {"laminate": SHELL, "plate": PLATE, "pocketed": WALL}
BAND = limit("dwell_band")
LATE = limit("dwell_delay_watched")
LONGEST = limit("heat_up_longest")
LEAD = limit("air_lead")
CORE = limit("core_difference")
SLOW = limit("slow_heating")
BREATHER = Layer(
    "breather",
    limit("breather_plies") * limit("breather_ply_thickness"),
    limit("breather_conductivity"),
    limit("breather_density"),
    limit("breather_specific_heat"),
)

_FILM = load_knowledge().limits["film_coefficient"].figure
HELD_BACK = 20  # tries, each with a lag nearer to the lead
AT_LEAD = 1.01  # share of the lead at which air counts as held back to it
# As taken, with strong and with weak movement of the air.
FILMS = (_FILM.si, _FILM.high_si, _FILM.low_si)
# The limits that a stack of bag, laminate and tool is made of.
STACK = (
    "film_coefficient",
    "breather_plies",
    "breather_ply_thickness",
    "breather_conductivity",
    "breather_density",
    "breather_specific_heat",
    "base_thickness",
    "laminate_tool_thickness",
    "plate_thickness",
    "metal_wall",
)


def above_service(at_c: float, service_c: float, stop_c: float, stays: str) -> str:
    """Say why a heat may go above what the tool serves at, or nothing where it does not."""
    if not service_c < at_c <= stop_c:
        return ""
    of = phrase("{service:temperature} at which", service=service_c)
    short = phrase("{stop:temperature}", stop=stop_c)
    return (
        f"This is above the {of} the tool serves part after part and under the {short} it "
        f"stands for a short time: {stays}. "
    )


def section_m(form: str, depth: float, in_core: bool) -> float:
    """Return how thick a tool is where it is thickest, 2 m at most."""
    if form in THIN:
        return THIN[form]
    return min(max(depth, PLATE) if in_core else depth + BASE, THICKEST_M)


def bagged(
    form: str,
    shape: str,
    side: str,
    depth: float,
    laminate: tuple[float, float, float, float],
    tool: tuple[float, float, float],
    film: float,
) -> Stack:
    """Return the cure stack in air of a film; figures of k, density and specific heat."""
    in_core = shape == "closed" and side == "male"
    return stack_of(
        BREATHER,
        Layer("laminate", *laminate),
        Layer("tool", section_m(form, depth, in_core), *tool),
        film,
        all_round=in_core,
    )


def stacks(
    form: str,
    shape: str,
    side: str,
    depth: float,
    laminate: tuple[float, float, float, float],
    tool: tuple[float, float, float],
) -> list[Stack]:
    """Return the cure stack in each film of air."""
    return [bagged(form, shape, side, depth, laminate, tool, film) for film in FILMS]


def held_back(stack: Stack, air: OvenCure) -> OvenCure:
    """Return air that is held back to its lead over the laminate.

    A slower ramp stands for air that waits: the lag of a stack grows with the rate.
    """
    for _ in range(HELD_BACK):
        lag_k = heat_up(stack, air, BAND).lag_k
        if lag_k <= AT_LEAD * LEAD:
            break
        air = replace(air, ramp_k_per_s=air.ramp_k_per_s * LEAD / lag_k)
    return air


def led_up(stack: Stack, air: OvenCure) -> Warmed:
    """Return the heating with the air held back to its lead over the laminate."""
    return heat_up(stack, held_back(stack, air), BAND)


class HeatUp:
    """Heat every tool that stands, by calculation."""

    stage = "heat"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="heating-ramp", value=MATCH.fastest),
        Cure(ramp=MATCH.ramp),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Laminate(
            density=MATCH.ply_rho, conductivity=MATCH.ply_k, specific_heat=MATCH.ply_c
        ),
        Tool(
            name=MATCH.name,
            form=MATCH.form,
            brittle=MATCH.brittle,
            density=MATCH.rho,
            conductivity=MATCH.k,
            specific_heat=MATCH.c,
        ),
    )
    @advice(
        id="HEAT-010",
        title="Work out how the laminate heats on this tool",
        reason=(
            "Heat reaches the laminate through bag and breather on one side and through "
            "{name} on the other; worked through the thickest section, dry, with the air "
            "raised at the ramp, no more than {air_lead:difference} ahead, to "
            "{hot:temperature} and held."
        ),
        cites=("laminate-conductivity-paper", "conduction-textbook", "common-practice"),
        limits=(
            *STACK,
            "dwell_band",
            "air_lead",
            "room_temperature",
            "dwell_delay_watched",
            "heat_up_longest",
            "core_difference",
        ),
    )
    def heats(
        self,
        hot: float,
        thick: float,
        fastest: float,
        ramp: float,
        shape: str,
        side: str,
        depth: float,
        ply_rho: float,
        ply_k: float,
        ply_c: float,
        name: str,
        form: str,
        brittle: bool,
        rho: float,
        k: float,
        c: float,
    ) -> list[Finding]:
        ply, body = (thick, ply_k, ply_rho, ply_c), (k, rho, c)
        rate = min(ramp, fastest)
        at_ramp = OvenCure(ROOM, hot, rate / 60.0, LONGEST * 3600.0)
        in_films = stacks(form, shape, side, depth, ply, body)
        usual, strong, weak = (heat_up(stack, at_ramp, BAND) for stack in in_films)
        starts = [led_up(stack, at_ramp).reached_s / 3600.0 for stack in in_films]
        found = [
            Finding(
                "dwell-start",
                "Laminate reaches the dwell, after heat-on",
                starts[0],
                "h",
                "transient heat in one dimension, coldest point of the laminate",
                low=starts[1],
                high=starts[2],
            ),
            Finding(
                "dwell-delay",
                "Laminate reaches the dwell, after air that is not held back",
                usual.delay_s / 3600.0,
                "h",
                "dwell start − time of the ramp",
                low=strong.delay_s / 3600.0,
                high=weak.delay_s / 3600.0,
                limit=LATE,
                judgement="ok"
                if usual.delay_s < LATE * 3600.0
                else "watch"
                if usual.delay_s < LONGEST * 3600.0
                else "fail",
            ),
            Finding(
                "face-lag",
                "Air above the coldest of the laminate, at the end of the ramp",
                usual.lag_k,
                "K",
                "air − laminate",
                low=strong.lag_k,
                high=weak.lag_k,
                limit=LEAD,
                judgement="ok" if usual.lag_k <= LEAD else "watch",
            ),
        ]
        if brittle:
            cores = [usual.core_k, strong.core_k, weak.core_k]
            found.append(
                Finding(
                    "core-difference",
                    "Face of the block above its core, at most, while it heats",
                    usual.core_k,
                    "K",
                    "face − core",
                    low=min(cores),
                    high=max(cores),
                    limit=CORE,
                    judgement="ok" if usual.core_k <= CORE else "watch",
                )
            )
        return found

    @Rule(
        Found(key="dwell-delay", value=MATCH.delay),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
        TEST(lambda delay: delay >= LONGEST),
    )
    @advice(
        id="HEAT-020",
        title="Show that the laminate gets warm at all",
        reason=(
            "On {name} the laminate is not within {dwell_band:difference} of "
            "{hot:temperature} even {heat_up_longest:hours} after the air, by calculation."
        ),
        limits=("heat_up_longest", "dwell_band"),
    )
    def never_warm(self, delay: float, hot: float, name: str) -> Doubtful:
        return Doubtful(
            "The coldest laminate thermocouple reaches {hot:temperature} within "
            "{heat_up_longest:hours} of the air, or the body is hollowed until it does.",
            "one empty cycle with thermocouples under a scrap laminate",
        )


class HeatConditions:
    """What the heating of the chosen tool asks for."""

    stage = "plan"

    @Rule(
        Found(key="core-difference", value=MATCH.apart),
        Found(key="heating-ramp", value=MATCH.fastest),
        Cure(ramp=MATCH.ramp),
        Tool(name=MATCH.name, brittle=True),
        TEST(lambda apart, fastest, ramp: apart > CORE and fastest < ramp),
    )
    @advice(
        id="HEAT-030",
        title="Hollow a thick brittle block, or prove it empty",
        reason=(
            "Heated at {fastest:ramp} instead of the job's {ramp:ramp}, the core of {name} "
            "still lags its face by about {apart:difference}; by its usual figures the "
            "block stands that, but above {core_difference:difference} one that is weaker "
            "than its sheet, or has a joint or a hole, may not. Walls of even thickness "
            "lag less."
        ),
        cites=("common-practice",),
        limits=("core_difference",),
    )
    def core_lags(self, apart: float, fastest: float, ramp: float, name: str) -> Condition:
        return Condition(
            "The block comes through an empty cycle whole, with core and face charted, or "
            "it is hollowed from below to an even wall until they stay within "
            "{core_difference:difference}.",
            "chart of core and face; no crack seen, same ring when tapped, same leak rate",
        )

    @Rule(
        Found(key="dwell-start", value=MATCH.start),
        Found(key="dwell-delay", value=MATCH.delay & LT(LONGEST)),
        Tool(name=MATCH.name),
        TEST(lambda start: start > SLOW),
    )
    @advice(
        id="HEAT-040",
        title="Ask the prepreg's maker about a heating as slow as this",
        reason=(
            "On {name} the laminate takes about {start:about_hours} to reach the dwell. So "
            "long at rising heat the resin ages and may gel before it has flowed, and no "
            "published cure was read that rises as slowly."
        ),
        cites=("prepreg-makers-guide", "common-practice"),
        limits=("slow_heating", "heat_up_longest"),
    )
    def slow_heating(self, start: float, delay: float, name: str) -> Condition:
        return Condition(
            "The prepreg's maker has agreed in writing to about {start:about_hours} of "
            "heating before the dwell; else the tool is hollowed from below to an even "
            "wall, or made as a thin shell, and the job is planned again.",
            "maker's answer; the coupon heated as slowly as the tool will be",
        )
