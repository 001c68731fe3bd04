"""Planned jobs show what conditions cannot: no plan contradicts itself."""

import sys
import tomllib
from collections import Counter
from pathlib import Path

import pytest

from advisor.knowledge.tables import load_knowledge

HERE = Path(__file__).parent
CASES = tomllib.loads((HERE / "trade_cases.toml").read_text(encoding="utf-8"))["case"]
JOBS = tomllib.loads((HERE / "every_rule.toml").read_text(encoding="utf-8"))["job"]
PIECES = ("tool", "sealing", "release", "bagging")


def contradictions(plan):
    """Return what a plan says twice, or of two minds; none if it is of one."""
    found = []
    if plan.route:
        chosen = {(stage, getattr(plan.route, stage)) for stage in PIECES}
        out = {(o.stage, o.id) for o in plan.options if o.verdict == "ruled-out"}
        found += [f"{stage} {id} is chosen and ruled out" for stage, id in chosen & out]
    said = [(step.phase, step.title, step.text) for step in plan.steps]
    found += [f"{step} is said twice" for step in set(said) if said.count(step) > 1]
    accepted = {}
    for step in plan.steps:
        if step.hold_point:
            key = step.title, step.hold_point.check
            accepted.setdefault(key, set()).add(step.hold_point.accept)
    found += [f"{key} has two bounds" for key, some in accepted.items() if len(some) > 1]
    numbers = {}
    for finding in plan.findings:
        numbers.setdefault(finding.id, set()).add(finding.value)
    return found + [
        f"{id} has two values" for id, values in numbers.items() if len(values) > 1
    ]


def planned(make_plan, one):
    job, shop = (
        {key: None if value == "__absent__" else value for key, value in changes.items()}
        for changes in (one.get("job", {}), one.get("shop", {}))
    )
    return make_plan(one.get("base", "cowl"), job, shop)


@pytest.fixture(scope="module")
def plans_of_jobs(make_plan):
    """Plans of the demo jobs, the trade's cases and the jobs that fire every rule."""
    demos = [{"base": name} for name in ("cowl", "panel", "duct")]
    return [
        planned(make_plan, one) for one in (*demos, *CASES, *JOBS) if "faults" not in one
    ]


def test_no_plan_contradicts_itself(plans_of_jobs):
    assert [told for plan in plans_of_jobs for told in contradictions(plan)] == []


def test_no_invented_plan_contradicts_itself(first_plans):
    assert {n: contradictions(p) for n, p in first_plans.items() if contradictions(p)} == {}


def test_a_plan_of_two_minds_is_found(make_plan):
    plan = make_plan("cowl")
    twice = plan.model_copy(update={"steps": (*plan.steps, plan.steps[0])})
    assert "is said twice" in " ".join(contradictions(twice))
    out = tuple(o.model_copy(update={"verdict": "ruled-out"}) for o in plan.options)
    refused = plan.model_copy(update={"options": out})
    assert "is chosen and ruled out" in " ".join(contradictions(refused))
    held = next(step for step in plan.steps if step.hold_point)
    other = held.hold_point.model_copy(update={"accept": "anything"})
    two = held.model_copy(update={"hold_point": other})
    both = plan.model_copy(update={"steps": (*plan.steps, two)})
    assert "has two bounds" in " ".join(contradictions(both))
    moved = plan.findings[0].model_copy(update={"value": -1.0})
    split = plan.model_copy(update={"findings": (*plan.findings, moved)})
    assert "has two values" in " ".join(contradictions(split))


def fates(plans):
    """Return for each option how often it was chosen, and how often ruled out."""
    chosen, out = Counter(), Counter()
    for plan in plans:
        out.update((o.stage, o.id) for o in plan.options if o.verdict == "ruled-out")
        if plan.route:
            chosen.update((stage, getattr(plan.route, stage)) for stage in PIECES)
    return chosen, out


def test_an_option_is_chosen_or_ruled_out_somewhere(plans_of_jobs, first_plans):
    """What is only ever chosen, or only ever ruled out, is printed: pytest -rP shows it."""
    chosen, out = fates([*plans_of_jobs, *first_plans.values()])
    tables = ("tool_materials", "sealers", "releases", "bagging")
    known = {
        (stage, id)
        for stage, table in zip(PIECES, tables, strict=True)
        for id in getattr(load_knowledge(), table)
    }
    for said, idle in (("chosen", known - set(chosen)), ("ruled out", known - set(out))):
        names = ", ".join(" ".join(one) for one in sorted(idle))
        sys.stdout.write(f"never {said}: {names or 'none'}\n")
    assert known - set(chosen) - set(out) == set()
    assert known - set(chosen) <= {(stage, id) for stage, id, _, _, _ in RARE}


VESSEL = {
    "cure.pressure": "autoclave",
    "cure.autoclave_pressure": "3 bar",
    "budget.total": None,
}
IN_VESSEL = {"oven.kind": "autoclave"}
HOT = {"cure.resin": "epoxy-180", "cure.temperature": "180 degC", "budget.total": None}
COOL = {"cure.temperature": "65 degC", "cure.hold": "16 h", "budget.total": None}
# What hardly a job chooses of itself: stage, id, job, moved, shop.
RARE = [
    ("tool", "nickel-iron", "cowl", HOT | {"cure.hold": "2 h"}, None),
    ("tool", "printed-pei", "cowl", {"budget.total": None}, {"making.printer": True}),
    ("sealing", "surfacing-primer", "cowl", COOL | {"proposal.tool": "mdf"}, None),
    (
        "bagging",
        "autoclave-bag",
        "cowl",
        VESSEL | {"proposal.tool": "aluminium"},
        IN_VESSEL,
    ),
    (
        "bagging",
        "autoclave-tube-bag",
        "duct",
        VESSEL | {"part.tool_side": "female", "proposal.tool": "aluminium"},
        IN_VESSEL,
    ),
]


@pytest.mark.parametrize(("stage", "id", "job", "moved", "shop"), RARE)
def test_what_is_rarely_chosen_is_taken_where_it_is_proposed(
    make_plan, stage, id, job, moved, shop
):
    plan = make_plan(job, {"proposal": None} | moved | {f"proposal.{stage}": id}, shop)
    assert getattr(plan.route, stage) == id
