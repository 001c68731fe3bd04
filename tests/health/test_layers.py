"""Imports go one way: calculations know no facts, rules know no documents."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

NEVER = {
    "advisor/calculations": (
        "advisor.reasoning",
        "advisor.knowledge",
        "advisor.plan",
        "advisor.job",
    ),
    "advisor/knowledge": ("advisor.reasoning", "advisor.plan", "advisor.documents"),
    "advisor/reasoning": (
        "advisor.documents",
        "advisor.plan",
        "advisor.cli",
        "advisor.routes",
    ),
    "rules": (
        "advisor.documents",
        "advisor.plan",
        "advisor.cli",
        "advisor.routes",
        "advisor.job",
    ),
    "advisor/documents": (
        "advisor.rules",
        "advisor.knowledge.tables",
        "advisor.calculations",
    ),
}


@pytest.mark.parametrize("folder", NEVER)
def test_nothing_looks_up(folder):
    for path in (ROOT / folder).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            for name in names:
                assert not name.startswith(NEVER[folder]), f"{path.name} imports {name}"


def test_the_top_level_holds_what_it_should():
    shown = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    built = {"build", "dist", "demo-plans", "__pycache__"}
    wanted = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "advisor",
        "rules",
        "templates",
    }
    assert shown - built == wanted | {"tests"}


def test_every_command_is_in_the_readme():
    text = (ROOT / "README.md").read_text("utf-8")
    for command in (
        "advisor demo",
        "advisor plan",
        "advisor check",
        "advisor schema",
        "advisor options",
        "advisor rules",
    ):
        assert command in text
