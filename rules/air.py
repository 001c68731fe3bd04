"""Air: what dust and solvent would take to thin, and how long to wait.

Screening estimates, never proof: none of them says that work may be done.
"""

from advisor.calculations import dust_exposure, ventilation
from advisor.knowledge.tables import limit, limit_span, load_knowledge
from advisor.measures import worked
from advisor.reasoning.conclusions import (
    Condition,
    Finding,
    HoldPoint,
    Quantity,
    Step,
)
from advisor.reasoning.expert import MATCH, NE, NOT, Rule, among
from advisor.reasoning.facts import Found, Oven, Release, Sealing, Shop, Tool
from advisor.reasoning.rulebook import advice

AIRBORNE_LOW, AIRBORNE, AIRBORNE_HIGH = limit_span("airborne_share")
SILICA = limit("silica_share_block")
LEFT_LOW, LEFT, _ = limit_span("purge_left")
MIXING_LOW, MIXING, _ = limit_span("air_mixing")
USE_LOW, USE, USE_HIGH = limit_span("solvent_use")
FLASH_OFF = limit("flash_off")
MOLAR_MASS = limit("solvent_molar_mass")
LOWER_LIMIT = limit("solvent_lower_limit")
HOUR_S = 3600.0
DAY_S = HOUR_S * limit("working_day")
PPM = 1e-6
PURGE = (
    "Stop the cutter and leave the extraction and the room's air running, doors to other "
    "rooms shut, for the time below before others come in; whoever cleans keeps to the "
    "controls of the cut. Then vacuum or wet wipe, never sweep."
)
FLASH = (
    "Lay out only what is used. Draw air off low down over the wet face and lead it "
    "outdoors, with no spark, flame or heater in the room, and wait until the sheet's time "
    "has passed and the face is dry and odour-free before anything is bagged or heated."
)


def vapour_air(area: float, jurisdiction: str, use: float) -> ventilation.DilutionAir:
    """Return the air to thin the solvent of one application, acetone standing in."""
    row = load_knowledge().exposure_limit("acetone", jurisdiction)
    return ventilation.dilution_air_m3(
        area * use, MOLAR_MASS, LOWER_LIMIT, row.limit.si * PPM
    )


def flash_off(phase: str, area: float, jurisdiction: str) -> list[Finding | Step]:
    """Return the finding on air and the step of waiting, for a seal or a release."""
    air = vapour_air(area, jurisdiction, USE)
    flow = air.needed / (FLASH_OFF * MIXING)
    finding = Finding(
        f"vapour-air-{phase}",
        f"Air for the solvent of one application, {phase} (estimate)",
        air.needed,
        "m**3",
        "v / limit, and v / (0.25 LEL); the larger",
        low=vapour_air(area, jurisdiction, USE_LOW).needed,
        high=vapour_air(area, jurisdiction, USE_HIGH).needed,
        judgement="watch",
    )
    step = Step(
        phase,
        FLASH,
        does=("uses-solvent",),
        quantities=(
            Quantity("Air through the work place, at least", flow, "m**3/h"),
            Quantity("Of it for fire alone", air.fire / (FLASH_OFF * MIXING), "m**3/h"),
            Quantity("Flash-off, or as the sheet says if longer", FLASH_OFF, "min"),
        ),
        hold_point=HoldPoint(
            "Dry and odour-free before bag or oven",
            "sheet's flash-off passed; nothing tacky",
            "times",
        ),
    )
    return [finding, step]


NO_SOLVENT = Condition(
    "Nothing that is wet or smells of solvent goes into this oven; its exhaust leads "
    "outdoors and runs from before the load goes in.",
    "exhaust shown with smoke; local fire authority or insurer asked",
)


def nothing_wet(
    phase: str, oven_m3: float, load_m3: float, hot: float
) -> list[Finding | Step]:
    """Return the solvent that endangers the oven, and the check before it is loaded."""
    most = ventilation.largest_liquid_in_closed_oven_kg(
        max(oven_m3 - load_m3, 0.1 * oven_m3), MOLAR_MASS, LOWER_LIMIT, hot
    )
    finding = Finding(
        f"oven-solvent-{phase}",
        f"Solvent of the {phase} that fills the closed oven to a quarter of the fire limit "
        "(estimate)",
        most,
        "g",
        "0.25 LEL · (V − load) · p · M / (R T), over 1.4 from 120 °C",
        judgement="watch",
    )
    step = Step(
        phase,
        "Check that release, cleaner, cloths and coat are dry before the oven is loaded, "
        "and that the load is within the solvent rating of the oven's plate; an oven "
        "without one takes no solvent at all.",
        does=("uses-solvent",),
        quantities=(
            Quantity("Enough for a quarter of the fire limit, no allowance", most, "g"),
        ),
        hold_point=HoldPoint(
            "Nothing wet in the load", "dry, odour-free, no cloth left in", "plate read"
        ),
    )
    return [finding, step]


