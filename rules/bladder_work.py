"""A bladder as work on the bench: making, proving, fitting, blowing up and letting off."""

import math

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Caution, HoldPoint, Quantity, Step, Use
from advisor.reasoning.expert import MATCH, Rule, among
from advisor.reasoning.facts import (
    Activity,
    Bagging,
    Cure,
    Finish,
    Found,
    Laminate,
    Part,
    Run,
    Tool,
)
from advisor.reasoning.rulebook import advice

from .bagging import PEEL_PLY  # noqa: TID251 (a sibling, not a copy)
from .laying import for_the_run  # noqa: TID251 (a sibling, not a copy)

FIT = limit("bladder_fit_pressure")
LAPS = limit("bag_allowance")
RESERVE = limit("bladder_pull_reserve")
STEP = limit("bladder_step")
UNDERSIZE = limit("bladder_undersize")


class BladderMade:
    """Bladder, mould and air line before a ply is cut."""

    stage = "plan"

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Found(key="shut-pressure", value=MATCH.hotter),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-058",
        title="Build the air line so that it cannot give more than the mould is rated for",
        reason=(
            "A shop's air is held at more than {gauge:pressure}: a regulator that creeps "
            "or a hand on its knob gives the mould all of it, and heat takes what is shut "
            "in to {hotter:pressure}."
        ),
        cites=("tyre-pressure-problem", "pressure-test-gs4", "common-practice"),
    )
    def air_line(self, bag: str, gauge: float, hotter: float, name: str) -> Step:
        return Step(
            "prepare",
            "From the supply to the mould, in this order: shut-off, filter and drain, "
            "regulator that lets off what is too much, gauge, relief valve set to the "
            "rating of the mould and large enough for all that the regulator passes, vent "
            "valve, hose, a second gauge at the mould. Nothing that shuts lies between "
            "relief valve and bladder. Valves, gauge and people are outside the oven, to "
            "the side of the mould and not in line with its joint or ends; hose and "
            "fittings inside it stand the heat, and the hose is tied down at both ends. "
            "A competent person sets and seals the "
            "relief valve.",
            does=("pressurises",),
            quantities=(
                Quantity("Pressure of the cure, gauge", gauge, "kPa"),
                Quantity("If shut off cold and heated, gauge", hotter, "kPa"),
            ),
            hold_point=HoldPoint(
                "Air line rated and its relief valve tried",
                "relief valve opens at the rating with the mould shut off; both gauges "
                "agree and come back to zero",
                "set pressure, date, name of the competent person",
            ),
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Found(key="bolts-least", value=MATCH.bolts),
        Found(key="parting-load", value=MATCH.load),
        Found(key="end-load", value=MATCH.end),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-148",
        title="Make the halves to be held together against the bladder",
        reason=(
            "{load:mass} of load part the halves of {name} along the whole joint, where a "
            "bag would have pressed them together."
        ),
        cites=("bladder-tube-forum", "common-practice"),
        limits=("mould_bolt_pitch",),
    )
    def bolted_halves(
        self, bag: str, bolts: float, load: float, end: float, name: str
    ) -> Step:
        return Step(
            "make-tool",
            "To the drawing of the competent person: faces of the joint flat and square, "
            "meeting at the edge of the section without a gap that rubber goes into; two "
            "dowels at least, outside the way of the resin; bolts through both flanges, "
            "on hard washers, every {mould_bolt_pitch:length} or closer on both sides and "
            "round the ends; "
            "a shallow groove outside the section, open at its ends, for air and resin; "
            "bolted end plugs, one with the fitting that the neck of the bladder is "
            "clamped on; all edges that rubber touches rounded. No woodworking clamps, no "
            "toggle and no adhesive tape carries any of the load.",
            does=("cuts-tool", "cleans-dust", "lifts", "closes-mould"),
            quantities=(
                Quantity("Bolts along the joint, at least", bolts, "count"),
                Quantity("Load that parts the halves", load, "kg"),
                Quantity("Load on each bolt", load / bolts, "kg"),
                Quantity("Load on each end plug", end, "kg"),
            ),
            hold_point=HoldPoint(
                "Joint shut all round, bolts as calculated",
                "no feeler goes in at the edge of the section; class and size of every "
                "bolt read off its head",
                "bolt list, torque",
            ),
        )

    @Rule(
        Bagging(bladder=True, name=MATCH.bag, pulls=MATCH.pulls),
        Part(length_m=MATCH.length),
        Found(key="bladder-growth", value=MATCH.growth),
        Found(key="bladders", value=MATCH.count),
    )
    @advice(
        id="STEP-158",
        title="Buy or cast the bladder, and try it before it is needed",
        reason=(
            "A pinhole found in the bucket costs a patch, found in the oven it costs the "
            "part; about {pulls:parts} wear a bladder out."
        ),
        cites=(
            "bladder-bag-page",
            "rubber-cure-page",
            "silicone-inhibition-page",
            "common-practice",
        ),
        limits=("bladder_undersize", "bladder_pull_reserve"),
    )
    def make_the_bladder(
        self, bag: str, pulls: float, length: float, growth: float, count: float
    ) -> Step:
        return Step(
            "make-tool",
            "Have it made, or make it: silicone sheet lapped over a former of metal or of "
            "well-cured, tried board, or silicone cast round a core in the mould itself, "
            "with neck and fitting built in, cured and post-cured as its sheet says. Try "
            "the rubber on a scrap of the former first: sulphur, tin and epoxy that is not "
            "fully cured keep it sticky. Make it {bladder_undersize:percent} smaller round "
            "than the section less its plies, and shorter by its growth. Mix and bake with "
            "air drawn away, as the safety data sheet says, and keep silicone, its tools "
            "and its gloves away from plies, release and paint. Try each bladder under "
            "water, limp, with a breath of air: no more than keeps it round.",
            does=("heats",),
            quantities=(
                Quantity("Smaller round", UNDERSIZE, "percent"),
                Quantity("Shorter, for its growth", growth, "mm"),
                Quantity("Bladders over the run, and one spare", count + 1, "count"),
                Quantity("Next one at hand after pulls", int(pulls * RESERVE), "count"),
            ),
            hold_point=HoldPoint(
                "Bladder tight before it is used",
                "no bubble in ten minutes, wall even by feel, no cut",
                "number of the bladder, date",
            ),
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-348",
        title="Have the mould proved with water before air ever goes in",
        reason=(
            "Air at {gauge:pressure} stores far more than water does: what is weak shows "
            "itself in water with less behind it, though a proof with water is not without "
            "danger either."
        ),
        cites=("pressure-test-gs4", "pressure-test-psg21", "common-practice"),
    )
    def prove_with_water(self, bag: str, gauge: float, name: str) -> Step:
        return Step(
            "prove",
            "A competent person runs the proof as local codes ask and sets its pressure. "
            "Empty mould, bladder in, bolted as for a part; fill with water until no air "
            "is left, raise the pressure in steps from behind a screen, hold, and look at "
            "the joint from the side by mirror or camera: nobody stands over the joint or "
            "in line with the ends. Let the pressure off before anyone goes near; dry "
            "bladder and mould.",
            does=("pressurises", "closes-mould"),
            hold_point=HoldPoint(
                "Mould proved and rated",
                "joint shut and nothing bent at the proof pressure; certificate or proof "
                "paper signed by the competent person, date of the next examination",
                "proof pressure, rating, name, date",
            ),
        )

    @Rule(Bagging(pressure="bladder", name=MATCH.bag), Tool(name=MATCH.name))
    @advice(
        id="STEP-358",
        title="Rehearse the bladder in the empty mould",
        reason=(
            "Whether rubber reaches every corner of {name}, folds, or is caught in the "
            "joint shows before there are plies on it, and never after."
        ),
        limits=("bladder_fit_pressure",),
    )
    def rehearse_the_bladder(self, bag: str, name: str) -> Step:
        return Step(
            "prove",
            "With putty in the tightest corners, fit the bladder wrapped whole in film, "
            "so that no rubber touches the bare face, shut the mould with all its bolts, "
            "and let in {bladder_fit_pressure:pressure} at most; let it off to nothing on "
            "the gauge, open, and look where the putty is pressed and where rubber was "
            "pinched. Then draw the bladder out of its end as it will be drawn from a "
            "part.",
            does=("closes-mould", "opens-mould", "pressurises"),
            quantities=(Quantity("Air for the rehearsal, at most", FIT, "kPa"),),
            hold_point=HoldPoint(
                "Bladder reaches every corner and comes out whole",
                "putty pressed in every corner; no mark of the joint on the rubber",
                "number of the bladder",
            ),
        )

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(bladder=True, pressure="vacuum", name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-368",
        title="Rehearse the bladder in the empty mould, under a bag",
        reason=(
            "Whether rubber reaches every corner of {name}, folds, or is caught in the "
            "joint shows before there are plies on it, and never after."
        ),
    )
    def rehearse_open_bladder(self, bag: str, name: str) -> Step:
        return Step(
            "prove",
            "With putty in the tightest corners, fit the bladder wrapped whole in film, "
            "so that no rubber touches the bare face, shut the mould, bag it and pull "
            "down slowly, the neck of the bladder open to the room: no air under pressure "
            "goes in. Let the vacuum off, open, and look where the putty is pressed and "
            "where rubber was pinched. Then draw the bladder out of its end as it will be "
            "drawn from a part.",
            does=("closes-mould", "opens-mould", "pulls-vacuum"),
            hold_point=HoldPoint(
                "Bladder reaches every corner and comes out whole",
                "putty pressed in every corner; no mark of the joint on the rubber",
                "number of the bladder",
            ),
        )


