"""Resin, hardener, styrene and peroxide: cautions at each step that uses them."""

from advisor.reasoning.conclusions import Caution
from advisor.reasoning.expert import MATCH, Rule, among
from advisor.reasoning.facts import Activity, Cure, Finish, Found, Sealing
from advisor.reasoning.rulebook import advice


class ResinCautions:
    """What wet resin can do."""

    stage = "people"

    @Rule(
        Activity(
            name=MATCH.activity
            & among("mixes-resin", "handles-prepreg", "sands-tool", "trims-part")
        ),
        Cure(resin=MATCH.resin),
    )
    @advice(
        id="CAUT-510",
        title="Guard against epoxy allergy",
        reason=(
            "Resin, hardener, prepreg and half-cured dust can sensitise the skin for life."
        ),
        cites=("epoxy-resin-sds", "amine-hardener-sds", "uk-epoxy-sensitisation"),
    )
    def epoxy_caution(self, activity: str, resin: str) -> Caution:
        return Caution("epoxy", activity)

    @Rule(Activity(name="mixes-resin"), Cure(resin=MATCH.resin))
    @advice(
        id="CAUT-520",
        title="Guard against runaway heat",
        reason=(
            "As little as 100 g of mixed resin in a pot has gone to about 200 °C (400 °F)."
        ),
        cites=("uncontrolled-cure-page", "university-resin-fire-lesson"),
    )
    def exotherm_caution(self, resin: str) -> Caution:
        return Caution("exotherm", "mixes-resin")

    @Rule(
        Activity(name="mixes-resin"),
        Found(key="largest-batch", low=MATCH.mass),
        Found(key="pour-depth", low=MATCH.depth),
        Sealing(name=MATCH.seal),
    )
    @advice(
        id="CAUT-515",
        title="Guard against runaway heat",
        reason=(
            "As little as 100 g of mixed resin in a pot has gone to about 200 °C (400 °F); "
            "over {mass:grams}, or deeper than {depth:gap}, a batch for {seal} may do the "
            "same, and less may too."
        ),
        cites=("uncontrolled-cure-page", "university-resin-fire-lesson"),
    )
    def batch_caution(self, mass: float, depth: float, seal: str) -> Caution:
        return Caution("exotherm", "mixes-resin")

    @Rule(Activity(name="uses-styrene"), Sealing(styrene=True, name=MATCH.seal))
    @advice(
        id="CAUT-530",
        title="Guard against styrene",
        reason="{seal} gives off styrene.",
        cites=("osha-styrene-page", "niosh-guide-styrene"),
    )
    def styrene_caution(self, seal: str) -> Caution:
        return Caution("styrene", "uses-styrene", agent="styrene")

    @Rule(Activity(name="uses-styrene"), Sealing(styrene=True, name=MATCH.seal))
    @advice(
        id="CAUT-540",
        title="Guard against peroxide",
        reason="{seal} hardens with an organic peroxide.",
        cites=("peroxide-equipment-manual", "niosh-pel88-mekp"),
    )
    def peroxide_caution(self, seal: str) -> Caution:
        return Caution("peroxide", "uses-styrene", agent="methyl-ethyl-ketone-peroxide")

    @Rule(Activity(name="coats"), Sealing(solvent=True, name=MATCH.seal))
    @advice(
        id="CAUT-550",
        title="Guard against solvent in the coat",
        reason="{seal} holds solvent, which must flash off before any bag or oven.",
        cites=("osha-acetone-page", "solvent-safety-page"),
    )
    def coat_solvent_caution(self, seal: str) -> Caution:
        return Caution("solvent", "coats", agent="acetone")

    @Rule(Activity(name="uses-styrene"), Sealing(styrene=True, name=MATCH.seal))
    @advice(
        id="CAUT-542",
        title="Put the mask last where styrene is given off",
        reason=(
            "A mask is named against the styrene of {seal}; it comes after every other "
            "control."
        ),
        cites=("respirator-guidance-summary",),
    )
    def mask_against_styrene(self, seal: str) -> Caution:
        return Caution("respirator", "uses-styrene")

    @Rule(Activity(name="coats"), Sealing(isocyanate=True, name=MATCH.seal))
    @advice(
        id="CAUT-560",
        title="Guard against isocyanates",
        reason="{seal} may hold isocyanates.",
        cites=("memory-reach-training", "pu-heat-page"),
    )
    def isocyanate_caution(self, seal: str) -> Caution:
        return Caution("isocyanate", "coats", agent="isocyanates")

    @Rule(Activity(name="coats"), Sealing(isocyanate=True, name=MATCH.seal))
    @advice(
        id="CAUT-562",
        title="Put the mask last where isocyanate is coated",
        reason="A mask is named for {seal}; it comes after every other control.",
        cites=("respirator-guidance-summary",),
    )
    def mask_at_the_coat(self, seal: str) -> Caution:
        return Caution("respirator", "coats")

    @Rule(Activity(name="paints"), Finish(after=MATCH.after))
    @advice(
        id="CAUT-568",
        title="Guard against isocyanates in the paint",
        reason=(
            "Nothing is said of the {after} that follows: a two-part primer may hold "
            "isocyanates until its sheet says that it does not."
        ),
        cites=("memory-reach-training", "common-practice"),
    )
    def paint_caution(self, after: str) -> Caution:
        return Caution("isocyanate", "paints", agent="isocyanates")

    @Rule(Activity(name="discards"), Cure(resin=MATCH.resin))
    @advice(
        id="CAUT-570",
        title="Guard the people who take the waste",
        reason=(
            "Uncured resin, rags and dust burn, heat up or harm whoever handles them next."
        ),
        cites=("hazardous-waste-article", "waste-two-part-epoxy"),
    )
    def waste_caution(self, resin: str) -> Caution:
        return Caution("waste", "discards")
