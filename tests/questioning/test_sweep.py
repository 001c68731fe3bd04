"""Every row of a sweep is what a plan would say; an interrupted one goes on."""

import csv
import re

import pytest

from advisor.advise import Consultation, advise
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.questioning import sweep as sweeping
from advisor.questioning.inputs import Move, moved
from advisor.questioning.route_map import FORMATS, axes_of, route_map
from advisor.questioning.sweep import Axis, Sweep, read_axis, run
from advisor.reading import InputError, parse
from advisor.shop import Shop
from tests.conftest import demo_tables

AXES = (Axis("cure.temperature", (80, 85, 140, 170)), Axis("run.parts", (1, 8, 100)))


def a_sweep(*axes):
    return Sweep(
        parse(demo_tables("cowl"), Job, "cowl.toml"),
        parse(demo_tables("shop"), Shop, "shop.toml"),
        axes or AXES,
    )


@pytest.fixture(scope="module")
def done(tmp_path_factory):
    path = tmp_path_factory.mktemp("sweep") / "table.csv"
    return run(a_sweep(), path, processes=1), path


def test_every_combination_has_its_row_in_order(done):
    rows, path = done
    combinations = [(t, p) for t in AXES[0].values for p in AXES[1].values]
    assert [(row["cure.temperature"], row["run.parts"]) for row in rows] == [
        (str(t), str(p)) for t, p in combinations
    ]
    table = list(csv.DictReader(path.read_text("utf-8").splitlines()))
    assert [{k: v for k, v in row.items() if v and k != "sweep"} for row in table] == [
        {k: v for k, v in row.items() if v} for row in rows
    ]


@pytest.mark.parametrize("n", [1, 4, 5, 6, 9, 11])
def test_a_row_is_what_a_plan_says(done, n):
    row, sweep = done[0][n], a_sweep()
    going = [Move(*one.split(" = ")) for one in row.get("with", "").split("; ") if one]
    plan = advise(*moved(sweep.job, sweep.shop, [*sweep.moves(n), *going]))
    if plan.route is None:
        assert row["verdict"] == plan.verdict
        assert "tool" not in row
        return
    assert row["verdict"] == "route"
    pieces = (plan.route.tool, plan.route.sealing, plan.route.release, plan.route.bagging)
    assert tuple(row[k] for k in ("tool", "sealing", "release", "bagging")) == pieces
    assert float(row["cost_total"]) == plan.route.cost_total
    assert float(row["cost_per_part"]) == plan.route.cost_per_part
    assert int(row["to_prove"]) == len(plan.route.doubts)


def test_verdicts_of_all_kinds_stand_in_the_table(done):
    assert {row["verdict"] for row in done[0]} == {"route", "no-route", "ask-first"}


def test_resin_and_hold_go_with_a_temperature_unless_they_are_varied_too(done):
    assert done[0][0]["with"] == "cure.hold = 8 h"
    assert done[0][9]["with"].startswith("cure.resin = epoxy-180")
    sweep = a_sweep(AXES[0], Axis("cure.hold", (4, 8)))
    assert sweep.going_with(sweep.moves(0), load_knowledge()) == ()


def test_two_processes_give_the_table_of_one(done, tmp_path):
    path = tmp_path / "table.csv"
    assert run(a_sweep(), path, processes=2) == done[0]
    assert path.read_bytes() == done[1].read_bytes()


