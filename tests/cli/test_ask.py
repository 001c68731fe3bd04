"""The interview at the terminal, as a newcomer types into it."""

from importlib.resources import files
from pathlib import Path

import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.reading import read_job

SHOP = Path(str(files("advisor.demo"))) / "shop.toml"
FLAT = ["Bench panel", "flat", "24 in", "400", "", "no", "", "25", "", "1", "120 degC"]


def ask(path, lines, *words):
    typed = "".join(f"{line}\n" for line in lines)
    return CliRunner().invoke(app, ["ask", str(path), *words], input=typed)


def test_a_newcomer_ends_with_a_file_that_plans(tmp_path):
    path = tmp_path / "bench.toml"
    result = ask(path, [*FLAT, "done"], "--shop", str(SHOP))
    assert result.exit_code == 0, result.output
    assert "In the lead: Flat aluminium plate" in result.stdout
    assert result.stdout.endswith(f"  Next: advisor plan {path} --shop {SHOP}\n")
    job = read_job(path)
    assert (job.title, job.run.parts, job.cure.temperature.value) == (
        "Bench panel",
        25,
        120,
    )
    words = ["plan", str(path), "--shop", str(SHOP), "--out", str(tmp_path)]
    planned = CliRunner().invoke(app, [*words, "--formats", "json", "--quick"])
    assert planned.exit_code == 0
    assert "Flat aluminium plate" in planned.stdout


def test_what_an_answer_rules_out_is_told_with_the_number(tmp_path):
    result = ask(tmp_path / "a.toml", [*FLAT, "leave"], "--shop", str(SHOP))
    after = result.stdout.rpartition("highest temperature of the cure?")[2]
    assert "Out: " in after
    assert "MDF board" in after
    assert "120" in after


def test_a_question_says_why_it_is_asked_and_what_is_accepted(tmp_path):
    result = ask(tmp_path / "a.toml", ["Panel", "?", "flat", "?", "leave"])
    said = " ".join(result.stdout.split())
    assert "Shape decides whether film, one-piece tools and plain bags" in said
    assert "from 1 up to 20000 mm, or with a unit of its own" in said
    assert "In the file: part.shape" in said
    assert "Left open: the plan will ask for it." in said


def test_leaving_and_coming_back_goes_on_where_it_stopped(tmp_path):
    path, once = tmp_path / "a.toml", tmp_path / "b.toml"
    ask(path, [*FLAT[:4], "leave"])
    result = ask(path, [*FLAT[4:], "done"])
    assert "what it holds is taken as answered" in " ".join(result.stdout.split())
    assert "What is the part called?" not in result.stdout
    ask(once, [*FLAT, "done"])
    assert path.read_text("utf-8") == once.read_text("utf-8")


def test_the_end_of_the_input_keeps_what_was_answered(tmp_path):
    path = tmp_path / "a.toml"
    result = ask(path, FLAT[:3])
    assert result.exit_code == 130
    assert "the same command goes on" in " ".join(result.stdout.split())
    assert read_job(path).part.length.given == "24 in"


def test_back_asks_the_last_one_again(tmp_path):
    path = tmp_path / "a.toml"
    result = ask(path, ["back", "Panel", "flat", "back", "closed", "500", "leave"])
    assert "The name comes first" in result.stdout
    assert result.stdout.count("What shape is it?") == 2
    assert read_job(path).part.shape == "closed"


def test_a_wrong_answer_is_told_in_one_line_and_asked_again(tmp_path):
    path = tmp_path / "a.toml"
    result = ask(path, ["Panel", "round", "flat", "24 kg", "500", "leave"])
    assert "given 'round'; accepted flat" in result.stdout
    assert "Traceback" not in result.output
    job = read_job(path)
    assert (job.part.shape, job.part.length.value) == ("flat", 500)


def test_done_without_a_deciding_answer_says_which(tmp_path):
    path = tmp_path / "a.toml"
    result = ask(path, ["Panel", "flat", "done"])
    assert result.exit_code == 0
    said = " ".join(result.stdout.split())
    assert "Nothing can be decided without: cure.temperature, part.length" in said


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("job.txt", None, "accepted a name that ends in .toml"),
        ("no/such/job.toml", None, "in a folder that is there"),
        ("job.toml", "title = 5\n[part]\nlenght = 3\n", "part.lenght: unknown key"),
        ("job.toml", "[[[", "not valid TOML"),
    ],
)
def test_a_file_that_cannot_be_gone_on_with_is_refused(tmp_path, name, content, said):
    path = tmp_path / name
    if content is not None:
        path.write_text(content, "utf-8")
    result = ask(path, ["Panel"])
    assert result.exit_code == 2
    assert said in result.stderr
    assert not path.exists() or path.read_text("utf-8") == content
