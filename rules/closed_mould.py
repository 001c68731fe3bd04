"""A matched mould, two rigid halves that close on the plies: whether it serves here."""

from advisor.calculations import oven_fit, strength
from advisor.calculations.oven_fit import Box
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Doubtful, Finding, Refusal, RuledOut
from advisor.reasoning.expert import LT, MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Bagging, Cure, Finish, Found, Oven, Part, Tool
from advisor.reasoning.rulebook import RuleBody, advice

from .tool_material import LEFT_HOT, SOFTENING  # noqa: TID251 (a sibling, not a copy)

ROOM = limit("room_temperature")
BASE = limit("base_thickness")
DRAFT_LEAST = limit("draft_least")
CLAMP = limit("clamp_pressure")
LEAST_FACTOR = limit("bearing_factor_least")
EASY_FACTOR = limit("bearing_factor_easy")
CLEARANCE = limit("oven_clearance")
BAG_HEIGHT = limit("bag_height")
THIN = ("laminate", "plate")


class BothFaces:
    """Both faces asked for, and a job on which no two halves can close."""

    stage = "needs"

    @Rule(Finish(both_faces=True), Part(shape="closed"))
    @advice(
        id="CLOSE-001",
        title="Choose which face of a closed part is moulded",
        reason=(
            "Both faces are to be moulded, and no second half goes inside a closed "
            "section: a core moulds the inside, a mould round a bladder the outside, and "
            "nothing both."
        ),
    )
    def both_faces_of_a_closed_part(self) -> Refusal:
        return Refusal("one moulded face, or a part that opens to one side")

    @Rule(Finish(both_faces=True), Part(shape=NE("closed"), undercut=True))
    @advice(
        id="CLOSE-002",
        title="Take the undercut out before both faces are moulded",
        reason=(
            "Both faces are to be moulded, and where a face is hidden along the draw a "
            "second half cannot go in."
        ),
        cites=("mould-textbook-chapter",),
    )
    def both_faces_of_an_undercut(self) -> Refusal:
        return Refusal("one moulded face, or a part without undercut")

    @Rule(
        Finish(both_faces=True),
        Part(
            shape=among("single-curvature", "double-curvature"),
            draft_deg=MATCH.draft & LT(DRAFT_LEAST),
        ),
    )
    @advice(
        id="CLOSE-003",
        title="Draft the walls before both faces are moulded",
        reason=(
            "Both faces are to be moulded, and at {draft:angle} a wall comes no nearer as "
            "two halves close; {draft_least:angle} is the least."
        ),
        cites=("composite-dfm-handbook",),
        limits=("draft_least",),
    )
    def both_faces_without_draft(self, draft: float) -> Refusal:
        return Refusal("one moulded face, or {draft_least:angle} of draft or more")

    @Rule(Finish(both_faces=True), Cure(pressure="autoclave"))
    @advice(
        id="CLOSE-004",
        title="Mould both faces under vacuum",
        reason=(
            "Both faces are to be moulded between two halves whose stops, not the bag, "
            "carry the pressure once they meet: a vessel adds load on the tool and none "
            "on the plies, and this plan does not cover it."
        ),
    )
    def both_faces_in_a_vessel(self) -> Refusal:
        return Refusal("one moulded face, or a cure under vacuum")


