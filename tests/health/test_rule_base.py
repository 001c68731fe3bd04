"""What must hold for every rule, read from the rule base itself."""

import ast
import inspect
import string
from collections import Counter
from pathlib import Path

import pytest

from advisor.knowledge.tables import (
    TABLE_NAMES,
    KnowledgeError,
    build_knowledge,
    read_tables,
)
from advisor.knowledge.tables import load_knowledge as knowledge
from advisor.measures import STYLES
from advisor.reasoning.expert import NOT
from advisor.reasoning.facts import FACTS, Found, Need
from advisor.reasoning.rulebook import STAGES, rule_classes, rule_entries

RULES = Path(inspect.getfile(rule_classes()[0])).parent
ENTRIES = rule_entries()
by_id = pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.advice.id)


def test_there_are_at_least_sixty_rules_over_every_stage():
    assert len(ENTRIES) >= 60
    assert {entry.stage for entry in ENTRIES} == set(STAGES)


def test_rule_ids_are_unique():
    assert not [id for id, n in Counter(e.advice.id for e in ENTRIES).items() if n > 1]


def test_method_names_are_unique_within_a_stage():
    """experta keeps one of two methods of the same name, silently."""
    names = Counter((entry.stage, entry.method) for entry in ENTRIES)
    assert not [name for name, n in names.items() if n > 1]


def test_rules_are_imported_once():
    import sys

    assert "rules" not in sys.modules


@by_id
def test_a_rule_says_why_and_cites_known_sources_and_limits(entry):
    assert entry.advice.title[0].isupper() or entry.advice.title[0] == "{"
    assert entry.advice.reason.endswith((".", "?"))
    assert entry.advice.cites
    assert set(entry.advice.cites) <= set(knowledge().sources)
    assert set(entry.advice.limits) <= set(knowledge().limits)


@by_id
def test_a_rule_asks_only_for_declared_fields(entry):
    """A misspelt field never matches, and nothing says so."""
    for kind, names in entry.fields().items():
        assert kind in FACTS
        assert names <= set(kind.__fields__), kind.__name__


@by_id
def test_a_reason_uses_only_what_the_rule_matched(entry):
    given = {*inspect.signature(entry.body).parameters, *entry.advice.limits}
    given |= {"value", "low", "high"}
    for text in (entry.advice.reason, entry.advice.title):
        for _, name, style, _ in string.Formatter().parse(text):
            if name is not None:
                assert name in given, f"{entry.advice.id}: {name}"
                assert not style or style in STYLES or style in {".0f"}


@by_id
def test_a_negation_looks_only_at_what_was_known_before(entry):
    """`NOT` on something concluded in the same stage would depend on firing order."""
    concluded_now = {Need, Found}
    for condition in entry.rule:
        if isinstance(condition, NOT):
            for pattern in condition:
                if type(pattern) in concluded_now:
                    assert entry.stage not in {"ask", "needs"}
                    assert type(pattern) is Need


@by_id
def test_an_option_rule_matches_the_name_of_its_option(entry):
    """The name carries the way back to the job (an option is considered for a job)."""
    if entry.stage in {"tool", "sealing", "release", "bagging"}:
        assert any("name" in names for names in entry.fields().values())


