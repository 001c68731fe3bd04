"""Heat of mixed resin: how deep to pour it and how much to mix at once."""

from advisor.calculations import resin_batch, resin_heat
from advisor.knowledge.tables import limit, limit_span
from advisor.reasoning.conclusions import Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NE, Rule
from advisor.reasoning.facts import Found, Sealing, Tool
from advisor.reasoning.rulebook import advice

ACTIVATION = limit("mix_activation_energy")
CAPACITY = limit("mix_heat_capacity")
DENSITY = limit("mix_density")
DIFFUSIVITY = limit("mix_diffusivity")
GEL = limit_span("mix_gel_time")
GEL_SHARE = limit("mix_gel_conversion")
HEAT = limit("mix_reaction_heat")
POT_LIFE_SHARE = limit("pot_life_share")
ROOM = limit("room_temperature")
SPREADING = limit("resin_spreading")
TRAY = limit("mixing_tray")


class BatchNumbers:
    """Depth and mass of a batch of unfilled laminating resin."""

    stage = "plan"

    @Rule(Sealing(epoxy=True, id=NE("none"), name=MATCH.seal), Tool(name=MATCH.name))
    @advice(
        id="BATCH-010",
        title="Pour mixed resin no deeper than its heat gets out",
        reason=(
            "Mixed epoxy for {seal} warms itself, and kept together it can scorch; in a "
            "layer deeper than about {value:gap} ({low:gap} to {high:gap} with its speed) "
            "heat builds faster than it leaves."
        ),
        cites=("frank-kamenetskii", "uncontrolled-cure-page"),
        limits=(
            "mix_reaction_heat",
            "mix_heat_capacity",
            "mix_gel_time",
            "mix_gel_conversion",
            "mix_diffusivity",
            "mix_activation_energy",
            "room_temperature",
        ),
    )
    def pour_depth(self, seal: str, name: str) -> Finding:
        rise = resin_heat.adiabatic_rise_k(HEAT, CAPACITY, 0.0, CAPACITY)
        low, value, high = (
            resin_batch.runaway_depth_m(gel, GEL_SHARE, rise, DIFFUSIVITY, ACTIVATION, ROOM)
            for gel in GEL
        )
        return Finding(
            "pour-depth",
            "Depth of mixed resin, at most",
            value,
            "mm",
            "root of (0.88 · a · R · T² / E · t gel / (ΔT · x gel))",
            low=low,
            high=high,
            judgement="watch",
        )

    @Rule(
        Found(key="pour-depth", value=MATCH.depth, low=MATCH.thin, high=MATCH.thick),
        Sealing(epoxy=True, name=MATCH.seal),
    )
    @advice(
        id="BATCH-020",
        title="Mix no more than is spread in half its life",
        reason=(
            "A tray of {mixing_tray:area} at {depth:gap} of depth and the pace of a brush "
            "set the batch for {seal}: about {value:grams}, or {low:grams} with a fast "
            "hardener, which is what the steps ask for."
        ),
        cites=("uncontrolled-cure-page",),
        limits=("mixing_tray", "mix_density", "resin_spreading", "pot_life_share"),
    )
    def largest_batch(self, depth: float, thin: float, thick: float, seal: str) -> Finding:
        low, value, high = (
            resin_batch.largest_batch_kg(
                TRAY, deep, DENSITY, SPREADING, gel, POT_LIFE_SHARE
            )
            for gel, deep in zip(GEL, (thin, depth, thick), strict=True)
        )
        return Finding(
            "largest-batch",
            "Mixed resin in one batch, at most",
            value,
            "g",
            "least of tray · depth · ρ and pace · share · pot life",
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
            "A pot keeps its heat, sets in minutes and can smoke or burn; the same resin "
            "spread thin stays cool and workable."
        ),
        cites=("uncontrolled-cure-page", "university-resin-fire-lesson"),
    )
    def mix_small(self, depth: float, mass: float, seal: str, name: str) -> Step:
        return Step(
            "seal",
            "For {seal}, joints and fillers alike: mix no more than {mass:grams} at once, "
            "pour it into a flat tray no deeper than {depth:gap}, use it within half its "
            "pot life. Fill a deep place in layers, each cool before the next. What the "
            "resin's sheet says of mass, depth and pot life comes before these figures. "
            "For a batch that grows warm, act as the caution on runaway heat says.",
            does=("mixes-resin",),
            quantities=(
                Quantity("Batch, at most", mass, "g"),
                Quantity("Depth, at most", depth, "mm"),
            ),
            hold_point=HoldPoint(
                "Batch and depth within the resin's sheet",
                "mass weighed; depth in the tray no more than {depth:gap}",
                "mass, time mixed, time used up",
            ),
        )
