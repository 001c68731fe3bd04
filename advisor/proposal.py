"""Judges the user's own idea piece by piece, and says what of it the route keeps."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import Any, Literal

from advisor import no_route, routes
from advisor.decision import Decision
from advisor.measures import in_sentence
from advisor.plan import ProposalRecord
from advisor.reasoning.engine import Concluded
from advisor.reasoning.provenance import Conclusion, Ground
from advisor.routes import Candidate, Judged, has_piece, kept_stages, proposed


@dataclass
class _Lost:
    """What keeps a proposed piece out of the route: said, and the verdicts behind it."""

    said: list[Conclusion] = field(default_factory=list)
    verdicts: list[Concluded] = field(default_factory=list)


def judged(decision: Decision, winner: Candidate | None) -> ProposalRecord | None:
    """Judge the user's own idea piece by piece; what the route keeps of it is sound."""
    asked = decision.job.proposal
    if asked is None:
        return None
    given = proposed(asked)
    if not given:
        return None
    kept = kept_stages(asked, winner.pieces) if winner else []
    conclusions: list[Conclusion] = []
    for stage, (verdicts, lost) in _pieces(decision, winner, given).items():
        id = given[stage]
        if verdicts is None:
            conclusions.append(_not_judged(stage, id, _name(decision, stage, id)))
            continue
        said = [one.conclusion for one in (*verdicts.against, *verdicts.doubts)]
        said += lost.said
        if stage in kept:
            conclusions += said or [_nothing_against(stage, id, _name(decision, stage, id))]
        else:
            way_back = [*verdicts.against, *lost.verdicts]
            conclusions += [*said, _way_back(decision, winner, stage, id, way_back)]
    verdict: Literal["sound", "sound-in-part", "refused"] = (
        "sound" if len(kept) == len(given) else "sound-in-part" if kept else "refused"
    )
    return ProposalRecord(as_given=given, verdict=verdict, conclusions=tuple(conclusions))


def _pieces(
    decision: Decision, winner: Candidate | None, given: Mapping[str, str]
) -> dict[str, tuple[Judged | None, _Lost]]:
    """Return the verdicts on each piece, and what loses those that no route has."""
    base = _proposed_base(decision, winner, given)
    verdicts = {
        stage: _proposed_piece(
            decision,
            stage,
            id,
            winner if winner and _holds(winner, stage, given) else None,
            base,
        )
        for stage, id in given.items()
    }
    alone = [stage for stage, one in verdicts.items() if one is not None and one.stands]
    somewhere = {
        stage: id
        for stage, id in given.items()
        if stage in alone or _stands_elsewhere(decision, stage, id)
    }
    said = {
        against.conclusion.id
        for one in verdicts.values()
        if one is not None
        for against in one.against
    }
    lost = _lost_together(decision, winner, somewhere, base[0] if base else "", said)
    if "tool" in alone and (no_route_with := _no_route_with(decision, given["tool"])):
        lost["tool"] = no_route_with
    return {stage: (one, lost.get(stage, _Lost())) for stage, one in verdicts.items()}


def _way_back(
    decision: Decision,
    winner: Candidate | None,
    stage: str,
    id: str,
    against: Sequence[Concluded],
) -> Conclusion:
    """Say what a piece that is not kept would take, and what the route has in its place."""
    name = _name(decision, stage, id)
    wanted = no_route.lifting(against)
    instead = ""
    if winner is not None:
        bare = stage == "sealing" and winner.pieces.sealing_id == "none"
        used = f"uses {in_sentence(_used(winner)[stage])}"
        instead = f"the route {'leaves the tool unsealed' if bare else used} instead"
    said = [f"{name} would need {wanted}{instead and f'; {instead}'}."] if wanted else []
    because = [one.conclusion for one in against]
    if winner is not None:
        if not wanted:
            said.append(f"{name} stands by itself, but not with what is kept; {instead}.")
        because.append(decision.first_because)
    elif not wanted:
        said.append(f"{name} waits for what would open a route.")
        because.extend(one.conclusion for one in no_route.smallest_changes(decision))
    title = "What it would take, and what takes its place"
    return routes.joined("JOIN-091", f"{stage}:{id}", title, " ".join(said), because)


