"""What the job needs, whatever the tool: how hot, how it leaves, how good, how thick."""

import math

from advisor.calculations import laminate, volumes
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import Finding, Need
from advisor.reasoning.expert import GE, LT, MATCH, NE, NOT, TEST, Rule, W, among
from advisor.reasoning.facts import Cure, Finish, Laminate, Part, Plate
from advisor.reasoning.rulebook import advice

BLEED = limit("bleed_watched")
DRAFT_EASY = limit("draft_easy")
DRAFT_LEAST = limit("draft_least")
EDGE = limit("film_past_part")
LOCAL = limit("local_undercut")
TABLE = limit("table_margin")


class ToolTemperature:
    """How hot the tool gets."""

    stage = "needs"

    @Rule(Cure(temperature_c=MATCH.cure_c, free_standing_post_cure=False))
    @advice(
        id="NEED-010",
        title="Take the cure temperature for the tool",
        reason=(
            "The part is cured right through on its tool, so the tool sees "
            "{cure_c:temperature}."
        ),
        cites=("guide-to-prepregs", "prepreg-makers-guide"),
    )
    def tool_sees_the_cure(self, cure_c: float) -> Finding:
        return Finding(
            "tool-temperature",
            "Tool temperature",
            cure_c,
            "degC",
            "highest cure on the tool",
        )

    @Rule(Cure(first_cure_c=MATCH.first_c, free_standing_post_cure=True))
    @advice(
        id="NEED-020",
        title="Take the first cure for the tool",
        reason=(
            "The part gets a first cure at {first_c:temperature} on the tool and its full "
            "cure standing free, so the tool sees only the first."
        ),
        cites=("tooling-laminate-article",),
    )
    def tool_sees_the_first_cure(self, first_c: float) -> Finding:
        return Finding(
            "tool-temperature",
            "Tool temperature",
            first_c,
            "degC",
            "first cure on the tool",
        )


