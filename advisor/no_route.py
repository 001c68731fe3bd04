"""Says why a tool is in no route, and which smallest changes would open one."""

from collections.abc import Iterable

from advisor import routes
from advisor.decision import Decision
from advisor.measures import in_sentence
from advisor.plan import ConditionRecord
from advisor.reasoning.conclusions import RuledOut
from advisor.reasoning.engine import Concluded
from advisor.reasoning.provenance import Conclusion
from advisor.routes import Candidate, Judged


def no_route_for(decision: Decision, tool: str, own: list[Candidate]) -> Conclusion:
    """Say why a tool material that stands alone is in no route."""
    name = decision.knowledge.tool_materials[tool].name
    if own:
        nearest = min(own, key=lambda one: (one.cost.total, one.ids))
        because = [one.conclusion for one in nearest.route_judged.against]
        text = " ".join(one.sentence for one in because)
        return routes.joined("JOIN-010", tool, "Its routes are ruled out", text, because)
    because, what = _missing_piece(decision, tool)
    # Bags for another pressure than the cure's say nothing, once one for this one does.
    because = [one for one in because if one.rule != "BAG-110"] or because
    text = f"{name} stands by itself, but no {what} goes with it here. " + " ".join(
        dict.fromkeys(one.sentence for one in because)
    )
    return routes.joined("JOIN-020", tool, f"No {what} goes with it", text, because)


def _missing_piece(decision: Decision, tool: str) -> tuple[list[Conclusion], str]:
    seals = decision.seals_on(tool)
    standing = [seal for seal, judged in seals.items() if judged.stands]
    groups: list[tuple[str, Iterable[Judged]]] = [("seal", seals.values())]
    for seal in standing:
        groups.append(("release", decision.releases_on(tool, seal).values()))
        groups.append(("bag", decision.bags_on(tool, seal).values()))
    for what, judged in groups:
        if not any(one.stands for one in judged):
            return [one.against[0].conclusion for one in judged], what
    raise RuntimeError(f"{tool} has a route and yet is said to have none")


def smallest_changes(decision: Decision) -> tuple[ConditionRecord, ...]:
    """Return the changes that would open a route: what lacks only money comes first.

    Tools that one and the same change brings back stand together.
    """
    wants: dict[tuple[bool, str], list[tuple[int, float, str, Conclusion]]] = {}
    for id, judged in decision.tools.items():
        blockers, money = blockers_of(decision, id)
        wanted = lifting(blockers)
        row = (len(blockers), money, id, blockers[0].conclusion)
        wants.setdefault((bool(judged.against), wanted), []).append(row)
    nearest_first = sorted(
        wants.items(), key=lambda row: (row[0][0], min(one[:3] for one in row[1]))
    )
    return tuple(
        ConditionRecord(
            text=_come_back(
                [
                    decision.knowledge.tool_materials[one[2]].name
                    for one in sorted(rows, key=_by_nearness)
                ],
                wanted,
                out_by_itself,
            ),
            proved_by="a change of the job or the shop, then a new plan",
            conclusion=min(rows, key=_by_nearness)[3],
        )
        for (out_by_itself, wanted), rows in nearest_first[:5]
    )


def blockers_of(decision: Decision, tool: str) -> tuple[list[Concluded], float]:
    """Return what keeps a tool out, and the price of its nearest route if it has one."""
    if decision.tool(tool).against:
        return decision.tool(tool).against, 0.0
    own = decision.routes_of(tool)
    if own:
        nearest = min(own, key=lambda one: (one.cost.total, one.ids))
        return nearest.route_judged.against, nearest.cost.total
    return _nearest_on_tool(decision, tool), 0.0


def lifting(blockers: Iterable[Concluded]) -> str:
    """Say what would lift every one of these verdicts."""
    lifted = (
        one.outcome.lifted_by for one in blockers if isinstance(one.outcome, RuledOut)
    )
    return " and ".join(dict.fromkeys(lifted))


def _by_nearness(row: tuple[int, float, str, Conclusion]) -> tuple[int, float, str]:
    return row[:3]


def _come_back(names: list[str], wanted: str, out_by_itself: bool) -> str:
    """Say what brings tools back; one that is out by itself may lack more."""
    who = "; ".join((names[0], *map(in_sentence, names[1:])))
    if out_by_itself:
        return f"{who} would first need {wanted}; what else is lacking shows then."
    back = f"{who} come{'s' * (len(names) == 1)} back with {wanted}"
    return f"{back}, and the conditions that go with it."


def _nearest_on_tool(decision: Decision, tool: str) -> list[Concluded]:
    """Return the fewest reasons that keep seal, release and bag off a tool that stands."""
    seals = decision.seals_on(tool)
    standing = [seal for seal, judged in seals.items() if judged.stands]
    tries = [judged.against for judged in seals.values()] if not standing else []
    for seal in standing:
        on_face = (decision.releases_on(tool, seal), decision.bags_on(tool, seal))
        blocked = [
            min((one.against for one in options.values()), key=len)
            for options in on_face
            if not any(one.stands for one in options.values())
        ]
        tries.append([one for against in blocked for one in against])
    return min(tries, key=len)
