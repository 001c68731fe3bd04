"""Why a plan says what it says: the chain from the user's input, in plain sentences.

Nothing is concluded here: the chain is read off the plan's own conclusions, each of which
holds what it rests on.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal

from advisor.plan import OptionRecord, Plan
from advisor.reasoning.provenance import Conclusion, Ground, conclusions_in

Weight = Literal["hard limit", "doubt", "money or time"]

_WEIGHTS: Mapping[str, Weight] = {"ruled-out": "hard limit", "doubtful": "doubt"}
_OF_MONEY = "MONEY-"  # rules that speak of what a route costs and how long it takes


@dataclass(frozen=True)
class Link:
    """One conclusion of a chain.

    Attributes
    ----------
    n : int
        Its number; what it follows from stands before it.
    said : Conclusion
        The conclusion, with its sentence, sources and basis.
    follows : tuple of int
        The conclusions that it follows from.
    inputs : tuple of Ground
        The user's own input, defaults and figures that it rests on besides.
    """

    n: int
    said: Conclusion
    follows: tuple[int, ...]
    inputs: tuple[Ground, ...]


@dataclass(frozen=True)
class Reason:
    """One conclusion with the chain that leads to it, which it ends.

    `weight` says of what speaks against an option whether it is a hard limit, a doubt that
    a proof would lift, or only money or time; None where nothing speaks against it.
    """

    id: str
    title: str
    weight: Weight | None
    chain: tuple[Link, ...]


@dataclass(frozen=True)
class Answer:
    """What was asked about, what became of it, and every reason.

    `id` is the plan's own, empty for what has none.
    """

    id: str
    about: str
    outcome: str
    reasons: tuple[Reason, ...]


class UnknownIdError(LookupError):
    """The plan says nothing under this id; `near` are ids it does use."""

    def __init__(self, id: str, near: list[str]):
        super().__init__(id)
        self.near = near


def why(plan: Plan, id: str) -> Answer:
    """Return why a plan says something, or why not.

    Parameters
    ----------
    plan : Plan
        As `advise` returns it.
    id : str
        What is asked about: an option (``pu-board``), a number of the plan (``growth``), a
        caution, a condition, a rule that was used (``TOOL-010``), a conclusion
        (``TOOL-010:pu-board``), a step (``12``), or ``route``.

    Raises
    ------
    UnknownIdError
        If the plan says nothing under this id.
    """
    asked = id.strip()
    for found in (_option, _route, _step, _finding, _caution, _conclusion):
        answer = found(plan, asked)
        if answer is not None:
            return answer
    near = get_close_matches(asked, sorted(_ids(plan)), n=3)
    raise UnknownIdError(asked, near)


def _option(plan: Plan, id: str) -> Answer | None:
    option = next((one for one in plan.options if id in (one.id, one.name)), None)
    if option is None:
        return None
    reasons = sorted(option.reasons, key=lambda one: _weight(one) is None)
    if plan.route and option.verdict != "ruled-out":
        reasons += [one for one in plan.route.reasons if one.kind == "chosen"]
    return Answer(
        option.id,
        f"{option.name} ({option.stage})",
        _became_of(plan, option),
        tuple(_reason(one) for one in reasons),
    )


_LOST_BY = {
    "proposal": "your own proposal stands",
    "doubt": "a doubt",
    "money-or-time": "only money or time",
}


def _became_of(plan: Plan, option: OptionRecord) -> str:
    """Say what became of an option: chosen, lost or ruled out, and by what."""
    route = plan.route
    if route and option.id in (route.tool, route.sealing, route.release, route.bagging):
        return "It is in the plan."
    if option.verdict == "ruled-out":
        weights = {_weight(one) for one in option.reasons} - {None, "doubt"}
        return f"It is ruled out: {' and '.join(sorted(filter(None, weights)))}."
    lost = next((one for one in plan.alternatives if one.tool == option.id), None)
    if lost and option.stage == "tool":
        return f"It stands, and lost ({_LOST_BY[lost.lost_by]}): {lost.lost_because}"
    if option.verdict == "doubtful":
        return "It may be used once what is doubtful has been proved."
    return "It stands; another is in the plan."


def _route(plan: Plan, id: str) -> Answer | None:
    if id != "route":
        return None
    if plan.route:
        outcome, said = f"{plan.route.name}.", plan.route.reasons
    elif plan.questions:
        outcome = "None can be named before what is asked is answered."
        said = tuple(one.conclusion for one in plan.questions)
    else:
        outcome, said = "None stands.", tuple(one.conclusion for one in plan.conditions)
    return Answer("route", "The route", outcome, tuple(_reason(one) for one in said))


def _step(plan: Plan, id: str) -> Answer | None:
    number = id.lower().removeprefix("step").strip(" -")
    step = next((one for one in plan.steps if str(one.n) == number), None)
    if step is None:
        return None
    return Answer(str(step.n), f"Step {step.n}", step.text, (_reason(step.conclusion),))


def _finding(plan: Plan, id: str) -> Answer | None:
    found = next((one for one in plan.findings if id in (one.id, one.label)), None)
    if found is None:
        return None
    judged = {
        "ok": "It is within its limit.",
        "watch": "To be watched.",
        "fail": "It fails.",
    }
    outcome = judged[found.judgement] if found.limit is not None else ""
    return Answer(found.id, found.label, outcome, (_reason(found.conclusion),))


def _caution(plan: Plan, id: str) -> Answer | None:
    found = next((one for one in plan.cautions if id in (one.id, one.hazard)), None)
    if found is None:
        return None
    at = ", ".join(str(n) for n in found.applies_to_steps)
    return Answer(
        found.id,
        f"Caution: {found.hazard}",
        f"It stands at step {at}.",
        (_reason(found.conclusion),),
    )


def _conclusion(plan: Plan, id: str) -> Answer | None:
    found = {
        one.id: one
        for one in conclusions_in(plan)
        if id.upper() == one.rule or id.lower() == one.id.lower()
    }
    if not found:
        return None
    reasons = tuple(_reason(found[key]) for key in sorted(found))
    about = id.upper() if len(found) > 1 else reasons[0].id
    return Answer(about, about, "", reasons)


def _ids(plan: Plan) -> Iterator[str]:
    for group in (plan.options, plan.findings, plan.cautions):
        yield from (one.id for one in group)
    for conclusion in conclusions_in(plan):
        yield from (conclusion.id, conclusion.rule)


# ---------------------------------------------------------------------- chains


def _weight(conclusion: Conclusion) -> Weight | None:
    """Return how heavily a conclusion weighs against what it speaks of."""
    if conclusion.kind == "joined":
        below = (one.conclusion for one in conclusion.grounds)
        weights = {weight for one in below if one and (weight := _weight(one))}
        return next((one for one in _WEIGHTS.values() if one in weights), None) or (
            "money or time" if weights else None
        )
    weight = _WEIGHTS.get(conclusion.kind)
    return "money or time" if weight and conclusion.rule.startswith(_OF_MONEY) else weight


def _reason(conclusion: Conclusion) -> Reason:
    links: dict[tuple[str, str], Link] = {}
    _tell(conclusion, links)
    return Reason(
        conclusion.id, conclusion.title, _weight(conclusion), tuple(links.values())
    )


def _tell(conclusion: Conclusion, links: dict[tuple[str, str], Link]) -> int:
    """Append a conclusion behind all that it follows from; return its number."""
    key = (conclusion.id, conclusion.sentence)
    if key not in links:
        earlier = (one.conclusion for one in conclusion.grounds)
        follows = tuple(sorted({_tell(one, links) for one in earlier if one}))
        inputs = (one for one in conclusion.grounds if one.conclusion is None)
        told = tuple(one for one in inputs if not one.name.startswith("title, "))
        links[key] = Link(len(links) + 1, conclusion, follows, told)
    return links[key].n
