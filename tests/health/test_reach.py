"""A rule that waits for what nobody asserts, or asserts too late, is found."""

from dataclasses import replace

import pytest

from advisor.reasoning.expert import MATCH, NE, Rule, among
from advisor.reasoning.facts import Activity, Found, Need, Tool
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import reach


def found(id, *patterns):
    entries = tuple(
        replace(entry, rule=Rule(*patterns)) if entry.advice.id == id else entry
        for entry in rule_entries()
    )
    return [line for line in reach.faults(entries) if line.startswith(f"{id}:")]


def test_every_rule_that_ships_waits_for_what_comes():
    assert list(reach.faults(rule_entries())) == []


@pytest.mark.parametrize(
    "pattern",
    [
        Found(key="no-such-number", value=MATCH.x),
        Need(kind="no-such-need"),
        Need(kind="face", value="hairy"),
        Need(kind="face", value=NE("hairy")),
        Need(kind="face", value=among("polished", "hairy")),
        Activity(name="whistles-at-work"),
    ],
)
def test_a_fact_that_nobody_asserts_is_found(pattern):
    assert "which no rule concludes" in found("SEAL-010", pattern, Tool(name=MATCH.n))[0]


def test_a_docstring_concludes_nothing():
    entry = next(one for one in rule_entries() if one.advice.id == "SEAL-010")

    def body(self):
        """Speak of a no-such-number."""
        return "a word"

    body.__module__ = entry.body.__module__
    assert reach._words(body) == {"a word"}


def test_a_fact_that_comes_later_is_found():
    """The share of the cure is found once tools are heated, long after they are judged."""
    assert found("TOOL-010", Found(key="cure-reached", value=MATCH.x)) == [
        "TOOL-010: waits for found cure-reached, which comes in a later stage"
    ]
    assert found("TOOL-010", Found(key="tool-temperature", value=MATCH.x)) == []