class JudgeClosing:
    """Whether two halves can be closed on this part, and made of this material."""

    stage = "bagging"

    @Rule(
        Finish(both_faces=True),
        Bagging(both_faces=False, name=MATCH.bag),
    )
    @advice(
        id="CLOSE-010",
        title="Mould both faces between two tools",
        reason=(
            "Under {bag} only the tool side copies a tool; the other shows film, pleats "
            "and cloth, and the job asks for both faces moulded."
        ),
    )
    def one_face_only(self, bag: str) -> RuledOut:
        return RuledOut("one moulded face")

    @Rule(
        Part(shape="closed"),
        Bagging(both_faces=True, name=MATCH.bag),
    )
    @advice(
        id="CLOSE-020",
        title="Do not close two halves on a closed section",
        reason=(
            "A closed part goes all round: two halves press it along one line only, "
            "and its inside needs a core, a tube of film or a bladder."
        ),
    )
    def closed_section(self, bag: str) -> RuledOut:
        return RuledOut("a part that opens to one side")

    @Rule(
        Part(shape=NE("closed"), undercut=True),
        Bagging(both_faces=True, name=MATCH.bag),
    )
    @advice(
        id="CLOSE-022",
        title="Do not close two halves over an undercut",
        reason=(
            "Where a face is hidden along the draw the second half cannot go in, and the "
            "part locks both."
        ),
        cites=("mould-textbook-chapter",),
    )
    def undercut_keeps_it_open(self, bag: str) -> RuledOut:
        return RuledOut("a part without undercut")

    @Rule(
        Part(
            shape=among("single-curvature", "double-curvature"),
            draft_deg=MATCH.draft & LT(DRAFT_LEAST),
        ),
        Bagging(both_faces=True, name=MATCH.bag),
    )
    @advice(
        id="CLOSE-024",
        title="Give the walls draft before two halves close on them",
        reason=(
            "At {draft:angle} a wall comes no nearer as the halves close: its plies are "
            "scraped down instead of pressed, and {draft_least:angle} is the least."
        ),
        cites=("composite-dfm-handbook",),
        limits=("draft_least",),
    )
    def walls_without_draft(self, draft: float, bag: str) -> RuledOut:
        return RuledOut("{draft_least:angle} of draft or more")

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=True),
    )
    @advice(
        id="CLOSE-030",
        title="Keep clamps off a brittle body",
        reason=(
            "{name} is brittle: stops, pins and clamps press on points, and it crumbles or "
            "splits there without a warning, the sooner for every pore."
        ),
    )
    def brittle_half(self, bag: str, name: str) -> RuledOut:
        return RuledOut("a one-sided bag, or halves of metal or of hard board")

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=False, soft=True),
    )
    @advice(
        id="CLOSE-032",
        title="Do not set a gap with a soft body",
        reason=(
            "{name} gives under stops and clamps, or as it dries and warms: a gap cut in "
            "it does not stay, and the gap is what sets the thickness."
        ),
    )
    def soft_half(self, bag: str, name: str) -> RuledOut:
        return RuledOut("a one-sided bag, or halves of metal or of hard board")

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(
            name=MATCH.name,
            brittle=False,
            soft=False,
            dust=MATCH.dust,
            service_limit_c=MATCH.limit_c,
            compressive_strength_pa=MATCH.crush,
        ),
    )
    @advice(
        id="CLOSE-034",
        title="Hold stops and clamps against the crushing strength",
        reason=(
            "Under stops, washers and pads a body carries about "
            "{clamp_pressure:strength}; {name} crushes at {crush:strength} cold, at "
            "{hot:temperature} that is {value:number} times as much, and "
            "{bearing_factor_least:number} is the least."
        ),
        limits=(
            "clamp_pressure",
            "bearing_factor_least",
            "bearing_factor_easy",
            "room_temperature",
            "strength_left_hot",
        ),
    )
    def crushed_by_clamps(
        self, hot: float, bag: str, name: str, dust: str, limit_c: float, crush: float
    ) -> RuleBody:
        if dust in SOFTENING:
            crush = strength.strength_when_hot_pa(crush, hot, ROOM, limit_c, LEFT_HOT)
        factor = strength.bearing_safety_factor(CLAMP, crush)
        enough, easy = factor >= LEAST_FACTOR, factor >= EASY_FACTOR
        finding = Finding(
            "clamp-factor",
            "Safety of the halves against crushing under stops and clamps",
            factor,
            "1",
            "crushing strength, hot / pressure under stops and clamps",
            limit=LEAST_FACTOR,
            judgement="ok" if easy else "watch" if enough else "fail",
        )
        if enough:
            return finding
        return [finding, RuledOut("a cooler cure, or halves of a stronger material")]

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, owned=True, form=NE("plate")),
    )
    @advice(
        id="CLOSE-036",
        title="Do not close a second half on a tool that was made for a bag",
        reason=(
            "{name} in hand has no stops, pins or flash groove, and the gap is cut into "
            "both halves as a pair."
        ),
    )
    def made_for_a_bag(self, bag: str, name: str) -> RuledOut:
        return RuledOut("two halves made as a pair")

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, brittle=False, soft=False),
        Part(shape=MATCH.shape),
    )
    @advice(
        id="CLOSE-040",
        title="Close the halves on wax before the first part",
        reason=(
            "The gap between two halves of {name} is known only once it is measured: cut "
            "faces, stops and clamps are each a little off, and {gap_error:gap} too wide "
            "leaves plies without pressure."
        ),
        limits=("gap_error",),
    )
    def trial_closure(self, bag: str, name: str, shape: str) -> Doubtful:
        return Doubtful(
            "The closed halves leave the gap that was cut, within {gap_error:gap}, over "
            "the whole face.",
            "a trial closure on wax or putty sheet, measured at nine places or more",
        )

    @Rule(
        Oven(
            length_m=MATCH.oven_length,
            width_m=MATCH.oven_width,
            height_m=MATCH.oven_height,
            door_width_m=MATCH.door_width,
            door_height_m=MATCH.door_height,
        ),
        Part(length_m=MATCH.length, width_m=MATCH.width, depth_m=MATCH.depth),
        Bagging(both_faces=True, margin_m=MATCH.margin, name=MATCH.bag),
        Tool(name=MATCH.name, form=MATCH.form),
        TEST(lambda form: form not in THIN),
    )
    @advice(
        id="CLOSE-050",
        title="Fit both halves, closed, in the oven",
        reason=(
            "Two halves of {name} stand {value:length} high in their bag, with "
            "{base_thickness:length} of body under and over the part."
        ),
        limits=("base_thickness", "oven_clearance", "bag_height"),
    )
    def both_in_the_oven(
        self,
        oven_length: float,
        oven_width: float,
        oven_height: float,
        door_width: float,
        door_height: float,
        length: float,
        width: float,
        depth: float,
        margin: float,
        bag: str,
        name: str,
        form: str,
    ) -> RuleBody:
        high = depth + 2 * BASE + BAG_HEIGHT
        inside = (oven_length, oven_width, oven_height, door_width, door_height)
        goes_in = min(inside) > 2 * CLEARANCE
        if goes_in:
            found = oven_fit.oven_fit(
                Box(length + 2 * margin, width + 2 * margin, high),
                Box(oven_length, oven_width, oven_height),
                door_width,
                door_height,
                CLEARANCE,
            )
            goes_in = found.fits
        finding = Finding(
            "closed-height",
            "Height of the closed mould in its bag",
            high,
            "mm",
            "D + 2 · base + bag",
            limit=min(oven_height, door_height),
            judgement="ok" if goes_in else "fail",
        )
        return finding if goes_in else [finding, RuledOut("a larger oven or door")]
