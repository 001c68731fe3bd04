"""What the bench briefing prints: one plan for a new hand, on two sides at most."""

from dataclasses import dataclass
from datetime import date
from itertools import groupby

from advisor.documents.first_page import Choice, choices, job_line
from advisor.documents.pictures.section import runs_past, section
from advisor.documents.pictures.svg import Picture
from advisor.measures import enumerated, in_sentence, in_styles, phrase
from advisor.plan import CautionRecord, Plan, StepRecord

# Phases in which a job is most often spoiled, the worst first (common practice).
_SPOILING = (
    "Apply the release",
    "Prepare the face",
    "Bag and leak test",
    "Cure",
    "Lay up",
    "Prove the tool",
    "Demould and finish",
    "Make the tool",
)
# The sign of each thing that is worn.
_WORN_ON = {
    "mask": "breath",
    "glasses": "eyes",
    "goggles": "eyes",
    "gloves": "hands",
    "cut gloves": "hands",
    "heat gloves": "hands",
    "waterproof gloves": "hands",
    "sleeves": "body",
    "coveralls": "body",
    "ear protection": "ears",
    "safety shoes": "feet",
}
_SPOILERS = 5
_LETTERS = 220  # of a line that a hand reads at arm's length


@dataclass(frozen=True)
class PhaseLine:
    """One phase of the work: its steps, what stops it, what is worn."""

    title: str
    steps: str
    holds: int
    wear: tuple[str, ...]
    worn: str
    signs: tuple[str, ...]


@dataclass(frozen=True)
class Spoiler:
    """What spoils the job, and the step that guards against it."""

    check: str
    why: str
    step: int


@dataclass(frozen=True)
class BriefingPage:
    """Everything the bench briefing prints."""

    title: str
    revision: str
    shop: str
    date: str
    job_line: str
    choices: tuple[Choice, ...]
    why: str
    sketch: Picture
    layers: tuple[str, ...]
    runs_past: bool
    phases: tuple[PhaseLine, ...]
    grave: tuple[tuple[str, str], ...]
    spoilers: tuple[Spoiler, ...]
    questions: tuple[str, ...]


def briefing(plan: Plan, printed_on: date) -> BriefingPage:
    """Prepare the bench briefing of a plan that has a route.

    Raises
    ------
    ValueError
        If the plan has none: there is nothing to brief.
    """
    if plan.route is None:
        raise ValueError("a plan without a route has nothing to brief")
    return BriefingPage(
        title=plan.job["title"],
        revision=plan.job["revision"],
        shop=plan.shop["name"],
        date=printed_on.isoformat(),
        job_line=job_line(plan.job),
        choices=choices(plan),
        why=_why(plan),
        sketch=section(plan),
        layers=tuple(in_sentence(one.name) for one in plan.stack),
        runs_past=runs_past(plan),
        phases=tuple(_phases(plan)),
        grave=tuple((one.sign, one.hazard) for one in plan.cautions if one.gravity == 1),
        spoilers=tuple(_spoilers(plan)),
        questions=tuple(_questions(plan)),
    )


def _why(plan: Plan) -> str:
    """Return the best reason for the tool that speaks of no money."""
    assert plan.route is not None
    good = [one.sentence for one in plan.route.reasons if one.kind == "good"]
    free = [text for text in good if plan.route.currency not in text]
    return free[0] if free else ""


def _phases(plan: Plan) -> list[PhaseLine]:
    lines = []
    for title, group in groupby(plan.steps, key=lambda step: step.phase):
        steps = list(group)
        first, last = steps[0].n, steps[-1].n
        wear = _worn(plan.cautions, steps)
        lines.append(
            PhaseLine(
                title=title,
                steps=str(first) if first == last else f"{first} to {last}",
                holds=sum(step.hold_point is not None for step in steps),
                wear=wear,
                worn=_in_words(wear),
                signs=tuple(dict.fromkeys(_WORN_ON[one] for one in wear)),
            )
        )
    return lines


def _worn(cautions: tuple[CautionRecord, ...], steps: list[StepRecord]) -> tuple[str, ...]:
    numbers = {step.n for step in steps}
    worn = (
        item
        for caution in cautions
        if caution.id != "standing" and numbers & set(caution.applies_to_steps)
        for item in caution.wear
    )
    return tuple(dict.fromkeys(worn))


def _in_words(wear: tuple[str, ...]) -> str:
    """Return what is worn, gloves last and the word said once for all their kinds."""
    gloves = [one for one in wear if _WORN_ON[one] == "hands"]
    others = [one for one in wear if one not in gloves]
    kinds = [one.removesuffix(" gloves") for one in gloves if one != "gloves"]
    if kinds:
        also = "gloves, also " if "gloves" in gloves else ""
        gloves = [f"{also}{enumerated(kinds)} gloves"]
    return ", ".join([*others, *gloves]) or "work clothes"


def _spoilers(plan: Plan) -> list[Spoiler]:
    """Return the hold points that guard what is spoiled most often, one of a phase."""
    found = []
    for phase in _SPOILING:
        held = [step for step in plan.steps if step.phase == phase and step.hold_point]
        short = [step for step in held if len(step.why) <= _LETTERS]
        for step in short[:1]:
            assert step.hold_point is not None
            found.append(Spoiler(step.hold_point.check, step.why, step.n))
    return sorted(found[:_SPOILERS], key=lambda one: one.step)


def _questions(plan: Plan) -> list[str]:
    """Return what a hand should be able to answer; the plan has the answers."""
    assert plan.route is not None
    asked = ["At which steps may you not go on without a signature, and whose?"]
    heat = plan.job["cure"]["temperature"]
    if heat:
        asked.append(
            phrase(
                "The cure is {heat}. What in the load stands least, and what is the "
                "cut-out set to?",
                heat=in_styles(heat["value"], heat["unit"]),
            )
        )
    grave = [one for one in plan.cautions if one.gravity == 1]
    dust = [one.hazard for one in grave if "dust" in one.hazard]
    if dust:
        asked.append(f"Where does {dust[-1]} arise, and what holds it back before a mask?")
    release = {(one.stage, one.id): one.name for one in plan.options}
    name = in_sentence(release["release", plan.route.release])
    asked += [
        f"How far does the {name} run, and how far do the plies?",
        "What does the gauge show when the bag is tight, and for how long do you watch it?",
        "What do you do if something smokes, gets too hot, or looks wrong?",
    ]
    return asked
