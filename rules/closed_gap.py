"""What the gap of a matched mould makes of the plies, and how they warm in it."""

from advisor.calculations import closed_mould, laminate
from advisor.calculations.heat_stack import Layer, Stack
from advisor.calculations.tool_heating import OvenCure, heat_up
from advisor.knowledge.tables import limit, limit_span
from advisor.reasoning.conclusions import Condition, Doubtful, Finding, RuledOut
from advisor.reasoning.expert import LT, MATCH, NE, TEST, Rule
from advisor.reasoning.facts import Bagging, Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import RuleBody, advice

from .heat import (  # noqa: TID251 (a sibling, not a copy)
    BAND,
    BREATHER,
    FILMS,
    LATE,
    LEAD,
    LONGEST,
    ROOM,
    STACK,
    section_m,
)

SQUEEZE = limit("gap_squeeze")
ERROR = limit("gap_error")
ERROR_SHARE = limit("gap_error_share")
MOST_FIBRE = limit("fibre_share_most")
BULKS = limit_span("stack_bulk")
SWELL = limit("thickness_expansion")
SHRINK = limit("thickness_shrinkage")
NIP_SHARE = limit("nip_watched")
INSULATING = limit("insulating_half")
_AN_HOUR = 3600.0


def wanted_m(thick: float, full: float) -> float:
    """Return the thickness to close to: under that of plies with all their resin."""
    return min(thick, full * (1 - SQUEEZE))


def between_halves(
    form: str,
    depth: float,
    laminate: tuple[float, float, float, float],
    tool: tuple[float, float, float],
    film: float,
) -> Stack:
    """Return the plies between two halves in air of a film; figures as for `bagged`."""
    body = section_m(form, depth, in_core=False)
    layers = (
        BREATHER,
        Layer("tool above", body, *tool),
        Layer("laminate", *laminate),
        Layer("tool", body, *tool),
    )
    return Stack(layers, film, film)