class BladderFitted:
    """Plies, bladder, shut."""

    stage = "plan"

    @Rule(
        Bagging(bladder=True, name=MATCH.bag),
        Laminate(plies=MATCH.plies),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-588",
        title="Lay the plies so that none of them comes into the joint",
        reason=(
            "{plies} plies meet along the joint of {name}: butted there the section splits "
            "open along it, and a thread left across it holds the halves apart."
        ),
    )
    def lay_to_the_joint(self, bag: str, plies: int, name: str) -> Step:
        return Step(
            "lay-up",
            "Lay the {plies} plies in both halves, or on the bladder over its former where "
            "the section is too narrow to reach into. In one half every ply stops just "
            "short of the joint; in the other it stands past it by the lap, folded inward, "
            "the laps stepped from ply to ply. Press each ply home, count the backings, "
            "and clear the joint of threads.",
            does=("handles-prepreg", "cuts-with-knife"),
            hold_point=HoldPoint(
                "Ply count and laps",
                "as the kit list; joint bare all round; second person signs",
                "backings counted",
                signers=2,
            ),
        )

    @Rule(Bagging(bladder=True, name=MATCH.bag), Tool(name=MATCH.name))
    @advice(
        id="STEP-608",
        title="Fit the bladder and close with no ply in the joint",
        reason=(
            "A thread of carbon or a fold of rubber in the joint of {name} holds it open: "
            "the part gets a ridge, and rubber pressed into a gap bursts."
        ),
        cites=("bladder-tube-forum", "common-practice"),
    )
    def fit_and_close(self, bag: str, name: str) -> Step:
        return Step(
            "bag",
            "Line the plies with release film, lapped; dust nothing on. Lay in the bladder "
            "limp, without a twist, its neck out of the end. Fold the laps in over it, "
            "lower the other half on its dowels, hands out, and look along the joint with "
            "a lamp before the bolts are drawn up crosswise.",
            does=("handles-prepreg", "closes-mould", "lifts"),
            hold_point=HoldPoint(
                "Joint shut, nothing in it",
                "no ply, film or rubber seen along the joint; no feeler goes in; second "
                "person signs",
                "",
                signers=2,
            ),
        )

    @Rule(
        Part(shape="closed", tool_side="female"),
        Bagging(bladder=True, pressure="vacuum", name=MATCH.bag),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-638",
        title="Leave the bladder open to the room, and bag the mould",
        reason=(
            "The bag takes the air from the plies and the room presses the bladder out "
            "with as much as the gauge shows; a neck that is shut or folded presses "
            "nothing."
        ),
        cites=("common-practice",),
    )
    def open_neck(self, bag: str, name: str) -> Step:
        return Step(
            "bag",
            "Bring the stiff tube of the neck out through the bag, sealed round the tube, "
            "and leave it open: no plug, no hose. Pull down in steps, and feel with a rod "
            "through the tube that the rubber moves outward and is not folded on itself. "
            "No air under pressure ever goes in: mould and bolts are not made for that.",
            does=("pulls-vacuum",),
            hold_point=HoldPoint(
                "Bladder open and lying out",
                "air moves freely in the tube; no leak at the neck in the leak test",
                "",
            ),
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag, layers=MATCH.layers),
        Finish(after=MATCH.after),
    )
    @advice(
        id="STEP-618",
        title="Hold the shut mould against its list",
        reason=(
            "{bag} is built from the outside inward: what was left out cannot be put in "
            "once the halves are bolted."
        ),
    )
    def stack_of_the_mould(self, bag: str, layers: list[str], after: str) -> Step:
        used = [one for one in layers if after == "bond" or not one.startswith(PEEL_PLY)]
        return Step(
            "bag",
            "In this order, as it was built: " + "; ".join(used) + ".",
            hold_point=HoldPoint(
                "Each in its place, none left over",
                "second person signs",
                "",
                signers=2,
            ),
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Found(key="bolts-least", value=MATCH.bolts),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-648",
        title="Check bolts and bladder shut and cold, at a breath of pressure",
        reason=(
            "A leak or a loose bolt found at {bladder_fit_pressure:pressure} is mended; "
            "at the pressure of the cure it is thrown."
        ),
        cites=("pressure-test-gs4", "common-practice"),
        limits=("bladder_fit_pressure",),
    )
    def check_cold(self, bag: str, bolts: float, name: str) -> Step:
        return Step(
            "bag",
            "Tie up the hose, set the screen, everyone to the side. Let in "
            "{bladder_fit_pressure:pressure}, shut off, and read for ten minutes. If it "
            "falls: vent to nothing, then look. No bolt is touched while there is "
            "pressure; all are checked again after venting.",
            does=("pressurises",),
            quantities=(Quantity("Bolts checked, at least", bolts, "count"),),
            hold_point=HoldPoint(
                "Bladder holds, every bolt in",
                "no fall in ten minutes; bolts counted and at their torque",
                "reading at start and end, torque",
                signers=2,
            ),
        )


