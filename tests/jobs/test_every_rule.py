"""Every rule is fired by a job of the tests, and kept still by another."""

import tomllib
from pathlib import Path

import pytest

from advisor.reasoning.rulebook import rule_entries

HERE = Path(__file__).parent
JOBS = tomllib.loads((HERE / "every_rule.toml").read_text(encoding="utf-8"))["job"]
CASES = tomllib.loads((HERE / "trade_cases.toml").read_text(encoding="utf-8"))["case"]
DEMOS = [{"base": name} for name in ("cowl", "panel", "duct")]


def arguments(one):
    """Return what `make_plan` takes; absent keys stand as None there."""
    moved = (
        {key: None if value == "__absent__" else value for key, value in changes.items()}
        for changes in (one.get("job", {}), one.get("shop", {}))
    )
    return one.get("base", "cowl"), *moved


@pytest.mark.parametrize("job", JOBS, ids=lambda job: " ".join(job["rules"]))
def test_the_job_fires_its_rules(make_plan, job):
    assert set(job["rules"]) - make_plan.fired(*arguments(job)) == set()


def test_every_rule_fires_in_one_job_and_not_in_another(make_plan):
    planned = [one for one in (*DEMOS, *CASES, *JOBS) if "faults" not in one]
    firings = [make_plan.fired(*arguments(one)) for one in planned]
    ids = {entry.advice.id for entry in rule_entries()}
    assert " ".join(sorted(ids - set.union(*firings))) == ""
    assert " ".join(sorted(ids & set.intersection(*firings))) == ""
