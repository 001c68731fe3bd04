"""How sure an answer is: each claim about a range is decided anew, without memory."""

from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest
from typer.testing import CliRunner

from advisor.advise import Consultation, advise
from advisor.cli import app
from advisor.decision import Decision
from advisor.knowledge.rows import Figure
from advisor.knowledge.tables import load_knowledge
from advisor.questioning.inputs import Move, moved
from advisor.questioning.nearing import finer, rounded
from advisor.questioning.ranges import behind, given, prices, tables_with
from advisor.questioning.sureness import DRAWS, Soundings, how_sure
from advisor.reading import InputError, read_job, read_shop
from advisor.reasoning.engine import Reasoner

DEMO = Path(str(files("advisor.demo")))
SHOP = read_shop(DEMO / "shop.toml")
JOBS = {name: read_job(DEMO / f"{name}.toml") for name in ("cowl", "panel", "duct")}


@pytest.fixture(scope="module", params=JOBS)
def sounded(request):
    consultation = Consultation()
    decision = consultation.decide(JOBS[request.param], SHOP)
    soundings = Soundings(consultation, decision)
    return decision, soundings, list(soundings.turns())


def with_figure(path, value):
    """Return the tables with one figure known to a point, by another way than the code."""
    table, id, column = path
    knowledge = load_knowledge()
    rows = dict(getattr(knowledge, table))
    known = getattr(rows[id], column).model_dump() | {"value": value, "low": value}
    row = rows[id].model_dump() | {column: known | {"high": value}}
    rows[id] = type(rows[id]).model_validate(row)
    return replace(knowledge, **{table: rows})


def holds_with(decision, one, value):
    """Tell, without memory, whether a route stands and leads with no more to prove."""
    job, shop, knowledge = decision.job, decision.shop, load_knowledge()
    if one.is_input:
        job, shop = moved(job, shop, [Move(one.path[0], int(value))])
    else:
        knowledge = with_figure(one.path, value)
    anew = Decision(job, shop, Reasoner(knowledge)).winner
    if anew is None or anew.ids[0] != decision.winner.ids[0]:
        return False
    return len(anew.doubts) <= len(decision.winner.doubts)


def test_where_the_answer_is_said_to_turn_it_does_and_one_notch_nearer_it_holds(sounded):
    decision, _, turns = sounded
    for one, end, at, _ in turns:
        assert not holds_with(decision, one, at), one.name
        notch = 1 if one.whole or one.unit == "degC" else 10.0 ** (len(str(int(at))) - 3)
        nearer = at + notch if end == "low" else at - notch
        assert holds_with(decision, one, nearer), one.name


