"""Rows of the tables that nothing refers to are found; so are sources that back nothing."""

import ast
import re
from dataclasses import fields, replace
from pathlib import Path

import pytest

from advisor.job import Laminate, Part
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import unused
from advisor.rule_base.words import said

TESTS = Path(__file__).parents[1]


def found(known):
    return list(unused.faults(rule_entries(), known))


def test_every_row_that_ships_is_used_or_held_for_a_reason():
    assert found(load_knowledge()) == []


@pytest.mark.parametrize(
    "table",
    [
        "limits",
        "cautions",
        "phases",
        "exposure_limits",
        "prices",
        "stock_sizes",
        "plies",
        "fibres",
        "duties",
        "avoidable",
    ],
)
def test_a_row_that_nothing_refers_to_is_found(table):
    known = load_knowledge()
    rows = getattr(known, table)
    row = next(iter(rows.values()))
    changes = {
        "exposure_limits": {"agent": "dust of stars"},
        "stock_sizes": {"materials": ()},
        "plies": {"fibre": "bamboo"},
        "avoidable": {"dust": ("moon",)},
    }
    odd = row.model_copy(update=changes.get(table, {}))
    broken = replace(known, **{table: {**rows, "odd-row": odd}})
    assert found(broken) == [f"{table}.toml: odd-row: nothing refers to it"]


@pytest.mark.parametrize("table", ["duties", "fibres"])
def test_what_a_job_may_name_has_its_row(table):
    model, field = {"duties": (Part, "duty"), "fibres": (Laminate, "fibre")}[table]
    accepted = unused.accepted(model, field) - {"none"}
    assert accepted == set(getattr(load_knowledge(), table))


def test_a_docstring_uses_no_row():
    """The first string of a module, a class or a function says nothing to a table."""
    code = '"""one"""\ndef f():\n    """two"""\n    return "three"\n'
    assert set(said(ast.parse(code))) == {"three"}


def cited(known, entries):
    """Return the sources that rows, words of options and rules cite."""
    from advisor.knowledge.tables import _cited

    tables = [f.name for f in fields(known) if f.name not in {"version", "sources"}]
    rows = (row for name in tables for row in getattr(known, name).values())
    return {key for row in rows for key in _cited(row)} | {
        key for entry in entries for key in entry.advice.cites
    }


def checked_against():
    """Return the sources that a published value of the tests is taken from."""
    words = "".join(path.read_text("utf-8") for path in TESTS.rglob("test_*.py"))
    return set(re.findall(r'published\(\s*"([a-z0-9-]+)"', words))


def idle_sources(known, entries):
    return set(known.sources) - cited(known, entries) - checked_against()


def test_every_source_backs_a_row_a_rule_or_a_published_value():
    assert idle_sources(load_knowledge(), rule_entries()) == set()


def test_a_source_that_backs_nothing_is_found():
    known = load_knowledge()
    extra = {**known.sources, "nobody": next(iter(known.sources.values()))}
    assert idle_sources(replace(known, sources=extra), rule_entries()) == {"nobody"}
