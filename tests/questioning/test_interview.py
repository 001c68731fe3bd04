"""The interview: its order, what it leaves out, what an answer rules out, its file."""

import tomllib
from importlib.resources import files
from pathlib import Path

import pytest

from advisor.advise import Consultation
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.questioning.fields import field_at, info_at
from advisor.questioning.interview import Interview
from advisor.questioning.job_file import UNNAMED, JobFile, when_open
from advisor.reading import InputError, parse, read_job, read_shop
from advisor.shop import Shop

DEMO = Path(str(files("advisor.demo")))
SHOP = read_shop(DEMO / "shop.toml")
ROWS = load_knowledge().interview
ANSWERS = {
    "title": "Hatch",
    "part.shape": "double-curvature",
    "part.length": "24 in",
    "part.width": "400",
    "part.depth": "90 mm",
    "part.tool_side": "female",
    "part.draft": "5",
    "part.undercut": "no",
    "run.parts": "12",
    "cure.resin": "epoxy-low-temperature",
    "cure.temperature": "185 degF",
}
CONSULTATION = Consultation()


def begun(text="", shop=SHOP):
    return Interview(JobFile(text), shop, CONSULTATION)


def gone_through(interview, answers=ANSWERS):
    """Answer what is asked, leave the rest open; return the fields in their order."""
    asked = []
    while question := interview.next():
        asked.append(question.path)
        if question.path in answers:
            interview.answer(question, answers[question.path])
        else:
            interview.leave_open(question)
    return asked


@pytest.fixture(scope="module")
def through():
    interview = begun()
    return interview, gone_through(interview)


def test_every_question_is_about_a_field_of_the_job():
    for path, row in ROWS.items():
        assert info_at(path), path
        for other, values in row.only_if.items():
            field = field_at(other)
            assert ROWS[other].order < row.order, path
            assert field.kind == "switch" or set(values) <= set(field.choices), path


def test_every_fact_that_decides_is_asked_for():
    """The rules say what decides; nothing they ask for at first may be left out."""
    interview = begun("title = 'x'\npart.shape = 'closed'\n")
    assert interview.missing <= set(ROWS)
    assert len(interview.missing) >= 6


def test_questions_come_in_the_order_of_the_trade(through):
    _, asked = through
    orders = [ROWS[path].order for path in asked]
    assert orders == sorted(orders)
    tables = [path.partition(".")[0] for path in asked if path != "title"]
    first = list(dict.fromkeys(tables))
    assert first == ["part", "finish", "run", "cure", "laminate", "budget"]


def test_the_file_reads_as_the_job_that_was_told(through, tmp_path):
    interview, _ = through
    path = tmp_path / "hatch.toml"
    path.write_text(interview.file.text, "utf-8")
    job = read_job(path)
    given = {
        "title": "Hatch",
        "part": {
            "length": "24 in",
            "width": 400,
            "depth": "90 mm",
            "shape": "double-curvature",
            "draft": 5,
            "undercut": False,
            "tool_side": "female",
        },
        "run": {"parts": 12},
        "cure": {"resin": "epoxy-low-temperature", "temperature": "185 degF"},
    }
    assert job == parse(given, Job, "")
    assert job.cure.temperature.value == pytest.approx(85)  # (185 - 32) / 1.8
    assert job.part.length.value == pytest.approx(609.6)  # 24 x 25.4


def test_every_field_in_the_file_says_what_it_means(through):
    interview, asked = through
    for line in interview.file.text.splitlines():
        assert not line or line.startswith("[") or "#" in line, line
    for path in set(asked) - set(ANSWERS):
        assert f"# {path}: left open; {when_open(path)}" in interview.file.text


def test_a_flat_part_is_not_asked_how_it_leaves_its_tool():
    interview = begun()
    flat = ANSWERS | {"part.shape": "flat"}
    asked = gone_through(interview, flat)
    assert not {"part.depth", "part.draft", "part.undercut", "part.tool_side"} & set(asked)
    assert not interview.missing


