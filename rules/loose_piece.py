"""A loose piece at a local undercut: its seat, its joint, its release and its way out."""

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Doubtful, HoldPoint, Quantity, RuledOut, Step
from advisor.reasoning.expert import MATCH, Rule
from advisor.reasoning.facts import Bagging, Need, Part, Route, Tool
from advisor.reasoning.rulebook import advice

GAP = limit("loose_gap")


class JudgeLoosePiece:
    """Which material can carry one."""

    stage = "tool"

    @Rule(
        Need(kind="removal", value="loose-piece"),
        Tool(name=MATCH.name, splits=False, breaks_out=False),
    )
    @advice(
        id="LOOSE-013",
        title="Do not lock the part on a tool that is made in one piece",
        reason="The undercut needs a loose piece, and {name} is not made in pieces.",
    )
    def not_in_pieces(self, name: str) -> RuledOut:
        return RuledOut("a part without an undercut")

    @Rule(
        Need(kind="removal", value="loose-piece"),
        Tool(name=MATCH.name, splits=True, brittle=True),
    )
    @advice(
        id="LOOSE-033",
        title="Make the piece tougher than a brittle tool",
        reason=(
            "{name} is brittle: a small piece of it breaks at its screw and its thin edge, "
            "and the rim of its seat crumbles each time the piece comes out."
        ),
    )
    def brittle_piece(self, name: str) -> Doubtful:
        return Doubtful(
            "The piece, and the rim of its seat, are let in with hard board, cast resin or "
            "metal that stands the cure, and they go home and come out whole ten times.",
            "piece and seat tried ten times by hand before the face is sealed",
        )


class BagOverAJoint:
    """The joint of the piece lies under the part, and goes through to the back."""

    stage = "bagging"

    @Rule(
        Need(kind="removal", value="loose-piece"),
        Tool(name=MATCH.name, splits=True),
        Bagging(needs_tight_tool=True, name=MATCH.bag),
    )
    @advice(
        id="LOOSE-023",
        title="Prove the joint of the loose piece tight, or bag all round",
        reason=(
            "The joint runs from the face of {name} to its back: under a bag taped to the "
            "tool air comes in through it, beneath the plies, where no tape can reach it."
        ),
        limits=("leak_drop",),
    )
    def joint_leaks(self, name: str, bag: str) -> Doubtful:
        return Doubtful(
            "With the loose piece in its seat the empty tool loses no more than "
            "{leak_drop:vacuum} in a minute.",
            "a bag on the empty tool, pump shut off for ten minutes, before the first part",
        )


