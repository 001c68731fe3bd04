"""Making, proving, loading, closing and opening a matched mould."""

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import (
    Caution,
    Condition,
    HoldPoint,
    Quantity,
    Step,
)
from advisor.reasoning.expert import MATCH, NE, Rule, among
from advisor.reasoning.facts import Activity, Bagging, Found, Laminate, Part, Tool
from advisor.reasoning.rulebook import advice

WARM = limit("closing_warmth")
ERROR = limit("gap_error")


class MouldSteps:
    """Two halves, made and proved as a pair."""

    stage = "plan"

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Found(key="gap-cold", value=MATCH.gap),
        Tool(name=MATCH.name, form=NE("plate")),
    )
    @advice(
        id="STEP-102",
        title="Make two halves, with the gap cut in",
        reason=(
            "The gap between two halves of {name} sets the thickness everywhere; pins, "
            "stops and lands cut in one setting with the face are what keeps it."
        ),
        limits=("gap_error",),
    )
    def make_both_halves(self, bag: str, gap: float, name: str) -> Step:
        return Step(
            "make-tool",
            "Every step below is done twice: one half to the moulded face, the other to "
            "the same face moved off square to itself by the gap, on walls too. Blanks, "
            "stock and chips are listed for one half; the gap is given cold and is "
            "not scaled with the drawing. On each flange, outside the "
            "part: lands or hard stops that meet when the gap is right, two guide pins or "
            "more that hold before the faces meet and are set so that the halves go "
            "together one way only, a flash groove all round with a way out for gas and "
            "resin, bolts or clamp pads every 100 to 150 mm (4 to 6 in) in line with the "
            "stops, and threaded jacking screws on hard pads.",
            does=("cuts-tool", "cleans-dust", "lifts", "closes-mould"),
            quantities=(Quantity("Gap, cut at room temperature", gap, "mm"),),
            hold_point=HoldPoint(
                "Halves close on pins and stops",
                "stops touch all round, faces nowhere; gap within {gap_error:gap}",
                "stop by stop, feeler or marking paste; temperature",
            ),
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Found(key="gap-cold", value=MATCH.gap),
        Tool(name=MATCH.name, form="plate"),
    )
    @advice(
        id="STEP-101",
        title="Pair two plates on stops as high as the gap",
        reason=(
            "Two plates make a matched mould for a flat part; stops of one height are all "
            "that sets its thickness."
        ),
        limits=("gap_error",),
    )
    def pair_two_plates(self, bag: str, gap: float, name: str) -> Step:
        return Step(
            "make-tool",
            "Take two plates of the same stock, flat within the gap's error under a "
            "straight edge. Round the laminate, outside its flash, set stops of the "
            "plates' own metal ground to the gap, two guide pins or more that hold before "
            "the plates meet the plies, bolts or clamps every 100 to 150 mm (4 to 6 in) in "
            "line with the stops, jacking screws, and gaps between the stops for gas and "
            "resin.",
            does=("cuts-tool", "cleans-dust", "lifts", "closes-mould"),
            quantities=(Quantity("Stops, high at room temperature", gap, "mm"),),
            hold_point=HoldPoint(
                "Plates close on all stops",
                "stops touch all round; gap within {gap_error:gap}, in the middle too",
                "stop by stop, feeler; temperature",
            ),
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name, form="laminate"),
    )
    @advice(
        id="CLOSE-170",
        title="Back a shell before it is clamped",
        reason="{name} is a thin shell: between clamps it bows and opens the gap.",
        limits=("gap_error",),
    )
    def back_the_shell(self, bag: str, name: str) -> Condition:
        return Condition(
            "Both shells are backed by a frame that takes the clamps, and the gap in the "
            "middle of the face stays within {gap_error:gap} under full clamping.",
            "trial closure on wax, measured in the middle and beside the clamps",
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name),
        Found(key="gap-nip", value=MATCH.nip),
    )
    @advice(
        id="CLOSE-173",
        title="Leave the bag off the clamped halves only after a trial",
        reason=(
            "Clamps press the plies of {name} together but draw no air from between them, "
            "and as the resin softens the plies give {nip:gap} or so and plain bolts lose "
            "their pull."
        ),
    )
    def clamps_without_a_bag(self, bag: str, name: str, nip: float) -> Condition:
        return Condition(
            "The closed halves are bagged and pumped as the steps say. Where they are to "
            "be clamped without a bag, springs under the bolts keep every stop closed "
            "while the plies settle, gas has a way out through the flash groove, and a "
            "trial part cut up shows no pores.",
            "trial part cut at its middle and beside the clamps, before the bag is left "
            "off",
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Found(key="gap-cold", value=MATCH.gap),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-340",
        title="Close on wax or putty sheet and measure the gap",
        reason=(
            "What lies between the stops of {name} and its face shows only when it is "
            "closed, and is mended before a ply is cut."
        ),
        limits=("gap_error",),
    )
    def close_on_wax(self, bag: str, gap: float, name: str) -> Step:
        return Step(
            "prove",
            "Lay soft wax or putty sheet, thicker than the gap, over the released face, "
            "close with the bolts of the part until the stops meet, open, and measure the "
            "sheet at nine places or more, walls and corners too. Shim the stops or "
            "dress the face, and close again until it is right.",
            does=("closes-mould", "lifts"),
            quantities=(
                Quantity("Gap, at room temperature", gap, "mm"),
                Quantity("Off by, at most", ERROR, "mm"),
            ),
            hold_point=HoldPoint(
                "Gap measured before the first part",
                "every place within {gap_error:gap} of the gap cut",
                "sketch with the thickness at each place",
            ),
        )

    @Rule(Bagging(both_faces=True, name=MATCH.bag), Tool(name=MATCH.name))
    @advice(
        id="STEP-470",
        title="Seal and release both halves alike",
        reason=(
            "The part holds to whichever face was released worse, and resin in the flash "
            "groove, on pins or stops locks {name} shut."
        ),
    )
    def release_both(self, bag: str, name: str) -> Step:
        return Step(
            "release",
            "Both faces get the same seal and release, coat by coat. Lands, stops, pins, "
            "flash groove and threads too are released, thinly; stops are wiped so that "
            "nothing builds up on them.",
            does=("uses-solvent",),
        )


