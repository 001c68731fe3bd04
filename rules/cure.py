"""The cure: thermocouples, ramp, dwell, cooling; and steam in a damp block."""

from dataclasses import replace

from advisor.knowledge.tables import limit
from advisor.measures import phrase
from advisor.reasoning.conclusions import (
    Caution,
    HoldPoint,
    Place,
    Quantity,
    Step,
    Thermocouples,
)
from advisor.reasoning.expert import LE, MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Activity, Bagging, Cure, Found, Oven, Part, Tool
from advisor.reasoning.rulebook import advice

from .heat import above_service  # noqa: TID251 (a sibling, not a copy)

LATE = limit("dwell_delay_watched")
LEAD = limit("air_lead")
LONGEST = limit("heat_up_longest")
AT_LAMINATE = limit("thermocouples_least")
EACH = limit("thermocouple_area")
ROOM = limit("room_temperature")
CARRIED = "Bring the bagged tool in level, hose on, by the means that its weight asks for. "
HUNG = "Hang the taped mandrel by its bare ends, clear of everything. "
STAYS = (
    "A named person stays, another within call. If vacuum falls before the resin has "
    "gelled, hold the temperature and mend the leak."
)


LED_OUT = {
    "tape": "lead it out along the bare end of the mandrel",
    "bladder": "lead it out at an end of the mould, never through its joint",
}
SHUT = "The shut mould stands in the oven, the bladder blown up by its own step. "
GUARDED = (
    "A named person stays, behind the screen. If the pressure falls before the resin has "
    "gelled, heat off, vent to nothing, and look for the leak only then. "
)


# Where thermocouples stand and why; the last place, under the tool, hangs on its shape.
PLACES = {
    "thickest": "Laminate, where it is thickest and deepest in the tool: it lags, and the "
    "coldest starts the dwell.",
    "edge": "Laminate, where it is thinnest, out by an edge: it leads, and the hottest "
    "must not pass any limit.",
    "farthest": "Laminate, farthest from the moving air: a dead corner of the oven shows "
    "here.",
    "spread": "Laminate, spread over the face: no cold spot between is missed.",
    "air": "Air, beside the hottest part of the load, near where the oven blows in: film "
    "and tape see it first, and the cut-out is judged by it.",
    "core": "Tool, in the core's hole, drilled before: a block cracks when core and face "
    "differ too much.",
}