class Removal:
    """How the part and the tool come apart."""

    stage = "needs"

    @Rule(Part(shape="flat"))
    @advice(
        id="NEED-030",
        title="Lift the part off",
        reason="A flat part has no walls that hold it.",
    )
    def flat_lifts_off(self) -> Need:
        return Need("removal", "one-piece")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            undercut=False,
            draft_deg=GE(DRAFT_EASY) & MATCH.draft,
        )
    )
    @advice(
        id="NEED-040",
        title="Draw the part off a one-piece tool",
        reason=(
            "With {draft:angle} of draft and nothing undercut the part leaves a one-piece "
            "tool freely ({draft_easy:angle} or more is easy)."
        ),
        cites=("composite-dfm-handbook",),
        limits=("draft_easy",),
    )
    def draws_off(self, draft: float) -> Need:
        return Need("removal", "one-piece")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            undercut=False,
            draft_deg=GE(DRAFT_LEAST) & LT(DRAFT_EASY) & MATCH.draft,
        )
    )
    @advice(
        id="NEED-050",
        title="Draw the part off with care",
        reason=(
            "{draft:angle} of draft is workable, but below {draft_easy:angle} friction "
            "and any scratch hold the part."
        ),
        cites=("composite-dfm-handbook", "draft-guide-plastics"),
        limits=("draft_easy", "draft_least"),
    )
    def draws_off_with_care(self, draft: float) -> Need:
        return Need("removal", "one-piece-with-care")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            undercut=False,
            draft_deg=LT(DRAFT_LEAST) & MATCH.draft,
        )
    )
    @advice(
        id="NEED-060",
        title="Let the tool open, or let it go",
        reason=(
            "{draft:angle} of draft is under {draft_least:angle}: friction lasts to the "
            "end of the draw, so the tool must open or be taken out of the part."
        ),
        cites=("composite-dfm-handbook",),
        limits=("draft_least",),
    )
    def too_little_draft(self, draft: float) -> Need:
        return Need("removal", "opens-or-goes")

    @Rule(
        Part(shape=NE("flat"), undercut=True),
        NOT(Part(undercut_length_m=W())),
    )
    @advice(
        id="NEED-070",
        title="Let the tool open, or let it go",
        reason=(
            "Some face is hidden along the draw, so the part is locked on a one-piece "
            "tool: it must open or be taken out of the part."
        ),
        cites=("mould-textbook-chapter",),
    )
    def undercut_locks(self) -> Need:
        return Need("removal", "opens-or-goes")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            undercut=True,
            undercut_length_m=MATCH.hidden,
            undercut_places=MATCH.places,
            length_m=MATCH.length,
            width_m=MATCH.width,
            draft_deg=GE(DRAFT_LEAST) & MATCH.draft,
        ),
        TEST(lambda hidden, length, width: hidden < LOCAL * 2 * (length + width)),
    )
    @advice(
        id="NEED-073",
        title="Let a loose piece come away with the part",
        reason=(
            "{hidden:length} of edge is hidden along the draw ({places}), under "
            "{local_undercut:percent} of the way round: a piece of the tool there comes "
            "off with the part, and the rest need not open."
        ),
        cites=("multi-piece-moulds-lesson", "common-practice"),
        limits=("local_undercut", "draft_least"),
    )
    def loose_piece(
        self, hidden: float, places: str, length: float, width: float, draft: float
    ) -> Need:
        return Need("removal", "loose-piece")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            undercut=True,
            undercut_length_m=MATCH.hidden,
            length_m=MATCH.length,
            width_m=MATCH.width,
        ),
        TEST(lambda hidden, length, width: hidden >= LOCAL * 2 * (length + width)),
    )
    @advice(
        id="NEED-083",
        title="Split the tool where the undercut runs round",
        reason=(
            "{hidden:length} of edge is hidden along the draw, {local_undercut:percent} or "
            "more of the way round: so many loose pieces lie worse than two halves, so the "
            "tool must open or be taken out of the part."
        ),
        cites=("mould-textbook-chapter", "common-practice"),
        limits=("local_undercut",),
    )
    def undercut_runs_round(self, hidden: float, length: float, width: float) -> Need:
        return Need("removal", "opens-or-goes")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            undercut=True,
            undercut_length_m=MATCH.hidden,
            length_m=MATCH.length,
            width_m=MATCH.width,
            draft_deg=LT(DRAFT_LEAST) & MATCH.draft,
        ),
        TEST(lambda hidden, length, width: hidden < LOCAL * 2 * (length + width)),
    )
    @advice(
        id="NEED-093",
        title="Let the tool open, for the walls hold it as well as the undercut",
        reason=(
            "A loose piece frees the undercut but not walls with {draft:angle} of draft, "
            "under {draft_least:angle}: the tool must open or be taken out of the part."
        ),
        cites=("composite-dfm-handbook",),
        limits=("draft_least", "local_undercut"),
    )
    def walls_hold_too(
        self, hidden: float, length: float, width: float, draft: float
    ) -> Need:
        return Need("removal", "opens-or-goes")

    @Rule(Part(shape="closed", undercut=True, undercut_length_m=MATCH.hidden))
    @advice(
        id="NEED-103",
        title="Let the tool open, or let it go",
        reason=(
            "{hidden:length} of a closed section is hidden along the draw: inside it there "
            "is no way round a loose piece."
        ),
    )
    def closed_and_undercut(self, hidden: float) -> Need:
        return Need("removal", "opens-or-goes")

    @Rule(Part(shape="closed", undercut=False, tool_side="female"))
    @advice(
        id="NEED-080",
        title="Open the tool round a closed part",
        reason="A closed section fills a female tool all round, so the tool must open.",
    )
    def closed_in_female(self) -> Need:
        return Need("removal", "opens-or-goes")

    @Rule(
        Part(
            shape="closed",
            undercut=False,
            tool_side="male",
            draft_deg=LT(DRAFT_LEAST) & MATCH.draft,
        )
    )
    @advice(
        id="NEED-085",
        title="Let the core shrink away, or take it out in pieces",
        reason=(
            "A closed section with only {draft:angle} of taper (under "
            "{draft_least:angle}) holds on to its core unless the core shrinks away from "
            "it on cooling."
        ),
        limits=("draft_least",),
    )
    def core_is_trapped(self, draft: float) -> Need:
        return Need("removal", "shrinks-or-goes")

    @Rule(
        Part(
            shape="closed",
            undercut=False,
            tool_side="male",
            draft_deg=GE(DRAFT_LEAST) & MATCH.draft,
        )
    )
    @advice(
        id="NEED-090",
        title="Slide the core out",
        reason="A straight core with {draft:angle} of taper slides out once started.",
        limits=("draft_least",),
    )
    def core_slides_out(self, draft: float) -> Need:
        return Need("removal", "one-piece-with-care")