class ClosingSteps:
    """Plies in, halves together, halves apart."""

    stage = "plan"

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Found(key="gap-nip", value=MATCH.nip, low=MATCH.least, high=MATCH.most),
        Laminate(plies=MATCH.plies),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-580",
        title="Load, and close in steps as the resin softens",
        reason=(
            "The halves touch the plies with about {nip:gap} to go ({least:gap} to "
            "{most:gap}); pulled together cold or at one side they pinch plies and push "
            "fibre out of line."
        ),
        limits=("closing_warmth",),
    )
    def load_and_close(
        self, bag: str, nip: float, least: float, most: float, plies: int, name: str
    ) -> Step:
        return Step(
            "lay-up",
            "Weigh the {plies:plies}: too light leaves the face without pressure. Trim "
            "them to the flash groove, none over land or stop. Lower the upper half on "
            "its pins, blocks between the flanges until hands are out. Tighten crosswise, "
            "a quarter of the way at a time. Warm the closed mould to about "
            "{closing_warmth:temperature}, or what the prepreg's sheet allows, and take "
            "up the rest in steps of about ten minutes as the plies give, until every stop "
            "meets; write the time on the traveller as time out. If a stop will not meet, "
            "open and look: do not force it.",
            does=("handles-prepreg", "closes-mould", "heats", "heats-tool", "lifts"),
            quantities=(
                Quantity("Nip on first touch, about", nip, "mm"),
                Quantity("Nip on first touch, at most", most, "mm"),
                Quantity("Warmth for closing", WARM, "degC"),
            ),
            hold_point=HoldPoint(
                "Stops meet all round before the bag goes on",
                "no feeler goes in at any stop; mass of plies as calculated",
                "stop by stop, mass, time out",
            ),
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name),
        Part(shape=MATCH.shape),
    )
    @advice(
        id="STEP-805",
        title="Open cool, with the jacking screws",
        reason=(
            "Opened warm or at one side, {name} bends a part that still holds to both "
            "faces."
        ),
        limits=("demould_temperature",),
    )
    def open_cool(self, bag: str, name: str, shape: str) -> Step:
        return Step(
            "demould",
            "With both halves below {demould_temperature:temperature}: strip the bag, "
            "clear resin from bolts and groove, loosen the bolts crosswise, then turn the "
            "jacking screws a little at a time, round and round, until the halves are free "
            "all round. Block the flanges before a hand goes near, lift the upper half "
            "straight off its pins, and only then free the part as below.",
            does=("opens-mould", "demoulds", "lifts"),
            hold_point=HoldPoint(
                "Halves free all round before the lift",
                "same gap at every jacking screw; part on one half only",
                "temperature, which half the part stayed on",
            ),
        )

    @Rule(
        Bagging(both_faces=True, name=MATCH.bag),
        Found(key="gap-resin", value=MATCH.out),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-865",
        title="Trim the flash and clean the stops",
        reason=(
            "Resin squeezed out sets as a thin, sharp flash; a flake of it under a stop "
            "makes the next part thicker."
        ),
    )
    def trim_flash(self, bag: str, out: float, name: str) -> Step:
        return Step(
            "demould",
            "Break the flash off away from the face, trim the rest with a diamond blade, "
            "wet or with extraction at the blade. What was squeezed out is mass that the "
            "part lacks against the mass as calculated. Clear groove, lands, stops, pins "
            "and threads of {name} with plastic scrapers and wipe them.",
            does=("trims-part", "cleans-dust"),
            quantities=(Quantity("Resin expected in the groove", max(out, 0.0), "g/m**2"),),
            hold_point=HoldPoint(
                "Stops and lands bare before the next part", "wiped, looked at", ""
            ),
        )


class ClosingCautions:
    """What two halves can do to hands."""

    stage = "people"

    @Rule(
        Activity(name="heats-bag"),
        Bagging(both_faces=True, name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="CAUT-623",
        title="Guard against resin that heats itself between the halves",
        reason=(
            "Two bodies of {name} on the plies hold back the heat that the resin gives off."
        ),
    )
    def heat_shut_in(self, bag: str, name: str) -> Caution:
        return Caution("closed-mould-heat", "heats-bag")

    @Rule(
        Activity(name=MATCH.activity & among("closes-mould", "opens-mould")),
        Tool(name=MATCH.name),
    )
    @advice(
        id="CAUT-620",
        title="Keep hands from between the halves",
        reason="A half of {name} that drops or lets go crushes what lies under it.",
    )
    def crushing_caution(self, activity: str, name: str) -> Caution:
        return Caution("crushing", activity)