def _lost_together(
    decision: Decision,
    winner: Candidate | None,
    alone: Mapping[str, str],
    base: str,
    said: set[str],
) -> dict[str, _Lost]:
    """Say which proposed pieces stand alone and yet not in a route, or not in one together.

    The smallest sets come first; a set that holds one already told is passed over. Each is
    told of the piece that the route drops. A tool alone is left to `_no_route_with`, and
    what is `said` of a piece already is not said again of two.
    """
    told: list[set[str]] = []
    if "tool" in alone and not _routes_with(decision, {"tool": alone["tool"]}):
        told.append({"tool"})
    lost: dict[str, _Lost] = {}
    for size in range(1, len(alone) + 1):
        for stages in combinations(alone, size):
            wanted = {stage: alone[stage] for stage in stages}
            if any(one <= set(stages) for one in told) or _routes_with(decision, wanted):
                continue
            tool, because, nearest = _in_the_way(decision, wanted, base)
            if not because:
                continue
            told.append(set(stages))
            if said.issuperset(one.conclusion.id for one in because):
                continue
            dropped = [one for one in stages if winner and not _holds(winner, one, wanted)]
            of = lost.setdefault((*dropped, stages[-1])[0], _Lost())
            of.said.append(_not_in_a_route(decision, wanted, tool, because))
            of.verdicts.extend(nearest)
    return lost


def _stands_elsewhere(decision: Decision, stage: str, id: str) -> bool:
    """Return whether a piece stands on a tool, if not on the one the others go with."""
    if stage == "sealing":
        return any(one.stands for (_, seal), one in decision.seals.items() if seal == id)
    return bool(_routes_with(decision, {stage: id}))


def _holds(one: Candidate, stage: str, wanted: Mapping[str, str]) -> bool:
    return has_piece(one.pieces, stage, wanted)


def _routes_with(decision: Decision, wanted: Mapping[str, str]) -> list[Candidate]:
    """Return the routes that stand and have all of these pieces."""
    return [
        one
        for one in decision.ranked
        if all(_holds(one, stage, wanted) for stage in wanted)
    ]


def _in_the_way(
    decision: Decision, wanted: Mapping[str, str], base: str
) -> tuple[str, list[Concluded], list[Concluded]]:
    """Return a tool, and what rules out every route over it with these pieces.

    First what rules out a whole route; then, on the tool of the proposal or of the route,
    what rules out its seal or the pieces that would complete one; last, the fewest
    verdicts that would have to go. What rules a seal out on a tool would have another tool
    or another seal: nothing that would bring both back.
    """
    rows = decision.knowledge.tool_materials
    whole = [
        one
        for one in decision.candidates
        if all(_holds(one, stage, wanted) for stage in wanted)
    ]
    if whole:
        nearest = min(whole, key=lambda one: (one.cost.total, one.ids))
        against = nearest.route_judged.against
        return nearest.pieces.tool_id, against, against
    ways: list[tuple[str, list[Concluded], list[Concluded]]] = []
    for (tool, seal), sealed in decision.seals.items():
        if wanted.get("sealing", seal) != seal:
            continue
        if "tool" in wanted and wanted["tool"] not in (tool, rows[tool].family):
            continue
        if not sealed.stands:
            if {"tool", "sealing"} <= set(wanted):
                ways.append((tool, sealed.against, []))
            continue
        for stage, judged in (
            ("release", decision.releases_on(tool, seal)),
            ("bagging", decision.bags_on(tool, seal)),
        ):
            asked = [one for id, one in judged.items() if wanted.get(stage, id) == id]
            if not any(one.stands for one in asked):
                fewest = min((one.against for one in asked), key=len)
                ways.append((tool, [one.against[0] for one in asked], fewest))
                break
    return min(ways, key=lambda way: (way[0] != base, len(way[1])), default=("", [], []))


def _not_in_a_route(
    decision: Decision, wanted: Mapping[str, str], tool: str, against: list[Concluded]
) -> Conclusion:
    names = " and ".join(in_sentence(_name(decision, *piece)) for piece in wanted.items())
    on = in_sentence(decision.knowledge.tool_materials[tool].name)
    once = list({one.conclusion.sentence: one.conclusion for one in against}.values())
    why = f"What stops it on {on}: " + " ".join(one.sentence for one in once)
    subject = "+".join(wanted.values())
    if len(wanted) == 1:
        text = f"With {names} no route is left, though a tool stands for it. {why}"
        return routes.joined("JOIN-074", subject, "It stands in no route", text, once)
    text = f"Each stands by itself, but no route has {names} together. {why}"
    return routes.joined("JOIN-084", subject, "They do not go together", text, once)


def _name(decision: Decision, stage: str, id: str) -> str:
    """Return the name of a proposed piece; a family is named by its first tool."""
    knowledge = decision.knowledge
    if stage == "tool":
        rows = knowledge.tool_materials
        return next(row.name for key, row in rows.items() if id in (key, row.family))
    named: dict[str, Mapping[str, Any]] = {
        "sealing": knowledge.sealers,
        "release": knowledge.releases,
        "bagging": knowledge.bagging,
    }
    return str(named[stage][id].name)


