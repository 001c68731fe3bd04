"""Heat of mixed resin: how deep to pour it and how much to mix at once."""

from advisor.calculations import resin_batch, resin_heat
from advisor.knowledge.tables import limit, limit_span
from advisor.reasoning.conclusions import Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NE, Rule
from advisor.reasoning.facts import Found, Sealing, Tool
from advisor.reasoning.rulebook import advice

ACTIVATION = limit("mix_activation_energy")
CAPACITY = limit("mix_heat_capacity")
CONDUCTS = limit("mix_diffusivity") * limit("mix_density") * limit("mix_heat_capacity")
DIFFUSIVITY = limit("mix_diffusivity")
GEL = limit_span("mix_gel_time")
GEL_SHARE = limit("mix_gel_conversion")
HEAT = limit("mix_reaction_heat")
POT_LIFE_SHARE = limit("pot_life_share")
ROOM = limit("room_temperature")
SPREADING = limit("resin_spreading")
STILL_AIR = limit("still_air_film")


class BatchNumbers:
    """Depth and mass of a batch of unfilled laminating resin."""

    stage = "plan"

    @Rule(Sealing(epoxy=True, id=NE("none"), name=MATCH.seal), Tool(name=MATCH.name))
    @advice(
        id="BATCH-010",
        title="Never leave mixed resin standing",
        reason=(
            "Mixed epoxy for {seal} warms itself; in room air its heat gets out of no "
            "layer deeper than about {value:gap} ({low:gap} to {high:gap} with its speed), "
            "so whatever is left standing, in a pot or in a tray, runs hot: a tray only "
            "buys time."
        ),
        cites=("frank-kamenetskii", "uncontrolled-cure-page"),
        limits=(
            "mix_reaction_heat",
            "mix_heat_capacity",
            "mix_gel_time",
            "mix_gel_conversion",
            "mix_diffusivity",
            "mix_density",
            "mix_activation_energy",
            "room_temperature",
            "still_air_film",
        ),
    )
    def pour_depth(self, seal: str, name: str) -> Finding:
        rise = resin_heat.adiabatic_rise_k(HEAT, CAPACITY, 0.0, CAPACITY)
        low, value, high = (
            resin_batch.runaway_depth_m(
                gel,
                GEL_SHARE,
                rise,
                DIFFUSIVITY,
                ACTIVATION,
                ROOM,
                STILL_AIR,
                CONDUCTS,
            )
            for gel in GEL
        )
        return Finding(
            "pour-depth",
            "Depth of mixed resin that may be left to set, at most; the low end is "
            "planned with",
            value,
            "mm",
            "d(Bi) · a · R · T² / E · t gel / (ΔT · x gel) = L²",
            low=low,
            high=high,
            judgement="watch",
        )

    @Rule(Sealing(epoxy=True, id=NE("none"), name=MATCH.seal), Tool(name=MATCH.name))
    @advice(
        id="BATCH-020",
        title="Mix no more than is spread in half its life",
        reason=(
            "The pace of a brush sets the batch for {seal}: about {value:grams}, or "
            "{low:grams} with a fast hardener, which is what the steps ask for."
        ),
        cites=("uncontrolled-cure-page",),
        limits=("resin_spreading", "pot_life_share", "mix_gel_time"),
    )
    def largest_batch(self, seal: str, name: str) -> Finding:
        low, value, high = (
            resin_batch.largest_batch_kg(SPREADING, gel, POT_LIFE_SHARE) for gel in GEL
        )
        return Finding(
            "largest-batch",
            "Mixed resin in one batch, at most; the low end is planned with",
            value,
            "g",
            "pace · share · pot life",
            low=low,
            high=high,
            judgement="watch",
        )


class BatchStep:
    """Mixing as work on the bench."""

    stage = "plan"

    @Rule(
        Found(key="pour-depth", low=MATCH.depth),
        Found(key="largest-batch", low=MATCH.mass),
        Sealing(epoxy=True, name=MATCH.seal),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-215",
        title="Mix small batches, and pour them out at once",
        reason=(
            "A cup of 100 g keeps its heat, sets in minutes and can smoke or burn: in a "
            "tray in room air a clear mix is sure to stay cool only below {depth:gap}. "
            "Filler, and a body that it is spread on, take up heat."
        ),
        cites=("uncontrolled-cure-page", "university-resin-fire-lesson"),
    )
    def mix_small(self, depth: float, mass: float, seal: str, name: str) -> Step:
        return Step(
            "seal",
            "For {seal}, joints and fillers alike: mix no more than {mass:grams} at once, "
            "pour it out into a flat tray at once and spread all of it within half its pot "
            "life; what is left over is spread on a tray of sand that stands outdoors. "
            "Fill a deep place in layers, each cool before the next. What the resin's "
            "sheet says of mass, depth and pot life comes before these figures. For a "
            "batch that grows warm, act as the caution on runaway heat says.",
            does=("mixes-resin",),
            quantities=(Quantity("Batch, at most", mass, "g"),),
            hold_point=HoldPoint(
                "Batch within the resin's sheet",
                "mass weighed; all of it spread in half its pot life",
                "mass, time mixed, time used up",
            ),
        )
