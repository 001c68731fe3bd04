"""Water in a porous block: how long it dries, when it is dry, what steam would do."""

from scipy.constants import zero_Celsius  # type: ignore[import-untyped]

from advisor.calculations import drying, steam, volumes, weighing
from advisor.knowledge.tables import limit, limit_span
from advisor.measures import rounded_down, worked
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import GT, MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Bagging, Found, Part, Shop, Tool
from advisor.reasoning.rulebook import advice

BAG = limit("bag_pressure_most")
BASE = limit("base_thickness")
DAMP = limit_span("block_moisture")
DRY_LOSS = limit("dry_loss")
DRY_TAIL = limit("dry_tail")
DRYING_HEAT = limit("drying_heat")
LONG_DRYING = limit("long_drying")
OUTSIDE = limit("pressure_when_sealed")
ROOM = limit("room_temperature")
SHARE = limit("brittle_strength_share")
VAPOUR = limit_span("vapour_factor")
WAIT_LONGEST = limit("weighing_longest")

_SECONDS_A_DAY = 86_400


class Steam:
    """What water left in a sealed block does when it is heated."""

    stage = "tool"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot & GT(ROOM)),
        Tool(
            name=MATCH.name,
            porous=True,
            drying="bake-dry",
            dust=NE("wood"),
            tensile_strength_low_pa=MATCH.strong,
        ),
    )
    @advice(
        id="DRY-010",
        title="Never heat the block sealed and wet",
        reason=(
            "Sealed in wet {name}, air and steam reach {value:pressure} absolute by "
            "{hot:temperature}; under the bag nothing outside holds against it but "
            "{strong:strength} of tensile strength, in a weak lot."
        ),
        cites=("iapws-r7-97", "pore-steam-paper"),
        limits=("brittle_strength_share", "pressure_when_sealed", "room_temperature"),
    )
    def steam_pressure(self, hot: float, name: str, strong: float) -> Finding:
        water = steam.water_for_saturation_kg_m3(hot) * 2
        value = steam.closed_cavity_pressure_pa(hot, water, OUTSIDE, ROOM)
        return Finding(
            "steam-pressure",
            "Pressure in the pores if sealed in wet, absolute",
            value,
            "kPa",
            "p₀ · T / T₀ + saturation pressure of water",
            limit=SHARE * strong,
            judgement="watch",
            worked=worked(
                "{} · {} / {} + {}",
                (OUTSIDE, "kPa"),
                (hot + zero_Celsius, "K"),
                (ROOM + zero_Celsius, "K"),
                (steam.saturation_pressure_pa(hot), "kPa"),
            ),
        )


