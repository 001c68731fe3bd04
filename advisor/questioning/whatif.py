"""What another input changes: two plans held side by side."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from advisor.documents.first_page import VERDICTS
from advisor.documents.work import sentences_of
from advisor.measures import in_styles, sentence
from advisor.plan import Plan, StepRecord

_STANDING = {
    "ruled-out": "ruled out",
    "doubtful": "stands, to be proved",
    "good": "stands",
    "stands": "stands",
}


@dataclass(frozen=True)
class Changed:
    """One thing that both plans have, before and after."""

    label: str
    before: str
    after: str


@dataclass(frozen=True)
class Group:
    """What went, what came and what changed among things of one kind."""

    title: str
    gone: tuple[str, ...]
    came: tuple[str, ...]
    changed: tuple[Changed, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.gone or self.came or self.changed)


@dataclass(frozen=True)
class Comparison:
    """Two plans side by side.

    `decision` has every line of the decision, changed or not; `groups` only what differs.
    """

    decision: tuple[Changed, ...]
    groups: tuple[Group, ...]

    @property
    def same(self) -> bool:
        """Whether the move changed nothing of the decision, the work or the cautions."""
        return not self.groups and all(one.before == one.after for one in self.decision)


def compare(before: Plan, after: Plan) -> Comparison:
    """Hold two plans side by side: decision, options, conditions, cautions and steps.

    Where only one of them has a route there is no work to compare: what the other says
    instead is told.
    """
    groups = [
        _options(before, after),
        _group("Questions", before, after, _questions),
        _group("What would open a route", before, after, _openings),
    ]
    if before.route and after.route:
        groups += [
            _group("Conditions", before, after, _conditions),
            _group("Cautions", before, after, _cautions),
            _steps(before, after),
        ]
    return Comparison(_decision(before, after), tuple(one for one in groups if one))


def _questions(plan: Plan) -> dict[str, str]:
    return {one.field: one.text for one in plan.questions}


def _openings(plan: Plan) -> dict[str, str]:
    return {} if plan.route else {one.text: one.text for one in plan.conditions}


def _conditions(plan: Plan) -> dict[str, str]:
    return {one.conclusion.id: one.text for one in plan.conditions}


def _cautions(plan: Plan) -> dict[str, str]:
    return {one.id: one.hazard for one in plan.cautions}


def _decision(before: Plan, after: Plan) -> tuple[Changed, ...]:
    left, right = _lines(before), _lines(after)
    labels = dict.fromkeys((*left, *right))
    return tuple(Changed(one, left.get(one, "-"), right.get(one, "-")) for one in labels)


def _lines(plan: Plan) -> dict[str, str]:
    """Return the decision of a plan by label, as it is printed."""
    lines = {"Verdict": VERDICTS[plan.verdict]}
    route = plan.route
    if route is None:
        return lines
    names = {(option.stage, option.id): option.name for option in plan.options}
    money = "{x:money} {currency}"
    return lines | {
        "Tool": route.name,
        "Seal": names["sealing", route.sealing],
        "Release": names["release", route.release],
        "Bag": names["bagging", route.bagging],
        "Tools": str(route.tools),
        "In all": sentence(money, x=route.cost_total, currency=route.currency),
        "A part": sentence(money, x=route.cost_per_part, currency=route.currency),
        "Ready": sentence("About {x:days}", x=round(route.lead_time_h / 24)),
        "To prove": str(len(route.doubts)),
    }


def _options(before: Plan, after: Plan) -> Group:
    """Return the tool materials whose standing changed; a plan that asks judged none."""
    left, right = _standing(before), _standing(after)
    names = {one.id: one.name for one in before.options if one.stage == "tool"}
    changed = (
        Changed(names[id], left[id], right[id])
        for id in left
        if right.get(id, left[id]) != left[id]
    )
    return Group("Tool materials", (), (), tuple(changed))


def _standing(plan: Plan) -> dict[str, str]:
    return {one.id: _STANDING[one.verdict] for one in plan.options if one.stage == "tool"}


def _group(
    title: str, before: Plan, after: Plan, told: Callable[[Plan], Mapping[str, str]]
) -> Group:
    left, right = told(before), told(after)
    changed = (
        Changed("", left[key], right[key])
        for key in left
        if right.get(key, left[key]) != left[key]
    )
    return Group(title, _without(left, right), _without(right, left), tuple(changed))


def _without(those: Mapping[str, str], others: Mapping[str, str]) -> tuple[str, ...]:
    return tuple(text for key, text in those.items() if key not in others)


def _steps(before: Plan, after: Plan) -> Group:
    left, right = _by_rule(before), _by_rule(after)
    changed = (
        change
        for rule in left
        if rule in right
        for change in _step(left[rule], right[rule])
    )
    return Group(
        "Steps",
        tuple(one.title for rule, one in left.items() if rule not in right),
        tuple(one.title for rule, one in right.items() if rule not in left),
        tuple(changed),
    )


def _by_rule(plan: Plan) -> dict[str, StepRecord]:
    return {one.conclusion.rule: one for one in plan.steps}


def _step(before: StepRecord, after: StepRecord) -> list[Changed]:
    """Return the amounts of a step that changed, or its text if none of them did."""
    left, right = _amounts(before), _amounts(after)
    moved = [
        Changed(f"{before.title}: {label}", left.get(label, "-"), right.get(label, "-"))
        for label in dict.fromkeys((*left, *right))
        if left.get(label) != right.get(label)
    ]
    if not moved and before.text != after.text:
        moved = [Changed(before.title, *_differing(before.text, after.text))]
    return moved


def _differing(before: str, after: str) -> tuple[str, str]:
    """Return the sentences of two texts that the other has not."""
    left, right = sentences_of(before), sentences_of(after)
    return (
        " ".join(one for one in left if one not in right) or "-",
        " ".join(one for one in right if one not in left) or "-",
    )


def _amounts(step: StepRecord) -> dict[str, str]:
    return {one.label: in_styles(one.value, one.unit) for one in step.quantities}