def places_on(area: float, brittle: bool) -> list[int]:
    """Return how many thermocouples stand at each place, the last under the tool."""
    farthest = int(AT_LAMINATE) - 2
    return [1, 1, farthest, int(area // EACH), 1, int(brittle), int(brittle)]


def numbered(counts: list[int], places: dict[str, str]) -> list[Place]:
    """Return each kind of place that has any, with the numbers of what stands there."""
    found, last = [], 0
    for count, (kind, words) in zip(counts, places.items(), strict=True):
        if count > 0:
            first, last = last + 1, last + count
            found.append(Place(kind, first, last, words))
    return found


class CureSteps:
    """Heat, on the bench's own instruments."""

    stage = "plan"

    @Rule(
        Found(key="face-lag", value=MATCH.lag),
        Found(key="face-area", value=MATCH.area),
        Tool(name=MATCH.name, brittle=MATCH.brittle),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
        Cure(pressure=MATCH.mode),
        Bagging(both_faces=MATCH.halves),
    )
    @advice(
        id="STEP-525",
        title="Place the thermocouples",
        reason=(
            "Air says nothing of the laminate: on {name} it leads by about "
            "{lag:difference} at the end of the ramp, by calculation. At least "
            "{thermocouples_least:number} stand at the laminate, and over {area:area} of "
            "face one more for each {thermocouple_area:area}."
        ),
        cites=("army-composites-manual", "helicopter-repair-manual"),
        limits=("thermocouples_least", "thermocouple_area"),
    )
    def thermocouples(
        self,
        lag: float,
        area: float,
        name: str,
        brittle: bool,
        shape: str,
        side: str,
        mode: str,
        halves: bool,
    ) -> list[Step | Thermocouples]:
        inside = (
            "; where the place is inside the net line, on the last ply, under the release "
            "film"
            if mode in ("vacuum", "autoclave") and not halves
            else ""
        )
        led_out = LED_OUT.get(mode, "bare it where it crosses the sealant tape")
        below = (
            "Tool, on its underside, at the laminate: it warms last of all."
            if shape == "closed" and side == "male"
            else "Tool, on the underside: it shows how far the block lags its own face."
        )
        counts = places_on(area, brittle)
        places = numbered(counts, PLACES | {"underside": below})
        step = Step(
            "lay-up",
            "At the laminate they go under the first ply in waste or just outside the edge"
            f"{inside}: close to the plies and never in the part. Hold each wire down with "
            f"flash tape, number it at both ends, and {led_out}. In this order, number, "
            "place and why:",
            listed=[
                f"{one.first}. {one.words}"
                if one.first == one.last
                else f"{one.first} to {one.last}. {one.words}"
                for one in places
            ],
            does=("handles-prepreg",),
            quantities=[
                Quantity("At the laminate, at least", float(sum(counts[:4])), "count"),
                Quantity("In the air of the oven", 1.0, "count"),
                *(
                    [
                        Quantity("In the core of the block", 1.0, "count"),
                        Quantity("On the underside of the tool", 1.0, "count"),
                    ]
                    if brittle
                    else []
                ),
            ],
            hold_point=HoldPoint(
                "All read room temperature",
                "within 2 °C (4 °F) of each other",
                "numbers and places",
            ),
        )
        return [step, Thermocouples(tuple(places))]

    @Rule(
        Cure(
            ramp=MATCH.ramp,
            first_cure_c=MATCH.first,
            hold_h=MATCH.hold,
            pressure=MATCH.mode,
        ),
        Found(key="dwell-delay", value=MATCH.delay),
        Found(key="dwell-start", value=MATCH.start, low=MATCH.soonest, high=MATCH.latest),
        Found(key="face-lag", value=MATCH.lag),
        Tool(
            brittle=False,
            name=MATCH.name,
            service_limit_c=MATCH.service,
            short_limit_c=MATCH.stop,
        ),
    )
    @advice(
        id="STEP-720",
        title="Heat to the first cure",
        reason="The coldest thermocouple decides when the resin has had its time.",
        cites=("army-composites-manual",),
        limits=("dwell_delay_watched", "heat_up_longest", "air_lead"),
    )
    def heat_first_cure(
        self,
        ramp: float,
        first: float,
        hold: float,
        delay: float,
        soonest: float,
        latest: float,
        start: float,
        lag: float,
        name: str,
        mode: str,
        service: float,
        stop: float,
    ) -> Step:
        heating = _heating(ramp, first, hold, start, delay, lag, (service, stop))
        return _pressed(heating, mode)

    @Rule(
        Cure(
            ramp=MATCH.ramp,
            temperature_c=MATCH.cure_c,
            hold_h=MATCH.hold,
            pressure=MATCH.mode,
            free_standing_post_cure=False,
        ),
        Found(key="dwell-delay", value=MATCH.delay),
        Found(key="dwell-start", value=MATCH.start, low=MATCH.soonest, high=MATCH.latest),
        Found(key="face-lag", value=MATCH.lag),
        Tool(
            brittle=False,
            name=MATCH.name,
            service_limit_c=MATCH.service,
            short_limit_c=MATCH.stop,
        ),
    )
    @advice(
        id="STEP-730",
        title="Heat to the cure",
        reason="The coldest thermocouple decides when the resin has had its time.",
        cites=("army-composites-manual",),
        limits=("dwell_delay_watched", "heat_up_longest", "air_lead"),
    )
    def heat_cure(
        self,
        ramp: float,
        cure_c: float,
        hold: float,
        delay: float,
        soonest: float,
        latest: float,
        start: float,
        lag: float,
        name: str,
        mode: str,
        service: float,
        stop: float,
    ) -> Step:
        heating = _heating(ramp, cure_c, hold, start, delay, lag, (service, stop))
        return _pressed(heating, mode)

    @Rule(
        Cure(ramp=MATCH.ramp, hold_h=MATCH.hold),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="heating-ramp", value=MATCH.fastest, low=MATCH.weakest),
        Found(key="dwell-delay", value=MATCH.delay),
        Found(key="dwell-start", value=MATCH.start, low=MATCH.soonest, high=MATCH.latest),
        Found(key="face-lag", value=MATCH.lag),
        Tool(
            brittle=True,
            name=MATCH.name,
            service_limit_c=MATCH.service,
            short_limit_c=MATCH.stop,
        ),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
    )
    @advice(
        id="STEP-740",
        title="Heat a brittle block slowly",
        reason=(
            "{name} cracks when face and core differ too much, and heats its laminate "
            "mostly through the bag: by its usual figures this body stands {fastest:ramp} "
            "of the oven air, a weak lot only {weakest:ramp}; start the dwell by the "
            "laminate, about {start:about_hours} after heat-on."
        ),
        cites=("army-composites-manual", "common-practice"),
        limits=("dwell_delay_watched", "heat_up_longest", "air_lead"),
    )
    def heat_block(
        self,
        ramp: float,
        hold: float,
        hot: float,
        fastest: float,
        weakest: float,
        delay: float,
        soonest: float,
        latest: float,
        start: float,
        lag: float,
        name: str,
        service: float,
        stop: float,
        shape: str,
        side: str,
    ) -> Step:
        slow = _heating(min(ramp, fastest), hot, hold, start, delay, lag, (service, stop))
        stands = (
            "The core goes in hanging by its ends, with air all round it. "
            if shape == "closed" and side == "male"
            else "Stand the tool, or the plate under it, on bars, so that air reaches the "
            "underside; where a stiff plate has to spread the weight over the shelf, the "
            "bars stand on that plate. "
        )
        return replace(slow, text=stands + slow.text)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(brittle=False, name=MATCH.name),
        Cure(pressure=among("vacuum", "autoclave")),
    )
    @advice(
        id="STEP-750",
        title="Cool with the pump on",
        reason="A hot part warps when it is let go, and its bond line opens.",
        cites=("prepreg-makers-guide",),
        limits=("demould_temperature", "cooling_usual"),
    )
    def cool(self, hot: float, name: str) -> Step:
        return Step(
            "cure",
            "Heat off, door shut, fan on, {cooling_usual:ramp} or slower; pump on until "
            "the part is below {demould_temperature:temperature}, then let the vacuum off.",
            does=("heats", "heats-tool", "heats-porous", "heats-bag"),
            hold_point=HoldPoint(
                "Cool before vacuum is let off",
                "hottest laminate thermocouple below {demould_temperature:temperature}",
                "time, temperature",
            ),
        )

    @Rule(
        Found(key="cooling-ramp", value=MATCH.fastest, low=MATCH.weakest),
        Found(key="cooling-time", value=MATCH.hours),
        Found(key="core-warmer", value=MATCH.difference),
        Found(key="opens-at", value=MATCH.opens),
        Tool(brittle=True, name=MATCH.name),
    )
    @advice(
        id="STEP-760",
        title="Cool a brittle block by its core",
        reason=(
            "On cooling the faces of {name} are in tension, where it is weakest: by its "
            "usual figures this body stands {fastest:ramp}, a weak lot only "
            "{weakest:ramp}, and the open door not before its core is near the room."
        ),
        cites=("prepreg-makers-guide", "common-practice"),
        limits=("demould_temperature",),
    )
    def cool_block(
        self,
        fastest: float,
        weakest: float,
        hours: float,
        difference: float,
        opens: float,
        name: str,
    ) -> Step:
        return Step(
            "cure",
            "Keep the heat and the fan on, door shut, and lower the set point no faster "
            "than {fastest:ramp}; switch off only when the oven falls more slowly by "
            "itself. Pump on until the part is below {demould_temperature:temperature}. "
            "Hold the set point when the thermocouple in the core reads more than "
            "{difference:difference} above the one on the underside. Keep the door shut "
            "until the core is below {opens:temperature}.",
            does=("heats", "heats-tool", "heats-porous", "heats-bag"),
            quantities=(
                Quantity("Cooling, at most", fastest, "delta_degC/min"),
                *([Quantity("Time to cool, at least", hours, "h")] if hours else []),
                Quantity("Core above underside, at most", difference, "K"),
                Quantity("Core when the door is opened, at most", opens, "degC"),
            ),
            hold_point=HoldPoint(
                "Cool before vacuum is let off and the door is opened",
                "hottest laminate thermocouple below {demould_temperature:temperature}; "
                "core below {opens:temperature}",
                "times, temperatures",
            ),
        )

    @Rule(
        Cure(
            free_standing_post_cure=True,
            temperature_c=MATCH.cure_c,
            first_cure_c=MATCH.first,
        ),
        TEST(lambda cure_c, first: cure_c > first),
    )
    @advice(
        id="STEP-855",
        title="Post-cure the part standing free",
        reason=(
            "After {first:temperature} the part is soft above about that temperature; "
            "heated slower than its glass transition rises it keeps its shape up to "
            "{cure_c:temperature}."
        ),
        cites=("tooling-laminate-article", "tg-after-cold-cure-thread"),
    )
    def post_cure(self, cure_c: float, first: float) -> Step:
        return Step(
            "demould",
            "Support the part all over on a frame. From the first cure temperature at 0.3 "
            "K/min (0.5 °F/min) or slower, in steps of 20 °C (36 °F) with one hour at "
            "each, to {cure_c:temperature}; hold as the resin's sheet says; cool slowly.",
            does=("heats", "lifts"),
            hold_point=HoldPoint("Post-cured", "chart shows the last step", "chart number"),
        )