class Drying:
    """Time and proof of drying."""

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(margin_m=MATCH.margin),
        Shop(humidity=MATCH.humidity),
        Tool(
            name=MATCH.name,
            form=MATCH.form & among("block", "core"),
            owned=False,
            drying="bake-dry",
            dust=NE("wood"),
            density=MATCH.density,
        ),
    )
    @advice(
        id="DRY-020",
        title="Allow the block time to dry",
        reason=(
            "Once its skin is dry, water leaves {name} only as vapour, from ever deeper: "
            "uncut and as wet as it may be delivered it takes about {value:days} in the "
            "oven ({low:days} if it was stored dry, {high:days} at the worst). Only the "
            "scale tells."
        ),
        cites=("block-moisture-page", "block-table-russian", "memory-vapour-diffusion"),
        limits=(
            "block_moisture",
            "drying_heat",
            "vapour_factor",
            "base_thickness",
            "long_drying",
            "room_temperature",
        ),
    )
    def drying_days(
        self,
        hot: float,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        margin: float,
        humidity: float,
        name: str,
        form: str,
        density: float,
    ) -> Finding:
        blank = volumes.tool_blank(shape, side, length, width, depth, margin, BASE)
        half = min(blank.length_m, blank.width_m, blank.height_m) / 2
        warm = min(hot, DRYING_HEAT)
        air = humidity * steam.saturation_pressure_pa(ROOM)
        low, value, high = (
            drying.front_drying_time_s(density * damp, half, warm, factor, air)
            / _SECONDS_A_DAY
            for damp, factor in zip(DAMP, VAPOUR, strict=True)
        )
        return Finding(
            "drying-time",
            "Drying of the block in the oven",
            value,
            "d",
            "w · l² / (2 · δ/μ · (p sat less p air))",
            low=low,
            high=high,
            limit=LONG_DRYING,
            judgement="ok" if value <= LONG_DRYING else "watch",
        )

    @Rule(
        Found(key="drying-time", value=MATCH.days & GT(LONG_DRYING)),
        Tool(name=MATCH.name),
    )
    @advice(
        id="DRY-030",
        title="Buy the block dry, or cut it thin before it dries",
        reason=(
            "As wet as it may be delivered {name} this thick dries for about {days:days}, "
            "more than {long_drying:days}; at half the thickness it takes a quarter."
        ),
        cites=("block-moisture-page",),
        limits=("long_drying",),
    )
    def dries_too_long(self, days: float, name: str) -> Condition:
        return Condition(
            "The block has been stored dry, or is roughed out and hollowed before it goes "
            "into the oven.",
            "an offcut of the lot, weighed as delivered and again after a day in the oven",
        )

    @Rule(Found(key="drying-time", value=MATCH.days), Tool(name=MATCH.name))
    @advice(
        id="DRY-035",
        title="Look for a smaller loss where drying is slow",
        reason=(
            "Water leaves {name} over {days:days}, so slowly that a wet block loses little "
            "in an hour too; dry is a loss of {dry_tail:percent} of the rate at which the "
            "last of it would leave, and never more than {dry_loss:percent} an hour."
        ),
        cites=("memory-vapour-diffusion", "common-practice"),
        limits=("dry_loss", "dry_tail", "block_moisture"),
    )
    def dry_loss(self, days: float, name: str) -> Finding:
        last = drying.front_loss_share_per_s(DAMP[1], days * _SECONDS_A_DAY)
        return Finding(
            "dry-loss",
            "Loss an hour that counts as dry",
            min(DRY_LOSS, 3600 * DRY_TAIL * last),
            "percent",
            "share of w / (2 · t dry), at most the usual limit",
        )

    @Rule(
        Found(key="dry-loss", value=MATCH.share),
        Found(key="tool-mass", value=MATCH.mass),
        Shop(scale_step_kg=MATCH.owned),
        Tool(
            owned=False,
            drying="bake-dry",
            dust=NE("wood"),
            form=among("block", "core"),
            name=MATCH.name,
        ),
    )
    @advice(
        id="DRY-038",
        title="Weigh on a scale that is fine enough",
        reason=(
            "On the {mass:mass} of a rough-cut {name} a scale has to step by {value:grams} "
            "or less to see a dry block's {share:percent} an hour within "
            "{weighing_longest:hours}; the shop's steps by {owned:grams}."
        ),
        limits=("weighing_longest",),
    )
    def scale_step(self, share: float, mass: float, owned: float, name: str) -> Finding:
        needed = weighing.scale_step_kg(mass, share, WAIT_LONGEST)
        return Finding(
            "scale-step",
            "Step of the scale that block and tool are weighed on, at most",
            owned if owned <= needed else rounded_down(needed, 1),
            "g",
            "limit · mass · hours / 2, or the shop's own",
            judgement="ok" if owned <= needed else "watch",
        )

    @Rule(
        Found(key="scale-step", value=MATCH.step),
        Shop(scale_step_kg=MATCH.owned),
        TEST(lambda step, owned: step < owned),
    )
    @advice(
        id="DRY-048",
        title="Find a finer scale",
        reason=(
            "A scale that steps by {owned:grams} does not see this block dry in any time "
            "that a shop waits; a wet one would pass for dry."
        ),
        limits=("weighing_longest",),
    )
    def finer_scale(self, step: float, owned: float) -> Condition:
        return Condition(
            "A scale that steps by {step:grams} or less, and carries the block, is at "
            "hand before anything is dried.",
            "step and greatest load read off the scale; that step laid on the block shows",
        )

    @Rule(
        Found(key="dry-loss", value=MATCH.share),
        Found(key="tool-mass", value=MATCH.mass),
        Found(key="scale-step", value=MATCH.step),
        Tool(
            owned=False,
            drying="bake-dry",
            dust=NE("wood"),
            form=among("block", "core"),
            name=MATCH.name,
        ),
    )
    @advice(
        id="DRY-040",
        title="Weigh far enough apart for the scale",
        reason=(
            "A dry block still loses up to {share:percent} of its mass an hour; a scale "
            "that steps by {step:grams} sees that on the {mass:mass} of a rough-cut {name} "
            "only after {value:hours}."
        ),
    )
    def weighing_wait(self, share: float, mass: float, step: float, name: str) -> Finding:
        return Finding(
            "weighing-wait",
            "Wait between two weighings, at least",
            float(weighing.weighing_wait_h(mass, share, step)),
            "h",
            "2 · step / (limit · mass), whole hours",
        )

    @Rule(
        Found(key="weighing-wait", value=MATCH.wait),
        Found(key="dry-loss", value=MATCH.share),
        Found(key="tool-mass", value=MATCH.mass),
        Found(key="scale-step", value=MATCH.step),
        Tool(name=MATCH.name),
    )
    @advice(
        id="DRY-050",
        title="Accept the block as dry by its mass",
        reason=(
            "Of {mass:mass}, rough cut, a dry block may lose {share:percent} an hour; one "
            "step of the scale, {step:grams}, is taken off so that a coarse scale passes "
            "no wet block: {value:grams} in {wait:hours}."
        ),
    )
    def accepted_loss(
        self, wait: float, share: float, mass: float, step: float, name: str
    ) -> Finding:
        return Finding(
            "weighing-loss",
            "Loss between two weighings that counts as dry",
            rounded_down(weighing.accepted_loss_kg(mass, wait, share, step)),
            "g",
            "mass · hours · limit, less one step",
        )

    @Rule(
        Tool(
            owned=False,
            drying="bake-dry",
            dust=NE("wood"),
            form=among("block", "core"),
            name=MATCH.name,
        ),
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="drying-time", value=MATCH.days, high=MATCH.longest),
        Found(key="weighing-wait", value=MATCH.wait),
        Found(key="weighing-loss", value=MATCH.loss),
    )
    @advice(
        id="STEP-120",
        title="Rough cut, then dry to constant mass before the finish cut",
        reason=(
            "Damp {name} shrinks on its first heat by as much as it later grows, and "
            "water sealed in turns to steam: dry first, finish after, seal last."
        ),
        cites=("block-moisture-page", "pore-steam-paper"),
    )
    def dry_block(
        self,
        name: str,
        hot: float,
        days: float,
        longest: float,
        wait: float,
        loss: float,
    ) -> Step:
        return Step(
            "make-tool",
            "Rough cut with about 3 mm (0.1 in) left, extraction on. Then dry unbagged "
            "and unsealed with air all round: first at 60 °C (140 °F), then up to the "
            "tool temperature of {hot:temperature}, slowly. "
            "Count on {days:days}, up to {longest:days} if it came wet and is left uncut; "
            "pieces thinner than the blank take less. Pieces that are to be bonded dry "
            "singly, stood apart, and are weighed together: a joint shuts water in. Weigh "
            "every {wait:hours}.",
            does=(
                "cuts-tool",
                "cleans-dust",
                "heats",
                "heats-tool",
                "heats-porous",
                "lifts",
            ),
            quantities=(Quantity("Drying, about", days, "d"),),
            hold_point=HoldPoint(
                "Constant mass",
                "two weighings {wait:hours} apart, hot, differ by no more than "
                "{loss:grams}",
                "mass, temperature, time",
            ),
        )

    @Rule(
        Found(key="steam-pressure", value=MATCH.pressure),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name, tensile_strength_low_pa=MATCH.strong),
        TEST(lambda pressure, strong: pressure > SHARE * strong),
    )
    @advice(
        id="STEP-501",
        title="Weigh the tool again before plies go on it",
        reason=(
            "{pressure:pressure} of air and steam in a wet, sealed {name} is more than "
            "the {brittle_strength_share:percent} of {strong:strength} it may carry: it "
            "lifts the seal or splits. Under a bag at {bag_pressure_most:vacuum} water "
            "boils from {value:temperature} on, and the bag with it."
        ),
        cites=("pore-steam-paper",),
        limits=("brittle_strength_share", "bag_pressure_most"),
    )
    def weigh_before_bagging(
        self, pressure: float, hot: float, name: str, strong: float
    ) -> list[Finding | Step]:
        boils = steam.boiling_point_c(BAG)
        finding = Finding(
            "water-boils",
            "Water boils under the bag from",
            boils,
            "degC",
            "saturation temperature at the pressure under the bag",
            limit=hot,
            judgement="ok" if boils > hot else "watch",
        )
        step = Step(
            "lay-up",
            "Weigh the sealed tool and compare it with its mass on the day it was weighed "
            "dry and sealed; if it has gained more than a step of the scale, dry it again "
            "before it is used.",
            does=("lifts", "heats", "heats-tool", "heats-porous"),
            hold_point=HoldPoint(
                "Tool still dry",
                "no heavier than on the day of sealing, to a step of the scale",
                "mass on the day of sealing, mass today",
            ),
        )
        return [finding, step]