class StockPlate:
    """Whether a plate in the shop carries a flat part."""

    stage = "needs"

    @Rule(
        Part(shape="flat", length_m=MATCH.length, width_m=MATCH.width),
        Plate(length_m=MATCH.plate_length, width_m=MATCH.plate_width),
        TEST(
            lambda length, width, plate_length, plate_width: (
                min(plate_length, plate_width) >= min(length, width) + 2 * EDGE
                and max(plate_length, plate_width) >= max(length, width) + 2 * EDGE
            )
        ),
    )
    @advice(
        id="NEED-100",
        title="Look at the plate in stock",
        reason=(
            "A plate of {plate_length:length} by {plate_width:length} carries the part of "
            "{length:length} by {width:length} with {film_past_part:length} to spare all "
            "round."
        ),
        limits=("film_past_part",),
    )
    def plate_fits(
        self, length: float, width: float, plate_length: float, plate_width: float
    ) -> Need:
        return Need("plate", "fits")

    @Rule(
        Part(length_m=MATCH.length, width_m=MATCH.width),
        Plate(length_m=MATCH.plate_length, width_m=MATCH.plate_width),
        TEST(
            lambda length, width, plate_length, plate_width: (
                min(plate_length, plate_width) >= min(length, width) + 2 * TABLE
                and max(plate_length, plate_width) >= max(length, width) + 2 * TABLE
            )
        ),
    )
    @advice(
        id="NEED-105",
        title="Look at the plate as a table to bag to",
        reason=(
            "A plate of {plate_length:length} by {plate_width:length} leaves at least "
            "{table_margin:length} round the part for the foot of a tool and a line of "
            "tape."
        ),
        limits=("table_margin",),
    )
    def plate_is_a_table(
        self, length: float, width: float, plate_length: float, plate_width: float
    ) -> Need:
        return Need("table", "fits")


