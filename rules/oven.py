"""The oven: whether it may be used and is big and hot enough, and its cautions."""

from advisor.knowledge.tables import limit
from advisor.measures import STYLES
from advisor.reasoning.conclusions import (
    Caution,
    Condition,
    Doubtful,
    Finding,
    HoldPoint,
    Quantity,
    Refusal,
    Step,
)
from advisor.reasoning.expert import MATCH, NE, NOT, TEST, Rule, W, among
from advisor.reasoning.facts import (
    Activity,
    Bagging,
    Cure,
    Finish,
    Found,
    Oven,
    Part,
    Pattern,
    Release,
    Sealing,
    Shelf,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .shelf import (  # noqa: TID251 (a sibling, not a copy)
    LEAD,
    ROLES,
    needed_c,
    pulled,
)

MAP_MARGIN = limit("oven_margin")


def part_is_larger(
    oven_length: float,
    oven_width: float,
    oven_height: float,
    length: float,
    width: float,
    depth: float,
) -> bool:
    """Return whether the part, turned any way, is larger than the oven."""
    oven, part = (oven_length, oven_width, oven_height), (length, width, depth)
    return any(x > y for x, y in zip(sorted(part), sorted(oven), strict=True))


class PartFit:
    """What stops the job in this oven."""

    stage = "needs"

    @Rule(Oven(kind="kitchen"), Cure(temperature_c=MATCH.cure_c))
    @advice(
        id="OVEN-010",
        title="Never cure in an oven that is used for food",
        reason=(
            "Resin, film and paint give off vapours that stay in an oven and poison food, "
            "now and later."
        ),
        cites=("common-practice", "polymer-fume-fever-entry"),
    )
    def no_kitchen_oven(self, cure_c: float) -> Refusal:
        return Refusal("an oven that is never used for food, built and checked for curing")

    @Rule(
        Oven(limit_c=MATCH.oven_c),
        Cure(temperature_c=MATCH.cure_c),
        TEST(lambda oven_c, cure_c: cure_c > oven_c),
    )
    @advice(
        id="OVEN-020",
        title="Find an oven that reaches the cure",
        reason="The oven goes to {oven_c:temperature}; the cure is {cure_c:temperature}.",
    )
    def oven_too_cold(self, oven_c: float, cure_c: float) -> Refusal:
        return Refusal("an oven that holds {cure_c:temperature}")

    @Rule(
        Oven(
            length_m=MATCH.oven_length, width_m=MATCH.oven_width, height_m=MATCH.oven_height
        ),
        Part(length_m=MATCH.length, width_m=MATCH.width, depth_m=MATCH.depth),
        TEST(part_is_larger),
    )
    @advice(
        id="OVEN-030",
        title="Find an oven the part fits in",
        reason=(
            "The oven is {oven_length:length} by {oven_width:length} by "
            "{oven_height:length} inside; the part alone is {length:length} by "
            "{width:length} by {depth:length}."
        ),
    )
    def part_too_big(
        self,
        oven_length: float,
        oven_width: float,
        oven_height: float,
        length: float,
        width: float,
        depth: float,
    ) -> Refusal:
        return Refusal("a larger oven, or a part in sections")

    @Rule(Cure(pressure="autoclave"), Oven(kind=MATCH.kind & NE("autoclave")))
    @advice(
        id="OVEN-040",
        title="Cure under pressure only in a certified vessel",
        reason=(
            "The cure asks for vessel pressure, and the {kind} oven of the shop is no "
            "pressure vessel."
        ),
        cites=("ca-pressure-orders", "asme-viii-page", "uk-l122-copy"),
    )
    def no_vessel(self, kind: str) -> Refusal:
        return Refusal(
            "a certified autoclave with inspection in date, or a vacuum-only prepreg"
        )


class OvenConditions:
    """What must be in place before heat goes on."""

    stage = "plan"

    @Rule(
        Oven(kind=MATCH.kind, over_temperature_trip=False), Cure(temperature_c=MATCH.cure_c)
    )
    @advice(
        id="OVEN-110",
        title="Fit an independent over-temperature cut-out",
        reason=(
            "The {kind} oven has no cut-out of its own: a stuck contactor then heats bag, "
            "film and resin until they burn."
        ),
        cites=("nfpa-86-inspection", "nfpa-86-notes"),
    )
    def no_trip(self, kind: str, cure_c: float) -> Condition:
        return Condition(
            "The oven has an over-temperature cut-out with its own sensor and contactor, "
            "set below the lowest limit in the load, and it has been tripped on purpose.",
            "date and initials of the test; wiring signed by a licensed electrician",
        )

    @Rule(
        Oven(kind=MATCH.kind),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, short_limit_c=MATCH.body),
        Sealing(id=MATCH.seal_id, limit_baked_c=MATCH.coat),
        Release(name=MATCH.release, limit_c=MATCH.on_it),
        Shelf(roles=MATCH.roles, limits_c=MATCH.limits),
        Finish(after=MATCH.after),
        Cure(class_high_c=MATCH.resin_c),
    )
    @advice(
        id="STEP-048",
        title="Set the over-temperature cut-out for this load",
        reason=(
            "A controller that sticks stops at nothing by itself: of {name}, what seals "
            "it, {release}, the prepreg and all that lies in the bag the least is good to "
            "{value:temperature}, and the tool is cured at {hot:temperature}."
        ),
        cites=("nfpa-86-inspection", "nfpa-86-notes"),
        limits=("air_lead", "shelf_margin"),
    )
    def set_the_trip(
        self,
        kind: str,
        hot: float,
        name: str,
        body: float,
        seal_id: str,
        coat: float,
        release: str,
        on_it: float,
        roles: list[str],
        limits: list[float],
        after: str,
        resin_c: float,
    ) -> list[Finding | Step]:
        """Take a prepreg to stand the air's lead over its own cure, whatever its class."""
        tool = {"tool, for a short time": body, "seal, baked": coat, "release": on_it}
        if seal_id == "none":
            del tool["seal, baked"]
        stands = tool | {
            "prepreg, hottest cure of its class": max(resin_c, needed_c(hot)),
            **{
                ROLES[role][1].lower(): c
                for role, c in pulled(hot, roles, limits, after).items()
            },
        }
        alone, least = min(tool.values()), min(stands.values())
        bare = STYLES["temperature"](body)
        coated = "released" if seal_id == "none" else "sealed"
        first = f" ({bare} before it is {coated})" if body > alone else ""
        unbagged = Finding(
            "trip-alone",
            "Over-temperature cut-out without plies, bag or pattern, set no higher than",
            alone,
            "degC",
            "least limit of tool, seal and release",
        )
        finding = Finding(
            "trip-setting",
            "Over-temperature cut-out, set no higher than",
            least,
            "degC",
            "least limit of tool, seal, release, prepreg and bagging materials",
            limit=hot + LEAD,
            judgement="ok" if hot + LEAD <= least else "watch",
        )
        step = Step(
            "prepare",
            "Write the limits of the prepreg and of all that lies over it off their "
            "sheets: film, tapes, hose, breather, thermocouple wire. Each time the load "
            "changes, set the cut-out no higher than the lowest limit of what is then in "
            "the oven: of the tool by itself, without plies, bag or pattern, dried or "
            f"baked, {STYLES['temperature'](alone)}{first}; as soon as plies or bag are on "
            "it {value:temperature}, the least of the limits below: "
            "planning figures, or what a sheet must show where no class held is high "
            "enough. It is never bypassed; what cannot be held under it is not heated. An "
            "empty oven and a part that stands free get a setting of their own in the same "
            "way.",
            quantities=(
                Quantity("Over-temperature cut-out, at most", least, "degC"),
                *(Quantity(f"Limit of {one}", c, "degC") for one, c in stands.items()),
            ),
            hold_point=HoldPoint(
                "Cut-out set under the lowest limit in the load",
                f"tool alone {STYLES['temperature'](alone)} or less{first}, with plies or "
                "bag {value:temperature} or less, and under every sheet's limit",
                "setting, lowest limit",
            ),
        )
        return [unbagged, finding, step]

    @Rule(
        Found(key="trip-setting", value=MATCH.trip),
        Found(key="trip-alone", value=MATCH.alone),
        Tool(name=MATCH.name),
        TEST(lambda trip, alone: trip < alone),
    )
    @advice(
        id="STEP-602",
        title="Lower the cut-out before plies or bag see any heat",
        reason=(
            "{name} without a bag is good to {alone:temperature}; what now lies on it is "
            "good to {trip:temperature}, and a cut-out left where it was does not know."
        ),
        cites=("nfpa-86-inspection", "nfpa-86-notes"),
    )
    def lower_the_trip(self, trip: float, alone: float, name: str) -> Step:
        return Step(
            "bag",
            "Set the cut-out to {trip:temperature} or less, under the lowest limit on the "
            "sheets of what is in the bag, before the oven is switched on for this load; "
            "do so again for every part, whatever was baked in between.",
            quantities=(Quantity("Over-temperature cut-out, at most", trip, "degC"),),
            hold_point=HoldPoint(
                "Cut-out lowered for the bagged load",
                "{trip:temperature} or less, read off its dial by a second person",
                "setting",
                signers=2,
            ),
        )

    @Rule(
        Tool(owned=False, form="laminate", needs_pattern=True, name=MATCH.name),
        Pattern(name=MATCH.pattern, limit_c=MATCH.stands, heat_c=MATCH.heat),
        Found(key="trip-setting", value=MATCH.trip),
        Oven(kind=MATCH.kind),
    )
    @advice(
        id="STEP-159",
        title="Set the cut-out for what the pattern stands",
        reason=(
            "{name} gets its first cure, about {heat:temperature}, on {pattern}, which is "
            "planned to {stands:temperature}: a cut-out set for the tool alone does not "
            "know that the pattern is in the oven."
        ),
        cites=("nfpa-86-inspection", "nfpa-86-notes"),
        limits=("air_lead",),
    )
    def trip_for_the_pattern(
        self,
        name: str,
        pattern: str,
        stands: float,
        heat: float,
        trip: float,
        kind: str,
    ) -> list[Finding | Step]:
        least = min(stands, trip)
        finding = Finding(
            "trip-pattern",
            "Over-temperature cut-out with the pattern in the oven, set no higher than",
            least,
            "degC",
            "limit of the pattern, or of the bagged load where that is lower",
            limit=heat + LEAD,
            judgement="ok" if heat + LEAD <= least else "watch",
        )
        step = Step(
            "make-tool",
            "Before the pattern goes into the oven, with the tool or for a coupon, set the "
            "cut-out to {value:temperature} or less, and under the lowest limit on the "
            "sheets of pattern, seal, release, tooling prepreg and bag. It stays there "
            "until the pattern is out; then it is set again for the tool.",
            quantities=(Quantity("Over-temperature cut-out, at most", least, "degC"),),
            hold_point=HoldPoint(
                "Cut-out set for the pattern",
                "{value:temperature} or less, read off its dial by a second person",
                "setting",
                signers=2,
            ),
        )
        return [finding, step]

    @Rule(
        Found(key="trip-setting", value=MATCH.trip),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
        TEST(lambda trip, hot: trip < hot + LEAD),
    )
    @advice(
        id="OVEN-112",
        title="Make room between the cure and the cut-out",
        reason=(
            "The air may lead by {air_lead:difference} while the load heats, and the "
            "cut-out at {trip:temperature} leaves less above the {hot:temperature} of the "
            "cure: it trips in the heat-up, or somebody sets it above what stands least."
        ),
        cites=("helicopter-repair-manual", "nfpa-86-inspection"),
        limits=("air_lead",),
    )
    def no_room_over_the_cure(self, trip: float, hot: float, name: str) -> Condition:
        return Condition(
            "What stands least in the load is changed for a higher class, or its maker "
            "gives a higher limit in writing; else the cure is agreed cooler, or the air "
            "is held so near to the laminate that the cut-out at {trip:temperature} is "
            "never reached.",
            "the sheet with the higher limit; or the chart of an empty heat-up with the "
            "tool in, cut-out armed, not tripped",
        )

    @Rule(Oven(kind="home-built"), Cure(temperature_c=MATCH.cure_c))
    @advice(
        id="OVEN-120",
        title="Have a home-built oven looked at",
        reason=(
            "No listed oven: wiring, lining, exhaust and place are for licensed and local "
            "people to judge."
        ),
        cites=("fire-code-ovens", "fire-code-oven-classes"),
    )
    def home_built(self, cure_c: float) -> Condition:
        return Condition(
            "Local fire authority or insurer has been asked, wiring signed, lining and "
            "clearance non-combustible, exhaust led outdoors, heat off if the fan stops.",
            "signed check list, kept with the job",
        )

    @Rule(Oven(fuel_fired=True, kind=MATCH.kind))
    @advice(
        id="OVEN-130",
        title="Keep the flame out of the heated space",
        reason=(
            "The oven burns fuel: vapour from the load meets the flame, and carbon "
            "monoxide the people."
        ),
        cites=("fire-code-oven-classes",),
    )
    def burner_outside(self, kind: str) -> Condition:
        return Condition(
            "The burner stands outside the heated and occupied space with its own flue, "
            "and a carbon monoxide alarm is fitted.",
            "check by a licensed fitter",
        )


