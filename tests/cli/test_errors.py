"""Bad input: one clear line a fault, exit code 2, no traceback, nothing written."""

import pytest
from typer.testing import CliRunner

from advisor.cli import app

GOOD = """
title = "A part"
[part]
length = "600 mm"
width = 400
depth = 100
shape = "double-curvature"
draft = 5
undercut = false
tool_side = "male"
[cure]
temperature = 80
[run]
parts = 5
"""


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Return a call that plans a job text (and shop text) and tells what happened."""
    monkeypatch.chdir(tmp_path)

    def plan(job, shop=None, command="plan"):
        (tmp_path / "job.toml").write_text(job, "utf-8")
        words = [command, "job.toml"]
        if shop is not None:
            (tmp_path / "shop.toml").write_text(shop, "utf-8")
            words += ["--shop", "shop.toml"]
        if command == "plan":
            words += ["--quick", "--out", "plans", "--formats", "json"]
        result = CliRunner().invoke(app, words)
        assert result.exception is None or isinstance(result.exception, SystemExit)
        return result

    return plan


def changed(line, new):
    """Return the good job with one line replaced."""
    assert line in GOOD
    return GOOD.replace(line, new)


@pytest.mark.parametrize(
    ("job", "words"),
    [
        (GOOD + "\n[colour]\nx = 1\n", ("job.toml: colour: unknown key", "accepted here")),
        (changed("length =", "lenght ="), ("part.lenght", "Did you mean 'length'?")),
        (
            changed('"600 mm"', '"600 kg"'),
            ("part.length", "'600 kg'", "another kind", "mm"),
        ),
        (
            changed('"600 mm"', '"600 furlong per week"'),
            ("part.length", "accepted a number"),
        ),
        (
            changed('"600 mm"', "0"),
            ("part.length", "given 0", "accepted from 1 to 20000 mm"),
        ),
        (changed('"600 mm"', "-5"), ("part.length", "given -5", "accepted")),
        (changed('"600 mm"', "nan"), ("part.length", "given nan", "accepted")),
        (changed('"600 mm"', "inf"), ("part.length", "given inf", "accepted")),
        (changed('"600 mm"', "true"), ("part.length", "given True", "accepted")),
        (changed('"600 mm"', "[1]"), ("part.length", "accepted a number in mm")),
        (changed("temperature = 80", "temperature = 1200"), ("1200", "20 to 250 degC")),
        (changed("temperature = 80", 'temperature = "900 degF"'), ("482", "250 degC")),
        (changed("draft = 5", "draft = 95"), ("part.draft", "95", "0 to 45 deg")),
        (changed("parts = 5", "parts = 0"), ("run.parts", "given 0", "accepted")),
        (changed("parts = 5", "parts = 2.5"), ("run.parts", "given 2.5", "accepted")),
        (changed('"double-curvature"', '"round"'), ("part.shape", "'round'", "'flat'")),
        (
            changed("undercut = false", 'undercut = "maybe"'),
            ("part.undercut", "true or false"),
        ),
        (changed('title = "A part"', 'title = ""'), ("title", "accepted")),
        (changed('title = "A part"', ""), ("title: nothing was given",)),
        (
            changed("[cure]", '[cure]\nresin = "epoxy-le"'),
            ("cure.resin", "epoxy-low-temperature"),
        ),
        (GOOD + '\n[proposal]\ntool = "mfd"\n', ("proposal.tool", "Did you mean 'mdf'?")),
        (GOOD + "\n[budget]\ntotal = nan\n", ("budget.total", "accepted")),
        ("this is not toml", ("job.toml: not valid TOML",)),
        (
            changed("temperature = 80", 'temperature = "80 F"'),
            ("given '80 F'; accepted", "Did you mean '80 degF'?"),
        ),
        (
            changed("temperature = 80", 'temperature = "350F"'),
            ("given '350F'", "Did you mean '350 degF'?"),
        ),
        (
            changed("temperature = 80", 'temperature = "80 deg C"'),
            ("Did you mean '80 degC'?",),
        ),
        (changed('"600 mm"', "'24\"'"), ("part.length", "Did you mean '24 in'?")),
        (changed('"600 mm"', "'59,5 mm'"), ("part.length", "Did you mean '59.5 mm'?")),
        (GOOD + "[laminate]\nareal_weight = '200 gsm'", ("Did you mean '200 g/m**2'?",)),
        ("[oven]\nlimit = 200\n", ("job.toml: this looks like a shop file", "as --shop")),
        (GOOD.replace("draft = 5", "resin = 5"), ("part.resin", "belongs in [cure]")),
        (
            changed("[cure]", '[cure]\nresin = "A B"'),
            ("cure.resin", "`advisor options` lists"),
        ),
        (changed("[cure]", "[cure]\nsheet = 3"), ("given 3", "tables, [[cure.sheet]]")),
        ('{"title": "x"}', ("job.toml: this is JSON", "TOML")),
    ],
)
def test_a_fault_in_the_job_is_told_in_one_line(run, tmp_path, job, words):
    result = run(job)
    assert result.exit_code == 2
    for word in words:
        assert word in result.stderr
    assert "Traceback" not in result.output
    assert len(result.stderr.strip().splitlines()) == 1
    assert not list(tmp_path.glob("plans/*"))


@pytest.mark.parametrize(
    ("shop", "words"),
    [
        ('[vacuum]\nreading = "31 inHg"\n', ("vacuum.reading", "whole atmosphere")),
        (
            '[vacuum]\nreading = "28 inHg"\naltitude = "6000 ft"\n',
            ("vacuum.reading", "1829 m", "accepted up to"),
        ),
        ("[oven]\nlimit = -3\n", ("oven.limit", "given -3")),
        ('[dust]\nextraction = "big"\n', ("dust.extraction", "'class-h'")),
        ("[prices]\ntool-mfd = 3\n", ("prices.tool-mfd", "Did you mean 'tool-mdf'?")),
        ("[prices]\ntool-mdf = -3\n", ("prices.tool-mdf", "accepted")),
        ('[rates]\njurisdiction = "mars"\n', ("rates.jurisdiction", "'uk'")),
        (
            '[rates]\njurisdiction = "US"\n',
            ("given 'US'", "Did you mean 'us-osha' or 'us-niosh' or 'us-acgih'?"),
        ),
        ('[oven]\nlimit = "350 F"\n', ("oven.limit", "Did you mean '350 degF'?")),
        (GOOD, ("shop.toml: this looks like a job file", "as JOB")),
        ('[[stock]]\nkind = "plate"\n', ("stock.0.material", "nothing was given")),
    ],
)
def test_a_fault_in_the_shop_is_told_too(run, shop, words):
    result = run(GOOD, shop)
    assert result.exit_code == 2
    for word in words:
        assert word in result.stderr
    assert "shop.toml" in result.stderr


def test_all_faults_of_both_files_are_told_together(run):
    bad = changed("draft = 5", "draft = 95").replace('"600 mm"', "0")
    result = run(bad, "[oven]\nlimit = -3\n")
    assert result.exit_code == 2
    assert len(result.stderr.strip().splitlines()) == 3


def test_check_tells_the_same_faults(run):
    result = run(changed("draft = 5", "draft = 95"), command="check")
    assert result.exit_code == 2
    assert "part.draft" in result.stderr


def test_check_lists_what_is_missing_with_the_reason_and_exits_4(run):
    result = run(changed("draft = 5", "").replace("parts = 5", ""), command="check")
    assert result.exit_code == 4
    assert "job.toml: part.draft: " in result.stdout
    assert "job.toml: run.parts: " in result.stdout


def test_check_lists_the_defaults_of_a_complete_job(run):
    result = run(GOOD, command="check")
    assert result.exit_code == 0
    assert "laminate.plies was not given" in result.stdout


def test_a_contradiction_exits_4_and_names_field_given_and_accepted(run):
    flat = GOOD.replace('"double-curvature"', '"flat"').replace("depth = 100", "depth = 0")
    result = run(flat.replace("draft = 5", "draft = 5\nsmallest_radius = 50"))
    assert result.exit_code == 4
    assert "part.smallest_radius is 50 mm" in " ".join(result.stdout.split())
    assert "accepted" in result.stdout


def test_no_route_exits_3_and_still_writes_the_plan(run, tmp_path):
    result = run(GOOD + "\n[budget]\ntotal = 40\n")
    assert result.exit_code == 3
    assert (tmp_path / "plans" / "job.plan.json").is_file()


@pytest.mark.parametrize("place", ["job", "shop"])
def test_a_pdf_is_told_as_one(run, tmp_path, place):
    (tmp_path / "job.toml").write_text(GOOD, "utf-8")
    (tmp_path / f"{place}.toml").write_bytes(b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
    if place == "job":
        (tmp_path / "shop.toml").write_text("", "utf-8")
    result = CliRunner().invoke(app, ["check", "job.toml", "--shop", "shop.toml"])
    assert result.exit_code == 2
    assert (
        result.stderr.strip()
        == f"{place}.toml: this is a PDF; accepted a text file in TOML"
    )


def test_no_hint_is_given_where_a_comma_may_part_thousands(run):
    result = run(changed('"600 mm"', "'1,200 mm'"))
    assert "given '1,200 mm'" in result.stderr
    assert "Did you mean" not in result.stderr


def test_a_missing_file_is_one_line():
    result = CliRunner().invoke(app, ["plan", "nowhere.toml"])
    assert result.exit_code == 2
    assert result.stderr.strip() == "nowhere.toml: there is no such file"


def test_an_unknown_format_is_refused(run, tmp_path):
    (tmp_path / "job.toml").write_text(GOOD, "utf-8")
    result = CliRunner().invoke(app, ["plan", "job.toml", "--formats", "docx"])
    assert result.exit_code == 2
    assert "accepted any of pdf, html, json" in result.stderr


def test_an_out_folder_that_is_a_file_is_refused(run, tmp_path):
    (tmp_path / "job.toml").write_text(GOOD, "utf-8")
    (tmp_path / "taken").write_text("x", "utf-8")
    result = CliRunner().invoke(app, ["plan", "job.toml", "--out", "taken"])
    assert result.exit_code == 2
    assert "--out" in result.stderr
    assert "Traceback" not in result.output


def test_nothing_half_written_is_left_when_writing_fails(run, tmp_path, monkeypatch):
    (tmp_path / "job.toml").write_text(GOOD, "utf-8")

    def fail(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.replace", fail)
    result = CliRunner().invoke(app, ["plan", "--quick", "job.toml", "--formats", "json"])
    assert result.exit_code == 2
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_units_of_both_systems_mean_the_same(run, tmp_path):
    run(GOOD)
    metric = (tmp_path / "plans" / "job.plan.json").read_text("utf-8")
    us = GOOD.replace("temperature = 80", 'temperature = "176 degF"')
    run(us)
    assert '"tool-temperature"' in metric
    again = (tmp_path / "plans" / "job.plan.json").read_text("utf-8")
    assert (
        '"value": 80.0,\n        "unit": "degC"' in again or '"given": "176 degF"' in again
    )
