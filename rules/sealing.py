"""How a tool's face is sealed: judged for each tool, then written as steps."""

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import (
    Doubtful,
    Good,
    HoldPoint,
    Quantity,
    RuledOut,
    Step,
)
from advisor.reasoning.expert import GE, LT, MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import (
    Bagging,
    Cure,
    Found,
    Need,
    Part,
    Run,
    Sealing,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .heat import above_service  # noqa: TID251 (a sibling, not a copy)

COAT_MARGIN = limit("coat_margin")
SKIN_RADIUS = limit("skin_radius")
BAKE_HOLD = limit("bake_hold")
PAST_PART = limit("film_past_part")
PEELABLE = limit("peelable_seal")
PREPREG_SKIN = "tooling-prepreg-skin"
SKINS = ("epoxy-glass-skin", PREPREG_SKIN)


class JudgeSealing:
    """Which seals suit this tool and this cure."""

    stage = "sealing"

    @Rule(Tool(tightness="tight", name=MATCH.name), Sealing(id=NE("none"), name=MATCH.seal))
    @advice(
        id="SEAL-010",
        title="Leave a tight face bare",
        reason="{name} has no pores to fill: a coat only adds a layer that can let go.",
        cites=("model-sealing-page", "common-practice"),
    )
    def nothing_to_fill(self, name: str, seal: str) -> RuledOut:
        return RuledOut("a porous tool")

    @Rule(Tool(tightness="tight", name=MATCH.name), Sealing(id="none"))
    @advice(
        id="SEAL-015",
        title="Polish and clean the bare face",
        reason="{name} is tight and smooth by itself.",
        cites=("model-sealing-page", "common-practice"),
    )
    def tight_by_itself(self, name: str) -> Good:
        return Good()

    @Rule(
        Tool(porous=True, name=MATCH.name),
        Sealing(id="none"),
        Need(kind="face", value=MATCH.face & among("filled", "polished")),
    )
    @advice(
        id="SEAL-020",
        title="Fill the pores",
        reason=(
            "Open pores of {name} print through any film under vacuum; the face asked for "
            "is {face}."
        ),
    )
    def pores_print(self, name: str, face: str) -> RuledOut:
        return RuledOut("a face that may show pores")

    @Rule(Tool(tightness="tight-when-sealed", name=MATCH.name), Sealing(id="none"))
    @advice(
        id="SEAL-030",
        title="Seal every face of board",
        reason="Bare {name} leaks, takes up water and may give off what spoils the cure.",
        cites=("mdf-mould-forum",),
    )
    def bare_board_leaks(self, name: str) -> RuledOut:
        return RuledOut("a tool that is tight by itself")

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Sealing(id=NE("none"), name=MATCH.seal, limit_baked_c=MATCH.baked),
        TEST(lambda hot, baked: hot > baked),
    )
    @advice(
        id="SEAL-040",
        title="Do not seal with a coat that softens in the cure",
        reason=(
            "{seal} holds {baked:temperature} at best, after baking; the tool sees "
            "{hot:temperature}."
        ),
        cites=("tg-after-cold-cure-maker", "common-practice"),
    )
    def coat_softens(self, seal: str, hot: float, baked: float) -> RuledOut:
        return RuledOut("a tool temperature of {baked:temperature} or less")

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Sealing(id=NE("none"), name=MATCH.seal, limit_baked_c=MATCH.baked),
        TEST(lambda hot, baked: hot <= baked < hot + COAT_MARGIN),
    )
    @advice(
        id="SEAL-050",
        title="Prove a coat with little heat to spare",
        reason=(
            "{seal} holds {baked:temperature} after baking, less than "
            "{coat_margin:difference} over the {hot:temperature} it will see: it may "
            "creep, print or stick."
        ),
        cites=("post-cure-article", "common-practice"),
        limits=("coat_margin",),
    )
    def little_to_spare(self, seal: str, hot: float, baked: float) -> Doubtful:
        return Doubtful(
            "The baked coat is unmarked after a full cycle under film and bag.",
            (
                "a coated coupon through the whole cycle, then a fingernail and a "
                "straight edge"
            ),
            coupon_cures=1,
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Sealing(
            id=NE("none"),
            name=MATCH.seal,
            limit_as_painted_c=MATCH.painted,
            limit_baked_c=MATCH.baked,
        ),
        Tool(name=MATCH.name, short_limit_c=MATCH.stop),
        TEST(
            lambda hot, painted, baked, stop: (
                painted < hot + COAT_MARGIN <= baked and hot + BAKE_HOLD > stop
            )
        ),
    )
    @advice(
        id="SEAL-060",
        title="Do not bake the coat hotter than the tool stands",
        reason=(
            "{seal} has to be baked {bake_hold:difference} above the cure to hold, and "
            "{name} stands no more than {stop:temperature}."
        ),
        cites=("post-cure-article",),
        limits=("coat_margin", "bake_hold"),
    )
    def bake_spoils_the_tool(
        self, seal: str, name: str, hot: float, painted: float, baked: float, stop: float
    ) -> RuledOut:
        return RuledOut("a cooler first cure")

    @Rule(
        Tool(porous=True, name=MATCH.name, pore_size_m=MATCH.pore),
        Sealing(id=NE("none"), name=MATCH.seal, fills_pores_to_m=MATCH.fills),
        TEST(lambda pore, fills: fills < pore),
    )
    @advice(
        id="SEAL-070",
        title="Fill before coating",
        reason=(
            "{seal} bridges pores to {fills:length}; those of {name} run to {pore:length}."
        ),
    )
    def pores_too_large(self, name: str, seal: str, pore: float, fills: float) -> RuledOut:
        return RuledOut("a finer block, or a filler under the coat")

    @Rule(
        Need(kind="face", value="polished"),
        Sealing(id=NE("none"), name=MATCH.seal, polished=False),
    )
    @advice(
        id="SEAL-080",
        title="Choose a seal that takes a polish",
        reason="A gloss part copies its tool, and {seal} cannot be polished.",
        cites=("composite-course", "moulded-finish-page"),
    )
    def no_polish(self, seal: str) -> RuledOut:
        return RuledOut("a satin or hidden face")

    @Rule(
        Sealing(name=MATCH.seal, styrene=True),
        Tool(family="polymer-foam", name=MATCH.name),
    )
    @advice(
        id="SEAL-090",
        title="Try styrene on foam before relying on it",
        reason=(
            "{seal} holds styrene: it dissolves polystyrene foam, and most polyurethane "
            "foam stands it; the label on the foam does not always say which it is."
        ),
        cites=("plug-materials-page",),
    )
    def styrene_on_foam(self, seal: str, name: str) -> Doubtful:
        return Doubtful(
            (
                "A dab of the mixed putty left overnight has not attacked an offcut of "
                "the foam."
            ),
            "an offcut, looked at after 24 h",
        )

    @Rule(
        Part(smallest_radius_m=MATCH.radius & LT(SKIN_RADIUS)),
        Sealing(id=among(*SKINS), name=MATCH.seal),
    )
    @advice(
        id="SEAL-100",
        title="Ease the radii under a skin",
        reason=(
            "Cloth bridges below {skin_radius:length}; the tightest radius is "
            "{radius:length}."
        ),
        limits=("skin_radius",),
    )
    def skin_bridges(self, radius: float, seal: str) -> Doubtful:
        return Doubtful(
            "The skin lies down in the tightest radius without bridging.",
            "a corner sample laid up, cured and tapped",
        )

    @Rule(
        Tool(soft=True, porous=True, name=MATCH.name),
        Sealing(id=among(*SKINS), name=MATCH.seal, parts_on_porous=MATCH.life),
        Run(parts=MATCH.parts),
        TEST(lambda parts, life: parts > life / 2),
    )
    @advice(
        id="SEAL-110",
        title="Skin a soft tool that must give many parts",
        reason=(
            "{parts:parts} are wanted; a skin carries wedges and gives {name} about "
            "{life:parts}, more than paint does."
        ),
        cites=("carbon-foam-tool", "common-practice"),
    )
    def skin_for_a_run(self, name: str, seal: str, life: float, parts: int) -> Good:
        return Good()

    @Rule(
        Cure(pressure="autoclave"),
        Sealing(id=NE("none"), name=MATCH.seal, vacuum=among("none", "slows")),
        Tool(tightness=NE("tight"), name=MATCH.name),
    )
    @advice(
        id="SEAL-120",
        title="Seal tight for the autoclave",
        reason=(
            "Under pressure every leak is driven into the laminate, and {seal} does not "
            "hold gas."
        ),
        cites=("army-composites-manual", "common-practice"),
    )
    def leaks_in_autoclave(self, seal: str, name: str) -> RuledOut:
        return RuledOut("vacuum pressure")


