"""Bench briefing, process record and tool record, read back from the PDF (pypdf)."""

import re
from datetime import date
from io import BytesIO

import page as checker
import pypdf
import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.documents.briefing import briefing
from advisor.documents.pictures.section import section
from advisor.documents.records import process_record, tool_record
from advisor.documents.render import DOCUMENTS, html_of, render
from advisor.knowledge.tables import load_knowledge
from advisor.measures import in_styles

DAY = date(2026, 3, 14)
JOBS = ("cowl", "panel", "duct")
OTHERS = tuple(one for one in DOCUMENTS if one != "plan")
LONG = "Fan cowl, upper half, with the reinforced rim and both of its inspection doors " * 2


@pytest.fixture(scope="module")
def printed(make_plan, demo_pdf):
    kept = {}

    def make(name, document, paper="a4", job=None):
        if job is None:
            return demo_pdf(name, document, paper)
        key = (name, document, paper, repr(job))
        if key not in kept:
            made = render(make_plan(name, job), ("pdf",), DAY, paper, documents=(document,))
            kept[key] = made[f"{document}.pdf"]()
        return kept[key]

    return make


def text_of(pdf):
    pages = pypdf.PdfReader(BytesIO(pdf)).pages
    text = " ".join(one.extract_text() for one in pages)
    return re.sub(r"\s+", " ", text.replace("\u2060", ""))


@pytest.mark.parametrize("document", OTHERS)
@pytest.mark.parametrize("name", ["cowl", "duct"])
def test_each_is_accessible_and_archival(printed, name, document):
    for profile in (
        checker.ValidationProfile.PDF_UA_1,
        checker.ValidationProfile.PDF_A_3A,
    ):
        report = checker.validate_pdf_bytes(printed(name, document), profile=profile)
        assert [f"{one.rule_id}: {one.message}" for one in report.failures] == []


@pytest.mark.parametrize("document", OTHERS)
def test_each_carries_the_plan(printed, document):
    reader = pypdf.PdfReader(BytesIO(printed("panel", document)))
    assert "plan.json" in reader.attachments


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", JOBS)
def test_a_briefing_has_two_sides_at_most(printed, name, paper):
    assert len(pypdf.PdfReader(BytesIO(printed(name, "briefing", paper))).pages) == 2


def test_a_long_title_and_a_strange_script_do_not_break_a_briefing(printed):
    pdf = printed("panel", "briefing", job={"title": f"Ωμέγα Щит {LONG}"[:199]})
    assert len(pypdf.PdfReader(BytesIO(pdf)).pages) == 2
    assert "Ωμέγα Щит" in text_of(pdf)


@pytest.mark.parametrize("name", JOBS)
def test_every_step_of_the_plan_belongs_to_a_line_of_the_briefing(make_plan, name):
    plan = make_plan(name)
    lines = briefing(plan, DAY).phases
    numbers = []
    for one in lines:
        first, _, last = one.steps.partition(" to ")
        numbers += range(int(first), int(last or first) + 1)
    assert numbers == [step.n for step in plan.steps]
    assert sum(one.holds for one in lines) == sum(bool(s.hold_point) for s in plan.steps)


@pytest.mark.parametrize("name", JOBS)
def test_what_is_worn_follows_from_the_cautions_at_the_steps(make_plan, name):
    plan = make_plan(name)
    rows = load_knowledge().cautions
    phase_of = {step.n: step.phase for step in plan.steps}
    for line in briefing(plan, DAY).phases:
        wanted = {
            item
            for caution in plan.cautions
            for n in caution.applies_to_steps
            if phase_of[n] == line.title and caution.id != "standing"
            for item in rows[caution.id].wear
        }
        assert set(line.wear) == wanted


def test_dust_of_silica_asks_for_a_mask_where_it_is_cut(make_plan):
    lines = {one.title: one.wear for one in briefing(make_plan("cowl"), DAY).phases}
    assert {"mask", "coveralls"} <= set(lines["Make the tool"])
    assert "mask" not in lines["Apply the release"]