class JudgeGap:
    """The gap, and plies and resin in it."""

    stage = "bagging"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Laminate(
            plies=MATCH.plies,
            areal_weight=MATCH.areal,
            resin_content=MATCH.resin,
            fibre_density=MATCH.fibre_rho,
            resin_density=MATCH.resin_rho,
        ),
        Part(depth_m=MATCH.depth),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=False, soft=False, expansion=MATCH.growth),
    )
    @advice(
        id="CLOSE-110",
        title="Cut the gap for the part, cold and full",
        reason=(
            "Halves of {name} that meet on their own lands grow {growth:expansion} and the "
            "gap with them, the laminate more through its thickness. The part is closed "
            "under the thickness of plies with all their resin by at least "
            "{gap_squeeze:percent}, or nothing presses them once the stops meet."
        ),
        cites=("maker-ply-sheet", "memory-spring-in", "common-practice"),
        limits=(
            "gap_squeeze",
            "gap_error",
            "thickness_expansion",
            "thickness_shrinkage",
            "room_temperature",
        ),
    )
    def gap_to_cut(
        self,
        hot: float,
        thick: float,
        plies: int,
        areal: float,
        resin: float,
        fibre_rho: float,
        resin_rho: float,
        depth: float,
        bag: str,
        name: str,
        growth: float,
    ) -> list[Finding]:
        ply = laminate.cured_ply_thickness_m(areal, resin, fibre_rho, resin_rho)
        part = wanted_m(thick, plies * ply)
        warm = closed_mould.hot_gap_for_part_m(part, SWELL, SHRINK, hot, ROOM)
        plug, cavity = depth, -(depth + warm)  # the lands meet: no stop between them
        halves = (plug, cavity, growth, growth, growth, hot, ROOM)
        cold = closed_mould.cold_gap_m(warm, *halves)
        return [
            Finding(
                "gap-cold",
                "Gap to cut between the halves, at room temperature",
                cold,
                "mm",
                "g / (1 + αt · ΔT)",
                low=max(0.0, cold - ERROR),
                high=cold + ERROR,
            ),
            Finding(
                "gap-hot",
                "Gap between the halves at the tool's temperature",
                warm,
                "mm",
                "t · (1 + αz · ΔT) / (1 − shrinkage)",
            ),
            Finding(
                "gap-part",
                "Part, cold, from this gap",
                closed_mould.part_thickness_m(warm, SWELL, SHRINK, hot, ROOM),
                "mm",
                "g · (1 − shrinkage) / (1 + αz · ΔT)",
                low=max(0.0, part - ERROR),
                high=part + ERROR,
            ),
        ]

    @Rule(
        Found(key="laminate-thickness", value=MATCH.thick),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=False, soft=False),
        TEST(lambda thick: ERROR > ERROR_SHARE * thick),
    )
    @advice(
        id="CLOSE-115",
        title="Do not set so thin a laminate by a gap",
        reason=(
            "A gap in {name} comes out right to about {gap_error:gap}, and that is more "
            "than {gap_error_share:percent} of a laminate of {thick:gap}: one end is "
            "starved and the other is not pressed."
        ),
        limits=("gap_error", "gap_error_share"),
    )
    def too_thin_for_a_gap(self, thick: float, bag: str, name: str) -> RuledOut:
        return RuledOut("more plies, or a one-sided bag")

    @Rule(
        Found(key="laminate-thickness", value=MATCH.thick),
        Laminate(
            plies=MATCH.plies,
            areal_weight=MATCH.areal,
            resin_content=MATCH.resin,
            fibre_density=MATCH.fibre_rho,
            resin_density=MATCH.resin_rho,
        ),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=False, soft=False),
        TEST(lambda thick: ERROR <= ERROR_SHARE * thick),
    )
    @advice(
        id="CLOSE-120",
        title="Hold fibre and resin in the gap against what can be closed",
        reason=(
            "The gap sets the thickness and {plies:plies} the fibre in it; where it is "
            "{gap_error:gap} off there is that much more or less. Above "
            "{fibre_share_most:percent} the halves ride on dry fibre and do not close; "
            "where resin lacks, nothing presses the plies and they stay porous."
        ),
        cites=("maker-ply-sheet", "common-practice"),
        limits=("fibre_share_most", "gap_error", "gap_error_share", "gap_squeeze"),
    )
    def fibre_in_the_gap(
        self,
        thick: float,
        plies: int,
        areal: float,
        resin: float,
        fibre_rho: float,
        resin_rho: float,
        bag: str,
        name: str,
    ) -> RuleBody:
        ply = laminate.cured_ply_thickness_m(areal, resin, fibre_rho, resin_rho)
        part = wanted_m(thick, plies * ply)
        cloth = plies * areal / fibre_rho
        jammed = cloth / closed_mould.CLOSEST_PACKING * (1 + 1e-9)
        tight, wide = max(part - ERROR, jammed), part + ERROR
        share, low, high = (
            closed_mould.fibre_share(plies, areal, fibre_rho, gap)
            for gap in (part, wide, tight)
        )
        spare, least, most = (
            closed_mould.spare_resin_kg_m2(plies, areal, resin, fibre_rho, resin_rho, gap)
            for gap in (part, wide, tight)
        )
        found: list[Finding] = [
            Finding(
                "gap-fibre",
                "Fibre by volume that the gap gives",
                share,
                "percent",
                "n · FAW / (ρf · t), and with the gap's error",
                low=low,
                high=high,
                limit=MOST_FIBRE,
                judgement="fail"
                if share > MOST_FIBRE
                else "watch"
                if high > MOST_FIBRE
                else "ok",
            ),
            Finding(
                "gap-resin",
                "Resin squeezed out of the plies; below zero, resin that lacks",
                spare,
                "g/m**2",
                "ρr · (n · t₀ − t), and with the gap's error",
                low=least,
                high=most,
                limit=0.0,
                judgement="ok" if least >= 0 else "watch",
            ),
        ]
        if share <= MOST_FIBRE:
            return found
        return [*found, RuledOut("{fibre_share_most:percent} of fibre by volume or less")]

    @Rule(
        Found(key="laminate-thickness", value=MATCH.thick),
        Laminate(
            plies=MATCH.plies,
            areal_weight=MATCH.areal,
            resin_content=MATCH.resin,
            fibre_density=MATCH.fibre_rho,
            resin_density=MATCH.resin_rho,
        ),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=False, soft=False),
    )
    @advice(
        id="CLOSE-130",
        title="Know how far the halves stand open on the plies",
        reason=(
            "Laid, {plies:plies} stand about {stack_bulk:number} times as high as cured: "
            "the halves touch them {value:gap} before the stops meet; a nip of more than "
            "{nip_watched:percent} of the stack wrinkles or pinches them."
        ),
        limits=("stack_bulk", "nip_watched", "gap_squeeze"),
    )
    def nip_before_stops(
        self,
        thick: float,
        plies: int,
        areal: float,
        resin: float,
        fibre_rho: float,
        resin_rho: float,
        bag: str,
        name: str,
    ) -> Finding:
        ply = laminate.cured_ply_thickness_m(areal, resin, fibre_rho, resin_rho)
        part = wanted_m(thick, plies * ply)
        stacks = [closed_mould.laid_stack_m(plies, ply, bulk) for bulk in BULKS]
        low, value, high = (closed_mould.nip_m(stack, part) for stack in stacks)
        most = NIP_SHARE * stacks[1]
        return Finding(
            "gap-nip",
            "Nip: halves open on the plies before the stops meet",
            value,
            "mm",
            "bulk · n · t₀ − gap",
            low=low,
            high=high,
            limit=most,
            judgement="fail" if value < 0 else "ok" if value <= most else "watch",
        )


