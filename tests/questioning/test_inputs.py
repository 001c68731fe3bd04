"""An input is moved as if the file had said so, and refused as the file would be."""

import pytest

from advisor.job import Job
from advisor.questioning.inputs import Move, as_given, moved, read_move
from advisor.reading import InputError, parse
from advisor.shop import Shop
from tests.conftest import DEMO, demo_tables


@pytest.fixture(scope="module")
def cowl():
    return (
        parse(demo_tables("cowl"), Job, "cowl.toml"),
        parse(demo_tables("shop"), Shop, "shop.toml"),
    )


@pytest.mark.parametrize(("name", "kind"), [*((one, Job) for one in DEMO), ("shop", Shop)])
def test_what_was_read_is_given_back_as_it_stood(name, kind):
    tables = demo_tables(name)
    assert as_given(parse(tables, kind, name)) == tables


def test_a_moved_input_is_as_if_the_file_had_said_so(cowl):
    tables = demo_tables("cowl")
    tables["cure"]["temperature"] = "185 degF"
    tables["run"]["parts"] = 40
    moves = [Move("cure.temperature", "185 degF"), Move("run.parts", 40)]
    job, shop = moved(*cowl, moves)
    assert job == parse(tables, Job, "cowl.toml")
    assert shop == cowl[1]


def test_an_input_of_the_shop_stands_behind_its_name(cowl):
    job, shop = moved(*cowl, [Move("shop.oven.limit", 205)])
    assert (job, shop.oven.limit.value) == (cowl[0], 205)


def test_what_is_taken_away_is_as_if_it_had_never_been_given(cowl):
    job, _ = moved(*cowl, [read_move("cure.hold=")])
    assert job.cure.hold.given == "4"
    assert "hold" not in job.cure.model_fields_set


def test_a_table_that_the_file_does_not_have_is_made(cowl):
    job, _ = moved(*cowl, [Move("proposal", None), Move("proposal.tool", "pu-board")])
    assert job.proposal.model_dump(exclude_none=True) == {"tool": "pu-board"}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("a.b=40", 40),
        ("a.b = 1.5", 1.5),
        ("a.b=true", True),
        ("a.b=120 degC", "120 degC"),
        ('a.b="120 degC"', "120 degC"),
        ("a.b=epoxy-120", "epoxy-120"),
        ("a.b=x=y", "x=y"),
        ("a.b=", None),
    ],
)
def test_a_value_is_read_as_the_file_gives_it(text, value):
    assert read_move(text) == Move("a.b", value)


@pytest.mark.parametrize("text", ["", "x", "=4", "run.parts 40"])
def test_what_is_no_move_is_refused_in_one_line(text):
    with pytest.raises(InputError, match=r"^--set: given .*; accepted FIELD=VALUE"):
        read_move(text)


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("run.partz", 4, "--set run.partz: unknown key; .* Did you mean 'parts'?"),
        ("run.parts", "four", "--set run.parts: given 'four'; accepted "),
        ("cure.temperature", 900, "--set cure.temperature: given 900; accepted from 20 to"),
        ("shop.oven.limit", 5, "--set shop.oven.limit: given 5; accepted from 40 to 500"),
        ("title.x", 5, "--set title.x: given a field of title, which has none"),
        ("nothing.x", 5, "--set nothing: unknown key; accepted here: title"),
        ("shop.x", 5, "--set shop.x: unknown key; accepted here: name"),
    ],
)
def test_what_the_file_may_not_say_is_refused_in_its_words(cowl, field, value, said):
    with pytest.raises(InputError, match=said) as error:
        moved(*cowl, [Move(field, value)])
    assert len(error.value.faults) == 1