@pytest.mark.parametrize(
    ("given", "path", "asked"),
    [
        ("cure.pressure = 'autoclave'", "cure.autoclave_pressure", True),
        ("cure.pressure = 'vacuum'", "cure.autoclave_pressure", False),
        ("cure.pressure = 'bladder'", "cure.bladder_pressure", True),
        ("cure.free_standing_post_cure = true", "cure.first_cure", True),
        ("cure.free_standing_post_cure = false", "cure.first_cure", False),
    ],
)
def test_what_hangs_on_another_answer_is_asked_for_then_alone(given, path, asked):
    interview = begun(f"title = 'x'\n{given}\n")
    assert (path in {one.path for one in interview.questions()}) == asked


def test_what_an_answer_rules_out_is_what_a_decision_says():
    interview = begun()
    for path in list(ANSWERS)[:-1]:
        while (question := interview.next()).path != path:
            interview.leave_open(question)
        interview.answer(question, ANSWERS[path])
    names = {id: row.name for id, row in load_knowledge().tool_materials.items()}

    def ruled_out(job):
        decision = Consultation().decide(job, SHOP)
        return {names[id] for id in names if not decision.tool(id).stands}

    before = ruled_out(interview.job)
    question = interview.next()
    assert question.path == "cure.temperature"
    effect = interview.answer(question, "185 degF")
    after = ruled_out(interview.job)
    told = {name for fallen in effect.out for name in fallen.names}
    assert told == after - before
    assert "MDF board" in told
    assert effect.standing == len(names) - len(after)
    assert all("85" in fallen.why for fallen in effect.out)
    plan = CONSULTATION.plan(interview.job, SHOP)
    tool = names[plan.route.tool]
    assert effect.leads.startswith(tool)
    assert f"{plan.route.cost_total:.0f}" in effect.leads


def test_an_answer_taken_back_brings_back_what_it_ruled_out():
    interview = begun("title = 'x'\n[cure]\n")
    question = next(one for one in interview.questions() if one.path == "cure.temperature")
    out = interview.answer(question, "200")
    text = interview.file.text
    assert interview.back()
    assert "temperature" not in interview.file.text
    cooler = interview.answer(question, "50")
    assert {name for one in out.out for name in one.names}
    assert not cooler.out
    assert interview.file.text != text
    assert interview.back()
    assert not interview.back()


def test_a_hot_answer_and_then_a_cool_one_say_what_is_back():
    interview = begun("title = 'x'\ncure.temperature = 200\n")
    question = next(
        one for one in begun("title = 'x'").questions() if "temperature" in one.path
    )
    effect = interview.answer(question, "60")
    assert "MDF board" in effect.back
    assert not effect.out


@pytest.mark.parametrize("stop", range(1, len(ANSWERS)))
def test_left_and_taken_up_again_the_file_is_the_same(through, stop):
    text, left = "", ANSWERS
    interview = begun()
    for _ in range(stop):
        question = interview.next()
        if question.path in left:
            interview.answer(question, left[question.path])
        else:
            interview.leave_open(question)
    text = interview.file.text
    again = begun(text)
    gone_through(again)
    assert again.file.text == through[0].file.text


def test_what_was_left_open_is_not_asked_again_unless_it_decides():
    interview = begun("title = 'x'\n")
    while question := interview.next():
        interview.leave_open(question)
    again = begun(interview.file.text)
    assert {one.path for one in again.questions()} == again.missing
    assert again.missing >= {"part.shape", "run.parts", "cure.temperature"}