def test_what_hurts_a_person_is_met_by_something_worn_or_by_none_that_could_be():
    """What no clothing helps against (fire, shock, gas, pressure) is told in cautions."""
    bare = {id for id, row in load_knowledge().cautions.items() if not row.wear}
    assert bare == {
        "carbon-monoxide",
        "closed-mould-heat",
        "combustible-dust",
        "electrical",
        "fire",
        "fluoropolymer",
        "oven",
        "pressure",
        "respirator",
        "standing",
        "steam",
        "vibration",
    }


@pytest.mark.parametrize("name", JOBS)
def test_a_briefing_names_five_things_that_spoil_the_job_and_their_steps(make_plan, name):
    plan = make_plan(name)
    held = {step.n: step.hold_point.check for step in plan.steps if step.hold_point}
    spoilers = briefing(plan, DAY).spoilers
    assert len(spoilers) == 5
    assert all(held[one.step] == one.check for one in spoilers)
    assert [one.step for one in spoilers] == sorted({one.step for one in spoilers})


def test_a_briefing_is_signed_by_both_and_says_whom_to_call(printed):
    text = text_of(printed("cowl", "briefing"))
    for words in ("Briefed by", "Understood", "Call first", "call the fire service"):
        assert words in text


@pytest.mark.parametrize("name", JOBS)
def test_the_sketch_shows_tool_part_release_and_bag_and_says_so_in_words(make_plan, name):
    plan = make_plan(name)
    drawn = section(plan)
    layers = [one.name for one in plan.stack]
    names = {(one.stage, one.id): one.name for one in plan.options}
    for layer in (names["tool", plan.route.tool], names["release", plan.route.release]):
        assert layer in layers
    for layer in layers:
        assert layer[1:] in drawn.words
    assert f"<title>{drawn.words}" in drawn.svg
    seen = {int(n) for n in re.findall(r">(\d+)</text>", drawn.svg)}
    unseen = drawn.caption.partition("Not seen in this section: ")[2]
    assert seen | {int(n) for n in re.findall(r"\d+", unseen)} == {
        n for n, _ in enumerate(plan.stack, 1)
    }
    assert {"tool", "release", "plies", "bag-film"} <= {plan.stack[n - 1].id for n in seen}


@pytest.mark.parametrize("name", JOBS)
def test_the_customer_reads_no_price(make_plan, printed, name):
    plan = make_plan(name)
    text = text_of(printed(name, "record"))
    for word in (plan.route.currency, "price", "cost", "budget", "margin"):
        assert word not in text.replace("at his cost", ""), word
    for line in plan.route.cost_lines:
        assert f" {line.amount:.2f} " not in text
    assert plan.job["customer"] in text


@pytest.mark.parametrize("name", JOBS)
def test_every_hold_point_has_its_blank_in_one_of_the_two_records(make_plan, name):
    plan = make_plan(name)
    of_the_part = [one.step for one in process_record(plan, DAY).holds]
    of_the_tool = [one.step for one in tool_record(plan, DAY).built]
    written = [one.n for one in plan.steps if one.hold_point]
    assert sorted(of_the_part + of_the_tool) == written
    phase = {step.n: step.phase for step in plan.steps}
    assert {"Lay up", "Bag and leak test", "Cure"} <= {phase[n] for n in of_the_part}
    once = {"Before anything is bought or cut", "Make the tool", "Prove the tool"}
    assert not once & {phase[n] for n in of_the_part}
    assert once & {phase[n] for n in of_the_tool}


def test_what_the_first_part_alone_shows_is_marked(make_plan, printed):
    marked = {
        one.step
        for one in process_record(make_plan("cowl"), DAY).holds
        if one.hold.held_for == "first part"
    }
    rules = {s.n: s.conclusion.rule for s in make_plan("cowl").steps}
    assert {rules[n] for n in marked} == {"STEP-516", "STEP-870"}
    assert text_of(printed("cowl", "record")).count("First part only.") == len(marked)


def test_initials_have_a_place_of_their_own(make_plan):
    for step in make_plan("cowl").steps:
        if step.hold_point:
            assert "initials" not in step.hold_point.record
            second = re.search("second person", step.hold_point.accept)
            assert step.hold_point.signers == (2 if second else 1), step.n


@pytest.mark.parametrize("name", JOBS)
def test_the_record_holds_every_condition(make_plan, name):
    plan = make_plan(name)
    told = [text for text, _ in process_record(plan, DAY).conditions]
    assert told == [one.text for one in plan.conditions]


