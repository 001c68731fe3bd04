"""Whether the laminate is cured enough: by the maker's own sheet, and for its use."""

import math

from advisor.calculations.listed_cure import ListedCure
from advisor.calculations.tool_heating import OvenCure, listed_cure_s
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Condition, Finding
from advisor.reasoning.expert import MATCH, TEST, Rule
from advisor.reasoning.facts import Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import RuleBody, advice

from .heat import BAND, LONGEST, ROOM, STACK, stacks  # noqa: TID251 (a sibling, not a copy)

USE_MARGIN = limit("service_margin")


class SheetCure:
    """The cure table of the prepreg's own sheet, on this tool."""

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="heating-ramp", value=MATCH.fastest),
        Found(key="dwell-start", value=MATCH.start),
        Cure(ramp=MATCH.ramp, hold_h=MATCH.hold, sheet_c=MATCH.at, sheet_h=MATCH.times),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Laminate(
            density=MATCH.ply_rho, conductivity=MATCH.ply_k, specific_heat=MATCH.ply_c
        ),
        Tool(
            name=MATCH.name,
            form=MATCH.form,
            density=MATCH.rho,
            conductivity=MATCH.k,
            specific_heat=MATCH.c,
        ),
        TEST(lambda at: bool(at)),
    )
    @advice(
        id="CURE-080",
        title="Count the cure by the sheet's own lines, on this tool",
        reason=(
            "The clock of the sheet runs only while the coldest of the laminate is within "
            "{dwell_band:difference} of a line of its table, and nothing is worked out "
            "between the lines; on {name} the job holds {hold:hours} at "
            "{hot:temperature}."
        ),
        cites=("prepreg-makers-guide",),
        limits=(*STACK, "dwell_band", "room_temperature", "heat_up_longest"),
    )
    def by_the_sheet(
        self,
        hot: float,
        thick: float,
        fastest: float,
        start: float,
        ramp: float,
        hold: float,
        at: list[float],
        times: list[float],
        shape: str,
        side: str,
        depth: float,
        ply_rho: float,
        ply_k: float,
        ply_c: float,
        name: str,
        form: str,
        rho: float,
        k: float,
        c: float,
    ) -> RuleBody:
        sheet = tuple(ListedCure(one, 3600 * h) for one, h in zip(at, times, strict=True))
        if hot + BAND < min(at):
            return Condition(
                "The prepreg's sheet lists a cure at {hot:temperature}; the lines given in "
                "the job start above it.",
                "sheet number and the line of its cure table",
            )
        rate = min(ramp, fastest)
        air = OvenCure(ROOM, hot, rate / 60, 3600 * (start + LONGEST + sum(times)))
        usual, strong, weak = (
            listed_cure_s(stack, air, sheet, BAND) / 3600 - start
            for stack in stacks(
                form, shape, side, depth, (thick, ply_k, ply_rho, ply_c), (k, rho, c)
            )
        )
        if math.isinf(max(usual, strong, weak)):
            return Condition(
                "A chart of the coldest laminate thermocouple shows the whole time of a "
                "line of the sheet; by calculation the laminate does not get there.",
                "chart of one empty cycle under a scrap laminate",
            )
        needed = max(0.0, usual)
        finding = Finding(
            "hold-needed",
            "Dwell that a line of the sheet needs on this tool",
            needed,
            "h",
            "Σ dt / (time of the next lower line) = 1, coldest of the laminate",
            low=max(0.0, strong),
            high=max(0.0, weak),
            limit=hold,
            judgement="ok" if needed <= hold else "fail",
        )
        if needed <= hold:
            return finding
        return [
            finding,
            Condition(
                "The dwell is held for {value:hours} from its start by the thermocouple, "
                "not the {hold:hours} of the job, unless the sheet lists less.",
                "dwell on the traveller corrected and signed",
            ),
        ]


class InUse:
    """How hot the part may get, by what its cure leaves it with."""

    stage = "plan"

    @Rule(
        Part(service_c=MATCH.service),
        Cure(
            resin=MATCH.resin,
            temperature_c=MATCH.cure_c,
            transition_rise=MATCH.rise,
            transition_rise_low=MATCH.low,
            transition_rise_high=MATCH.high,
        ),
    )
    @advice(
        id="CURE-090",
        title="Hold the part's use against its glass transition",
        reason=(
            "A resin sets little above the hottest it has been: after "
            "{cure_c:temperature} {resin} softens at about {value:temperature} "
            "({low:temperature} to {high:temperature}), lower when damp, and the part is "
            "used at up to {service:temperature}."
        ),
        cites=("prepreg-makers-guide", "common-practice"),
        limits=("service_margin",),
    )
    def transition(
        self,
        service: float,
        resin: str,
        cure_c: float,
        rise: float,
        low: float,
        high: float,
    ) -> RuleBody:
        least = cure_c + low
        room = least - USE_MARGIN
        finding = Finding(
            "glass-transition",
            "Glass transition to expect after the cure",
            cure_c + rise,
            "degC",
            "hottest of the cure + rise of its class",
            low=least,
            high=cure_c + high,
            limit=service + USE_MARGIN,
            judgement="ok" if service <= room else "watch" if service < least else "fail",
        )
        if service <= room:
            return finding
        return [
            finding,
            Condition(
                "The prepreg's sheet gives, for this cure, a glass transition "
                "{service_margin:difference} or more above {service:temperature}; else "
                "the part is cured or post-cured hotter, and planned again.",
                "the sheet's line, or the glass transition of a coupon cured with the part",
            ),
        ]