class SealInsideThePart:
    """A seal that stays behind when the tool is taken out of the part."""

    stage = "sealing"

    @Rule(
        Need(kind="removal", value="opens-or-goes"),
        Part(tool_side="male"),
        Sealing(id=among(*SKINS), name=MATCH.seal),
    )
    @advice(
        id="SEAL-130",
        title="Do not leave a shell inside the part",
        reason=(
            "When the core goes, a {seal} stays behind as a shell that is locked in as "
            "the core was."
        ),
    )
    def shell_stays(self, seal: str) -> RuledOut:
        return RuledOut("a tool that slides or opens")

    @Rule(
        Need(kind="removal", value="opens-or-goes"),
        Part(tool_side="male"),
        Sealing(id=MATCH.seal_id, name=MATCH.seal, build_m=MATCH.build & GE(PEELABLE)),
        TEST(lambda seal_id: seal_id not in SKINS),
    )
    @advice(
        id="SEAL-140",
        title="Show that the seal comes out with the core",
        reason=(
            "{seal} is {build:gap} thick; above {peelable_seal:gap} it may stay in the "
            "part when the core has gone."
        ),
        limits=("peelable_seal",),
    )
    def seal_may_stay(self, seal_id: str, seal: str, build: float) -> Doubtful:
        return Doubtful(
            "The seal peels or crumbles out of a trial section after the core has gone.",
            "a trial section of the tightest bend, cured, core taken out, looked through",
        )


