"""The commands as a newcomer runs them."""

import json

import jsonschema
import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.cli.plans import DEMO_JOBS


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    out = tmp_path_factory.mktemp("demo") / "plans"
    result = CliRunner().invoke(app, ["demo", "--out", str(out)])
    assert result.exit_code == 0, result.output
    return out, result.stdout


@pytest.mark.parametrize("name", DEMO_JOBS)
@pytest.mark.parametrize("format", ["plan.pdf", "plan.html", "plan.json", "toml"])
def test_the_demo_writes_plans_and_the_files_they_came_from(demo, name, format):
    assert (demo[0] / f"{name}.{format}").stat().st_size > 300


def test_the_summary_names_route_cost_and_hazards(demo):
    for word in ("Tool", "Seal", "Release", "Bag", "Cost", "Can kill", "shown and signed"):
        assert word in demo[1]


def test_the_summary_fits_a_terminal(demo):
    lines = [line for line in demo[1].splitlines() if not line.startswith("  wrote")]
    assert max(map(len, lines)) <= 88


def test_a_job_file_of_the_demo_plans_by_itself(demo, tmp_path):
    out = demo[0]
    words = ["plan", str(out / "panel.toml"), "--shop", str(out / "shop.toml")]
    result = CliRunner().invoke(
        app,
        [*words, "--out", str(tmp_path), "--formats", "json,html", "--documents", "plan"],
    )
    assert result.exit_code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "panel.plan.html",
        "panel.plan.json",
    ]
    assert (tmp_path / "panel.plan.json").read_bytes() == (
        out / "panel.plan.json"
    ).read_bytes()


@pytest.mark.parametrize("name", DEMO_JOBS)
def test_plan_json_obeys_the_published_schema(demo, name):
    schema = json.loads(CliRunner().invoke(app, ["schema"]).stdout)
    plan = json.loads((demo[0] / f"{name}.plan.json").read_text("utf-8"))
    jsonschema.validate(plan, schema)
    assert list(plan) == [
        "schema_version",
        "advisor_version",
        "rule_base_version",
        "job_sha256",
        "job",
        "shop",
        "verdict",
        "questions",
        "conditions",
        "proposal",
        "route",
        "alternatives",
        "safer",
        "options",
        "findings",
        "cautions",
        "steps",
        "stack",
        "thermocouples",
        "course",
        "blank",
        "strips",
        "consumables",
        "sources",
        "assumptions",
        "trials",
        "words",
        "changes",
        "sureness",
        "guesses",
    ]


def test_help_teaches_the_tool():
    text = CliRunner().invoke(app, ["--help"]).stdout
    for word in (
        "demo",
        "plan",
        "check",
        "schema",
        "Exit codes",
        "0 a route",
        "advisor demo",
    ):
        assert word in text


@pytest.mark.parametrize("command", ["demo", "plan", "check", "schema"])
def test_each_command_has_help(command):
    result = CliRunner().invoke(app, [command, "--help"])
    assert result.exit_code == 0
    assert len(result.stdout) > 100


def test_the_version_is_told():
    result = CliRunner().invoke(app, ["--version"])
    assert result.exit_code == 0
    assert "rule base" in result.stdout


def test_without_pango_html_and_json_are_written_and_what_to_install_is_said(
    demo, tmp_path, monkeypatch
):
    from advisor.documents import pdf, render

    def missing(*_):
        raise pdf.PdfUnavailableError(pdf.PANGO_HELP)

    monkeypatch.setattr(render, "pdf_of", missing)
    job, shop = str(demo[0] / "panel.toml"), str(demo[0] / "shop.toml")
    words = ["plan", "--quick", job, "--shop", shop, "--out", str(tmp_path)]
    result = CliRunner().invoke(app, words)
    assert result.exit_code == 0
    assert "libpango" in result.stderr
    assert {path.suffix for path in tmp_path.iterdir()} == {".html", ".json"}
    asked = CliRunner().invoke(app, [*words, "--formats", "pdf"])
    assert asked.exit_code == 5
