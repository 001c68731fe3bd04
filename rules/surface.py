"""The sealed face: how often pores are filled, how many skims, which grits."""

from advisor.calculations import grits, surface
from advisor.knowledge.tables import limit, limit_span
from advisor.reasoning.conclusions import Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NE, NOT, Rule, W
from advisor.reasoning.facts import Finish, Need, Sealing, Tool
from advisor.reasoning.rulebook import advice

FACES = ("any", "filled", "polished")
FIRST = int(limit("grit_first"))
ROUGHNESS = {face: limit(f"roughness_{face}") for face in FACES}
SINK = {face: limit(f"sink_{face}") for face in FACES}
STEP_RATIO = limit("grit_step")
LOSS = limit("sanding_loss")
LEFT = limit("skim_left")
AFTER = {
    "any": "Leave it so.",
    "filled": "Leave it satin.",
    "polished": "Then compound and polish until the lamp shows no haze.",
}


class FaceSteps:
    """Filling and sanding the face to the finish that was asked for."""

    stage = "plan"

    @Rule(
        Tool(owned=False, porous=True, soft=True, name=MATCH.name, pore_size_m=MATCH.pore),
        Sealing(
            id=NE("none"), name=MATCH.seal, styrene=MATCH.putty, build_low_m=MATCH.build
        ),
        Need(kind="face", value=MATCH.face),
    )
    @advice(
        id="STEP-232",
        title="Fill again what sinks",
        reason=(
            "Filler shrinks as it cures and sinks into pores {pore:length} wide, most in "
            "the deepest; sanding then takes {sanding_loss:gap}, and "
            "{skim_left:gap} has to be left, or the soft block shows."
        ),
        cites=("memory-filler-shrinkage", "common-practice"),
        limits=(
            "sanding_loss",
            "skim_left",
            "shrinkage_epoxy",
            "shrinkage_putty",
            "sink_any",
            "sink_filled",
            "sink_polished",
        ),
    )
    def fill_again(
        self, name: str, pore: float, seal: str, putty: bool, build: float, face: str
    ) -> list[Finding | Step]:
        row = "shrinkage_putty" if putty else "shrinkage_epoxy"
        low, usual, high = (
            float(surface.fills_needed(pore, shrinkage, SINK[face]))
            for shrinkage in limit_span(row)
        )
        skims = float(surface.coats_needed(build, LOSS, LEFT))
        finding = Finding(
            "fills",
            "Fills of the widest pores",
            usual,
            "count",
            "z · (3 ε)ⁿ ≤ sink allowed",
            low=low,
            high=high,
        )
        step = Step(
            "seal",
            "After each fill has cured, wash, look at the face under a low lamp and fill "
            "again over the whole of it, never in spots, until nothing has sunk.",
            does=("mixes-resin", "coats", "uses-styrene", "sands-tool"),
            quantities=(
                Quantity("Fills, at least", usual, "count"),
                Quantity("Times the whole build goes on, at least", skims, "count"),
                Quantity("Sink left over a pore, at most", SINK[face], "um"),
            ),
            hold_point=HoldPoint(
                "Nothing sunk a day after the last fill",
                "low lamp shows no pore",
                "fills, dates",
            ),
        )
        return [finding, step]

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(id=NE("none"), name=MATCH.seal, first_grit=MATCH.first_grit),
        Need(kind="face", value=MATCH.face),
        NOT(Finish(roughness_m=W())),
    )
    @advice(
        id="STEP-244",
        title="Sand through every grit",
        reason=(
            "A grit takes out the scratches of the one before only if its grain is no more "
            "than {grit_step:number} times finer; a skipped grit comes back under paint "
            "or polish."
        ),
        cites=("grit-size-page", "belt-roughness-page", "memory-grit-standard"),
        limits=(
            "grit_first",
            "roughness_any",
            "roughness_filled",
            "roughness_polished",
            "grit_step",
        ),
    )
    def sand_for_the_finish(
        self, name: str, seal: str, first_grit: float, face: str
    ) -> list[Finding | Step]:
        return _sanding(ROUGHNESS[face], first_grit, face)

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(id=NE("none"), name=MATCH.seal, first_grit=MATCH.first_grit),
        Need(kind="face", value=MATCH.face),
        Finish(roughness_m=MATCH.target),
    )
    @advice(
        id="STEP-245",
        title="Sand through every grit to the roughness asked for",
        reason=(
            "{target:fine} is asked for; a grit takes out the scratches of the one before "
            "only if its grain is no more than {grit_step:number} times finer."
        ),
        cites=("grit-size-page", "belt-roughness-page", "memory-grit-standard"),
        limits=("grit_first", "grit_step"),
    )
    def sand_to_a_roughness(
        self, name: str, seal: str, first_grit: float, face: str, target: float
    ) -> list[Finding | Step]:
        return _sanding(target, first_grit, face)


def _sanding(target_m: float, first_grit: float, face: str) -> list[Finding | Step]:
    """Return the roughness and the step of sanding to it, from what a thin coat bears."""
    first = max(FIRST, int(first_grit))
    last = max(first, grits.grit_for_roughness(target_m))
    sequence = grits.grit_sequence(first, last, STEP_RATIO)
    left = grits.sanded_roughness(last)
    listed = ", ".join(f"P{grit}" for grit in sequence)
    finding = Finding(
        "face-roughness",
        "Roughness Ra that the last grit leaves",
        (left.low_m + left.high_m) / 2,
        "um",
        "Ra = 0.0054 to 0.0160 · grain",
        low=left.low_m,
        high=left.high_m,
        limit=target_m,
    )
    step = Step(
        "seal",
        f"Sand wet or with extraction on the sander, on a block, through {listed}; "
        "where the seal's own list names coarser or finer paper for a layer, that "
        "goes first. Wipe clean between grits and cross the direction. " + AFTER[face],
        does=("sands-tool", "cleans-dust"),
        hold_point=HoldPoint(
            "Last grit everywhere",
            "no scratch of the grit before under a low lamp",
            "last grit",
        ),
    )
    return [finding, step]
