"""The user's own guess, taken down before the answer and answered point by point."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import get_args

from advisor.knowledge.tables import Knowledge
from advisor.measures import in_sentence
from advisor.plan import GuessRecord, OptionRecord, OptionStage, Plan
from advisor.questioning.why import why
from advisor.reading import InputError, did_you_mean

_WHAT = {
    "tool": "tool",
    "sealing": "seal",
    "release": "release",
    "bagging": "bag",
}


@dataclass(frozen=True)
class Guess:
    """What the user thinks will come out for one stage: an option, or a family of tools."""

    stage: OptionStage
    id: str


def read_guess(text: str, knowledge: Knowledge) -> Guess:
    """Read ``tool=mdf``.

    Raises
    ------
    InputError
        If the stage or the option is unknown.
    """
    stage, _, id = (one.strip() for one in text.partition("="))
    stages = get_args(OptionStage)
    if stage not in stages or not id:
        raise InputError(
            [
                f"--guess: given {text!r}; accepted STAGE=ID, such as tool=mdf, with STAGE "
                f"one of {', '.join(stages)}"
            ]
        )
    tools = knowledge.tool_materials
    known = {
        "tool": [*tools, *dict.fromkeys(row.family for row in tools.values())],
        "sealing": list(knowledge.sealers),
        "release": list(knowledge.releases),
        "bagging": list(knowledge.bagging),
    }[stage]
    if id not in known:
        raise InputError(
            [
                f"--guess {stage}: given {id!r}; accepted an id that `advisor options` "
                f"lists.{did_you_mean(id, known)}"
            ]
        )
    return Guess(stage, id)  # type: ignore[arg-type]


def with_guesses(plan: Plan, guesses: Iterable[Guess]) -> Plan:
    """Return the plan with each guess answered: right, standing, or ruled out and why."""
    records = tuple(_answered(plan, guess) for guess in guesses)
    return plan.model_copy(update={"guesses": records})


def _answered(plan: Plan, guess: Guess) -> GuessRecord:
    option = _meant(plan, guess)
    if option is None:
        waits = "questions come first" if plan.questions else "no route shows it in use"
        text = f"{guess.id} as the {_WHAT[guess.stage]}: not judged, for {waits}."
        return GuessRecord(stage=guess.stage, id=guess.id, verdict="not-judged", text=text)
    chosen = _chosen(plan, guess.stage)
    guessed = f"{option.name} as the {_WHAT[guess.stage]}:"
    if option.id == chosen:
        text = f"{guessed} so does the plan."
        return GuessRecord(stage=guess.stage, id=guess.id, verdict="right", text=text)
    answer = why(plan, option.id)
    against = tuple(one.chain[-1].said for one in answer.reasons if one.weight)
    reasons = (one.sentence for one in against)
    text = " ".join(dict.fromkeys((guessed, in_sentence(answer.outcome), *reasons)))
    taken = next((one.name for one in plan.options if one.id == chosen), None)
    return GuessRecord(
        stage=guess.stage,
        id=guess.id,
        verdict="ruled-out" if option.verdict == "ruled-out" else "stands",
        text=f"{text} The plan takes {in_sentence(taken)}." if taken else text,
        conclusions=against,
    )


def _meant(plan: Plan, guess: Guess) -> OptionRecord | None:
    """Return the option that was meant: of a family the one that fared best."""
    fared = ("good", "stands", "doubtful", "ruled-out")
    chosen = _chosen(plan, guess.stage)
    meant = [
        one
        for one in plan.options
        if one.stage == guess.stage and guess.id in (one.id, one.family)
    ]
    return min(
        meant, key=lambda one: (one.id != chosen, fared.index(one.verdict)), default=None
    )


def _chosen(plan: Plan, stage: OptionStage) -> str | None:
    return getattr(plan.route, stage) if plan.route else None
