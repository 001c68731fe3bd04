"""What is drawn has its row, its rule and its sign: nothing of a plan falls between."""

import pytest

from advisor.documents.briefing import _WORN_ON
from advisor.documents.pictures.section import _LINES
from advisor.documents.pictures.side_view import _PARTING
from advisor.documents.render import _templates
from advisor.documents.shown import _LOOKED_AT
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.rulebook import rule_entries
from advisor.stack import layer_of

KNOWN = load_knowledge()
LINES = [line for row in KNOWN.bagging.values() for line in (*row.layers, *row.below)]


@pytest.mark.parametrize("line", sorted(set(LINES)))
def test_every_line_of_a_bag_is_a_layer(line):
    assert layer_of(line, KNOWN) in KNOWN.layers


def test_a_line_that_is_none_is_told():
    with pytest.raises(KeyError, match="a rug"):
        layer_of("a rug", KNOWN)


def test_no_beginning_belongs_to_two_layers():
    starts = [start for row in KNOWN.layers.values() for start in row.begins]
    assert len(starts) == len(set(starts))


def test_no_beginning_is_idle():
    for id, row in KNOWN.layers.items():
        for start in row.begins:
            assert any(line.startswith(start) for line in LINES), f"{id}: {start}"


def test_what_is_drawn_as_a_line_is_a_layer():
    assert set(_LINES) <= set(KNOWN.layers)


def test_a_picture_is_looked_at_in_steps_that_there_are():
    ids = {entry.advice.id for entry in rule_entries()}
    for rules in _LOOKED_AT.values():
        assert set(rules) <= ids


def test_whatever_is_worn_has_a_sign():
    worn = {item for row in KNOWN.cautions.values() for item in row.wear}
    assert worn <= set(_WORN_ON)
    signs = _templates().get_template("signs.html").module
    for one in set(_WORN_ON.values()):
        assert "<circle" in signs.wear(one)


def test_every_caution_has_a_sign_that_is_drawn():
    signs = _templates().get_template("signs.html").module
    for row in KNOWN.cautions.values():
        assert signs.warning(row.sign).count("<path") >= 1


def test_every_way_to_part_a_tool_is_drawn():
    ways = {way for row in KNOWN.tool_materials.values() for way in row.constructions}
    assert ways | {"loose-piece"} == set(_PARTING)