class JudgeWarming:
    """Heat reaches plies between two halves through the bodies alone."""

    stage = "bagging"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="heating-ramp", value=MATCH.fastest),
        Cure(ramp=MATCH.ramp),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Laminate(
            density=MATCH.ply_rho, conductivity=MATCH.ply_k, specific_heat=MATCH.ply_c
        ),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(
            name=MATCH.name,
            brittle=False,
            soft=False,
            form=MATCH.form,
            density=MATCH.rho,
            conductivity=MATCH.k,
            specific_heat=MATCH.c,
        ),
    )
    @advice(
        id="CLOSE-150",
        title="Work out how the plies warm between the halves",
        reason=(
            "Between two halves heat reaches the plies through {name} on both sides; "
            "worked through the thickest section, bagged, with the air raised at the ramp "
            "to {hot:temperature} and held."
        ),
        cites=("conduction-textbook", "common-practice"),
        limits=(
            *STACK,
            "dwell_band",
            "air_lead",
            "room_temperature",
            "dwell_delay_watched",
            "heat_up_longest",
        ),
    )
    def warms_between_halves(
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
        bag: str,
        name: str,
        form: str,
        rho: float,
        k: float,
        c: float,
    ) -> RuleBody:
        plies = (thick, ply_k, ply_rho, ply_c)
        air = OvenCure(ROOM, hot, min(ramp, fastest) / 60.0, LONGEST * _AN_HOUR)
        usual, strong, weak = (
            heat_up(between_halves(form, depth, plies, (k, rho, c), film), air, BAND)
            for film in FILMS
        )
        delay = usual.delay_s / _AN_HOUR
        found: list[Finding | Doubtful] = [
            Finding(
                "dwell-start",
                "Laminate reaches the dwell, after heat-on",
                usual.reached_s / _AN_HOUR,
                "h",
                "transient heat in one dimension, between two halves",
                low=strong.reached_s / _AN_HOUR,
                high=weak.reached_s / _AN_HOUR,
            ),
            Finding(
                "dwell-delay",
                "Laminate reaches the dwell, after the air",
                delay,
                "h",
                "dwell start − time of the ramp",
                low=strong.delay_s / _AN_HOUR,
                high=weak.delay_s / _AN_HOUR,
                limit=LATE,
                judgement="ok" if delay < LATE else "watch" if delay < LONGEST else "fail",
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
        if delay >= LONGEST:
            found.append(
                Doubtful(
                    "The coldest of the closed mould's face reaches {hot:temperature} at "
                    "all, or the bodies are hollowed until it does.",
                    "one empty closed cycle with thermocouples in the gap",
                )
            )
        return found


class GapNumbers:
    """What only the chosen route is asked."""

    stage = "plan"

    @Rule(
        Found(key="gap-nip", value=MATCH.nip),
        Part(shape=NE("flat"), draft_deg=MATCH.draft, depth_m=MATCH.depth),
        Bagging(both_faces=True, name=MATCH.bag),
        TEST(lambda nip, draft: nip > 0 and draft > 0),
    )
    @advice(
        id="CLOSE-140",
        title="Debulk wall plies until they go in without scraping",
        reason=(
            "A wall of {draft:angle} comes nearer by a small part of the travel only, so "
            "its plies touch both faces {value:length} before the halves are closed and "
            "are rubbed the rest of the way."
        ),
    )
    def wall_plies_rubbed(
        self, nip: float, draft: float, depth: float, bag: str
    ) -> list[Finding | Condition]:
        travel = closed_mould.wall_travel_m(nip, draft)
        finding = Finding(
            "wall-travel",
            "Travel over which plies on the walls are rubbed",
            travel,
            "mm",
            "nip / sin(draft)",
            limit=depth,
            judgement="ok" if travel <= depth else "watch",
        )
        if travel <= depth:
            return [finding]
        return [
            finding,
            Condition(
                "Plies on the walls are debulked warm to within a ply of the gap, or the "
                "trial part shows no ply dragged down.",
                "stack on the wall measured before closing; trial part cut through a wall",
            ),
        ]

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Found(key="laminate-thickness", value=MATCH.thick),
        Cure(resin=MATCH.resin, kinetics=MATCH.published),
        Tool(name=MATCH.name),
        TEST(lambda published: not published),
    )
    @advice(
        id="CLOSE-163",
        title="Ask the resin's maker how thick may be cured between two halves",
        reason=(
            "No kinetics are held here for a resin of the class {resin}, so it is not "
            "worked out what {thick:length} of it does shut between two bodies of {name}."
        ),
    )
    def ask_the_maker(
        self, bag: str, thick: float, resin: str, published: list[str], name: str
    ) -> Condition:
        return Condition(
            "How thick may this resin be cured in a closed mould, and with what dwell? The "
            "maker has answered for {thick:length}, or a trial piece of full thickness "
            "closed between both bodies has stayed within its limits.",
            "the maker's answer in writing, or the chart of the trial",
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, conductivity=MATCH.k & LT(INSULATING)),
    )
    @advice(
        id="CLOSE-160",
        title="Read the laminate's own heat between two halves",
        reason=(
            "Two bodies of {name} keep in the heat that the resin gives off; what this "
            "plan works out for the laminate's own heat is for one tool and a bag, and "
            "is too low here."
        ),
        limits=("insulating_half",),
    )
    def keeps_its_heat_in(self, bag: str, name: str, k: float) -> Condition:
        return Condition(
            "A trial piece of full thickness, closed between both bodies, stays under "
            "every limit in the bag.",
            "chart of a thermocouple in the middle of the trial piece",
        )