class FaceAndLaminate:
    """What the face must be, and what the plies weigh."""

    stage = "needs"

    @Rule(Finish(target="gloss"))
    @advice(
        id="NEED-110",
        title="Give the tool a polished face",
        reason=(
            "A gloss part copies its tool: the tool's face must be filled, sealed and "
            "polished."
        ),
        cites=("lay-up-page", "composite-course", "part-cosmetics-article"),
    )
    def gloss_face(self) -> Need:
        return Need("face", "polished")

    @Rule(Finish(target="paint"))
    @advice(
        id="NEED-120",
        title="Give the tool a filled, smooth face",
        reason="A part to be painted must show no pores; satin is enough.",
    )
    def paint_face(self) -> Need:
        return Need("face", "filled")

    @Rule(Finish(target="as-moulded"))
    @advice(
        id="NEED-130",
        title="Accept the face as it comes",
        reason="The face is hidden, so pores and seams may show.",
    )
    def hidden_face(self) -> Need:
        return Need("face", "any")

    @Rule(Finish(after=MATCH.after & among("paint", "bond")))
    @advice(
        id="NEED-140",
        title="Keep release off the part",
        reason=(
            "The face is to be {after}ed afterwards, and what a release leaves behind "
            "spoils the bond: uncoated peel ply or abrading is needed whatever the "
            "release."
        ),
        cites=("peel-ply-far-06-28",),
    )
    def clean_face(self, after: str) -> Need:
        return Need("transfer", "none")

    @Rule(
        Laminate(
            plies=MATCH.plies,
            areal_weight=MATCH.areal,
            resin_content=MATCH.resin,
            fibre_density=MATCH.fibre_density,
            resin_density=MATCH.resin_density,
        ),
        NOT(Laminate(fibre_volume=W())),
    )
    @advice(
        id="NEED-150",
        title="Work out the cured thickness",
        reason="Cured, {plies:plies} of {areal:areal} fibre make about {value:length}.",
        cites=("maker-ply-sheet",),
    )
    def cured_thickness(
        self,
        plies: int,
        areal: float,
        resin: float,
        fibre_density: float,
        resin_density: float,
    ) -> Finding:
        ply = laminate.cured_ply_thickness_m(areal, resin, fibre_density, resin_density)
        return Finding(
            "laminate-thickness",
            "Laminate, cured",
            plies * ply,
            "mm",
            "n · FAW / (ρf · Vf), no bleed",
            worked=worked(
                "{} · {} / ({} · {})",
                plies,
                (areal, "g/m**2"),
                (fibre_density, "kg/m**3"),
                areal / (fibre_density * ply),
            ),
        )

    @Rule(
        Laminate(
            plies=MATCH.plies,
            areal_weight=MATCH.areal,
            resin_content=MATCH.resin,
            fibre_volume=MATCH.wanted,
            fibre_density=MATCH.fibre_density,
            resin_density=MATCH.resin_density,
        )
    )
    @advice(
        id="NEED-152",
        title="Work out what has to bleed for the fibre asked for",
        reason=(
            "Of the mass of {plies:plies} of {areal:areal} fibre {resin:percent} is resin; "
            "for {wanted:percent} of fibre by volume no more may stay than that share "
            "allows."
        ),
        cites=("maker-ply-sheet",),
        limits=("bleed_watched",),
    )
    def bleeds(
        self,
        plies: int,
        areal: float,
        resin: float,
        wanted: float,
        fibre_density: float,
        resin_density: float,
    ) -> list[Finding]:
        share = laminate.resin_share_of_volume(wanted, fibre_density, resin_density)
        left = min(share, resin)
        bleed = plies * laminate.bleed_areal_kg_m2(areal, resin, left)
        ply = laminate.cured_ply_thickness_m(areal, left, fibre_density, resin_density)
        return [
            Finding(
                "laminate-thickness",
                "Laminate, cured",
                plies * ply,
                "mm",
                "n · FAW / (ρf · Vf), bled to the fibre asked for",
            ),
            Finding(
                "bleed",
                "Resin that has to bleed",
                bleed,
                "g/m**2",
                "n · FAW · (W₀ / (1 − W₀) − W₁ / (1 − W₁))",
                limit=BLEED,
                judgement="ok" if bleed <= BLEED else "watch",
            ),
            Finding(
                "resin-left",
                "Resin by mass that the fibre asked for needs",
                share,
                "percent",
                "(1 − Vf) · ρr / ((1 − Vf) · ρr + Vf · ρf)",
                limit=resin,
                judgement="ok" if share <= resin else "fail",
            ),
        ]

    @Rule(
        Part(
            shape=MATCH.shape,
            length_m=MATCH.length,
            width_m=MATCH.width,
            depth_m=MATCH.depth,
        )
    )
    @advice(
        id="NEED-160",
        title="Work out the face",
        reason="The moulded face measures about {value:area} developed.",
        cites=("common-practice",),
    )
    def face_area(
        self, shape: volumes.Shape, length: float, width: float, depth: float
    ) -> Finding:
        area = volumes.face_area_m2(shape, length, width, depth)
        plan = worked("{} · {}", (length, "mm"), (width, "mm"))
        line = ""
        if shape == "flat":
            girth = worked("({} + {})", (length, "mm"), (width, "mm"))
            line = f"{plan} + 2 · {girth} · {worked('{}', (depth, 'mm'))}"
        elif math.isclose(area, length * width + math.pi * depth**2):  # not the arc
            line = f"{plan} + π · ({worked('{}', (depth, 'mm'))})²"
        return Finding(
            "face-area",
            "Moulded face, developed",
            area,
            "m**2",
            "top and sides, arc or cap, by shape",
            worked=line,
        )