def _no_route_with(decision: Decision, proposed: str) -> _Lost | None:
    """Say why a proposed tool that stands alone is in no route, or None if it is in one."""
    rows = decision.knowledge.tool_materials
    meant = [id for id in rows if proposed in (id, rows[id].family)]
    own = [one for one in decision.candidates if one.pieces.tool_id in meant]
    if any(one.stands for one in own):
        return None
    standing = next(id for id in meant if decision.tools[id].stands)
    of_tool = [one for one in own if one.pieces.tool_id == standing]
    said = no_route.no_route_for(decision, standing, of_tool)
    return _Lost([said], no_route.blockers_of(decision, standing)[0])


def _proposed_base(
    decision: Decision, winner: Candidate | None, given: Mapping[str, str]
) -> tuple[str, str] | None:
    """Return tool and seal that the other pieces of a proposal are judged on.

    The proposed ones, as far as they are given and the tool stands; else the route's.
    """
    rows, proposed = decision.knowledge.tool_materials, given.get("tool")
    meant = [
        id for id in rows if proposed in (id, rows[id].family) and decision.tools[id].stands
    ]
    seals = [seal for _, seal in decision.seals if seal == given.get("sealing")]
    if winner is not None and (not meant or winner.pieces.tool_id in meant):
        return winner.ids[0], (*seals, winner.ids[1])[0]
    standing = [pair for pair, judged in decision.seals.items() if judged.stands]
    pairs = [pair for pair in standing if not meant or pair[0] == meant[0]]
    if meant and seals:
        return meant[0], seals[0]
    return next(iter(pairs), None)


def _proposed_piece(
    decision: Decision,
    stage: str,
    id: str,
    keeper: Candidate | None,
    base: tuple[str, str] | None,
) -> Judged | None:
    """Return the verdicts on a piece: in the route that keeps it, else on the base."""
    if keeper is not None:
        base = keeper.ids[:2]
        if stage == "tool":
            return decision.tools[base[0]]
    if stage == "tool":
        rows = decision.knowledge.tool_materials
        meant = [one for one in rows if id in (one, rows[one].family)]
        grades = [decision.tools[one] for one in meant]
        return next((one for one in grades if one.stands), grades[0])
    if base is None:
        return None
    match stage:
        case "sealing":
            return decision.seals[base[0], id]
        case "release":
            return decision.releases_on(*base)[id]
        case _:
            return decision.bags_on(*base)[id]


def kept_pieces(decision: Decision, winner: Candidate) -> tuple[Conclusion, ...]:
    """Say which pieces of the user's own idea the route keeps."""
    asked = decision.job.proposal
    if asked is None or not winner.kept:
        return ()
    used = _used(winner)
    kept = kept_stages(asked, winner.pieces)
    names = ", ".join(in_sentence(used[stage]) for stage in kept)
    return (
        Conclusion(
            id="JOIN-050:route",
            kind="chosen",
            rule="JOIN-050",
            title="Keep what is sound of the proposal",
            sentence=f"The proposal asks for it and it stands, so it is kept: {names}.",
            grounds=tuple(
                Ground(kind="job", name=f"proposal.{stage}", value=getattr(asked, stage))
                for stage in kept
            ),
            sources=("common-practice",),
            basis="common-practice",
        ),
    )


def _used(winner: Candidate) -> dict[str, str]:
    """Return the names of the pieces of a route by stage."""
    pieces = winner.pieces
    return {
        "tool": pieces.tool.name,
        "sealing": pieces.sealing.name,
        "release": pieces.release.name,
        "bagging": pieces.bagging.name,
    }


def _nothing_against(stage: str, id: str, name: str) -> Conclusion:
    text = f"{name}: nothing on this route rules it out, and nothing about it is in doubt."
    return _about_proposal("JOIN-030", stage, id, "Keep it", text)


def _not_judged(stage: str, id: str, name: str) -> Conclusion:
    text = f"{name} could not be judged: no tool stands for it to go with."
    return _about_proposal("JOIN-040", stage, id, "Not judged", text)


def _about_proposal(rule: str, stage: str, id: str, title: str, text: str) -> Conclusion:
    return Conclusion(
        id=f"{rule}:{stage}:{id}",
        kind="joined",
        rule=rule,
        title=title,
        sentence=text,
        grounds=(Ground(kind="job", name=f"proposal.{stage}", value=id),),
        sources=("common-practice",),
        basis="common-practice",
    )