def _heating(
    ramp: float,
    target_c: float,
    hold_h: float,
    start_h: float,
    delay_h: float,
    lag_k: float,
    tool_limits_c: tuple[float, float],
) -> Step:
    """Return the heating step; ramp in K/min; times of the dwell by calculation.

    The limits of the tool are what it serves at and what it stands for a short time.
    """
    return Step(
        "cure",
        f"{CARRIED}Heat at {phrase('{ramp:ramp}', ramp=ramp)} or slower by the lagging "
        f"laminate thermocouple to {target_c:.0f} °C ({target_c * 1.8 + 32:.0f} °F); air "
        "no more than {air_lead:difference} above. "
        + above_service(target_c, *tool_limits_c, "it bears a few parts, watched, no run")
        + _waiting(hold_h, delay_h, lag_k)
        + STAYS,
        does=(
            "lifts",
            "heats",
            "heats-tool",
            "heats-porous",
            "heats-bag",
            "pulls-vacuum",
        ),
        quantities=(
            Quantity("Ramp, at most", ramp, "delta_degC/min"),
            Quantity("Dwell by the coldest laminate thermocouple", hold_h, "h"),
            Quantity("Dwell temperature", target_c, "degC"),
            Quantity("Heat-on to start of the dwell, by calculation", start_h, "h"),
            Quantity("Heat-on to end of the dwell, by calculation", start_h + hold_h, "h"),
        ),
        hold_point=HoldPoint(
            "Start and end of dwell",
            "coldest laminate thermocouple within 5 °C (9 °F) of the dwell for its whole "
            "time; hottest under every limit in the bag",
            "time in, time out, coldest, hottest, vacuum",
        ),
    )


