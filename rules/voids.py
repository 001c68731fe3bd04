"""Pores from damp prepreg: the resin pressure they need, and the air they come from."""

import math

from advisor.calculations import voids
from advisor.knowledge.tables import limit, limit_span
from advisor.measures import worked
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Step
from advisor.reasoning.expert import LT, MATCH, Rule
from advisor.reasoning.facts import Found, Shop
from advisor.reasoning.rulebook import advice

DRY_ENOUGH = limit("lay_up_humidity")
EASY = limit("void_margin_easy")
FIBRES_LEAST, FIBRES, FIBRES_MOST = limit_span("fibre_load_share")
GELLED_FIRST, GELLED, GELLED_LAST = limit_span("gelled_by")
LEAST = limit("void_margin_least")


class VoidNumbers:
    """Whether the pressure of the cure holds the water in the resin dissolved."""

    stage = "needs"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="cure-pressure", value=MATCH.pressure),
        Shop(humidity=MATCH.humidity),
    )
    @advice(
        id="VOID-010",
        title="Hold the pressure on the resin against the water in it",
        reason=(
            "Prepreg long open at {humidity:percent} humidity boils its water out as "
            "pores unless the resin is pressed; {pressure:pressure} on the plies, less "
            "what the fibres carry, is {value:number} times what that takes ({low:number} "
            "to {high:number})."
        ),
        cites=("kardos-1986", "grunenfelder-nutt-2010"),
        limits=("fibre_load_share", "gelled_by", "void_margin_easy", "void_margin_least"),
    )
    def void_margin(self, hot: float, pressure: float, humidity: float) -> Finding:
        value, low, high = (
            voids.pressure_margin(min(hot, gelled), humidity, pressure * (1 - share))
            for share, gelled in (
                (FIBRES, GELLED),
                (FIBRES_MOST, GELLED_LAST),
                (FIBRES_LEAST, GELLED_FIRST),
            )
        )
        return Finding(
            "void-margin",
            "Resin pressure over what damp prepreg needs",
            value,
            "1",
            "p cure · share left by the fibres / (RH · p sat)",
            low=low,
            high=high,
            limit=1.0,
            judgement="ok" if value >= EASY else "watch" if value >= LEAST else "fail",
            worked=worked(
                "{} · (1 − {}) / ({} · {})",
                (pressure, "kPa"),
                FIBRES,
                humidity,
                (voids.least_resin_pressure_pa(min(hot, GELLED), 1.0), "kPa"),
            ),
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="cure-pressure", value=MATCH.pressure),
    )
    @advice(
        id="VOID-020",
        title="Keep the room where prepreg lies open dry enough",
        reason=(
            "Up to {value:percent} humidity the pressure on the resin is at least "
            "{void_margin_easy:number} times what its water needs; makers ask for "
            "{lay_up_humidity:percent} at most."
        ),
        cites=("kardos-1986", "prepreg-makers-guide"),
        limits=("fibre_load_share", "gelled_by", "void_margin_easy", "lay_up_humidity"),
    )
    def highest_humidity(self, hot: float, pressure: float) -> Finding:
        available = pressure * (1 - FIBRES) / EASY
        most = min(DRY_ENOUGH, voids.highest_humidity(min(hot, GELLED), available))
        value = math.floor(100 * most) / 100  # a hygrometer shows whole per cent
        return Finding(
            "highest-humidity",
            "Humidity for prepreg lying open, at most",
            value,
            "1",
            "p cure · share left by the fibres / (margin · p sat)",
            limit=DRY_ENOUGH,
            judgement="ok" if value >= DRY_ENOUGH else "watch",
        )


class VoidSteps:
    """What is done about damp."""

    stage = "plan"

    @Rule(
        Found(key="highest-humidity", value=MATCH.most),
        Found(key="void-margin", value=MATCH.margin & LT(EASY)),
    )
    @advice(
        id="STEP-515",
        title="Keep plies sealed while the room is damp",
        reason=(
            "The resin is pressed to {margin:percent} of what keeps water in it, in "
            "prepreg that has taken up all the damp of the room; "
            "{void_margin_easy:percent} is asked for. Sealed in its bag prepreg takes up "
            "little."
        ),
        cites=("kardos-1986", "grunenfelder-nutt-2010"),
        limits=("void_margin_easy",),
    )
    def keep_sealed(self, most: float, margin: float) -> Step:
        return Step(
            "lay-up",
            "Hang a hygrometer where the plies lie open. Above {most:percent} dry the "
            "room, or take out one ply at a time, seal the kit again and bag the same "
            "day. Leave nothing under film overnight without vacuum.",
            does=("handles-prepreg",),
            hold_point=HoldPoint(
                "Air dry enough where plies lie open",
                "{most:percent} humidity or less, or each ply open for no more than an "
                "hour",
                "humidity, hours open",
            ),
        )

    @Rule(
        Found(key="void-margin", value=MATCH.margin & LT(LEAST)),
        Shop(humidity=MATCH.humidity),
    )
    @advice(
        id="VOID-030",
        title="Prove that damp leaves no pores",
        reason=(
            "At {humidity:percent} humidity the plies get {margin:percent} of the pressure "
            "that fully damp prepreg needs; below about {void_margin_least:percent} even "
            "prepreg open for a working day has made pores under vacuum alone."
        ),
        cites=("grunenfelder-nutt-2010", "kardos-1986"),
        limits=("void_margin_least",),
    )
    def pores_likely(self, margin: float, humidity: float) -> Condition:
        return Condition(
            "A trial panel of the same prepreg, open in the same air for as long as the "
            "part's plies, is free of pores; or the room is dried.",
            "trial panel cut and polished, looked at through a glass; hygrometer log",
        )
