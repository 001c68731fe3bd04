"""What a trial of the face has to show before the tool is made, and how it is measured."""

from advisor.reasoning.conclusions import Gauged, Trial
from advisor.reasoning.expert import MATCH, NE, Rule, among
from advisor.reasoning.facts import Bagging, Need, Release, Sealing, Tool
from advisor.reasoning.rulebook import advice


class FilmTrial:
    """A film over a porous block is tried as a liquid release is."""

    stage = "plan"

    @Rule(
        Tool(porous=True, name=MATCH.name),
        Sealing(name=MATCH.seal),
        Release(is_film=True, name=MATCH.release),
    )
    @advice(
        id="COUPON-005",
        title="Try the film on an offcut before the block is cut",
        reason=(
            "Whether {release} bridges the pores of {name}, and its seams keep resin out, "
            "shows on an offcut with its widest pores for the price of one bag."
        ),
    )
    def try_the_film(self, name: str, seal: str, release: str) -> Trial:
        return Trial(
            "face",
            "Coupon: stock of the same lot with its widest pores, {seal}, {release} in "
            "strips lapped as on the tool, and the job's prepreg, full cycle.",
            "the patch peels by hand, no pore and no seam shows",
            "any pore printed, resin under the film or a wrinkle: strip, and seal first",
        )


class FaceMeasures:
    """What is measured on every patch."""

    stage = "plan"

    @Rule(Release(name=MATCH.release), Tool(name=MATCH.name))
    @advice(
        id="COUPON-010",
        title="Peel each patch by hand",
        reason=(
            "What does not come off a coupon by hand is stuck on a tool: {release} on "
            "{name} is trusted only if a hand alone peels the patch."
        ),
        cites=("release-questions-page", "common-practice"),
    )
    def peel(self, release: str, name: str) -> Gauged:
        return Gauged(
            "How it comes off",
            "cold, lifted at a corner with a wedge of plastic, then by hand; one person "
            "peels every patch, without being told which is which",
            "by hand, nothing left on the face, face unmarked",
        )

    @Rule(
        Tool(porous=True, name=MATCH.name),
        Need(kind="face", value=MATCH.face),
    )
    @advice(
        id="COUPON-020",
        title="Look for pores that print",
        reason=(
            "A pore of {name} that the seal leaves open fills with resin and shows on the "
            "part; the widest of the lot decide, not the usual ones."
        ),
    )
    def pores(self, name: str, face: str) -> Gauged:
        return Gauged(
            "Pores on the patch",
            "counted in a square of 100 mm (3.9 in) under a low lamp, the widest measured "
            "with a gauge",
            "none seen"
            if face == "polished"
            else "none that the finish of this job would show",
        )

    @Rule(Tool(porous=True, name=MATCH.name), Bagging(needs_tight_tool=True))
    @advice(
        id="COUPON-030",
        title="Test the seal for leaks on the coupon",
        reason=(
            "The bag is taped to {name}: air that comes through the seal ends in the "
            "laminate."
        ),
        limits=("leak_drop",),
    )
    def tight(self, name: str) -> Gauged:
        return Gauged(
            "Loss of vacuum",
            "a bag taped to the patch, steady first, then the pump shut off for ten "
            "minutes; before the first cure and after the last",
            "no more than {leak_drop:vacuum} in a minute",
        )

    @Rule(Tool(soft=True, name=MATCH.name))
    @advice(
        id="COUPON-040",
        title="Measure whether the face sinks under the bag",
        reason="{name} is soft: hot, under a bag, it can sink, and the part with it.",
        limits=("coupon_sink",),
    )
    def sink(self, name: str) -> Gauged:
        return Gauged(
            "Thickness of the offcut",
            "at five marked places with a caliper, before the first cure and after the "
            "last, cold",
            "no place changed by more than {coupon_sink:gap}",
        )

    @Rule(
        Sealing(id=among("epoxy-glass-skin", "tooling-prepreg-skin"), name=MATCH.seal),
        Tool(name=MATCH.name),
    )
    @advice(
        id="COUPON-050",
        title="Tap the skin after each cure",
        reason=(
            "{seal} and {name} grow differently: where the bond gives way, it starts at "
            "an edge and sounds hollow."
        ),
    )
    def skin(self, seal: str, name: str) -> Gauged:
        return Gauged(
            "Ring and edges of the skin",
            "tapped all over with a coin, edges looked at through a lens, after each cure",
            "the same ring everywhere, no edge lifted",
        )

    @Rule(Sealing(id=NE("none"), name=MATCH.seal), Release(name=MATCH.release))
    @advice(
        id="COUPON-060",
        title="Make sure that the prepreg cures on the seal",
        reason=(
            "What is left in {seal} or in {release} can keep the resin next to it from "
            "curing: the patch is then tacky where it lay on the face."
        ),
        cites=("release-questions-page", "common-practice"),
    )
    def cured(self, seal: str, release: str) -> Gauged:
        return Gauged(
            "Cure of the moulded face",
            "a wedge of plastic drawn over it, in gloves, and white paper pressed on it",
            "hard, no tack, no colour on the paper",
        )
