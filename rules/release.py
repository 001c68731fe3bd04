"""What lets the part go: judged for each sealed face, then written as steps."""

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import (
    Caution,
    Doubtful,
    Good,
    HoldPoint,
    Quantity,
    RuledOut,
    Step,
    Trial,
)
from advisor.reasoning.expert import MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import (
    Activity,
    Bagging,
    Finish,
    Found,
    Need,
    Part,
    Release,
    Run,
    Sealing,
    Tool,
)
from advisor.reasoning.rulebook import advice

LASTS = limit("lasting_pulls")
LEAD = limit("air_lead")
PAST_PART = limit("film_past_part")


class JudgeRelease:
    """Which releases suit this face."""

    stage = "release"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Release(name=MATCH.release, limit_c=MATCH.limit_c),
        TEST(lambda hot, limit_c: hot > limit_c),
    )
    @advice(
        id="REL-010",
        title="Do not heat this release so far",
        reason="{release} holds {limit_c:temperature}; the face sees {hot:temperature}.",
        cites=("release-questions-page", "common-practice"),
    )
    def release_too_hot(self, release: str, hot: float, limit_c: float) -> RuledOut:
        return RuledOut("a tool temperature of {limit_c:temperature} or less")

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Release(name=MATCH.release, limit_c=MATCH.limit_c),
        TEST(lambda hot, limit_c: hot <= limit_c < hot + LEAD),
    )
    @advice(
        id="REL-017",
        title="Leave room between the release's limit and the oven's air",
        reason=(
            "{release} holds {limit_c:temperature} and the face sees {hot:temperature}; "
            "the air leads by up to {air_lead:difference}, and bare edges of the face "
            "follow the air."
        ),
        limits=("air_lead",),
    )
    def release_at_its_limit(self, release: str, hot: float, limit_c: float) -> Doubtful:
        return Doubtful(
            "{release} stands the hottest air of the cure.",
            "its sheet names a limit above the air's; or the oven's own cut-out is set to "
            "{limit_c:temperature} or less",
        )

    @Rule(
        Release(name=MATCH.release, surface=among("sealed", "smooth")),
        Sealing(id="none"),
        Tool(porous=True, name=MATCH.name),
    )
    @advice(
        id="REL-020",
        title="Never put a liquid release on open pores",
        reason=(
            "{release} is for a sealed, smooth face; open pores of {name} drink it and "
            "the resin keys in."
        ),
        cites=("composite-course", "porous-model-page", "release-systems-article"),
    )
    def drinks_the_release(self, release: str, name: str) -> RuledOut:
        return RuledOut("a sealed face")

    @Rule(
        Part(shape=MATCH.shape),
        Release(name=MATCH.release, curvature=MATCH.suits, poor_on=MATCH.strips),
        TEST(lambda shape, suits, strips: shape not in suits and shape not in strips),
    )
    @advice(
        id="REL-030",
        title="Do not force film over this shape",
        reason=(
            "{release} lies on flat and developable faces; on a {shape} part it wrinkles "
            "and tears."
        ),
        cites=("geometry-handout",),
    )
    def film_does_not_lie(
        self, shape: str, release: str, suits: list[str], strips: list[str]
    ) -> RuledOut:
        return RuledOut("a flat or single-curved part")

    @Rule(
        Need(kind="face", value="polished"),
        Release(name=MATCH.release, finish=MATCH.finish & among("matt", "texture")),
    )
    @advice(
        id="REL-050",
        title="Do not put a matt release under a gloss part",
        reason="{release} leaves a {finish} face with its seams; the part has to be gloss.",
    )
    def matt_under_gloss(self, release: str, finish: str) -> RuledOut:
        return RuledOut("a satin or hidden face")

    @Rule(
        Need(kind="face", value="filled"),
        Release(name=MATCH.release, finish="texture"),
    )
    @advice(
        id="REL-055",
        title="Expect to fill before paint",
        reason=(
            "{release} prints its texture or wrinkles, which have to be filled or sanded "
            "before paint."
        ),
        cites=("release-systems-article", "common-practice"),
    )
    def texture_under_paint(self, release: str) -> Doubtful:
        return Doubtful(
            "The customer accepts the texture, or a fill coat is in the price.",
            "a sample shown to the customer",
        )

    @Rule(
        Need(kind="transfer", value="none"),
        Finish(after=MATCH.after),
        Release(name=MATCH.release, transfers=True),
    )
    @advice(
        id="REL-060",
        title="Keep this release away from faces to be painted or bonded",
        reason="{release} leaves traces on the part, and the face is to be {after}ed.",
        cites=("peel-ply-far-06-28",),
    )
    def transfers(self, release: str, after: str) -> RuledOut:
        return RuledOut("a face that is neither painted nor bonded")

    @Rule(
        Sealing(name=MATCH.seal, film_only=True),
        Release(name=MATCH.release, is_film=False),
    )
    @advice(
        id="REL-070",
        title="Put film over putty",
        reason=(
            "Styrene and peroxide left in {seal} can upset the cure and the release; "
            "prepreg must not lie on it uncovered."
        ),
    )
    def putty_needs_film(self, seal: str, release: str) -> RuledOut:
        return RuledOut("a film release, or another coat over the putty")

    @Rule(
        Run(parts=MATCH.parts),
        Need(
            kind="removal",
            value=among("one-piece", "one-piece-with-care", "loose-piece"),
        ),
        Release(name=MATCH.release, pulls=MATCH.pulls, is_film=False),
        TEST(lambda parts, pulls: parts > 1 and pulls >= LASTS),
    )
    @advice(
        id="REL-080",
        title="Use a release that lasts for a run",
        reason=(
            "{release} gives about {pulls:pulls} an application; {parts:parts} are wanted."
        ),
        limits=("lasting_pulls",),
    )
    def lasts_for_a_run(self, release: str, pulls: float, parts: int) -> Good:
        return Good()

    @Rule(
        Sealing(id="none"),
        Tool(porous=True, name=MATCH.name),
        Release(is_film=True, name=MATCH.release),
        Part(shape=MATCH.shape),
    )
    @advice(
        id="REL-090",
        title="Accept that pores show under film",
        reason=(
            "Over the bare pores of {name}, {release} bridges but does not fill: pores "
            "and seams show."
        ),
        cites=("student-wiki-film", "common-practice"),
    )
    def pores_under_film(self, name: str, release: str, shape: str) -> Doubtful:
        return Doubtful(
            "The print of pores through the film is acceptable on a sample.",
            "a film patch on an offcut, bagged at cure temperature with one ply",
        )


