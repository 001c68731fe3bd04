"""Whole jobs of the trade: what must and must not be advised, and the score."""

import tomllib
from pathlib import Path

import pytest

from advisor.knowledge.tables import load_knowledge
from advisor.reading import InputError

CASES = tomllib.loads(
    Path(__file__).with_name("trade_cases.toml").read_text(encoding="utf-8")
)["case"]
KEYS = {
    "title why source base job shop verdicts tool not_tool out stands cautions".split()[i]
    for i in range(12)
} | {"no_cautions", "says", "says_not", "says_one_of", "faults"}


def words(plan):
    """Return everything the plan tells, in one text."""
    told = [one.text for one in (*plan.steps, *plan.conditions, *plan.questions)]
    told += [step.title for step in plan.steps]
    told += [one.proved_by for one in plan.conditions]
    told += [one.field for one in plan.questions]
    told += [one.text for one in plan.cautions]
    told += [r.sentence for option in plan.options for r in option.reasons]
    told += [finding.conclusion.sentence for finding in plan.findings]
    if plan.proposal:
        told += [one.sentence for one in plan.proposal.conclusions]
    return " ".join(told).replace("\u202f", " ")


def faults(plan, case):
    """Return what is not as the case asks."""
    said, found = words(plan), []
    tool = plan.route.tool if plan.route else None
    verdicts = {f"{one.stage}:{one.id}": one.verdict for one in plan.options}
    present = {one.id for one in plan.cautions}
    if plan.verdict not in case.get("verdicts", [plan.verdict]):
        found.append(f"verdict {plan.verdict}")
    if tool not in case.get("tool", [tool]) or tool in case.get("not_tool", []):
        found.append(f"tool {tool}")
    found += [
        f"{o} is {verdicts.get(o)}"
        for o in case.get("out", [])
        if verdicts.get(o) != "ruled-out"
    ]
    found += [
        f"{o} is {verdicts.get(o)}"
        for o in case.get("stands", [])
        if verdicts.get(o) in (None, "ruled-out")
    ]
    found += [f"no caution {c}" for c in case.get("cautions", []) if c not in present]
    found += [f"caution {c}" for c in case.get("no_cautions", []) if c in present]
    found += [f"does not say {w!r}" for w in case.get("says", []) if w not in said]
    found += [f"says {w!r}" for w in case.get("says_not", []) if w in said]
    one_of = case.get("says_one_of", [])
    if one_of and not any(word in said for word in one_of):
        found.append(f"says none of {one_of}")
    return found


def test_there_are_fifty_cases_of_known_sources():
    assert len(CASES) >= 50
    assert len({case["title"] for case in CASES}) == len(CASES)
    for case in CASES:
        assert set(case) <= KEYS, case["title"]
        assert case["source"] in load_knowledge().sources
        assert set(case) & (KEYS - {"title", "why", "source", "base", "job", "shop"})


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["title"])
def test_the_case_is_advised_as_the_trade_would(make_plan, case):
    arguments = (case.get("base", "cowl"), case.get("job", {}), case.get("shop", {}))
    if "faults" in case:
        with pytest.raises(InputError, match=case["faults"]):
            make_plan(*arguments)
        return
    assert faults(make_plan(*arguments), case) == []