class LoosePieceSteps:
    """The piece as work on the bench."""

    stage = "plan"

    @Rule(
        Route(construction="loose-piece"),
        Tool(owned=False, needs_pattern=True, name=MATCH.name),
        Part(undercut_places=MATCH.places),
    )
    @advice(
        id="STEP-133",
        title="Plan the loose piece before the pattern is cut",
        reason=(
            "{name} is formed round its piece: the piece is made first on the pattern and "
            "the rest against it, or it never fits."
        ),
    )
    def piece_on_pattern(self, name: str, places: str) -> Step:
        return Step(
            "make-tool",
            "On the drawing, bound each undercut by a joint away from the show face: "
            "{places}. On the pattern, build a released parting board round it, make the "
            "piece first with a flange towards the tool, two dowels and a screw from the "
            "back; take the board away, release the piece and its flange, and form the "
            "rest of the tool against it. Its sides taper, so that it leaves one way only.",
            does=("makes-pattern", "mixes-resin", "uses-solvent", "lifts"),
            hold_point=HoldPoint(
                "Piece and tool part and close",
                "goes home one way only; no step a fingernail finds",
                "",
            ),
        )

    @Rule(
        Route(construction="loose-piece"),
        Tool(owned=False, needs_pattern=False, name=MATCH.name),
        Part(undercut_places=MATCH.places, undercut_depth_m=MATCH.depth),
    )
    @advice(
        id="STEP-203",
        title="Make the loose piece and its seat",
        reason=(
            "A piece that can shift leaves a step in every part, and one whose sides do "
            "not taper jams in {name}."
        ),
        limits=("loose_gap",),
    )
    def piece_in_block(self, name: str, places: str, depth: float) -> Step:
        return Step(
            "make-tool",
            "At each undercut ({places}) cut a seat right through to the end or back of "
            "the tool, its sides tapered at least 5 degrees, the joint away from the show "
            "face. Make the piece of what stands as much heat and grows as the tool does, "
            "hard where the tool is soft; two dowels and a screw from the back, a tapped "
            "hole to draw it by. Finish its face in place, together with the tool's.",
            does=("cuts-tool", "cleans-dust", "lifts", "closes-mould"),
            quantities=(
                Quantity("Way the piece has to move clear of the part", depth, "mm"),
                Quantity("Joint in the face, at most", GAP, "mm"),
            ),
            hold_point=HoldPoint(
                "Piece home in its seat",
                "no step a fingernail finds; no gap to a {loose_gap:gap} feeler",
                "step, gap",
            ),
        )

    @Rule(
        Route(construction="loose-piece"),
        Tool(name=MATCH.name),
        Bagging(name=MATCH.bag),
    )
    @advice(
        id="STEP-333",
        title="Draw a dry piece out once before it is trusted",
        reason=(
            "Whether the piece of {name} leaves the undercut at all shows on wax, not on "
            "the first part."
        ),
    )
    def try_the_draw(self, name: str, bag: str) -> Step:
        return Step(
            "prove",
            "With the piece screwed home, press soft wax or putty sheet as thick as the "
            "part over it and 50 mm (2 in) past it. Take the screw out, lift wax and piece "
            "off together along the draw, then slide the piece out of the wax sideways.",
            does=("closes-mould",),
            hold_point=HoldPoint(
                "Piece leaves tool and wax",
                "wax not torn or bent",
                "order of screws, way it moves",
            ),
        )

    @Rule(Route(construction="loose-piece"), Tool(name=MATCH.name))
    @advice(
        id="STEP-473",
        title="Release seat and piece all round, and fill the joint",
        reason=(
            "Resin that runs into the joint bonds the piece to {name}; a gap that is open "
            "in the face marks the part and bends fibre into it."
        ),
        cites=("split-gap-page", "common-practice"),
        limits=("loose_gap",),
    )
    def release_the_seat(self, name: str) -> Step:
        return Step(
            "release",
            "Release the face of the piece, its sides, the seat, dowels and screw, as the "
            "face of the tool is released. Set the piece home, tighten the screw, wipe a "
            "thin line of a filler that stands the cure and the release into the joint, "
            "strike it off level, and release over it. Seal the joint and the screw at the "
            "back with sealant tape.",
            does=("uses-solvent", "closes-mould"),
            hold_point=HoldPoint(
                "Joint closed and level",
                "no step, no gap; screw tight; taped at the back",
                "",
            ),
        )

    @Rule(
        Route(construction="loose-piece"),
        Tool(name=MATCH.name),
        Part(undercut_pieces=MATCH.pieces, undercut_depth_m=MATCH.depth),
    )
    @advice(
        id="STEP-823",
        title="Let the piece come off with the part, then slide it out",
        reason=(
            "Drawn while the piece is still screwed to {name}, the part tears at the "
            "undercut."
        ),
    )
    def piece_with_the_part(self, name: str, pieces: float, depth: float) -> Step:
        return Step(
            "demould",
            "Strip the bag. Take every screw of a loose piece out before anything else, "
            "and count them. Free the edge all round with thin plastic shims and wedge "
            "evenly; draw the part along the draw line with the pieces in it. On the bench "
            "slide each piece out of its undercut by its tapped hole, straight, away from "
            "the hidden face; no lever against the laminate. Clean piece and seat, and put "
            "the piece back in its own seat at once.",
            does=("opens-mould", "demoulds", "lifts"),
            quantities=(
                Quantity("Loose pieces to come out", pieces, "count"),
                Quantity("Each slides at least", depth, "mm"),
            ),
            hold_point=HoldPoint(
                "Pieces, seat and joint looked at",
                "all pieces counted; no resin in a seat, no lifted seal",
                "what was found",
            ),
        )