class DustAir:
    """Dust in the room: why room air is no control, and how long it hangs."""

    stage = "plan"

    @Rule(
        Tool(family="aerated-concrete", dust="silica", owned=False, name=MATCH.name),
        Found(key="dust-mass", value=MATCH.mass),
        Shop(
            jurisdiction=MATCH.jurisdiction,
            air_changes=MATCH.changes,
            room_volume=MATCH.room,
        ),
    )
    @advice(
        id="DUST-130",
        title="Catch silica at the cut: room air does not thin it",
        reason=(
            "If {airborne_share:percent} of the {mass:mass} cut from {name} in one working "
            "day hung in a room of {room:air} with {changes:changes} of air an hour, badly "
            "mixed, its silica would come to {value:per_air}, {low:per_air} to "
            "{high:per_air} over the whole guess, away from the cut; whoever cuts breathes "
            "more. This is a screening estimate: measure, do not rely on this."
        ),
        cites=(
            "lightweight-blocks-sheet",
            "silica-exposure-law",
            "room-model-package",
            "common-practice",
        ),
        limits=("airborne_share", "silica_share_block", "air_mixing", "working_day"),
    )
    def silica_in_the_room(
        self, name: str, mass: float, jurisdiction: str, changes: float, room: float
    ) -> list[Finding | Condition]:
        row = load_knowledge().exposure_limit("respirable-crystalline-silica", jurisdiction)

        def silica(share: float) -> float:
            set_free = dust_exposure.silica_generation_kg_s(mass, DAY_S, share, SILICA)
            air = changes * room / HOUR_S
            return dust_exposure.room_concentration_kg_m3(
                set_free, air, room, DAY_S, mixing=MIXING
            )

        thinned = (MIXING, (changes * room / HOUR_S, "m**3/h"))
        finding = Finding(
            "silica-in-room",
            "Silica in the room's air (estimate: measure, do not rely on it)",
            silica(AIRBORNE),
            "mg/m**3",
            "G / (m Q) · (1 − exp(−m Q t / V)), G = mass · airborne · silica / day",
            low=silica(AIRBORNE_LOW),
            high=silica(AIRBORNE_HIGH),
            limit=row.limit.si,
            judgement="fail" if silica(AIRBORNE) > row.limit.si else "watch",
            worked=worked(
                "{} · {} · {} / ({} · {} · {}) · (1 − exp(−{} · {} · {} / {}))",
                (mass, "kg"),
                AIRBORNE,
                SILICA,
                (DAY_S / HOUR_S, "h"),
                *thinned,
                *thinned,
                (DAY_S / HOUR_S, "h"),
                (room, "m**3"),
            ),
        )
        condition = Condition(
            "The dust of the cut is caught at the cut or held by water, and the silica in "
            "the air is measured during the first cut; an open door or a fan is not "
            "counted as control.",
            "sampling arranged by a competent person before the first cut, and its result",
        )
        return [finding, condition]

    @Rule(
        Tool(
            owned=False,
            form=among("block", "board", "sheet", "core"),
            dust=MATCH.dust & among("silica", "wood", "polymer", "gypsum", "carbon"),
            name=MATCH.name,
        ),
        Shop(air_changes=MATCH.changes),
    )
    @advice(
        id="STEP-141",
        title="Wait before the room is opened",
        reason=(
            "Fine {dust} dust hangs long after the dust that is seen has settled: with "
            "{changes:changes} of air an hour, badly mixed, about {value:minutes} "
            "pass until no more is left than one may count on; {high:minutes} if the air "
            "mixes worst. This is a screening estimate: "
            "measure, do not rely on this."
        ),
        cites=("hvac-design-guide", "common-practice"),
        limits=("purge_left", "air_mixing"),
    )
    def wait_for_the_dust(
        self, dust: str, name: str, changes: float
    ) -> list[Finding | Step]:
        left = LEFT_LOW if dust == "silica" else LEFT
        wait = dust_exposure.purge_time_s(changes / HOUR_S, 1.0, left, MIXING)
        finding = Finding(
            "purge-wait",
            "Wait after the last cut (estimate: measure, do not rely on it)",
            wait,
            "min",
            "t = V / (m Q) · ln(1 / share left)",
            worked=worked("{} / ({} · {}) · ln(1 / {})", (1.0, "h"), MIXING, changes, left),
            low=dust_exposure.purge_time_s(changes / HOUR_S, 1.0, LEFT, 1.0),
            high=dust_exposure.purge_time_s(changes / HOUR_S, 1.0, LEFT_LOW, MIXING_LOW),
            judgement="watch",
        )
        step = Step(
            "make-tool",
            PURGE,
            does=("cleans-dust",),
            quantities=(Quantity("Wait with the air running, at least", wait, "min"),),
            hold_point=HoldPoint(
                "Room cleared before others go in", "wait over, surfaces wiped", "times"
            ),
        )
        return [finding, step]