class SealingSteps:
    """The seal as work on the bench."""

    stage = "plan"

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(id=NE("none"), name=MATCH.seal),
        Bagging(needs_tight_tool=MATCH.taped),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
    )
    @advice(
        id="STEP-205",
        title="Mark how far the seal runs",
        reason=(
            "Resin bleeds past the plies: on bare {name} it keys in, and release holds on "
            "a sealed face only."
        ),
        cites=("composite-course", "porous-model-page", "common-practice"),
        limits=("film_past_part",),
    )
    def seal_past_the_edge(
        self, name: str, seal: str, taped: bool, shape: str, side: str
    ) -> Step:
        tape = " It runs on under the tape line: bare tool under the tape leaks."
        on_a_core = shape == "closed" and side == "male"
        where = "on to both bare ends" if on_a_core else "over the tool's edge, all round"
        return Step(
            "seal",
            "Mark the net edge where it shows after coating. Carry every coat of the seal "
            "at least {film_past_part:length} past it and "
            f"{where}.{tape if taped else ''}",
            quantities=(Quantity("Seal past the net edge, at least", PAST_PART, "mm"),),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name, soft=True),
        Sealing(id=NE("none"), name=MATCH.seal),
    )
    @advice(
        id="STEP-210",
        title="Clean the body and decide: everything or nothing",
        reason=(
            "Sanding takes {name} much faster than the filler, so a spot-filled face ends "
            "up with moats round every spot, and bare areas end low."
        ),
    )
    def everything_or_nothing(self, name: str, seal: str) -> Step:
        return Step(
            "seal",
            "Vacuum it with an H-class or HEPA cleaner until a dark cloth stays clean. "
            "Seal the whole face and run over the edges; never fill in spots.",
            does=("cleans-dust",),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(id=PREPREG_SKIN, name=MATCH.seal, layers=MATCH.layers, build_m=MATCH.build),
    )
    @advice(
        id="STEP-222",
        title="Lay the skin in tooling prepreg and cure it on the body",
        reason=(
            "What is laid wet softens long before a hot cure; tooling prepreg cures cool "
            "on {name} and is walked up after it. The build of {build:gap} was left in the "
            "cut."
        ),
        cites=("tooling-laminate-article", "debulk-article", "common-practice"),
    )
    def prepreg_skin(self, name: str, seal: str, layers: list[str], build: float) -> Step:
        return Step(
            "seal",
            "In this order: " + "; ".join(layers) + ".",
            does=(
                "mixes-resin",
                "coats",
                "handles-prepreg",
                "pulls-vacuum",
                "heats",
                "heats-tool",
                "heats-porous",
                "heats-bag",
                "sands-tool",
            ),
            quantities=(Quantity("Total build on the face", build, "mm"),),
            hold_point=HoldPoint(
                "Skin whole: no pinhole under a low lamp, no hollow sound",
                "none found; tapped all over",
                "lot, hours out, chart number",
            ),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(
            id=MATCH.seal_id & NE("none"),
            name=MATCH.seal,
            layers=MATCH.layers,
            build_m=MATCH.build,
            styrene=False,
        ),
        TEST(lambda seal_id: seal_id != PREPREG_SKIN),
    )
    @advice(
        id="STEP-220",
        title="Build up the seal in order",
        reason=(
            "Each layer closes what the one before leaves open; the build of {build:gap} "
            "was left in the cut."
        ),
    )
    def build_up(
        self, name: str, seal_id: str, seal: str, layers: list[str], build: float
    ) -> Step:
        return Step(
            "seal",
            "In this order: " + "; ".join(layers) + ".",
            does=("mixes-resin", "coats", "sands-tool"),
            quantities=(Quantity("Total build on the face", build, "mm"),),
            hold_point=HoldPoint(
                "Face closed: no pinhole under a low lamp, no sand-through to the block",
                (
                    "none found; a sand-through is skimmed again past the next edge, not "
                    "dabbed"
                ),
                "batch, mix ratio, temperature, humidity",
            ),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(
            id=NE("none"),
            name=MATCH.seal,
            layers=MATCH.layers,
            build_m=MATCH.build,
            styrene=True,
        ),
    )
    @advice(
        id="STEP-230",
        title="Build up the putty in order",
        reason=(
            "Putty shrinks as it hardens, so it is filled twice; the build of {build:gap} "
            "was left in the cut."
        ),
    )
    def build_up_putty(self, name: str, seal: str, layers: list[str], build: float) -> Step:
        return Step(
            "seal",
            "In this order: " + "; ".join(layers) + ".",
            does=("mixes-resin", "coats", "uses-styrene", "sands-tool"),
            quantities=(Quantity("Total build on the face", build, "mm"),),
            hold_point=HoldPoint(
                "Face closed and covered: no bare putty where prepreg will lie",
                "none found",
                "batch, mix ratio, temperature, humidity",
            ),
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Sealing(id=NE("none"), name=MATCH.seal, limit_as_painted_c=MATCH.painted),
        Tool(owned=False, service_limit_c=MATCH.service, short_limit_c=MATCH.stop),
        TEST(lambda hot, painted: painted < hot + COAT_MARGIN),
    )
    @advice(
        id="STEP-240",
        title="Bake the coat in stages",
        reason=(
            "As painted the coat softens at {painted:temperature}; only a slow bake above "
            "the {hot:temperature} of the cure makes it fit, and too fast a bake blisters "
            "it."
        ),
        cites=("post-cure-article", "tg-after-cold-cure-thread"),
        limits=("bake_hold", "coat_margin"),
    )
    def bake_the_coat(
        self, hot: float, seal: str, painted: float, service: float, stop: float
    ) -> Step:
        hours = "a bake of hours may go there, a run of cures may not"
        return Step(
            "seal",
            "Unbagged and fully supported, from 40 °C (104 °F) in steps of 10 °C (18 °F) "
            "with at least 1 h at each, no faster than 10 °C (18 °F) an hour between, up "
            "to {bake_hold:difference} above the tool temperature of {hot:temperature}; "
            "hold 4 h, or as the resin's sheet says. "
            + above_service(hot + BAKE_HOLD, service, stop, hours)
            + "Never above the tool's own limit.",
            does=("heats", "heats-tool", "heats-porous"),
            hold_point=HoldPoint(
                "Baked to the last step, thermocouple on the coat",
                "chart shows the hold; coat does not take a fingernail warm",
                "chart number",
            ),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name, porous=True),
        Sealing(id=NE("none"), name=MATCH.seal),
    )
    @advice(
        id="STEP-211",
        title="Warm a porous body before it is coated",
        reason=(
            "Air in the pores of {name} grows as it warms and blows bubbles through a "
            "fresh coat; as it cools it draws the resin in instead."
        ),
        cites=("outgassing-coating-page", "common-practice"),
    )
    def warm_before_coating(self, name: str, seal: str) -> Step:
        return Step(
            "seal",
            "Take the dry, bare body to 10 to 15 °C (18 to 27 °F) above the room in the "
            "oven, unbagged, right through; then heat off, and coat it outside the oven "
            "while it cools. If it has stood in the shop since it was dried, it is weighed "
            "first, and dried again where it has gained.",
            does=("heats", "heats-tool", "heats-porous", "lifts"),
        )

    @Rule(
        Tool(owned=False, dust="wood", name=MATCH.name),
        Sealing(id=NE("none"), name=MATCH.seal),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-212",
        title="Seal back, edges and holes as well as the face",
        reason=(
            "{name} takes up water by every bare face and edge: sealed on one side only it "
            "bends, and gas comes out of its edges under the bag."
        ),
        cites=("mdf-mould-forum", "mdf-industry-moisture"),
    )
    def seal_every_face(self, name: str, seal: str, hot: float) -> Step:
        return Step(
            "seal",
            "While it is dry and warm, coat back, sides and every hole with two thin coats "
            "of an unfilled epoxy that stands {hot:temperature}, baked with the seal where "
            "it needs that; cut edges with three. Let it harden on points, turned once.",
            does=("mixes-resin", "coats"),
            hold_point=HoldPoint("No bare board anywhere", "turned over and looked at", ""),
        )

    @Rule(
        Tool(owned=False, name=MATCH.name),
        Sealing(
            id=NE("none"), name=MATCH.seal, styrene=MATCH.styrene, solvent=MATCH.solvent
        ),
        TEST(lambda styrene, solvent: styrene or solvent),
    )
    @advice(
        id="STEP-242",
        title="Let the coat harden right through before release or prepreg",
        reason=(
            "Solvent, styrene or peroxide left in {seal} keeps release from hardening and "
            "the first ply soft or tacky, and blisters the coat when it is warmed."
        ),
        cites=("common-practice", "mdf-mould-forum"),
    )
    def hardened_through(self, name: str, seal: str, styrene: bool, solvent: bool) -> Step:
        return Step(
            "seal",
            "Where no bake has done it: harden at room temperature as the sheet says, then "
            "warm, unbagged and with the exhaust led outdoors, for the hours of the sheet; "
            "no coat wet with solvent goes into an oven, and the nose is no gauge of a "
            "vapour. On an offcut coated, hardened and released alike, cure one patch of "
            "the same prepreg, the cut-out set as for a bagged part: its moulded face must "
            "be as hard as its back. If it is soft or tacky, strip or cover the coat; more "
            "release does not mend it.",
            does=(
                "heats",
                "heats-tool",
                "heats-bag",
                "pulls-vacuum",
                "handles-prepreg",
                "demoulds",
                *(("uses-styrene",) if styrene else ()),
                *(("uses-solvent",) if solvent else ()),
            ),
            hold_point=HoldPoint(
                "Hours of the sheet over; patch hard on both faces",
                "a gloved fingernail leaves no mark on coat or patch",
                "hours, temperature, offcut kept",
            ),
        )

    @Rule(Tool(tightness="tight", name=MATCH.name), Sealing(id="none"))
    @advice(
        id="STEP-250",
        title="Clean and polish the bare face",
        reason=(
            "What is on the tool is on the part: old wax, dust and scratches copy and hold."
        ),
        cites=("composite-course", "release-guidelines"),
    )
    def polish_bare_face(self, name: str) -> Step:
        return Step(
            "seal",
            "Strip old release fully with the cleaner its sheet names, polish out "
            "scratches that catch a fingernail, and wipe until a white cloth stays clean.",
            does=("uses-solvent", "sands-tool", "cleans-dust"),
            hold_point=HoldPoint(
                "Face clean and whole", "water spreads and does not bead", ""
            ),
        )

    @Rule(
        Tool(tightness=NE("tight"), porous=True, owned=False, name=MATCH.name),
        Sealing(id="none"),
    )
    @advice(
        id="STEP-260",
        title="Bind the dust under the film",
        reason=(
            "Film does not stick to dust; a starved coat binds it without filling the "
            "pores."
        ),
    )
    def bind_the_dust(self, name: str) -> Step:
        return Step(
            "seal",
            "Vacuum the face, wipe on a starved coat of dust binder, let it dry fully; no "
            "film on a damp or dusty face.",
            does=("cleans-dust",),
        )