class ReleaseSteps:
    """The release as work on the bench."""

    stage = "plan"

    @Rule(
        Tool(
            owned=False,
            form=among("block", "pocketed", "board", "sheet", "core"),
            name=MATCH.name,
            joint=MATCH.joint,
        ),
        Sealing(id=NE("none"), name=MATCH.seal),
        Release(is_film=False, name=MATCH.release),
    )
    @advice(
        id="STEP-114",
        title="Try seal and release on a coupon as soon as stock is in the shop",
        reason=(
            "Parts stick where {name}, seal and release do not suit each other: a coupon "
            "shows it in days, before the blank is bonded and cut."
        ),
        cites=("release-questions-page", "common-practice"),
    )
    def early_coupon(
        self, name: str, joint: str, seal: str, release: str
    ) -> list[Step | Trial]:
        bonded = "" if joint == "none" else " with a joint of the adhesive across it"
        return [
            Step(
                "make-tool",
                f"Saw a coupon from the first piece{bonded} and dry it to steady mass. Put "
                "{seal} on it layer by layer, with its bake if it has one, then {release} "
                "as on the tool, each flashed off as long as there. Cure a small patch of "
                "the same prepreg on it under vacuum through the whole cycle, the cut-out "
                "set as for a bagged part, and peel it. "
                "Keep the coupon and the batch numbers.",
                does=(
                    "cuts-tool",
                    "cleans-dust",
                    "mixes-resin",
                    "coats",
                    "uses-styrene",
                    "sands-tool",
                    "uses-solvent",
                    "handles-prepreg",
                    "pulls-vacuum",
                    "heats",
                    "heats-bag",
                    "heats-porous",
                    "demoulds",
                ),
                hold_point=_coupon_lets_go(),
            ),
            _coupon_trial("Coupon: stock of the same lot, {seal}, "),
        ]

    @Rule(
        Tool(
            owned=False,
            form=among("block", "pocketed", "board", "sheet", "core"),
            name=MATCH.name,
        ),
        Sealing(id=NE("none"), name=MATCH.seal),
        Release(is_film=False, name=MATCH.release),
    )
    @advice(
        id="STEP-412",
        title="Hold the finished face against its coupon",
        reason=(
            "The coupon speaks for the tool only if seal, bake and release are the same; "
            "twenty more coats of release do not cure a face that is not."
        ),
        cites=("release-questions-page", "common-practice"),
    )
    def face_like_the_coupon(self, name: str, seal: str, release: str) -> Step:
        return Step(
            "release",
            "Lay the coupon and its record beside the tool. Look at both under a low lamp "
            "and press a fingernail into both, outside the part. Where batch, layers, bake "
            "or face differ, make a new coupon with what is on the tool before releasing.",
            does=(),
            hold_point=HoldPoint(
                "Face as the coupon that let go",
                "same batches, layers and bake; hard, closed, not tacky",
                "coupon number",
                held_for="tool",
            ),
        )

    @Rule(
        Tool(owned=True, form=NE("plate"), name=MATCH.name),
        Release(is_film=False, name=MATCH.release),
        Found(key="tool-temperature", value=MATCH.hot),
    )
    @advice(
        id="STEP-408",
        title="Find out what the face is before it is released",
        reason=(
            "What was painted or waxed on {name} is not known from its record alone, and "
            "one coat that softens or does not take {release} costs part and face."
        ),
        cites=("common-practice",),
    )
    def unknown_face(self, name: str, release: str, hot: float) -> Step:
        return Step(
            "release",
            "Outside the part, rub with a white cloth damp with the cleaner that the "
            "release's sheet names: a coat that softens or colours the cloth is stripped "
            "and sealed anew. Tape pulled off fast lifts nothing. Warmed to "
            "{hot:temperature} and back, it takes no fingernail. Where the coat's kind, or "
            "what it last was released with, stays unknown, lay a barrier for the first "
            "pull: wax, then PVA film whose sheet stands {hot:temperature}; else strip it.",
            does=("uses-solvent", "heats", "heats-tool"),
            hold_point=HoldPoint(
                "Face known, or barrier down",
                "clean cloth, nothing lifted, hard when warm",
                "coat, last release, what was done",
                held_for="tool",
            ),
        )

    @Rule(
        Tool(name=MATCH.name, owned=MATCH.owned, form=MATCH.form),
        Sealing(id=MATCH.seal_id, name=MATCH.seal),
        Release(is_film=False, name=MATCH.release),
        TEST(
            lambda owned, form, seal_id: (
                owned or seal_id == "none" or form in ("laminate", "cast", "printed")
            )
        ),
    )
    @advice(
        id="STEP-410",
        title="Try the release on a coupon of the same face",
        reason=(
            "New and reconditioned faces are where parts stick; twenty more coats do not "
            "cure an unsealed one."
        ),
        cites=("release-questions-page", "common-practice"),
    )
    def release_coupon(
        self, name: str, owned: bool, form: str, seal_id: str, seal: str, release: str
    ) -> list[Step | Trial]:
        face = "" if seal_id == "none" else "{seal} and "
        said = "" if seal_id == "none" else "{seal}, "
        return [
            Step(
                "release",
                f"Put {face}{{release}} on an offcut of the same finish, or on a corner "
                "outside the part, flashed off as long as on the tool, cure a small patch "
                "of the same prepreg on it, the cut-out set as for a bagged part, and peel "
                "it.",
                does=(
                    *(
                        ("mixes-resin", "coats", "uses-styrene", "sands-tool")
                        if face
                        else ()
                    ),
                    "uses-solvent",
                    "handles-prepreg",
                    "pulls-vacuum",
                    "heats",
                    "heats-bag",
                    "heats-tool",
                    "heats-porous",
                    "demoulds",
                ),
                hold_point=_coupon_lets_go(),
            ),
            _coupon_trial(f"Release coupon: {{name}} of the same finish, {said}"),
        ]

    @Rule(Release(id="semi-permanent", name=MATCH.release), Tool(name=MATCH.name))
    @advice(
        id="STEP-420",
        title="Apply the semi-permanent release",
        reason=(
            "It is a thin film: it holds only on a clean, sealed, dry face, coat by coat."
        ),
        cites=("release-guidelines",),
    )
    def apply_semi_permanent(self, release: str, name: str) -> Step:
        return Step(
            "release",
            "Air dry and clean. Mould sealer twice, 15 to 30 min apart; then release 3 to "
            "6 coats, 15 min apart, a fresh white cotton cloth for each; cure as its sheet "
            "says before the first ply. Ventilate until dry and odour-free.",
            does=("uses-solvent",),
            hold_point=HoldPoint(
                "Tape test at four places, once it is dry",
                "tape of the same roll slides off evenly",
                "coats, minutes",
            ),
        )

    @Rule(Release(id="wax", name=MATCH.release), Tool(name=MATCH.name))
    @advice(
        id="STEP-430",
        title="Wax in thin coats and wait",
        reason=(
            "A thick or fresh coat smears under the bag and prints; thin coats harden "
            "right through."
        ),
        cites=("mould-polish-page",),
    )
    def apply_wax(self, release: str, name: str) -> Step:
        return Step(
            "release",
            "Three to four thin coats on a new face, 30 min apart, each polished out; "
            "leave overnight before the first part; two coats before the second, one "
            "before the third.",
            does=("uses-solvent",),
            hold_point=HoldPoint(
                "Tape test at four places", "tape slides off evenly", "coats"
            ),
        )

    @Rule(Release(id="pva", name=MATCH.release), Tool(name=MATCH.name))
    @advice(
        id="STEP-440",
        title="Spray the water-soluble film over wax",
        reason="It is a barrier for one pull; a wet or thick coat blisters in the oven.",
        cites=("faa-ac-43-13-1b",),
    )
    def apply_pva(self, release: str, name: str) -> Step:
        return Step(
            "release",
            "Over polished wax, two to three mist coats and then one wet coat; dry 30 min "
            "or until it is a firm film everywhere; mask the flange where sealant tape "
            "goes.",
            does=("uses-solvent",),
            hold_point=HoldPoint("Film dry and closed", "no milky or wet place", "minutes"),
        )

    @Rule(
        Release(is_film=True, name=MATCH.release),
        Bagging(needs_tight_tool=False),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-450",
        title="Run the film past the part and over the edge",
        reason=(
            "Resin bleeds past the plies: where it meets bare tool it bonds, and has to "
            "be chiselled off."
        ),
        limits=("film_past_part",),
    )
    def film_past_the_edge(self, release: str, name: str) -> Step:
        return _film_step("over the tool's edge, which is rounded first")

    @Rule(
        Release(is_film=True, name=MATCH.release),
        Bagging(needs_tight_tool=True),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-455",
        title="Run the film past the part, short of the tape line",
        reason=(
            "Resin bleeds past the plies and bonds to bare tool; sealant tape does not "
            "hold on film."
        ),
        limits=("film_past_part",),
    )
    def film_to_the_tape(self, release: str, name: str) -> Step:
        return _film_step("short of the tape line, which stays bare and masked")

    @Rule(
        Release(is_film=False, name=MATCH.release),
        Bagging(needs_tight_tool=False),
        Tool(name=MATCH.name),
        Part(shape=MATCH.shape, tool_side=MATCH.side),
    )
    @advice(
        id="STEP-415",
        title="Carry the release past the part and over the edge",
        reason="Resin bleeds past the plies: where it meets unreleased tool it bonds.",
        cites=("release-systems-article", "common-practice"),
        limits=("film_past_part",),
    )
    def release_past_the_edge(self, release: str, name: str, shape: str, side: str) -> Step:
        on_a_core = shape == "closed" and side == "male"
        return _release_step(
            "on to its bare ends, all round the core"
            if on_a_core
            else "over the tool's edge, all round"
        )

    @Rule(
        Release(is_film=False, name=MATCH.release),
        Bagging(needs_tight_tool=True),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-417",
        title="Mask the tape line, and release up to it",
        reason=(
            "Resin bleeds past the plies and bonds to unreleased tool; sealant tape does "
            "not hold on release."
        ),
        limits=("film_past_part",),
    )
    def release_to_the_tape(self, release: str, name: str) -> Step:
        return _release_step(
            "stop it short of the tape line, all round", "Mask the tape line first. "
        )


