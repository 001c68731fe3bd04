"""Laying up: thaw, kit, first ply, debulks, where plies stop, and consumables to pull."""

import math
from typing import Literal

from advisor.calculations import consumables, cost, laminate, volumes
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import Caution, Finding, HoldPoint, Quantity, Step, Use
from advisor.reasoning.expert import GT, MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import (
    Activity,
    Bagging,
    Cure,
    Found,
    Laminate,
    Part,
    Release,
    Route,
    Run,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .draping import is_a_cap  # noqa: TID251 (a sibling, not a copy)

BASE = limit("base_thickness")
PLEATS = limit("bag_allowance")
AROUND = limit("envelope_margin")
OFFCUT = limit("offcut_share")
PLY_STOP = limit("ply_stop")
STAGGER = limit("dart_stagger")
TIGHT = limit("tight_corner")


def for_the_run(
    item: str,
    each: float,
    unit: str,
    allowance: str,
    parts: int,
    lot: Literal["part"] | None = "part",
) -> list[Use]:
    """Return what one part takes, and what all parts take if there are several."""
    uses = [Use(f"{item}, each part", each, unit, allowance, lot)]
    if parts > 1:
        uses.append(Use(f"{item}, all {parts} parts", parts * each, unit, allowance))
    return uses


class LayingSteps:
    """Prepreg on the tool."""

    stage = "plan"

    @Rule(Cure(resin=MATCH.resin), Found(key="highest-humidity", value=MATCH.most))
    @advice(
        id="STEP-510",
        title="Thaw sealed, log the hours out",
        reason="Moisture that condenses on cold prepreg becomes pores at one bar.",
        cites=("prepreg-makers-guide", "army-composites-manual"),
    )
    def thaw(self, resin: str, most: float) -> Step:
        return Step(
            "lay-up",
            "Leave the roll sealed until nothing more condenses on the bag; write date "
            "and hours out on the roll's card. Lay up at 15 to 25 °C (59 to 77 °F) and "
            "{most:percent} humidity or less; where the air is more damp, a ply lies open "
            "for no more than an hour.",
            does=("handles-prepreg",),
            hold_point=HoldPoint(
                "Material in life",
                "hours out and date within the sheet's",
                "lot, hours out",
            ),
        )

    @Rule(Laminate(layup=MATCH.layup & NE(""), plies=MATCH.plies))
    @advice(
        id="STEP-514",
        title="Write the kit list by the lay-up",
        reason=(
            "A ply at a wrong angle looks like any other once it is down: {plies:plies}, "
            "{layup}, are checked against a list, not against memory."
        ),
        cites=("common-practice",),
    )
    def write_the_kit_list(self, layup: str, plies: int) -> Step:
        return Step(
            "lay-up",
            "Write down number, angle and size of each ply from the tool outward, by "
            "{layup}, with the direction of 0 degrees marked beside the part, off the "
            "release.",
        )

    @Rule(
        Laminate(plies=MATCH.plies, areal_weight=MATCH.areal),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-520",
        title="Cut the kit away from the tool",
        reason=(
            "A knife on a tool cuts its seal, film and face; plies cut from a template "
            "weigh and fit the same each time."
        ),
        cites=("ply-template-page", "common-practice"),
    )
    def cut_kit(self, plies: int, areal: float, name: str) -> Step:
        return Step(
            "lay-up",
            "Cut {plies:plies} of {areal:areal} from templates on the table; mark number "
            "and angle on each backing. If a trim on the tool cannot be avoided, slide a "
            "strip of thin steel in first.",
            does=("handles-prepreg", "cuts-with-knife"),
            quantities=(Quantity("Plies", float(plies), "count"),),
        )

    @Rule(
        Laminate(plies=MATCH.plies),
        Part(shape=MATCH.shape),
        Cure(pressure=among("vacuum", "autoclave")),
    )
    @advice(
        id="STEP-530",
        title="Press down the first ply by itself, then debulk",
        reason="Pits in the face start under the first ply: air has no other way out.",
        cites=("debulk-article", "knowledge-centre-debulk"),
    )
    def debulk(self, plies: int, shape: str) -> Step:
        into = "press it into every corner" if shape != "flat" else "press it down all over"
        return Step(
            "lay-up",
            f"Lay the first ply from the middle, {into}, debulk it alone 10 to 20 min "
            "under full vacuum; again after every third ply and after the last of {plies}. "
            "Check angle and boundary of each ply, trim stray yarns, count the backings.",
            does=("handles-prepreg", "pulls-vacuum"),
            hold_point=HoldPoint(
                "Ply count, angles and edges",
                "as the kit list; no ply or yarn over the released edge; second person "
                "signs",
                "backings counted",
                signers=2,
            ),
        )

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature", "closed"),
            tool_side="female",
        )
    )
    @advice(
        id="STEP-517",
        title="Slip the plies in inside corners",
        reason="Cloth does not stretch: one ply run across an inside corner bridges it.",
        cites=("slip-joint-article",),
    )
    def slip_joints(self) -> Step:
        return Step(
            "lay-up",
            "For inside corners cut each ply in two pieces that lap in the corner and "
            "slide home under the bag; over outside edges run plies whole.",
            does=("handles-prepreg", "cuts-with-knife"),
        )

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature", "closed"),
            tool_side="female",
        ),
        Laminate(plies=MATCH.plies & GT(1)),
    )
    @advice(
        id="STEP-512",
        title="Stagger the laps from ply to ply",
        reason=(
            "{plies} laps over one another make a ridge that holds the bag off beside it, "
            "and a weak line; butted, they leave a crack full of resin."
        ),
        cites=("ply-stagger-article", "common-practice"),
        limits=("dart_stagger",),
    )
    def stagger_laps(self, plies: int) -> Step:
        return Step(
            "lay-up",
            "Move the lap of each ply at least {dart_stagger:length} from that of the ply "
            "below, to either side of the corner in turn. Doublers go in the middle of the "
            "stack, each edge stepped by as much, never two edges on one line. Mark laps "
            "and edges on the templates.",
            quantities=(
                Quantity("Laps and edges stepped from ply to ply, at least", STAGGER, "mm"),
            ),
        )

    @Rule(
        Part(
            shape=NE("flat"),
            tool_side="female",
            smallest_radius_m=MATCH.radius,
        ),
        Found(key="laminate-thickness", value=MATCH.thick),
        TEST(lambda radius, thick: radius < TIGHT * thick),
    )
    @advice(
        id="STEP-513",
        title="Press each ply into the tight corner by itself",
        reason=(
            "An inside corner of {radius:length} is under {tight_corner:number} times the "
            "{thick:gap} of the laminate: plies stretched across it bridge, and the corner "
            "fills with resin or stays hollow."
        ),
        limits=("tight_corner",),
    )
    def tight_corner(self, radius: float, thick: float) -> Step:
        return Step(
            "lay-up",
            "Lay the ply from the corner outward, never from wall to wall; press it home "
            "with a rounded slip of plastic and debulk after every ply. Before bagging set "
            "a soft strip that fills the corner under the release film, so that the bag "
            "presses there too. Ease the corner on the drawing if the part allows it.",
            does=("handles-prepreg", "pulls-vacuum"),
            hold_point=HoldPoint(
                "Corner tapped after each debulk",
                "no hollow sound, no light under it",
                "",
            ),
        )

    @Rule(Tool(soft=True, name=MATCH.name), Part(shape=MATCH.shape))
    @advice(
        id="STEP-516",
        title="Stop the plies short of the released edge",
        reason=(
            "Resin creeps 5 to 15 mm (0.2 to 0.6 in) past the plies; carbon that hangs "
            "over the released edge bonds to {name} and is chiselled off."
        ),
        limits=("ply_stop",),
    )
    def stop_short(self, name: str, shape: str) -> Step:
        return Step(
            "lay-up",
            "Make the templates so that every ply ends at least {ply_stop:length} inside "
            "the edge of film or release, all round; stray yarns are trimmed on the table.",
            quantities=(
                Quantity("Plies end inside the released edge, at least", PLY_STOP, "mm"),
            ),
            hold_point=HoldPoint(
                "Templates laid on the tool",
                "each ends {ply_stop:length} or more inside the released edge",
                "",
                held_for="first part",
            ),
        )

    @Rule(
        Cure(pressure=MATCH.mode & among("vacuum", "autoclave")),
        Laminate(plies=MATCH.plies),
        Bagging(both_faces=False),
    )
    @advice(
        id="STEP-560",
        title="Give every ply edge a way to breathe",
        reason=(
            "Gas leaves along the plies; a dam alone seals it in and the laminate comes "
            "out white."
        ),
        cites=("gas-evacuation-paper", "debulk-article"),
        limits=("vent_spacing",),
    )
    def breathe_at_edges(self, mode: str, plies: int) -> Step:
        return Step(
            "lay-up",
            "Set a dam 1 to 3 mm (0.04 to 0.1 in) outside the net edge, as high as the "
            "laminate; lead dry glass tow from the ply edges under or over it to the "
            "breather, every {vent_spacing:length}.",
            does=("handles-prepreg",),
        )

    @Rule(
        Part(shape=NE("flat")),
        Bagging(both_faces=False, pressure=among("vacuum", "autoclave"), name=MATCH.bag),
    )
    @advice(
        id="STEP-511",
        title="Rehearse the bag dry",
        reason=(
            "A bag that bridges is found in ten minutes before the plies are down, and "
            "never after."
        ),
        cites=("army-composites-manual",),
    )
    def rehearse_bag(self, bag: str) -> Step:
        return Step(
            "lay-up",
            "Bag the empty, released tool with the film cut for the part, pull down, and "
            "look that film and pleats reach every inside corner.",
            does=("pulls-vacuum",),
        )


