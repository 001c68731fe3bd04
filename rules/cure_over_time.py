"""The cure over time, as it is drawn: air, tool face, laminate, degree of cure."""

from advisor.calculations.cure_history import (
    WAITED_S,
    CureHistory,
    TooLongError,
    cure_history,
)
from advisor.calculations.heat_stack import Stack
from advisor.calculations.tool_heating import OvenCure
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import CureCourse, Finding, Line
from advisor.reasoning.expert import GT, MATCH, Rule
from advisor.reasoning.facts import Bagging, Cure, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import advice

from .closed_gap import between_halves  # noqa: TID251 (a sibling, not a copy)
from .exotherm import published  # noqa: TID251 (a sibling, not a copy)
from .heat import FILMS, ROOM, STACK, bagged, held_back  # noqa: TID251

COOLING = limit("cooling_usual")
OPENS = limit("demould_temperature")
_AN_HOUR = 3600.0


class UsualCooling:
    """How fast a tool that heat does not crack is cooled."""

    stage = "plan"

    @Rule(Tool(brittle=False, name=MATCH.name))
    @advice(
        id="HEAT-045",
        title="Cool at the usual rate",
        reason=(
            "{name} does not crack by heat; the part on it is let down at "
            "{cooling_usual:ramp} or slower, and stays in its bag until it is below "
            "{demould_temperature:temperature}, so that it does not warp."
        ),
        cites=("common-practice",),
        limits=("cooling_usual", "demould_temperature"),
    )
    def cools_as_usual(self, name: str) -> list[Finding]:
        ramp = ("cooling-ramp", "Cooling, at most", COOLING, "delta_degC/min")
        opens = ("opens-at", "Part at which the bag may be opened, at most", OPENS, "degC")
        return [Finding(*ramp, "usual rate"), Finding(*opens, "usual temperature")]


class CureOverTime:
    """The cure of the chosen route, drawn."""

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot & GT(OPENS)),
        Found(key="laminate-thickness", value=MATCH.thick),
        Found(key="heating-ramp", value=MATCH.fastest),
        Found(key="cooling-ramp", value=MATCH.falls),
        Found(key="opens-at", value=MATCH.opens),
        Found(key="dwell-start", value=MATCH.start),
        Cure(ramp=MATCH.ramp, hold_h=MATCH.hold, kinetics=MATCH.kinetics),
        Part(shape=MATCH.shape, tool_side=MATCH.side, depth_m=MATCH.depth),
        Laminate(
            resin_content=MATCH.share,
            fibre_density=MATCH.fibre_rho,
            resin_density=MATCH.resin_rho,
            density=MATCH.ply_rho,
            conductivity=MATCH.ply_k,
            specific_heat=MATCH.ply_c,
        ),
        Bagging(both_faces=MATCH.halves),
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
        id="HEAT-050",
        title="Draw the cure over time",
        reason=(
            "Worked through the thickest section of {name} with its bag, in one dimension: "
            "air at no more than {fastest:ramp}, under a bag held back to its lead over "
            "the laminate, {hold:hours} at {hot:temperature} from {start:hours} after "
            "heat-on, then down at {falls:ramp} until the bag may be opened: the laminate "
            "at {opens:temperature} or less, and the core of a brittle body with it."
        ),
        cites=(
            "laminate-conductivity-paper",
            "conduction-textbook",
            "lee-loos-springer-1982",
            "hubert-johnston-2001",
            "common-practice",
        ),
        limits=(
            *STACK,
            "air_lead",
            "dwell_band",
            "start_of_cure",
            "room_temperature",
            "demould_temperature",
        ),
    )
    def over_time(
        self,
        hot: float,
        thick: float,
        fastest: float,
        falls: float,
        opens: float,
        start: float,
        ramp: float,
        hold: float,
        kinetics: list[str],
        shape: str,
        side: str,
        depth: float,
        share: float,
        fibre_rho: float,
        resin_rho: float,
        ply_rho: float,
        ply_k: float,
        ply_c: float,
        halves: bool,
        name: str,
        form: str,
        brittle: bool,
        rho: float,
        k: float,
        c: float,
    ) -> CureCourse | None:
        """Draw nothing of a cure that does not end; other rules speak of it."""
        if (start + hold) * _AN_HOUR > WAITED_S:
            return None
        ply, body = (thick, ply_k, ply_rho, ply_c), (k, rho, c)
        stack = (
            between_halves(form, depth, ply, body, FILMS[0])
            if halves
            else bagged(form, shape, side, depth, ply, body, FILMS[0])
        )
        resins = published(kinetics, share, fibre_rho, resin_rho)
        air = _air(stack, hot, min(ramp, fastest), start + hold, halves)
        cool = min(opens, OPENS)
        cooled = ("laminate", "tool") if brittle else ("laminate",)
        try:
            followed = cure_history(stack, air, falls / 60.0, cool, resins, cooled)
        except TooLongError:
            return None
        return _drawn(followed, start)


def _air(stack: Stack, hot: float, ramp: float, off_h: float, halves: bool) -> OvenCure:
    """Return the air up to heat-off; between halves it does not wait for the laminate."""
    air = OvenCure(ROOM, hot, ramp / 60.0, off_h * _AN_HOUR)
    air = air if halves else held_back(stack, air)
    held_s = max(0.0, off_h * _AN_HOUR - air.ramp_s)
    return OvenCure(ROOM, hot, air.ramp_k_per_s, held_s)


def _drawn(followed: CureHistory, start_h: float) -> CureCourse:
    """Return a cure as it is drawn: hours and degrees that a chart can show."""
    named = [
        ("Oven air", "degC", followed.air_c),
        ("Face of the tool", "degC", followed.face_c),
        ("Middle of the laminate", "degC", followed.middle_c),
    ]
    named += [
        (f"Least degree of cure, {which} published resin", "percent", 100.0 * one)
        for which, one in zip(("a", "another"), followed.cures, strict=False)
        if one is not None
    ]
    marks = (
        (followed.ramp_ends_s / _AN_HOUR, "air at the dwell"),
        (start_h, "dwell starts"),
        (followed.heat_off_s / _AN_HOUR, "cool-down starts"),
        (followed.opens_s / _AN_HOUR, "cool enough to open"),
    )
    return CureCourse(
        tuple(round(float(one) / _AN_HOUR, 3) for one in followed.times_s),
        tuple(
            Line(name, unit, tuple(round(float(one), 1) for one in values))
            for name, unit, values in named
        ),
        tuple((round(at_h, 2), words) for at_h, words in marks),
        sum(one is None for one in followed.cures),
    )