def _pressed(step: Step, mode: str) -> Step:
    """Return the heating step as it stands, or in the words of a tape or a bladder."""
    if mode == "bladder":
        return _blown(step)
    if mode != "tape":
        return step
    text = step.text.replace(CARRIED, HUNG).replace(
        STAYS, "A named person stays, another within call."
    )
    does = tuple(one for one in step.does if one != "pulls-vacuum")
    hold_point = HoldPoint(
        "Start and end of dwell",
        "coldest laminate thermocouple within 5 °C (9 °F) of the dwell for its whole "
        "time; hottest under the limit of tape and mandrel",
        "time in, time out, coldest, hottest",
    )
    return replace(step, text=text, does=does, hold_point=hold_point)


def _blown(step: Step) -> Step:
    """Return the heating step in the words of a mould with a bladder under pressure."""
    text = step.text.replace(CARRIED, SHUT).replace(STAYS, GUARDED.strip())
    hold_point = HoldPoint(
        "Start and end of dwell",
        "coldest laminate thermocouple within 5 °C (9 °F) of the dwell for its whole "
        "time; hottest under the limit of rubber and mould; pressure steady",
        "time in, time out, coldest, hottest, pressure",
    )
    does = [one for one in step.does if one != "pulls-vacuum"]
    return replace(step, text=text, does=(*does, "pressurises"), hold_point=hold_point)