class ThingsToPull:
    """What to take from the shelf for one part."""

    stage = "plan"

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Laminate(plies=MATCH.plies, areal_weight=MATCH.areal, resin_content=MATCH.resin),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-010",
        title="Pull prepreg for one part, order it for the run",
        reason=(
            "{plies:plies} over {area:area}, {offcut_share:percent} more for offcut; "
            "the run is {parts:parts}, and spoiled ones come on top."
        ),
        limits=("offcut_share",),
    )
    def use_prepreg(
        self, area: float, plies: int, areal: float, resin: float, parts: int
    ) -> list[Use | Finding]:
        mass = laminate.laminate_mass_kg(area, plies, areal, resin)
        bought = area * plies * (1 + OFFCUT)
        return [
            *for_the_run("Prepreg", bought, "m**2", "{offcut_share:percent} offcut", parts),
            Finding(
                "part-mass",
                "Part, cured",
                mass,
                "kg",
                "A · n · FAW / (1 − Wr), no bleed",
                worked=worked(
                    "{} · {} · {} / (1 − {})",
                    (area, "m**2"),
                    plies,
                    (areal, "g/m**2"),
                    resin,
                ),
            ),
        ]

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Part(
            shape="double-curvature",
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
            draft_deg=MATCH.draft,
        ),
        Laminate(plies=MATCH.plies),
        Run(parts=MATCH.parts),
        TEST(is_a_cap),
        TEST(
            lambda area, length, width, depth, draft: (
                volumes.steep_face_area_m2(length, width, depth, draft)
                > area * (1 + OFFCUT)
            )
        ),
    )
    @advice(
        id="USE-012",
        title="Measure the face before prepreg is ordered",
        reason=(
            "Prepreg is counted over a cap of {area:area}. Sides that stand at "
            "{draft:angle} all round, the least draft given, make it {value:area}: only "
            "the model, or paper laid over the shape, tells where between them the part is."
        ),
        cites=("common-practice",),
        limits=("offcut_share",),
    )
    def use_more_prepreg(
        self,
        area: float,
        length: float,
        width: float,
        depth: float,
        draft: float,
        plies: int,
        parts: int,
    ) -> list[Finding | Use]:
        steep = volumes.steep_face_area_m2(length, width, depth, draft)
        leans = (2.0 * depth * math.tan(math.radians(draft)), "mm")
        return [
            Finding(
                "face-area-steep",
                "Moulded face if its sides stand at the least draft all round, developed",
                steep,
                "m**2",
                "(L − b) · (W − b) + 2 · D · (L + W − b) / cos d, b = 2 · D · tan d",
                limit=area * (1 + OFFCUT),
                judgement="watch",
                worked=worked(
                    "({} − {}) · ({} − {}) + 2 · {} · ({} + {} − {}) / {}",
                    (length, "mm"),
                    leans,
                    (width, "mm"),
                    leans,
                    (depth, "mm"),
                    (length, "mm"),
                    (width, "mm"),
                    leans,
                    math.cos(math.radians(draft)),
                ),
            ),
            *for_the_run(
                "Prepreg at most",
                steep * plies * (1 + OFFCUT),
                "m**2",
                "if the sides are steep all round: measure the face before ordering",
                parts,
                lot=None,
            ),
        ]

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Part(
            shape=MATCH.shape,
            tool_side=MATCH.side,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        ),
        Bagging(
            pressure=among("vacuum", "autoclave"),
            all_round=MATCH.all_round,
            both_faces=MATCH.both,
            margin_m=MATCH.margin,
        ),
        Tool(form=MATCH.form),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-020",
        title="Pull bagging for one part, order it for the run",
        reason=(
            "Developed area of what lies under the bag, with {bag_allowance:percent} for "
            "pleats; the run is {parts:parts}, and each takes a new bag."
        ),
        cites=("army-composites-manual",),
        limits=("bag_allowance", "base_thickness", "envelope_margin"),
    )
    def use_bagging(
        self,
        area: float,
        shape: volumes.Shape,
        side: volumes.Side,
        length: float,
        width: float,
        depth: float,
        all_round: bool,
        both: bool,
        margin: float,
        form: str,
        parts: int,
    ) -> list[Use]:
        size = volumes.tool_blank(shape, side, length, width, depth, margin, BASE)
        bodiless = form in ("laminate", "plate")
        height = depth if bodiless else size.height_m + BASE * both
        if all_round:
            need = consumables.envelope_bag_materials(
                size.length_m, size.width_m, height, AROUND, area, PLEATS, ports=2
            )
        else:
            need = consumables.surface_bag_materials(
                length, width, height, margin, area, PLEATS, ports=2
            )
        pulled = (
            ("Bag film", need.bag_area_m2, "m**2", "pleats included"),
            ("Sealant tape", need.tape_length_m, "m", "two ports and pleats"),
            ("Breather", need.breather_area_m2, "m**2", "laps included"),
            (
                "Release film over the plies",
                need.release_area_m2,
                "m**2",
                "laps included",
            ),
        )
        under_the_bag = pulled[:-1] if both else pulled  # no film between two halves
        return [use for one in under_the_bag for use in for_the_run(*one, parts)]

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Bagging(inside=True, bladder=False, name=MATCH.bag),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-022",
        title="Pull tube film for one part, order it for the run",
        reason=(
            "{bag} lines {area:area} of section besides the bag outside, "
            "{bag_allowance:percent} more for slack; each part takes a new tube."
        ),
        limits=("bag_allowance",),
    )
    def use_tube(self, area: float, bag: str, parts: int) -> list[Use]:
        return for_the_run(
            "Tube of bag film", area * (1 + PLEATS), "m**2", "slack included", parts
        )

    @Rule(
        Run(parts=MATCH.parts),
        Route(parts_per_tool=MATCH.life),
        Release(name=MATCH.release, pulls=MATCH.pulls),
    )
    @advice(
        id="USE-030",
        title="Plan how often the release is renewed",
        reason=("{release} gives about {pulls:pulls} an application over {parts:parts}."),
    )
    def use_release(self, parts: int, life: int, release: str, pulls: float) -> Use:
        times = cost.coats_needed(parts, life, max(1, int(pulls)))
        return Use(
            "Release, applications over the run",
            float(times),
            "count",
            "at first drag, sooner",
        )


class LayingCautions:
    """What prepreg and knives can do."""

    stage = "people"

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-with-knife", "demoulds", "trims-part", "breaks-tool")
        ),
        Tool(name=MATCH.name),
    )
    @advice(
        id="CAUT-710",
        title="Guard the hands",
        reason="Knives, wedges, chisels and cured edges cut deep.",
        cites=("cut-glove-table", "demould-safety-page"),
    )
    def cutting_caution(self, activity: str, name: str) -> Caution:
        return Caution("cutting", activity)
