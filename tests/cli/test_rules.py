"""The rule base listed, explained and checked from the command line."""

from dataclasses import replace

import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.expert import MATCH, Rule
from advisor.reasoning.facts import Tool
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import check as rule_check


def run(*arguments):
    return CliRunner().invoke(app, ["rules", *arguments])


def test_every_rule_is_listed_once():
    lines = run().output.splitlines()
    assert [line.split()[0] for line in lines] == [e.advice.id for e in rule_entries()]


@pytest.mark.parametrize("entry", rule_entries(), ids=lambda entry: entry.advice.id)
def test_a_rule_is_explained_with_its_sources(entry):
    text = rule_check.explained(entry.advice.id)
    for key in entry.advice.cites:
        assert load_knowledge().sources[key].citation[:30] in text.replace("\n", " ")
    assert "{" not in text


def test_an_id_in_small_letters_is_found_and_an_unknown_one_is_a_fault():
    assert run("show", "step-760").output.startswith("STEP-760: Cool")
    unknown = run("show", "STEP-999")
    assert unknown.exit_code == 2
    assert "given 'STEP-999'" in unknown.output


def test_the_rule_base_is_sound():
    assert rule_check.faults() == []
    assert run("check").exit_code == 0


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"cites": ("nobody",)}, "cites nobody"),
        ({"cites": ()}, "cites nothing"),
        ({"limits": ("no_such_row",)}, "compares with no_such_row"),
        ({"reason": "It is {colour}."}, "asks for colour"),
        ({"reason": "It is {value:furlongs}."}, "in style furlongs"),
    ],
)
def test_what_a_rule_says_wrongly_of_itself_is_found(monkeypatch, change, fault):
    entry = rule_entries()[0]
    broken = replace(entry, advice=replace(entry.advice, **change))
    monkeypatch.setattr(rule_check, "rule_entries", lambda: (broken,))
    assert any(fault in line for line in rule_check.faults())


def test_two_rules_of_one_id_or_name_are_found(monkeypatch):
    entry = rule_entries()[0]
    monkeypatch.setattr(rule_check, "rule_entries", lambda: (entry, entry))
    found = " ".join(rule_check.faults())
    assert "the id stands 2 times" in found
    assert f"two rules are called {entry.method}" in found


@pytest.mark.parametrize(
    ("id", "row"),
    [
        ("REL-080", "lasting_pulls"),  # in its condition
        ("TOOL-110", "growth_watched"),  # in its body
        ("VAC-020", "breather_plies"),  # in a constant made of two rows
        ("DRY-020", "room_temperature"),  # as it is
        ("CURE-080", "heat_up_longest"),  # in a constant of a sibling
        ("CURE-030", "cure_enough"),  # in a helper of its own class
        ("HEAT-010", "film_coefficient"),  # in a helper's constant, with its ends
        ("STEP-518", "shear_twill"),  # by a name put together
    ],
)
def test_a_limit_that_a_rule_does_not_declare_is_found(monkeypatch, id, row):
    entry = next(one for one in rule_entries() if one.advice.id == id)
    fault = f"{id}: compares with {row}, which it does not declare"
    declared = tuple(name for name in entry.advice.limits if name != row)
    broken = replace(entry, advice=replace(entry.advice, limits=declared))
    monkeypatch.setattr(rule_check, "rule_entries", lambda: (broken,))
    assert fault in rule_check.faults()
    monkeypatch.setattr(rule_check, "rule_entries", lambda: (entry,))
    assert fault not in rule_check.faults()


@pytest.mark.parametrize(
    ("pattern", "fires"),
    [
        (Tool(form="cast", name=MATCH.name), True),
        (Tool(form="knitted", name=MATCH.name), False),
        (Tool(form="cast", dust="metal"), False),
    ],
)
def test_a_pattern_that_no_row_meets_never_fires(monkeypatch, pattern, fires):
    entry = next(e for e in rule_entries() if e.advice.id == "STEP-165")
    moved = replace(entry, rule=Rule(pattern))
    monkeypatch.setattr(rule_check, "rule_entries", lambda: (moved,))
    assert ("it never fires" not in " ".join(rule_check.faults())) == fires
