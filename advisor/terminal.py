"""The short summary of a plan on the terminal."""

import textwrap

from advisor.documents.first_page import VERDICTS
from advisor.measures import in_sentence, plain_number, sentence, sign
from advisor.plan import Plan, RouteRecord, TurnRecord

WIDTH = 88


def summary(plan: Plan) -> str:
    """Return verdict, route, cost and what must be signed or answered, in a few lines."""
    lines = [f"{plan.job['title']}: {VERDICTS[plan.verdict].lower()}"]
    if plan.route:
        lines += _route(plan, plan.route)
    if plan.guesses:
        lines.append("  Your guess, taken down before the answer:")
        lines += [_item(one.text) for one in plan.guesses]
    lines += [_item(question.text) for question in plan.questions]
    if plan.conditions:
        lines.append(
            "  To be shown and signed, at the latest before the first part:"
            if plan.route
            else "  What would open a route:"
        )
        lines += [_item(condition.text) for condition in plan.conditions]
    unseats = [one.text for one in plan.changes if one.about == "route"]
    if unseats:
        lines.append("  What would change this, at the nearest:")
        lines += [_item(text) for text in unseats]
    if plan.sureness:
        lines += ["  How sure it is:", _item(plan.sureness.text)]
        lines += [_item(_turning(one)) for one in plan.sureness.turns]
    out = sum(
        option.stage == "tool" and option.verdict == "ruled-out" for option in plan.options
    )
    if out:
        others = len(plan.alternatives)
        stand = {0: "", 1: ", 1 other stands"}.get(others, f", {others} others stand")
        lines.append(f"  Tool materials: {out} ruled out{stand}.")
    return "\n".join(lines)


def _route(plan: Plan, route: RouteRecord) -> list[str]:
    names = {(option.stage, option.id): option.name for option in plan.options}
    rows = [
        (
            "Tool",
            sentence(
                "{name}; {tools:tools} good for about {life:parts}{each}",
                name=route.name,
                each=" each" if route.tools > 1 else "",
                tools=route.tools,
                life=route.parts_per_tool,
            ),
        ),
        ("Seal", names["sealing", route.sealing]),
        ("Release", names["release", route.release]),
        ("Bag", names["bagging", route.bagging]),
        (
            "Cost",
            sentence(
                (
                    "{total:money} {currency} in all ({low:money} to {high:money}), "
                    "{each:money} a part"
                ),
                total=route.cost_total,
                low=route.cost_low,
                high=route.cost_high,
                each=route.cost_per_part,
                currency=route.currency,
            ),
        ),
    ]
    rows += _refused(plan)
    rows += [
        (label, ", ".join(in_sentence(one.hazard) for one in cautions))
        for label, cautions in (
            ("Can kill", [one for one in plan.cautions if one.gravity == 1]),
            ("Can hurt", [one for one in plan.cautions if one.gravity == 2]),
        )
        if cautions
    ]
    return [_row(label, text) for label, text in rows]


def _turning(one: TurnRecord) -> str:
    """Tell in a line within which range the answer turns."""
    low, high, at = map(plain_number, (one.low, one.high, one.at))
    span = f"{low} to {high} {sign(one.unit)}".strip()
    to = "down" if one.end == "low" else "up"
    return f"{one.name}, {span}: turns from {at} {to}."


def _refused(plan: Plan) -> list[tuple[str, str]]:
    """Return what of the user's own idea was not kept, and why."""
    if not plan.proposal:
        return []
    against = [c.sentence for c in plan.proposal.conclusions if c.kind == "ruled-out"]
    return [("Not kept", " ".join(against))] if against else []


def _row(label: str, text: str) -> str:
    return textwrap.fill(
        text, WIDTH, initial_indent=f"  {label:<8} ", subsequent_indent=" " * 11
    )


def _item(text: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent="    - ", subsequent_indent="      ")