def test_the_record_tells_the_cure_that_is_planned(make_plan):
    plan = make_plan("cowl")
    ramp = next(one for one in plan.findings if one.id == "heating-ramp")
    assert ramp.value < plan.job["cure"]["ramp"]["value"]
    assert in_styles(ramp.value, ramp.unit) in process_record(plan, DAY).cure


def test_the_record_tells_both_cures_of_a_part_that_stands_free(make_plan):
    cure = {"first_cure": "65 degC", "temperature": "110 degC"}
    moved = {f"cure.{key}": value for key, value in cure.items()}
    plan = make_plan("cowl", moved | {"cure.free_standing_post_cure": True})
    told = process_record(plan, DAY).cure
    assert told.startswith(in_styles(65.0, "degC"))
    assert told.endswith(f"standing free, up to {in_styles(110.0, 'degC')}")


def test_what_goes_into_the_bag_has_a_lot(make_plan):
    page = process_record(make_plan("cowl"), DAY)
    assert page.materials[0] == "Prepreg"
    assert "Flash tape, roll" in page.materials
    assert not [one for one in page.materials if "at most" in one or "Glove" in one]
    assert not set(page.materials[:-1]) & set(tool_record(make_plan("cowl"), DAY).materials)


def test_a_record_says_what_is_required_and_what_is_not_claimed(printed):
    text = text_of(printed("cowl", "record"))
    for words in (
        "1 mm (39 mil)",
        "90 °C (194 °F) for 5 h",
        "It claims no strength",
        "Deviations",
        "Approved for the customer",
        "Gauge after 10 min",
    ):
        assert words in text.replace("\u202f", " "), words


def test_a_tool_record_follows_the_tool_through_its_life(printed, make_plan):
    text = text_of(printed("cowl", "tool")).replace("\u202f", " ")
    for words in (
        "Preparation, build and proof",
        "Vacuum tests of the tool",
        "Cycles and release",
        "Repairs",
        "Out of use",
        "2 tools, each good for about 10 parts",
    ):
        assert words in text, words


@pytest.mark.parametrize("document", OTHERS)
def test_a_document_fetches_nothing_and_user_text_is_text(make_plan, document):
    plan = make_plan("panel", {"title": '<b>Bold</b> & "quoted"', "customer": "<i>x"})
    html = html_of(document, plan, DAY)
    assert "<b>Bold</b>" not in html
    assert "&lt;b&gt;Bold" in html
    assert not re.search(r"(src|href)=\"(?!#)", html)
    assert "url(" not in html


def test_a_plan_without_a_route_is_printed_alone(make_plan):
    plan = make_plan("cowl", {"budget.total": 10})
    assert set(render(plan, ("pdf", "html", "json"), DAY)) == {
        "plan.pdf",
        "plan.html",
        "plan.json",
    }
    for document in OTHERS:
        with pytest.raises(ValueError, match="without a route"):
            html_of(document, plan, DAY)


def test_documents_are_chosen_by_name(tmp_path):
    from importlib.resources import files

    job = str(files("advisor.demo").joinpath("panel.toml"))
    words = ["plan", job, "--quick", "--formats", "html", "--out", str(tmp_path)]
    result = CliRunner().invoke(app, [*words, "--documents", "tool,briefing"])
    assert result.exit_code == 0, result.output
    names = sorted(path.name for path in tmp_path.iterdir())
    assert names == ["panel.briefing.html", "panel.tool.html"]
    bad = CliRunner().invoke(app, [*words, "--documents", "brief"])
    assert bad.exit_code == 2
    assert "--documents: given 'brief'; accepted any of plan, briefing" in bad.stderr


@pytest.mark.parametrize("bag", ["tube-bag", "matched-mould", "shrink-tape"])
def test_a_bag_that_the_sketch_cannot_show_is_left_to_its_step(make_plan, bag):
    plan = make_plan("cowl")
    other = plan.route.model_copy(update={"bagging": bag})
    kept = tuple(one for one in plan.stack if one.id in {"release", "tool", "plies"})
    drawn = section(plan.model_copy(update={"route": other, "stack": kept}))
    assert drawn.svg.count("<circle") >= 3
    assert "ag film" not in drawn.words