class WeakDoubt:
    """An oven nobody has mapped."""

    stage = "bagging"

    @Rule(
        Oven(kind="home-built", limit_c=MATCH.oven_c),
        Found(key="tool-temperature", value=MATCH.hot),
        Bagging(name=MATCH.bag),
        TEST(lambda oven_c, hot: hot > oven_c - MAP_MARGIN),
    )
    @advice(
        id="OVEN-150",
        title="Map an oven that works at its limit",
        reason=(
            "The oven goes to {oven_c:temperature} and must hold {hot:temperature}: "
            "corners may never get there."
        ),
        limits=("oven_margin",),
    )
    def at_its_limit(self, oven_c: float, hot: float, bag: str) -> Doubtful:
        return Doubtful(
            "Every corner of the oven reaches the cure with the tool inside.",
            "oven map with at least five thermocouples, empty and loaded",
        )


class OvenCautions:
    """What heat can do."""

    stage = "people"

    @Rule(Activity(name="heats"), Oven(kind=MATCH.kind))
    @advice(
        id="CAUT-410",
        title="Guard the oven",
        reason="Heated resin, wood and film give off vapour, and controllers stick.",
        cites=("fire-code-oven-classes", "nfpa-86-notes", "nfpa-86-inspection"),
    )
    def oven_caution(self, kind: str) -> Caution:
        return Caution("oven", "heats")

    @Rule(
        Activity(name=MATCH.activity & among("heats", "demoulds")),
        Cure(temperature_c=MATCH.cure_c),
    )
    @advice(
        id="CAUT-420",
        title="Guard against burns",
        reason=(
            "At {cure_c:temperature} metal burns at a touch and a block stays hot inside "
            "for hours."
        ),
        cites=("memory-burn-thresholds", "common-practice"),
    )
    def burn_caution(self, activity: str, cure_c: float) -> Caution:
        return Caution("hot-surface", activity)

    @Rule(
        Activity(
            name=MATCH.activity
            & among("heats", "mixes-resin", "uses-solvent", "uses-styrene")
        ),
        Oven(kind=MATCH.kind),
    )
    @advice(
        id="CAUT-430",
        title="Guard against fire",
        reason=(
            "Heat, resin, peroxide and solvent all start fires, and nobody sees one in a "
            "locked shop."
        ),
        cites=("fire-code-ovens", "uncontrolled-cure-page"),
    )
    def fire_caution(self, activity: str, kind: str) -> Caution:
        return Caution("fire", activity)

    @Rule(Activity(name="heats"), Oven(fuel_fired=True))
    @advice(
        id="CAUT-440",
        title="Guard against carbon monoxide",
        reason="A fuel burner in or near the oven gives off carbon monoxide.",
    )
    def carbon_monoxide_caution(self) -> Caution:
        return Caution("carbon-monoxide", "heats", agent="carbon-monoxide")

    @Rule(Activity(name="heats"), Oven(kind=MATCH.kind), NOT(Oven(fuel_fired=W())))
    @advice(
        id="CAUT-448",
        title="Guard against carbon monoxide unless nothing burns",
        reason=(
            "Nothing is said of a burner: if the {kind} oven or a heater near it burns "
            "fuel, it gives off carbon monoxide."
        ),
    )
    def unknown_burner_caution(self, kind: str) -> Caution:
        return Caution("carbon-monoxide", "heats", agent="carbon-monoxide")

    @Rule(Activity(name="heats"), Oven(kind="home-built"))
    @advice(
        id="CAUT-450",
        title="Guard against shock",
        reason=(
            "Home-built heaters and their wiring are a shock and fire risk until a "
            "licensed electrician has signed them."
        ),
    )
    def electric_heat_caution(self) -> Caution:
        return Caution("electrical", "heats")