def _coupon_lets_go() -> HoldPoint:
    """Return what every coupon has to show."""
    return HoldPoint(
        "Coupon lets go",
        "peels by hand, leaves nothing on the face",
        "coupon number",
        held_for="tool",
    )


def _coupon_trial(of: str) -> Trial:
    """Return the trial of a coupon; `of` says what it is made of, up to the release."""
    return Trial(
        "face",
        of + "{release} and the job's prepreg, full cycle.",
        "the patch peels by hand and the face is unmarked",
        (
            "any sticking, marked face or tacky resin: strip, find the cause, do not add "
            "coats"
        ),
    )


def _film_step(where: str) -> Step:
    """Return the step that lays a release film; `where` says how far it runs."""
    return Step(
        "release",
        "Lay the film from the middle, press out every bubble, run it at least "
        f"{{film_past_part:length}} past the net edge and {where}; lap seams in the draw "
        "direction. No heat gun, flame or hot wire on it.",
        does=("handles-film",),
        quantities=(Quantity("Film past the net edge, at least", PAST_PART, "mm"),),
        hold_point=HoldPoint(
            "Film down everywhere, no bubble, no gap at a seam",
            "none found; every scrap of film counted and removed",
            "scraps counted",
        ),
    )


def _release_step(where: str, first: str = "") -> Step:
    """Return the step that says how far a liquid release runs, before it is put on."""
    return Step(
        "release",
        f"{first}Carry every coat at least {{film_past_part:length}} past the net edge and "
        f"{where}. If the coupon left any doubt, use a sacrificial ply on the first part.",
        quantities=(Quantity("Release past the net edge, at least", PAST_PART, "mm"),),
    )


