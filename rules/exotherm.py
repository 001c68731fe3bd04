"""The laminate's own heat: how hot it might get, and who watches it."""

from advisor.calculations.cure import heat_of_cure_j_per_m3
from advisor.calculations.cure_kinetics import (
    RESIN_OF_1982,
    TOUGHENED_RESIN_180C,
    PublishedResin,
)
from advisor.calculations.heat_and_cure import CuringResin
from advisor.calculations.laminate import fibre_volume_fraction
from advisor.calculations.tool_heating import CuredLaminate, OvenCure, own_heat
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Step
from advisor.reasoning.expert import LT, MATCH, TEST, P, Rule
from advisor.reasoning.facts import Bagging, Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import RuleBody, advice

from .closed_gap import between_halves  # noqa: TID251 (a sibling, not a copy)
from .heat import FILMS, ROOM, STACK, stacks  # noqa: TID251 (a sibling, not a copy)

THICK = limit("thick_laminate")
INSULATES = limit("insulating_body")
OVERSHOOT = limit("exotherm_overshoot")
CURED = limit("cure_enough")
START = limit("start_of_cure")
RESINS: dict[str, PublishedResin] = {
    "resin-of-1982": RESIN_OF_1982,
    "toughened-resin-180c": TOUGHENED_RESIN_180C,
}


def published(
    kinetics: list[str], share: float, fibre_rho: float, resin_rho: float
) -> tuple[CuringResin, ...]:
    """Return the published resins of a class, as much of each as the laminate holds."""
    fibre = fibre_volume_fraction(share, fibre_rho, resin_rho)
    resins = [RESINS[one] for one in kinetics]
    heats = [
        heat_of_cure_j_per_m3(one.heat_of_reaction_j_per_kg, one.density_kg_per_m3, fibre)
        for one in resins
    ]
    return tuple(CuringResin(*one, START) for one in zip(resins, heats, strict=True))