def test_an_interrupted_sweep_goes_on_where_it_stopped(done, tmp_path, monkeypatch):
    path = tmp_path / "table.csv"
    whole = done[1].read_text("utf-8")
    path.write_text(whole[: len(whole) * 2 // 3], "utf-8")  # cut off within a line
    kept = path.read_text("utf-8").count("\n") - 1
    decided, decide = [], sweeping.decide_variant
    monkeypatch.setattr(
        sweeping, "decide_variant", lambda *told: decided.append(told[2]) or decide(*told)
    )
    progress = []
    rows = run(a_sweep(), path, 1, lambda done, of: progress.append((done, of)))
    assert rows == done[0]
    assert path.read_text("utf-8") == whole
    assert decided == list(range(kept, 12))
    assert progress[0] == (kept, 12)
    assert progress[-1] == (12, 12)


def test_a_finished_sweep_decides_nothing_again(done, monkeypatch):
    monkeypatch.setattr(sweeping, "decide_variant", None)
    assert run(a_sweep(), done[1], processes=1) == done[0]


@pytest.mark.parametrize("content", ["mine\n", "", "n,tool\n1,steel\n"])
def test_a_file_that_holds_something_else_is_not_written_over(tmp_path, content):
    path = tmp_path / "table.csv"
    path.write_text(content, "utf-8")
    with pytest.raises(InputError, match="holds something else"):
        run(a_sweep(), path, processes=1)
    assert path.read_text("utf-8") == content


def test_the_table_of_another_job_is_not_gone_on_with(done):
    other = a_sweep(AXES[0], Axis("run.parts", (1, 8, 101)))
    with pytest.raises(InputError, match="holds something else"):
        run(other, done[1], processes=1)


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("run.parts=1,5,20", (1, 5, 20)),
        ("run.parts=1:9:3", (1, 5, 9)),
        ("run.parts=1:2:5", (1, 2)),
        ("cure.temperature=60:90:3", (60, 75, 90)),
        ("part.tolerance=0.5:1:3", (0.5, 0.75, 1)),
        ("finish.target=paint, gloss", ("paint", "gloss")),
        ("cure.temperature=180 degF,200 degF", ("180 degF", "200 degF")),
        ("shop.making.printer=true,false", (True, False)),
    ],
)
def test_a_range_is_read(text, values):
    assert read_axis(text).values == values


@pytest.mark.parametrize(
    "text",
    [
        *("", "run.parts", "run.parts=", "a=9:1:3", "a=1:2", "a=1:2:1", "a=x:y:3", "a=::"),
        *("run.parts=1:inf:4", "run.parts=nan:4:4"),
    ],
)
def test_what_is_no_range_is_refused_in_one_line(text):
    with pytest.raises(InputError, match=r"^--vary") as error:
        read_axis(text)
    assert len(error.value.faults) == 1


def test_a_sweep_is_checked_before_it_begins():
    for axis, said in (
        (Axis("run.partz", (1, 2)), "--vary run.partz: unknown key"),
        (Axis("run.parts", (1, 0)), "--vary run.parts: given 0"),
        (Axis("run.parts", tuple(range(1, 100_002))), "accepted 100000 at most"),
    ):
        with pytest.raises(InputError, match=said):
            a_sweep(axis).check()
    with pytest.raises(InputError, match="given twice"):
        a_sweep(AXES[1], AXES[1]).check()


def test_a_combination_that_no_file_may_hold_is_told_in_its_row():
    sweep = a_sweep(Axis("cure.pressure", ("tape",)), Axis("part.shape", ("flat",)))
    row = sweeping.decide_variant(Consultation(), sweep, 0)
    assert row["verdict"] in {"ask-first", "no-route", "not accepted together"}


# ---------------------------------------------------------------------- the map


@pytest.mark.parametrize("form", FORMATS)
def test_a_map_is_the_same_picture_each_time(done, form):
    first, second = (route_map(a_sweep(), done[0], load_knowledge(), form) for _ in "ab")
    assert first == second
    assert len(first) > 5000


def test_a_map_says_each_answer_in_letters_and_names_it(done):
    svg = route_map(a_sweep(), done[0], load_knowledge(), "svg").decode()
    texts = re.findall(r"<text[^>]*>([^<]*)</text>", svg)
    names = {row.name for row in load_knowledge().tool_materials.values()}
    legend = {one.split("   ")[0]: one.split("   ")[1] for one in texts if "   " in one}
    answers = {row.get("tool") or row["verdict"] for row in done[0]}
    assert len(legend) == len(answers)
    assert {one.rpartition(" (")[0] for one in legend.values()} <= names | {
        "no route stands",
        "questions first",
    }
    for letter, name in legend.items():
        count = int(re.search(r"\((\d+)\)$", name)[1])
        assert texts.count(letter) == count, "a letter in each cell"
    assert "cure.temperature, °C" in texts


def test_a_map_shows_one_input_or_two():
    assert axes_of(a_sweep(AXES[0])) == (AXES[0], None)
    assert axes_of(a_sweep(AXES[0], Axis("run.per_week", (1,)))) == (AXES[0], None)
    assert axes_of(a_sweep()) == AXES
    three = a_sweep(*AXES, Axis("cure.hold", (4, 8)))
    assert axes_of(three) is None
    with pytest.raises(ValueError, match="one or two"):
        route_map(three, [], load_knowledge(), "svg")