def _waiting(hold_h: float, delay_h: float, lag_k: float) -> str:
    """Say when the dwell may start, and whether the air must wait for the laminate."""
    text = (
        f"The dwell of {hold_h:g} h starts when the coldest laminate thermocouple is in "
        "band"
    )
    if delay_h < LATE:
        text += ", by calculation soon after the air is at temperature. "
    elif delay_h >= LONGEST:
        text += (
            ", by calculation more than {delay:about_hours} after the air: too long to "
            "plan with, so prove the heat-up first. "
        )
    else:
        text += (
            ", by calculation about {start:about_hours} after heat-on "
            "({soonest:about_hours} with brisk air, {latest:about_hours} with sluggish "
            "air): start the clock by the thermocouple, never by the air. "
        )
    if lag_k > LEAD:
        return text + (
            "At this ramp the air would run about {lag:difference} ahead: hold it at "
            "{air_lead:difference} until the laminate follows; the times here allow for "
            "that. "
        )
    return text + (
        "Expect the air to lead by about {lag:difference} at the end of the ramp; much "
        "more means a thermocouple out of place or poor air. "
    )


class VesselSteps:
    """Pressure in a certified vessel, by its own rules."""

    stage = "plan"

    @Rule(
        Cure(pressure="autoclave", autoclave_pressure_pa=MATCH.gauge), Tool(name=MATCH.name)
    )
    @advice(
        id="STEP-715",
        title="Close the vessel and bring pressure on as the sheet says",
        reason=(
            "At {gauge:pressure} every leak is driven into the laminate; when to vent the "
            "bag is a point of the prepreg's sheet, not of this plan."
        ),
        cites=("ca-pressure-orders", "common-practice"),
    )
    def pressurise(self, gauge: float, name: str) -> Step:
        return Step(
            "cure",
            "Only trained people, inside the vessel's certificate. Check inspection date, "
            "door interlock and relief valve; close; leak test the bag once more in the "
            "closed vessel; raise pressure to {gauge:pressure} and vent the bag to air "
            "when the prepreg's sheet says, not before.",
            does=("pressurises", "pulls-vacuum"),
            hold_point=HoldPoint(
                "Pressure on, bag still tight",
                "bag pressure does not follow the vessel's pressure",
                "vessel pressure, bag pressure, time of venting",
            ),
        )

    @Rule(
        Cure(pressure="autoclave", autoclave_pressure_pa=MATCH.gauge), Tool(name=MATCH.name)
    )
    @advice(
        id="STEP-770",
        title="Hold pressure while it cools, bleed to nothing before the door is touched",
        reason=(
            "Let off hot, pressure lets the laminate spring; a door opened under pressure "
            "kills."
        ),
        cites=("ca-pressure-orders", "asme-viii-page"),
    )
    def bleed_down(self, gauge: float, name: str) -> Step:
        return Step(
            "cure",
            "Keep the pressure on until the part has cooled as its sheet says, then bleed "
            "slowly to zero. If the vessel was filled with nitrogen, nobody enters until "
            "the air has been shown to be breathable.",
            does=("pressurises",),
            hold_point=HoldPoint(
                "Vessel at zero on its own gauge before the door is touched",
                "zero on two gauges; interlock free",
                "time",
            ),
        )


