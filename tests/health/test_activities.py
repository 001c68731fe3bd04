"""What steps have people do, and the cautions that watch for it, name the same things.

A misspelt activity would drop a caution in silence.
"""

import ast
from pathlib import Path

import pytest

from advisor.reasoning.facts import Activity
from advisor.reasoning.rulebook import rule_entries

RULES = Path(__file__).parents[2] / "rules"


def done_in_steps():
    """Return every activity a step of the rule base names."""
    found = set()
    for path in RULES.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.keyword) and node.arg == "does":
                found |= {
                    leaf.value for leaf in ast.walk(node) if isinstance(leaf, ast.Constant)
                }
    return found


def watched_by(entry):
    """Return the activities of `DONE` that set a rule of the people stage off."""
    patterns = [part for part in entry.rule if isinstance(part, Activity)]
    assert len(patterns) <= 1
    return {name for name in DONE if patterns and accepts(patterns[0]["name"], name)}


def accepts(condition, name):
    """Return whether a field condition of a pattern holds for a word."""
    if isinstance(condition, str):
        return condition == name
    if hasattr(condition, "match"):
        return condition.match(name)
    if hasattr(condition, "value"):
        return condition.value == name
    if isinstance(condition, tuple) and condition:
        return all(accepts(part, name) for part in condition)
    return True  # a name that is only bound


DONE = done_in_steps()
PEOPLE = [e for e in rule_entries() if e.stage == "people" and Activity in e.fields()]


@pytest.mark.parametrize("entry", PEOPLE, ids=lambda entry: entry.advice.id)
def test_every_caution_watches_for_something_a_step_does(entry):
    assert watched_by(entry)


@pytest.mark.parametrize("name", sorted(DONE))
def test_everything_a_step_does_is_watched_by_a_caution(name):
    assert any(name in watched_by(entry) for entry in PEOPLE)