class ReleaseCautions:
    """What a release can do to people."""

    stage = "people"

    @Rule(
        Activity(name=MATCH.activity & among("handles-film", "heats-bag")),
        Release(fluoropolymer=True, name=MATCH.release),
    )
    @advice(
        id="CAUT-210",
        title="Guard against fluoropolymer fume",
        reason="{release} gives off harmful fume when it is overheated.",
        cites=("polymer-fume-fever-entry", "shusterman-1993"),
    )
    def fluoropolymer_caution(self, activity: str, release: str) -> Caution:
        return Caution("fluoropolymer", activity)

    @Rule(Activity(name="heats-bag"), Bagging(name=MATCH.bag))
    @advice(
        id="CAUT-212",
        title="Guard against fume from the bag",
        reason=(
            "Release film and tapes in the bag stack are often fluoropolymer: treat them "
            "so unless their sheet says otherwise."
        ),
        cites=("polymer-fume-fever-entry", "memory-bagging-catalogues"),
    )
    def bag_film_caution(self, bag: str) -> Caution:
        return Caution("fluoropolymer", "heats-bag")

    @Rule(Activity(name="uses-solvent"), Release(name=MATCH.release))
    @advice(
        id="CAUT-220",
        title="Guard against solvent",
        reason="Cleaning and liquid release put solvent vapour into the room.",
        cites=("osha-acetone-page", "solvent-safety-page"),
    )
    def solvent_caution(self, release: str) -> Caution:
        return Caution("solvent", "uses-solvent", agent="acetone")