def test_what_a_person_wrote_in_the_file_stays():
    mine = (
        "# first of three\n"
        "title = 'Hatch'   # as on the drawing\n\n"
        "[part]\n"
        "shape = 'flat'\n\n"
        "# money is short\n"
        "[budget]\n"
        "total = 900\n"
    )
    interview = begun(mine)
    gone_through(interview, {"part.length": "500"})
    text = interview.file.text
    for line in mine.splitlines():
        assert line in text.splitlines()
    assert text.index("length = 500") < text.index("# money is short")
    assert text.index("# money is short\n[budget]") > 0


def test_an_answer_after_all_takes_the_place_of_its_mark():
    interview = begun(
        "title = 'x'\n[run]\n# run.parts: left open; the plan will ask for it\n"
    )
    question = next(one for one in interview.questions() if one.path == "run.parts")
    interview.answer(question, "7")
    assert "run.parts: left open" not in interview.file.text
    assert interview.job.run.parts == 7


@pytest.mark.parametrize(
    ("path", "text", "said"),
    [
        ("part.shape", "round", "accepted flat, single-curvature"),
        ("part.shape", "9", "or its number"),
        ("part.shape", "doublecurvature", "Did you mean 'double-curvature'?"),
        ("part.length", "0", "from 1 to 20000 mm"),
        ("part.length", "24 kg", "of another kind"),
        ("part.length", "long", "accepted a number in mm"),
        ("run.parts", "2.5", "accepted a whole number"),
        ("run.parts", "-1", "greater than or equal to 1"),
        ("cure.resin", "glue", "accepted epoxy-120"),
        ("finish.both_faces", "perhaps", "accepted yes or no"),
    ],
)
def test_what_is_no_answer_is_refused_and_changes_nothing(path, text, said):
    interview = begun("title = 'x'\n")
    before = interview.file.text
    question = next(one for one in interview.questions() if one.path == path)
    with pytest.raises(InputError, match=r".*") as error:
        interview.answer(question, text)
    assert said in str(error.value)
    assert len(error.value.faults) == 1
    assert interview.file.text == before
    assert question.path in {one.path for one in interview.questions()}


def test_answers_that_contradict_each_other_are_told_at_once():
    flat = begun("title = 'x'\npart.smallest_radius = 50\n")
    shape = next(one for one in flat.questions() if one.path == "part.shape")
    assert flat.answer(shape, "flat").asked


def test_nothing_is_known_at_first():
    interview = begun(shop=Shop())
    assert interview.job.title == UNNAMED
    assert interview.next().path == "title"
    assert not interview.back()
    assert interview.so_far().out  # a bare shop owns little


@pytest.mark.parametrize(
    "given",
    [
        "part.shape = 'flat'\npart.length = 500\n",
        "part = { shape = 'flat', length = 500 }\n",
        "[part]\nshape = 'closed'\n[[part.local_undercut]]\nplace = 'lug'\ndepth = 5\n"
        "length = 20\n[run]\nper_week = 3\n",
        "\n\n# parts of the rig\n\n[part]   # all of it\n\nshape = 'flat'\n\n\n",
    ],
)
def test_whatever_way_a_person_wrote_the_tables_answers_find_their_place(given):
    interview = begun(f"title = 'x'\n{given}")
    kept = interview.job.model_dump(exclude_unset=True)
    gone_through(interview, ANSWERS | {"part.width": "300"})
    again = begun(interview.file.text)
    assert again.job == interview.job
    assert again.job.part.width.value == 300
    assert again.job.run.parts == 12
    assert again.job.part.shape == kept["part"]["shape"]
    assert again.next() is None


def test_a_file_with_other_line_ends_keeps_them(tmp_path):
    path = tmp_path / "job.toml"
    path.write_bytes(b"title = 'x'\r\n\r\n[part]\r\nshape = 'flat'\r\n")
    interview = Interview(JobFile.at(path), SHOP, CONSULTATION)
    gone_through(interview, {"part.length": "500"})
    assert "title = 'x'\r\n" in interview.file.text
    assert interview.job.part.length.value == 500
    assert parse(tomllib.loads(interview.file.text), Job, "") == interview.job