class SolventAir:
    """Solvent that leaves a coat or a release."""

    stage = "plan"

    @Rule(
        Release(solvent=True, name=MATCH.release),
        Found(key="face-area", value=MATCH.area),
        Shop(jurisdiction=MATCH.jurisdiction),
    )
    @advice(
        id="STEP-448",
        title="Draw the solvent of the release away, and let it flash off",
        reason=(
            "{release} over {area:area} gives off solvent; were it acetone, "
            "{value:air} of air would thin it to the exposure limit that is printed with "
            "the caution and to a quarter of its lower explosive limit. A fire limit is no "
            "health limit, and the product's own sheet decides. This is a screening "
            "estimate: measure, do not rely on this."
        ),
        cites=("chemicals-flammability", "osha-acetone-page", "nfpa-86-notes"),
        limits=(
            "solvent_use",
            "flash_off",
            "air_mixing",
            "solvent_molar_mass",
            "solvent_lower_limit",
        ),
    )
    def release_flashes_off(
        self, release: str, area: float, jurisdiction: str
    ) -> list[Finding | Step]:
        return flash_off("release", area, jurisdiction)

    @Rule(
        Tool(owned=False),
        Sealing(id=NE("none"), solvent=True, name=MATCH.seal),
        Found(key="face-area", value=MATCH.area),
        Shop(jurisdiction=MATCH.jurisdiction),
    )
    @advice(
        id="STEP-236",
        title="Draw the solvent of the coat away, and let it flash off",
        reason=(
            "{seal} over {area:area} gives off solvent; were it acetone, "
            "{value:air} of air would thin one coat to the exposure limit that is printed "
            "with the caution and to a quarter of its lower explosive limit. A fire limit "
            "is no health limit, and the product's own sheet decides. This is a screening "
            "estimate: measure, do not rely on this."
        ),
        cites=("chemicals-flammability", "osha-acetone-page", "nfpa-86-notes"),
        limits=(
            "solvent_use",
            "flash_off",
            "air_mixing",
            "solvent_molar_mass",
            "solvent_lower_limit",
        ),
    )
    def coat_flashes_off(
        self, seal: str, area: float, jurisdiction: str
    ) -> list[Finding | Step]:
        return flash_off("seal", area, jurisdiction)

    @Rule(
        Release(solvent=True, name=MATCH.release),
        Oven(length_m=MATCH.length, width_m=MATCH.width, height_m=MATCH.height),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="tool-mass", value=MATCH.mass),
        Tool(density=MATCH.density),
    )
    @advice(
        id="STEP-449",
        title="Put nothing wet in the oven",
        reason=(
            "{value:grams} of solvent left on the tool, were it acetone, fills the closed "
            "oven to a quarter of its lower explosive limit; {release} takes about "
            "{solvent_use:areal}. This is a screening estimate: do not rely on this, the "
            "oven's rating plate rules."
        ),
        cites=("chemicals-flammability", "memory-oven-code", "nfpa-86-notes"),
        limits=("solvent_use", "solvent_molar_mass", "solvent_lower_limit"),
    )
    def released_and_dry(
        self,
        release: str,
        length: float,
        width: float,
        height: float,
        hot: float,
        mass: float,
        density: float,
    ) -> list[Finding | Step]:
        return nothing_wet("release", length * width * height, mass / density, hot)

    @Rule(
        Tool(owned=False, density=MATCH.density),
        Sealing(id=NE("none"), solvent=True, name=MATCH.seal),
        Oven(length_m=MATCH.length, width_m=MATCH.width, height_m=MATCH.height),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="tool-mass", value=MATCH.mass),
    )
    @advice(
        id="STEP-238",
        title="Put no wet coat in the oven",
        reason=(
            "{value:grams} of solvent left in the coat, were it acetone, fills the closed "
            "oven to a quarter of its lower explosive limit; {seal} takes about "
            "{solvent_use:areal} a coat. This is a screening estimate: do not rely on "
            "this, the oven's rating plate rules."
        ),
        cites=("chemicals-flammability", "memory-oven-code", "nfpa-86-notes"),
        limits=("solvent_use", "solvent_molar_mass", "solvent_lower_limit"),
    )
    def coated_and_dry(
        self,
        seal: str,
        length: float,
        width: float,
        height: float,
        hot: float,
        mass: float,
        density: float,
    ) -> list[Finding | Step]:
        return nothing_wet("seal", length * width * height, mass / density, hot)

    @Rule(Release(solvent=True, name=MATCH.release), Oven(kind="home-built"))
    @advice(
        id="AIR-110",
        title="Take no solvent to a home-built oven",
        reason=(
            "{release} gives off solvent, and a home-built oven has no solvent rating, no "
            "purge and no proven exhaust."
        ),
        cites=("fire-code-oven-classes", "nfpa-86-notes"),
    )
    def release_in_home_built(self, release: str) -> Condition:
        return NO_SOLVENT

    @Rule(
        Tool(owned=False),
        Sealing(id=NE("none"), solvent=True, name=MATCH.seal),
        Oven(kind="home-built"),
        NOT(Release(solvent=True)),
    )
    @advice(
        id="AIR-115",
        title="Take no wet coat to a home-built oven",
        reason=(
            "{seal} gives off solvent, and a home-built oven has no solvent rating, no "
            "purge and no proven exhaust."
        ),
        cites=("fire-code-oven-classes", "nfpa-86-notes"),
    )
    def coat_in_home_built(self, seal: str) -> Condition:
        return NO_SOLVENT