class BladderCured:
    """Pressure up in steps, held, and let off cold."""

    stage = "plan"

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-718",
        title="Raise the pressure in steps, with the mould shut",
        reason=(
            "Raised at once to {gauge:pressure}, the bladder traps air and resin that want "
            "out along the joint, and shoots into any fold."
        ),
        cites=("bladder-tube-forum",),
        limits=("bladder_step",),
    )
    def raise_pressure(self, bag: str, gauge: float, name: str) -> Step:
        steps = math.ceil(gauge / STEP - 1e-9)
        return Step(
            "cure",
            "Carry the shut mould in with no air in the bladder, set the screen, couple "
            "the line and tie it up. Only people who were shown how, to the side: raise by "
            "{bladder_step:pressure} every few minutes up to {gauge:pressure}, by the "
            "regulator and never past the rating, so that air leaves along the joint. "
            "Where the prepreg's sheet wants the resin warm before full pressure, stop at "
            "the pressure and go on at the temperature that it names. A thin line of resin "
            "all along the joint is as it should be; a jet or a hiss is not: vent to "
            "nothing.",
            does=("pressurises", "lifts"),
            quantities=(
                Quantity("Steps, at least", float(steps), "count"),
                Quantity("Pressure of the cure, gauge", gauge, "kPa"),
            ),
            hold_point=HoldPoint(
                "Pressure steady before the heat goes on",
                "both gauges agree, no fall with the supply shut for two minutes; relief "
                "valve silent",
                "time and reading of each step",
            ),
        )

    @Rule(
        Bagging(pressure="bladder", name=MATCH.bag),
        Cure(bladder_pressure_pa=MATCH.gauge),
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(name=MATCH.name),
    )
    @advice(
        id="STEP-778",
        title="Cool under pressure, then vent to nothing before a bolt is touched",
        reason=(
            "Let off hot, the laminate springs back; a bolt loosened under "
            "{gauge:pressure} lets the halves go at once."
        ),
        cites=("bladder-tube-forum", "pressure-test-gs4", "common-practice"),
        limits=("demould_temperature",),
    )
    def vent(self, bag: str, gauge: float, hot: float, name: str) -> Step:
        return Step(
            "cure",
            "Heat off, door shut, fan on, pressure held until the hottest laminate "
            "thermocouple is below {demould_temperature:temperature}. Shut the supply, "
            "open the vent slowly from the side, and leave it open. Zero on two gauges, "
            "the one at the mould too, then take the hose off, so that nothing can come "
            "back; only then do people come near and is a bolt loosened. If a gauge will "
            "not fall, the neck is blocked: nobody opens anything, let it stand and ask "
            "the competent person.",
            does=("heats", "heats-tool", "heats-bag", "pressurises"),
            hold_point=HoldPoint(
                "Nothing on both gauges, hose off, before a bolt is touched",
                "zero on two gauges; vent open; hottest laminate thermocouple below "
                "{demould_temperature:temperature}",
                "time, temperature",
                signers=2,
            ),
        )

    @Rule(Bagging(bladder=True, name=MATCH.bag, pulls=MATCH.pulls), Tool(name=MATCH.name))
    @advice(
        id="STEP-828",
        title="Draw the bladder out whole, and look at it",
        reason=(
            "Rubber that is pulled thin lets go of the film; torn, it leaves a piece in "
            "the part. The hardener of the resin and heat wear it: about {pulls:parts}."
        ),
        cites=("bladder-release-page", "removable-tooling-page"),
    )
    def draw_the_bladder(self, bag: str, pulls: float, name: str) -> Step:
        return Step(
            "demould",
            "With the end open, draw the limp bladder out by its neck, slowly and "
            "straight, a little vacuum in it if it sticks; then its film, all of it. Look "
            "through with a lamp. Wipe the bladder, look at its whole wall against the "
            "light, count the pull, and put it away dry, round and dark. A cut, a hard, "
            "sticky or thin place: it is not used again.",
            does=("demoulds",),
            hold_point=HoldPoint(
                "Bladder whole, nothing left inside",
                "no piece missing from rubber or film; passage looked through",
                "number of the bladder, pulls so far",
            ),
        )

    @Rule(Bagging(pressure="bladder", name=MATCH.bag), Tool(name=MATCH.name))
    @advice(
        id="STEP-868",
        title="Trim the flash and clean the joint",
        reason=(
            "The resin that left along the joint sets as a thin, sharp fin; a flake of it "
            "left on the joint of {name} holds it open for the next part."
        ),
        cites=("bladder-tube-forum", "common-practice"),
    )
    def trim_the_flash(self, bag: str, name: str) -> Step:
        return Step(
            "demould",
            "Break the flash off away from the part, sand its line wet or with extraction "
            "at the sander, and stop at the fibre. Clear joint, groove, dowels and threads "
            "with plastic scrapers and wipe them.",
            does=("trims-part", "sands-part", "cleans-dust"),
            hold_point=HoldPoint("Joint bare before the next part", "wiped, looked at", ""),
        )