class OwnHeat:
    """What the heat of cure does to this laminate on this tool."""

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="dwell-start", value=MATCH.start),
        Found(key="heating-ramp", value=MATCH.fastest),
        Cure(
            resin=MATCH.resin, kinetics=MATCH.kinetics, ramp=MATCH.ramp, hold_h=MATCH.hold
        ),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Bagging(both_faces=MATCH.halves),
        Laminate(
            resin_content=MATCH.share,
            fibre_density=MATCH.fibre_rho,
            resin_density=MATCH.resin_rho,
            density=MATCH.ply_rho,
            conductivity=MATCH.ply_k,
            specific_heat=MATCH.ply_c,
        ),
        Tool(
            name=MATCH.name,
            form=MATCH.form,
            brittle=MATCH.brittle,
            density=MATCH.rho,
            conductivity=MATCH.k,
            specific_heat=MATCH.c,
        ),
        TEST(lambda kinetics: bool(kinetics)),
        TEST(lambda thick, k: thick > THICK or k < INSULATES),
    )
    @advice(
        id="CURE-030",
        title="Gauge the danger of the laminate's own heat",
        reason=(
            "The kinetics of other, published resins are run through {thick:length} on "
            "{name} in the cure at {hot:temperature}, the air held back by nothing: an "
            "estimate of the danger and no prediction; a quicker resin gets hotter, a "
            "slower one stays behind."
        ),
        cites=("lee-loos-springer-1982", "hubert-johnston-2001"),
        limits=(
            *STACK,
            "exotherm_overshoot",
            "thick_laminate",
            "insulating_body",
            "start_of_cure",
            "cure_enough",
            "room_temperature",
        ),
    )
    def exotherm(
        self,
        hot: float,
        thick: float,
        start: float,
        fastest: float,
        resin: str,
        kinetics: list[str],
        ramp: float,
        hold: float,
        shape: str,
        side: str,
        depth: float,
        halves: bool,
        share: float,
        fibre_rho: float,
        resin_rho: float,
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
        rate = min(ramp, fastest)
        ramp_h = (hot - ROOM) / (60.0 * rate)
        held_h = max(0.0, start + hold - ramp_h)  # the start counts from heat-on
        air = OvenCure(ROOM, hot, rate / 60.0, held_h * 3600.0)
        resins = published(kinetics, share, fibre_rho, resin_rho)
        ply, body = (thick, ply_k, ply_rho, ply_c), (k, rho, c)
        air_kinds = [
            [own_heat(stack, air, one) for one in resins]
            for stack in (
                [between_halves(form, depth, ply, body, film) for film in FILMS]
                if halves
                else stacks(form, shape, side, depth, ply, body)
            )
        ]
        return [self._peak(air_kinds, hot), self._least_cured(air_kinds)]

    @staticmethod
    def _peak(air_kinds: list[list[CuredLaminate]], hot: float) -> Finding:
        usual, *others = (max(one.peak_c for one in resins) for resins in air_kinds)
        return Finding(
            "exotherm-peak",
            "Hottest of the laminate, with another resin's kinetics",
            usual,
            "degC",
            "heat and cure in one dimension, the hotter resin; 250 °C: runs away",
            low=min(usual, *others),
            high=max(usual, *others),
            limit=hot + OVERSHOOT,
            judgement="ok" if max(usual, *others) <= hot + OVERSHOOT else "fail",
        )

    @staticmethod
    def _least_cured(air_kinds: list[list[CuredLaminate]]) -> Finding:
        every = [one.least_cure for resins in air_kinds for one in resins]
        usual = min(one.least_cure for one in air_kinds[0])
        return Finding(
            "cure-reached",
            "Least degree of cure after the hold, with another resin's kinetics",
            usual,
            "percent",
            "heat and cure in one dimension, the slower of the published resins",
            low=min(every),
            high=max(every),
            limit=CURED,
            judgement="ok" if usual >= CURED else "watch",
        )

    @Rule(
        Found(key="cure-reached", value=MATCH.share & LT(CURED)),
        Cure(hold_h=MATCH.hold, resin=MATCH.resin, sheet_c=P(lambda lines: not lines)),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
    )
    @advice(
        id="CURE-037",
        title="Prove the cure where a published resin would stay short of it",
        reason=(
            "On {name} the slower of the published resins would reach {share:percent} of "
            "its cure in {hold:hours} at {hot:temperature}; the job's own resin may be "
            "quicker, and only its sheet or a coupon says so."
        ),
        cites=("lee-loos-springer-1982", "hubert-johnston-2001"),
        limits=("cure_enough",),
    )
    def stays_short(
        self, share: float, hold: float, resin: str, hot: float, name: str
    ) -> Condition:
        return Condition(
            "The prepreg's sheet lists {hold:hours} or less at the temperature that the "
            "coldest thermocouple shows, or a coupon cured with the first part has the "
            "glass transition of the sheet.",
            "the sheet's line beside the chart, or the laboratory's report",
        )

    @Rule(
        Found(key="exotherm-peak", value=MATCH.peak, high=MATCH.highest),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
        TEST(lambda highest, hot: highest > hot + OVERSHOOT),
    )
    @advice(
        id="CURE-035",
        title="Do not cure this laminate in one ramp",
        reason=(
            "Published resins would take it to {highest:temperature} on {name}, and where "
            "that is 250 °C (482 °F) they run away altogether; more than "
            "{exotherm_overshoot:difference} over the dwell of {hot:temperature} is too "
            "much, and the job's own resin may get there too."
        ),
        cites=("lee-loos-springer-1982", "hubert-johnston-2001"),
        limits=("exotherm_overshoot",),
    )
    def gets_too_hot(self, peak: float, highest: float, hot: float, name: str) -> Condition:
        return Condition(
            "The resin's maker agrees a stepped cure for this thickness on this tool, and "
            "a trial piece stays within {exotherm_overshoot:difference} of each dwell.",
            "the maker's answer in writing; chart of the hottest thermocouple of the trial",
        )

    @Rule(
        Laminate(plies=MATCH.plies),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
        TEST(lambda thick: thick > THICK),
    )
    @advice(
        id="CURE-020",
        title="Step the cure of a thick laminate",
        reason=(
            "{thick:length} of laminate makes its own heat, and on {name} it may not get "
            "rid of it."
        ),
        cites=("knowledge-centre-debulk",),
        limits=("thick_laminate", "exotherm_overshoot"),
    )
    def thick_laminate(self, plies: int, thick: float, hot: float, name: str) -> RuleBody:
        return [
            Condition(
                "The middle of the laminate is shown not to run away: a dwell below gel "
                "first, with a thermocouple in the middle of a trial piece.",
                "trial piece of full thickness on the same tool material",
            ),
            Step(
                "cure",
                "Put one more thermocouple in the middle of the thickness, in waste where "
                "the laminate is thickest, and read it every ten minutes from the first "
                "dwell on. If it climbs past the dwell by {exotherm_overshoot:difference}: "
                "heat off, fan on, door shut, pump on. If it smokes, leave and call for "
                "help.",
                does=("heats", "heats-tool", "heats-bag"),
                hold_point=HoldPoint(
                    "Hottest thermocouple in the dwell",
                    "no more than {exotherm_overshoot:difference} above the dwell of "
                    "{hot:temperature}",
                    "highest reading, its time and place",
                ),
            ),
        ]
