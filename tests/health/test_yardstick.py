"""Three engines, the same rules and facts: experta as it comes, the shipped one, CLIPS."""

import importlib
from pathlib import Path

import pytest

from advisor.reading import read_job, read_shop

BENCHMARKS = Path(__file__).parents[1] / "benchmarks"
DEMO = Path(__file__).parents[2] / "advisor" / "demo"


@pytest.fixture(scope="module")
def yardstick():
    with pytest.MonkeyPatch.context() as patch:
        patch.syspath_prepend(str(BENCHMARKS))
        yield importlib.import_module("bench_yardstick")


@pytest.fixture(scope="module")
def sessions(yardstick):
    return yardstick.recorded(read_job(DEMO / "duct.toml"), read_shop(DEMO / "shop.toml"))


def test_all_three_find_the_same_rules_to_hold(yardstick, sessions):
    assert {stage for stage, _ in sessions} >= {"tool", "route", "plan", "people"}
    assert yardstick.differing(sessions) == []


def test_a_rule_that_holds_in_one_alone_is_found(yardstick, sessions, monkeypatch):
    found = yardstick.Clips.matches
    fewer = staticmethod(lambda result: set(sorted(found(result))[1:]))
    monkeypatch.setattr(yardstick.Clips, "matches", fewer)
    assert yardstick.differing(sessions)
