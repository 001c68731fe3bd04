"""Vacuum in numbers: what the gauge should show here, and what seeps through a body."""

from advisor.calculations import permeable_block, vacuum
from advisor.calculations.permeable_block import PermeableBlock
from advisor.knowledge.tables import limit, limit_span
from advisor.measures import worked
from advisor.reasoning import facts
from advisor.reasoning.conclusions import Condition, Doubtful, Finding, Need, RuledOut
from advisor.reasoning.expert import MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Bagging, Cure, Found, Part, Sealing, Shop, Tool
from advisor.reasoning.rulebook import advice

AIR = limit("air_viscosity")
_, BAG_MOST, BAG_POOR = limit_span("bag_pressure_most")
BASE = limit("base_thickness")
MARGIN = limit("pump_margin")


class Gauge:
    """What the gauge reads at the shop's height."""

    stage = "needs"

    @Rule(
        Shop(altitude_m=MATCH.altitude, vacuum_reading_pa=MATCH.reading),
        Cure(pressure=among("vacuum", "autoclave")),
    )
    @advice(
        id="VAC-010",
        title="Know what the gauge should show at this height",
        reason=(
            "A gauge reads against the air round it: at {altitude:distance} it shows "
            "{value:vacuum} when {bag_pressure_most:vacuum} is left under the bag, and "
            "the pump's best is {reading:vacuum}."
        ),
        cites=("vacuum-bag-basics", "fluids-atmosphere", "iso-2533"),
        limits=("bag_pressure_most",),
    )
    def expected_gauge(self, altitude: float, reading: float) -> Finding:
        value = vacuum.expected_gauge_pa(altitude, BAG_MOST)
        return Finding(
            "gauge-expected",
            "Gauge reading of a good bag at this height",
            value,
            "mbar",
            "p air, less p bag",
            judgement="ok" if reading >= value + BAG_MOST - BAG_POOR else "watch",
        )


class WeakVacuum:
    """A pump that leaves more air under the bag than prepreg is used to."""

    stage = "plan"

    @Rule(
        Found(key="gauge-expected", value=MATCH.gauge),
        Shop(vacuum_reading_pa=MATCH.best),
        Cure(pressure="vacuum"),
        TEST(lambda gauge, best: best < gauge + BAG_MOST - BAG_POOR),
    )
    @advice(
        id="VAC-030",
        title="Mend the pump, or ask the prepreg maker",
        reason=(
            "The pump's best of {best:vacuum} leaves more than "
            "{bag_pressure_most:vacuum} under the bag, and twice that is more air than a "
            "laminate is usually cured with; the leak test is set to what the pump can do."
        ),
        cites=("prepreg-makers-guide", "common-practice"),
        limits=("bag_pressure_most",),
    )
    def too_much_air(self, gauge: float, best: float) -> Condition:
        return Condition(
            "The pump or its line is mended until the gauge shows what a good bag shows "
            "at this height, or the prepreg's maker accepts the pressure that is left.",
            "gauge on a closed port, or the maker's answer in writing",
        )