class CureConditions:
    """What must be known of this cure."""

    stage = "plan"

    @Rule(Cure(resin=MATCH.resin, temperature_c=MATCH.cure_c, hold_h=MATCH.hold))
    @advice(
        id="STEP-020",
        title="Hold cure and pressure against the resin maker's sheet",
        reason=(
            "A dwell of {hold:hours} at {cure_c:temperature} is taken from the job; "
            "between the points a maker lists, times do not follow one simple rule."
        ),
        cites=("memory-prepreg-sheets", "prepreg-makers-guide"),
    )
    def maker_decides(self, resin: str, cure_c: float, hold: float) -> Step:
        return Step(
            "prepare",
            "Lay the prepreg's data sheet and the safety data sheets of everything used "
            "beside this plan; where a sheet is stricter, the sheet decides. Write its "
            "cure, ramp, vacuum and out-time on the traveller.",
            does=(),
            hold_point=HoldPoint(
                "Sheets at hand and read",
                "cure and hold agree with the job: the sheet lists {hold:hours} or less at "
                "{cure_c:temperature}",
                "sheet numbers",
            ),
        )

    @Rule(
        Oven(kind=among("home-built", "industrial")),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-040",
        title="Map the oven before the first cure",
        reason=(
            "Corners lag and leading spots overheat; one sensor in the return air sees "
            "neither."
        ),
        cites=("army-composites-manual",),
    )
    def map_oven(self, hot: float) -> Step:
        return Step(
            "prepare",
            "With no part in it run the oven to {hot:temperature} and read at least five "
            "places; mend the worst, mark the coldest and the hottest. Trip the "
            "over-temperature cut-out once on purpose.",
            does=("heats",),
            hold_point=HoldPoint(
                "Oven even and cut-out proved",
                "within 5 °C (9 °F) at dwell; cut-out tripped",
                "map, date",
            ),
        )


class SteamCautions:
    """Water in a block."""

    stage = "people"

    @Rule(
        Activity(name="heats-porous"),
        Found(key="steam-pressure", value=MATCH.pressure),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(porous=True, drying="bake-dry", name=MATCH.name),
    )
    @advice(
        id="CAUT-810",
        title="Guard against steam",
        reason=(
            "Water left in {name} turns to steam; sealed in, air and steam reach "
            "{pressure:pressure} absolute by {hot:temperature}."
        ),
        cites=("pore-steam-paper", "iapws-r7-97"),
    )
    def steam_caution(self, pressure: float, hot: float, name: str) -> Caution:
        return Caution("steam", "heats-porous")

    @Rule(
        Activity(name="heats-porous"),
        Found(key="tool-temperature", value=MATCH.hot & LE(ROOM)),
        Tool(porous=True, drying="bake-dry", dust=NE("wood"), name=MATCH.name),
    )
    @advice(
        id="CAUT-815",
        title="Guard against steam though the cure is cold",
        reason=(
            "Cured at {hot:temperature} water left in {name} makes no steam; in an oven "
            "that dries it and runs away it does."
        ),
        cites=("pore-steam-paper",),
        limits=("room_temperature",),
    )
    def steam_caution_when_cold(self, hot: float, name: str) -> Caution:
        return Caution("steam", "heats-porous")
