"""The commands that question a plan, as they are run."""

from importlib.resources import files as package_files

import pytest
from typer.testing import CliRunner

from advisor.cli import app


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    """Return the paths of the cowl's job and of its shop, and a folder to write in."""
    folder = tmp_path_factory.mktemp("questions")
    for name in ("cowl", "shop"):
        content = package_files("advisor.demo").joinpath(f"{name}.toml").read_bytes()
        (folder / f"{name}.toml").write_bytes(content)
    return folder


def ask(files, command, *words):
    job, shop = str(files / "cowl.toml"), str(files / "shop.toml")
    return CliRunner().invoke(app, [command, job, *words, "--shop", shop])


def test_why_leads_from_the_input_to_the_limit_and_says_what_would_change_it(files):
    result = ask(files, "why", "pu-board")
    assert result.exit_code == 0
    said = " ".join(result.stdout.split())
    assert said.startswith("Polyurethane tooling board (tool) It is ruled out: hard limit.")
    assert "It comes back with a cure at 69 °C" in said
    assert "you gave: cure.temperature = 90 °C" in said
    assert "Sources 1. " in said
    assert max(map(len, result.stdout.splitlines())) <= 90


def test_why_of_an_unknown_id_names_the_nearest(files):
    result = ask(files, "why", "pu-bord")
    assert result.exit_code == 2
    assert result.stderr.startswith("ID: given 'pu-bord'; accepted ")
    assert "pu-board" in result.stderr


def test_whatif_shows_both_decisions_side_by_side(files):
    result = ask(files, "whatif", "--set", "run.parts=9", "--set", "title=Half the run")
    assert result.exit_code == 0
    assert "as the files say" in result.stdout
    assert "run.parts = 9, title =" in result.stdout
    lines = {line[2:11].strip(): line for line in result.stdout.splitlines()}
    assert lines["Tools"].startswith("* ")
    assert lines["Verdict"].startswith("  Verdict")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("whatif", "--set", "run.partz=9"), "--set run.partz: unknown key"),
        (
            ("whatif", "--set", "run.parts"),
            "--set: given 'run.parts'; accepted FIELD=VALUE",
        ),
        (("whatif", "--set", "cure.resin=none-such"), "cure.resin: given 'none-such'"),
        (("whatif",), "Missing option '--set'"),
        (("sweep", "--vary", "run.parts=9:1:3"), "--vary run.parts: given '9:1:3'"),
        (("sweep", "--vary", "x=1,2"), "--vary x: unknown key"),
        (("sweep", "--vary", "run.parts=1,2", "--picture", "a.bmp"), "--picture: given"),
        (("sweep", "--vary", "run.parts=1,2", "--out", "/no/such/t.csv"), "--out: given"),
        (("sweep", "--vary", "run.parts=1,2", "--out", "/"), "--out: given '/'"),
        (("sweep", "--vary", "run.parts=1,2", "--picture", "/x/a.svg"), "--picture: given"),
    ],
)
def test_bad_input_is_told_in_one_message_with_exit_code_2(files, words, said):
    result = ask(files, words[0], *words[1:])
    assert result.exit_code == 2
    assert said in result.stderr
    assert "Traceback" not in result.output


def test_a_sweep_writes_its_table_and_its_map(files):
    table, drawn = files / "t.csv", files / "t.png"
    words = ("--vary", "run.parts=1,8,100", "--out", str(table), "--picture", str(drawn))
    result = ask(files, "sweep", *words, "--processes", "1")
    assert result.exit_code == 0, result.output
    assert table.read_text("utf-8").count("\n") == 4
    assert drawn.read_bytes().startswith(b"\x89PNG")
    assert "no route stands" in result.stdout


def test_a_sweep_over_three_inputs_has_no_map(files):
    table = files / "three.csv"
    axes = [
        w
        for f in ("run.parts", "run.per_week", "cure.hold")
        for w in ("--vary", f + "=4,5")
    ]
    result = ask(files, "sweep", *axes, "--out", str(table), "--processes", "1")
    assert result.exit_code == 0, result.output
    assert "No map" in result.stdout
    assert not table.with_suffix(".svg").exists()


def test_a_sweep_does_not_write_over_another_file(files):
    mine = files / "mine.csv"
    mine.write_text("my numbers\n", "utf-8")
    result = ask(files, "sweep", "--vary", "run.parts=1,2", "--out", str(mine))
    assert result.exit_code == 2
    assert "holds something else" in result.stderr
    assert mine.read_text("utf-8") == "my numbers\n"


def test_a_quick_plan_leaves_out_what_would_change_it(files):
    out = files / "quick"
    result = ask(files, "plan", "--quick", "--formats", "json", "--out", str(out))
    assert result.exit_code == 0
    assert '"changes": []' in (out / "cowl.plan.json").read_text("utf-8")
    assert "What would change this" not in result.stdout


def test_a_job_needs_no_shop_to_be_questioned(files):
    result = CliRunner().invoke(app, ["why", str(files / "cowl.toml"), "route"])
    assert result.exit_code == 0