class BladderToPull:
    """Bladders and film for the run."""

    stage = "plan"

    @Rule(
        Bagging(bladder=True, name=MATCH.bag, pulls=MATCH.pulls),
        Found(key="bladders", value=MATCH.count),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-028",
        title="Order the bladders of the run and one spare",
        reason=(
            "{parts:parts} wear out {count:number} at {pulls:parts} each, and the first "
            "one may tear at its first pull."
        ),
        cites=("removable-tooling-page", "common-practice"),
    )
    def use_bladders(self, bag: str, pulls: float, count: float, parts: int) -> Use:
        return Use(
            "Bladders of silicone rubber", count + 1, "count", "one spare", lot="tool"
        )

    @Rule(
        Found(key="face-area", value=MATCH.area),
        Bagging(pressure="bladder", name=MATCH.bag),
        Run(parts=MATCH.parts),
    )
    @advice(
        id="USE-038",
        title="Pull film for one bladder, order it for the run",
        reason=(
            "{bag} is wrapped over {area:area}, {bag_allowance:percent} more for laps; "
            "{parts:parts} take new film each."
        ),
        limits=("bag_allowance",),
    )
    def use_film(self, area: float, bag: str, parts: int) -> list[Use]:
        film = area * (1 + LAPS)
        return for_the_run(
            "Release film over the plies", film, "m**2", "laps included", parts
        )


class BladderCautions:
    """What air in a bladder can do."""

    stage = "people"

    @Rule(
        Cure(pressure="bladder"),
        Activity(name=MATCH.activity & among("pressurises", "opens-mould")),
    )
    @advice(
        id="CAUT-328",
        title="Guard against air under pressure in a bladder",
        reason="Air in a bladder throws halves, plugs and hose when one of them lets go.",
        cites=("bladder-tube-forum", "pressure-test-gs4"),
    )
    def blown_bladder(self, activity: str) -> Caution:
        return Caution("bladder-pressure", activity)