def test_what_is_not_said_to_turn_holds_at_both_ends(sounded):
    decision, soundings, turns = sounded
    turning = {one for one, *_ in turns}
    quiet = [one for one in soundings.figures if one not in turning]
    for one in quiet[:: len(quiet) // 3]:
        for end in (one.low, one.high):
            assert holds_with(decision, one, end), one.name


def test_a_range_of_an_input_is_tried_as_the_file_gives_it():
    asked = [{"field": "run.parts", "low": 20, "high": 60}]
    job, shop = moved(JOBS["panel"], SHOP, [Move("uncertain", asked)])
    consultation = Consultation()
    decision = consultation.decide(job, shop)
    record = how_sure(consultation, decision)
    assert not record.firm
    assert record.draws == DRAWS
    assert list(Soundings(consultation, decision).drawn()).count(None) == record.stood
    [turn] = [one for one in record.turns if one.name == "Run.parts"]
    assert (turn.low, turn.high, turn.end, turn.effect) == (20, 60, "high", "falls")
    as_many, fewer = (
        moved(job, shop, [Move("run.parts", int(turn.at) - less)]) for less in (0, 1)
    )
    assert advise(*as_many).verdict == "no-route"
    assert advise(*fewer).route.tool == "metal-plate"


def test_there_is_nothing_to_be_sure_of_without_a_route():
    consultation = Consultation()
    job, shop = moved(JOBS["panel"], SHOP, [Move("budget.total", 10)])
    assert how_sure(consultation, consultation.decide(job, shop)) is None


def test_every_figure_with_a_range_says_how_to_narrow_it_and_no_row_is_for_nothing():
    knowledge = load_knowledge()
    kinds = {
        "tool_materials": "tool",
        "sealers": "sealer",
        "releases": "release",
        "bagging": "bag",
        "resins": "resin",
        "fibres": "fibre",
        "prices": "price",
    }
    wanted = {
        f"{kind}-{column}".replace("_", "-")
        for table, kind in kinds.items()
        for row in getattr(knowledge, table).values()
        for column, figure in row
        if isinstance(figure, Figure) and figure.low_si != figure.high_si
    }
    assert set(knowledge.narrowing) == wanted | {"input"}


def test_a_price_that_the_shop_gives_has_no_range():
    ids = {one.path[1] for one in prices(load_knowledge(), SHOP)}
    assert ids
    assert not ids & set(SHOP.prices)
    own = SHOP.model_copy(update={"prices": {**SHOP.prices, "tool-mdf": 1.0}})
    assert "tool-mdf" not in {one.path[1] for one in prices(load_knowledge(), own)}


def test_moving_a_figure_leaves_the_other_tables_as_they_are():
    decision = Consultation().decide(JOBS["duct"], SHOP)
    one = next(iter(behind(decision, decision.winner.ids)))
    tables = tables_with(decision.knowledge, {one: one.low})
    table, id, column = one.path
    assert getattr(getattr(tables, table)[id], column).value == one.low
    assert tables.prices is decision.knowledge.prices
    assert getattr(decision.knowledge, table)[id] != getattr(tables, table)[id]


@pytest.mark.parametrize(
    ("uncertain", "said"),
    [
        ({"field": "run.partz", "low": 1, "high": 2}, "uncertain.0.field: given"),
        (
            {"field": "part.shape", "low": 1, "high": 2},
            "accepted an input that is a number",
        ),
        ({"field": "part.corner", "low": 90, "high": 95}, "an input that the files give"),
        ({"field": "run.parts", "low": 13, "high": 20}, "with the value of run.parts"),
        ({"field": "run.parts", "low": 20, "high": 8}, "with the value of run.parts"),
        ({"field": "run.parts", "low": "few", "high": 20}, "run.parts: given 'few'"),
        ({"field": "cure.temperature", "low": "80 kg", "high": "95 degC"}, "'80 kg'"),
    ],
)
def test_a_range_that_is_none_is_told_in_one_line(tmp_path, uncertain, said):
    text = (DEMO / "cowl.toml").read_text("utf-8").split("[[uncertain]]")[0]
    lines = [f"{key} = {value!r}" for key, value in uncertain.items()]
    path = tmp_path / "cowl.toml"
    path.write_text("\n".join([text, "[[uncertain]]", *lines, ""]), "utf-8")
    result = CliRunner().invoke(app, ["check", str(path)])
    assert result.exit_code == 2
    assert result.stderr.startswith("cowl.toml: uncertain.0")
    assert said in result.stderr
    assert len(result.stderr.splitlines()) == 1
    with pytest.raises(InputError):
        given(read_job(path), SHOP)


@pytest.mark.parametrize(
    ("threshold", "unit", "whole", "found"),
    [(0.0347, "mm", False, 0.0346), (-2.5, "um/(m*K)", False, -2.5), (7, "count", True, 7)],
)
def test_the_search_closes_in_to_the_digits_that_are_written(threshold, unit, whole, found):
    def at(number):
        return "turned" if number <= threshold else None

    low, high = rounded(-50, unit, whole, False), 50.0
    number, what = finer(high, low, "turned", at, unit, whole)
    assert what == "turned"
    assert at(number)
    assert number == pytest.approx(found, rel=0.01)