def test_no_figure_stands_in_a_condition_of_a_rule():
    """A threshold is a row of limits.toml, whose source is printed; 0, 1, 2 are free."""
    allowed = {0, 1, 2}
    for path in sorted(RULES.glob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Rule":
                numbers = [
                    leaf.value
                    for leaf in ast.walk(node)
                    if isinstance(leaf, ast.Constant)
                    and isinstance(leaf.value, int | float)
                    and not isinstance(leaf.value, bool)
                ]
                assert not [n for n in numbers if abs(n) not in allowed], path.name


@pytest.mark.parametrize("name", TABLE_NAMES)
def test_every_table_has_rows(name):
    assert getattr(knowledge(), name)


def test_every_family_of_the_design_is_there():
    families = {row.family for row in knowledge().tool_materials.values()}
    assert families == {
        "aerated-concrete",
        "mdf",
        "plywood",
        "polymer-foam",
        "pu-board",
        "epoxy-board",
        "gypsum",
        "ceramic-gypsum",
        "aluminium",
        "steel",
        "nickel-iron",
        "graphite",
        "carbon-laminate",
        "glass-laminate",
        "printed-thermoplastic",
        "washout-core",
        "metal-plate",
        "acrylic-sheet",
        "printed-sand",
        "carbon-foam",
        "castable-ceramic",
    }
    assert sum("aerated-concrete" in id for id in knowledge().tool_materials) == 3


def test_every_limit_is_used():
    used = {name for entry in ENTRIES for name in entry.advice.limits}
    text = "".join(p.read_text("utf-8") for p in RULES.glob("*.py"))
    for reader in ("costing", "sparing", "trials"):
        text += (RULES.parent / "advisor" / f"{reader}.py").read_text("utf-8")
    for name in knowledge().limits:
        assert name in used or f'"{name}"' in text, name


@pytest.mark.parametrize("table", ["tool_materials", "sealers", "releases", "bagging"])
def test_a_source_of_a_word_names_a_word_of_its_row(table):
    """A misspelt column would leave the word at common practice without an error."""
    for id, row in getattr(knowledge(), table).items():
        for column in row.word_sources:
            value = getattr(row, column)
            assert isinstance(value, bool | str | tuple), f"{id}: {column}"


@pytest.mark.parametrize(
    ("table", "row", "field", "value", "says"),
    [
        ("tool_materials", "mdf", "density", {"value": 7.0, "unit": "kg/m**3"}, "source"),
        (
            "tool_materials",
            "mdf",
            "density",
            {"value": 700.0, "unit": "kg/m**3", "source": []},
            "must cite",
        ),
        (
            "tool_materials",
            "mdf",
            "density",
            {"value": 700.0, "unit": "kg/m**3", "source": "nobody"},
            "no source 'nobody'",
        ),
        (
            "limits",
            "draft_easy",
            "figure",
            {"value": 3.0, "low": 4.0, "unit": "deg", "source": "common-practice"},
            "outside its own range",
        ),
        ("tool_materials", "mdf", "colour", "brown", "colour"),
    ],
)
def test_a_row_that_cites_nothing_or_makes_no_sense_is_refused(
    table, row, field, value, says
):
    raw = read_tables()
    raw[table][row] = raw[table][row] | {field: value}
    with pytest.raises(KnowledgeError, match=says) as caught:
        build_knowledge(raw)
    assert f"{table}.toml: {row}" in str(caught.value)


PLAUSIBLE = {
    "density": (20, 9000),
    "expansion": (0, 1.2e-4),
    "conductivity": (0.02, 480),  # between still air and the best graphite
    "specific_heat": (300, 2500),
    "service_limit": (20, 500),
    "short_limit": (20, 600),
    "compressive_strength": (1e5, 2e9),
    "modulus": (1e6, 4e11),
}


@pytest.mark.parametrize("column", PLAUSIBLE)
def test_material_figures_are_of_a_plausible_size(column):
    low, high = PLAUSIBLE[column]
    for id, row in knowledge().tool_materials.items():
        figure = getattr(row, column)
        assert low <= figure.low_si <= figure.high_si <= high, id
        assert row.service_limit.si <= row.short_limit.si, id


def test_aerated_concrete_is_what_the_trade_knows_it_to_be():
    """Common practice, no source: pores mostly about a millimetre or less, expansion near
    concrete's and steel's and far below most tooling boards'."""
    rows = knowledge().tool_materials
    block, steel, board = (
        rows[id] for id in ("aerated-concrete-500", "steel", "epoxy-board")
    )
    assert block.pore_size.si <= 1e-3
    assert abs(block.expansion.si - steel.expansion.si) < 5e-6
    assert block.expansion.high_si < board.expansion.low_si / 2


def test_no_caution_calls_a_hazard_harmless():
    for id, row in knowledge().cautions.items():
        words = row.text.lower()
        for bad in (
            "harmless",
            "nuisance",
            "low-risk",
            "low risk",
            "not dangerous",
            "messy",
        ):
            assert bad not in words, id
        for bad in (" is safe", "are safe", "safe to "):
            assert bad not in words, id
        assert row.defers_to
