"""Rules that say opposite things of the same facts are found where they can be read."""

from dataclasses import replace

import pytest

from advisor.reasoning.expert import MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Need, Part, Sealing, Tool
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import contradictions

BY_ID = {entry.advice.id: entry for entry in rule_entries()}


def found(**conditions):
    """Return the faults of shipped rules whose conditions are replaced by these."""
    moved = (
        replace(BY_ID[id.replace("_", "-")], rule=Rule(*patterns))
        for id, patterns in conditions.items()
    )
    return list(contradictions.faults(tuple(moved)))


def test_the_rules_that_ship_do_not_contradict_each_other():
    assert list(contradictions.faults(rule_entries())) == []


TIGHT = Tool(tightness="tight", name=MATCH.name)
BARE = Sealing(id="none", name=MATCH.seal)


@pytest.mark.parametrize(
    ("praised", "ruled_out", "clash"),
    [
        ((TIGHT, BARE), (TIGHT, BARE), True),
        ((TIGHT, BARE), (Tool(tightness=among("tight", "leaks-through")), BARE), True),
        ((TIGHT, BARE), (Tool(tightness=NE("tight")), BARE), False),
        ((Tool(name=MATCH.name), BARE), (TIGHT, BARE), False),  # out only sometimes
        ((TIGHT, BARE), (TIGHT, BARE, TEST(lambda name: bool(name))), False),  # unread
        ((TIGHT, BARE), (TIGHT, Sealing(id=NE("none"))), False),
    ],
)
def test_praise_that_another_rule_takes_back_is_found(praised, ruled_out, clash):
    """SEAL-015 commends and SEAL-010 rules out."""
    told = found(SEAL_015=praised, SEAL_010=ruled_out)
    assert told == (["SEAL-015: whatever it commends, SEAL-010 rules out"] if clash else [])


@pytest.mark.parametrize(
    ("one", "another", "clash"),
    [
        (Part(shape="flat"), Part(shape="flat"), True),
        (Part(shape="flat"), Part(undercut=True), True),
        (Part(shape="flat"), Part(shape="closed"), False),
        (Part(shape="flat"), Part(shape=NE("flat")), False),
    ],
)
def test_a_need_that_two_rules_set_differently_is_found(one, another, clash):
    """NEED-030 says that the part lifts off, NEED-070 that the tool opens."""
    told = found(NEED_030=(one,), NEED_070=(another,))
    assert any("set need removal differently" in line for line in told) == clash


def test_a_field_asked_to_be_two_things_is_found():
    patterns = (Need(kind="face", value="filled"), Need(kind="face", value="polished"))
    assert any("it never fires" in line for line in found(SEAL_080=patterns))