class Seepage:
    """What the bare body lets through, against the pump."""

    stage = "tool"

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Found(key="gauge-expected", value=MATCH.gauge),
        Part(
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
            tool_side=MATCH.side,
        ),
        Shop(pump_flow=MATCH.flow),
        Tool(
            name=MATCH.name,
            tightness="leaks-through",
            permeability=MATCH.k,
            permeability_low=MATCH.k_low,
            permeability_high=MATCH.k_high,
        ),
    )
    @advice(
        id="SEEP-010",
        title="Hold what seeps through the body against the pump",
        reason=(
            "Air seeps through {name} to a bag on its face; to hold "
            "{bag_pressure_most:vacuum} under it a pump of {value:flow} is needed "
            "({low:flow} to {high:flow}), and {pump_margin:number} times that to be sure; "
            "the shop's gives {flow:flow}."
        ),
        cites=("porous-gas-flow", "darcy-law", "memory-aerated-concrete-codes"),
        limits=("bag_pressure_most", "air_viscosity", "pump_margin", "base_thickness"),
    )
    def pump_for_body(
        self,
        area: float,
        gauge: float,
        length: float,
        width: float,
        depth: float,
        side: str,
        flow: float,
        name: str,
        k: float,
        k_low: float,
        k_high: float,
    ) -> list[Finding | Need]:
        """Judge by the middle of the range, which spans decades; the leak test decides."""
        outside = gauge + BAG_MOST
        below = BASE if side == "female" else depth + BASE
        thick = min(length, width, below)
        value, low, high = (
            permeable_block.pump_needed_m3_per_s(
                PermeableBlock(one, area, thick), outside, BAG_MOST, AIR
            )
            for one in (k, k_low, k_high)
        )
        bag = permeable_block.bag_for_block(
            PermeableBlock(k, area, thick), outside, flow, AIR, BAG_MOST, MARGIN
        )
        return [
            Finding(
                "seep-pump",
                "Pump that holds a bag on the bare face",
                value,
                "m**3/h",
                "k · A · (p₁² − p₂²) / (2 · µ · L · p₂)",
                low=low,
                high=high,
                limit=flow / MARGIN,
                judgement="ok" if bag == "surface" else "watch",
                worked=worked(
                    "{} · {} · (({})² − ({})²) / (2 · {} · {} · {})",
                    (k, "um**2"),
                    (area, "m**2"),
                    (outside, "kPa"),
                    (BAG_MOST, "kPa"),
                    (AIR, "mPa*s"),
                    (thick, "mm"),
                    (BAG_MOST, "kPa"),
                ),
            ),
            Need("bag-on-face", "holds" if bag == "surface" else "leaks"),
        ]


class BagForBody:
    """Bag on the face, or all round."""

    stage = "bagging"

    @Rule(
        Bagging(name=MATCH.bag, needs_tight_tool=True),
        facts.Need(kind="bag-on-face", value="leaks"),
        Found(key="seep-pump", value=MATCH.needed),
        Shop(pump_flow=MATCH.flow),
        Tool(name=MATCH.name, tightness="leaks-through"),
        Sealing(name=MATCH.seal, vacuum=NE("tight")),
    )
    @advice(
        id="BAG-122",
        title="Bag all round a body that seeps more than the pump takes",
        reason=(
            "The body of {name} leaks from behind even when its face is sealed: a bag "
            "taped to its face wants {pump_margin:number} times {needed:flow} of pump, "
            "and the shop's gives {flow:flow}."
        ),
        cites=("army-composites-manual", "darcy-law"),
        limits=("pump_margin",),
    )
    def seeps_too_much(
        self, bag: str, needed: float, flow: float, name: str, seal: str
    ) -> RuledOut:
        return RuledOut("an envelope bag, or a glass skin that is shown to be tight")

    @Rule(
        Bagging(name=MATCH.bag, needs_tight_tool=True),
        facts.Need(kind="bag-on-face", value="holds"),
        Found(key="seep-pump", value=MATCH.needed),
        Shop(pump_flow=MATCH.flow),
        Tool(name=MATCH.name, tightness="leaks-through"),
        Sealing(name=MATCH.seal, vacuum=NE("tight")),
    )
    @advice(
        id="BAG-124",
        title="Prove that the pump outruns what seeps through",
        reason=(
            "The shop's {flow:flow} of pump is {pump_margin:number} times or more what "
            "seeps through {name} ({needed:flow}); how much a block lets through differs "
            "tenfold from lot to lot."
        ),
        cites=("porous-gas-flow", "darcy-law"),
        limits=("pump_margin", "bag_pressure_most"),
    )
    def pump_outruns_body(
        self, bag: str, needed: float, flow: float, name: str, seal: str
    ) -> Doubtful:
        return Doubtful(
            "With the pump on, a bag on the empty tool holds {bag_pressure_most:vacuum} "
            "absolute or less.",
            "a bag on the bare tool, pump on, absolute pressure read after half an hour",
        )
