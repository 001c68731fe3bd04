"""The process plan on paper, read back from the PDF by an independent reader (pypdf)."""

import logging
import re
from datetime import date
from io import BytesIO

import pypdf
import pypdfium2
import pytest

from advisor.documents.pdf import pdf_of
from advisor.documents.process_plan import process_plan
from advisor.documents.render import html_of
from advisor.documents.work import LONG_TEXT
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.provenance import conclusions_in
from advisor.reasoning.rulebook import rule_entries

DAY = date(2026, 3, 14)
HOSTILE = "<script>alert(1)</script> & <img src=http://x.invalid/a.png> {{ 7*7 }}"


@pytest.fixture(scope="session")
def printed(make_plan, demo_pdf):
    """Return a call that prints a demo plan once and reads it back."""
    kept = {}

    def read(name, paper="a4", job=None):
        key = (name, paper, repr(job))
        if key not in kept:
            html = html_of("plan", make_plan(name, job), DAY, paper)
            pdf = pdf_of(html) if job else demo_pdf(name, "plan", paper)
            kept[key] = html, pypdf.PdfReader(BytesIO(pdf))
        return kept[key]

    return read


def text_of(reader):
    """Return the text of every page with plain spaces."""
    text = "\n".join(page.extract_text() for page in reader.pages)
    return re.sub(r"\s+", " ", text.replace("\u202f", " "))


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_first_page_holds_decision_cost_time_hazards_and_every_condition(
    printed, make_plan, name, paper
):
    plan = make_plan(name)
    page = squeezed(printed(name, paper)[1].pages[0].extract_text())
    wanted = [plan.job["title"], "A route stands", "Tool", "Seal", "Release", "Bag"]
    wanted += ["What can kill or maim", "a part;", "First tool ready in", "page 1 of"]
    assert plan.conditions
    wanted += ["Conditions: each is shown", "Signed"]
    wanted += [c.hazard for c in plan.cautions if c.gravity < 3]
    for words in wanted:
        assert squeezed(words) in page, words
    for words in [part for c in plan.conditions for part in (c.text, c.proved_by)]:
        assert squeezed(words) in page, words


def squeezed(words):
    """Return words without what a broken line adds or drops: spaces, joiners, hyphens."""
    return re.sub(r"[\s\u2060\u202f\u2009-]", "", words)


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_every_step_hold_point_caution_and_source_is_on_paper(printed, make_plan, name):
    plan, text = make_plan(name), text_of(printed(name)[1])
    for step in plan.steps:
        assert step.title.replace("\u202f", " ") in text
    for caution in plan.cautions:
        assert caution.id == "standing" or f"Caution: {caution.hazard}." in text
        assert caution.text[:60] in text
    assert text.count("Hold") >= sum(step.hold_point is not None for step in plan.steps)
    for source in process_plan(plan, DAY).sources:
        assert source.citation[:40] in text


def test_what_a_step_lists_stands_under_its_text_before_its_reason(printed, make_plan):
    [placed] = [one for one in make_plan("cowl").steps if one.listed]
    html = printed("cowl")[0]
    here = html[html.index(f'id="step-{placed.n}"') :]
    here = here[here.index('class="listed"') :]
    lines = re.findall("<li>(.*?)</li>", here[: here.index('class="why')])
    assert [line[:2] for line in lines] == [one[:2] for one in placed.listed]
    text = text_of(printed("cowl")[1])
    assert "1. Laminate, where it is thickest and deepest in the tool" in text


def test_sections_come_in_the_order_a_reader_wants_them(printed):
    text = text_of(printed("cowl")[1])
    heads = [
        "Conditions: each is shown",
        "Why this way",
        "The work, step by step",
        "To pull from the shelf",
        "Words used in this plan",
        "What was ruled out, and why",
        "What it costs",
        "The numbers",
        "Figures taken from the tables",
        "What was not given",
        "Sources, and how sure",
    ]
    places = [text.index(head) for head in heads]
    assert places == sorted(places)


def test_a_caution_in_full_stands_at_the_first_step_that_needs_it(make_plan):
    page = process_plan(make_plan("cowl"), DAY)
    seen = set()
    for phase in page.phases:
        for step in phase.steps:
            for guard in step.first_cautions:
                assert guard.first_step == step.n
                seen.add(guard.id)
            for guard in step.cautions_again:
                assert guard.id in seen
    assert len(seen) >= len(page.hazards) + len(page.grave) > 0


def test_both_unit_systems_are_printed(printed):
    text = text_of(printed("panel")[1])
    assert "24 in" in text
    assert "610 mm" in text
    assert "121 °C (250 °F)" in text


@pytest.mark.parametrize(
    ("paper", "width", "height"), [("a4", 595, 842), ("letter", 612, 792)]
)
def test_paper_is_a4_or_letter(printed, paper, width, height):
    box = printed("panel", paper)[1].pages[0].mediabox
    assert abs(float(box.width) - width) < 1
    assert abs(float(box.height) - height) < 1


def test_nothing_runs_off_the_page(printed):
    """No text is drawn outside the margins (10 mm at the sides, 5 mm below).

    Read back with pdfium, which knows the box of a text in a drawing too.
    """
    for name in ("cowl", "panel", "duct"):
        for page in pypdfium2.PdfDocument(printed(name)[1].stream.getvalue()):
            text = page.get_textpage()
            boxes = [text.get_rect(n) for n in range(text.count_rects())]
            assert boxes
            assert min(left for left, *_ in boxes) > 30
            assert min(bottom for _, bottom, *_ in boxes) > 14
            assert max(right for *_, right, _ in boxes) < 595 - 28


def test_the_fonts_are_the_packages_own(printed):
    names = set()
    for page in printed("cowl")[1].pages:
        for font in page["/Resources"]["/Font"].values():
            names.add(str(font.get_object()["/BaseFont"]))
    assert names
    assert all("+Plan-S" in name for name in names), names


def test_printing_logs_nothing(make_plan, caplog):
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        pdf_of(html_of("plan", make_plan("duct"), DAY))
    assert not caplog.records


def test_the_html_is_self_contained(printed):
    html = printed("cowl")[0]
    assert "http" not in re.sub(r"http://www.w3.org\S*", "", html).replace("httpx", "")
    assert "<link" not in html
    assert "src=" not in html


def test_text_of_the_user_is_text_and_nothing_is_fetched(printed, caplog):
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        html, reader = printed("panel", job={"title": HOSTILE, "note": HOSTILE})
    assert "<script>" not in html
    assert "<img" not in html
    assert "{{ 7*7 }}" in html
    assert "alert(1)" in text_of(reader)
    assert not caplog.records


def test_other_scripts_and_long_titles_print(printed):
    title = "Кожух вентилятора, άνω μισό, größer œuvre " + "very " * 25 + "long"
    html, reader = printed("panel", job={"title": title})
    assert "Кожух" in text_of(reader)
    assert "μισό" in text_of(reader)
    assert title in html


@pytest.mark.parametrize(
    ("job", "words"),
    [
        (
            {"budget.total": 40},
            ("No route stands", "comes back with a budget of", "What was ruled out"),
        ),
        ({"cure.temperature": None}, ("Questions first", "cure.temperature")),
    ],
)
def test_a_plan_without_a_route_says_so_on_paper(printed, job, words):
    text = text_of(printed("cowl", job=job)[1])
    for word in words:
        assert word in text
    assert "step by step" not in text


def test_every_sign_printed_has_a_glyph(make_plan):
    from importlib.resources import files

    from fontTools.ttLib import TTFont

    known = set()
    for name in ("NotoSans-Regular.ttf", "NotoSansMath-Regular.ttf"):
        with files("advisor.templates").joinpath("fonts", name).open("rb") as file:
            known |= set(TTFont(file).getBestCmap())
    for name in ("cowl", "panel", "duct"):
        body = re.sub(
            r"<[^>]+>", "", html_of("plan", make_plan(name), DAY).split("<body>")[1]
        )
        missing = {sign for sign in body if ord(sign) > 32 and ord(sign) not in known}
        assert not missing


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_no_markup_is_printed_as_words(make_plan, name):
    html = html_of("plan", make_plan(name), DAY)
    assert 'class="ref"' in html
    assert "&lt;span" not in html
    assert "&lt;svg" not in html


def test_what_the_plan_rests_on_is_counted(printed, make_plan):
    text = text_of(printed("cowl")[1])
    total = len({one.id for one in conclusions_in(make_plan("cowl"))})
    row = re.search(r"together (\d+) (\d+) (\d+) (\d+)", text)
    assert [int(row[n]) for n in (3, 4)] == [total, total]
    assert "common practice, no source" in text


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_reasons_and_figures_are_counted_apart_from_their_chains(make_plan, name):
    """The count is made again here, from the rules and the tables themselves."""
    knowledge = load_knowledge()
    said = {entry.advice.id: entry.advice.cites for entry in rule_entries()}
    plan = make_plan(name)
    every = {one.id: one for one in conclusions_in(plan)}.values()
    ruled = [said[one.rule] for one in every if one.kind not in {"joined", "chosen"}]
    published = sum(knowledge.basis(cites) == "published" for cites in ruled)
    figures = {
        (ground.name, ground.value): ground.basis
        for one in every
        for ground in one.grounds
        if ground.kind == "table" and ground.basis and re.search(r"\d", ground.value)
    }
    cited = sum(basis == "published" for basis in figures.values())
    rows = {row.basis: row.counts for row in process_plan(plan, DAY).rests_on}
    assert rows["together"][:2] == (len(ruled), len(figures))
    assert rows["published"][:2] == (published, cited)


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_a_number_in_brackets_leads_to_something_that_can_be_looked_up(make_plan, name):
    """Common practice has no entry: it is named in words where a line rests on it."""
    plan = make_plan(name)
    page = process_plan(plan, DAY)
    assert page.sources
    assert all(source.kind for source in page.sources)
    assert [source.n for source in page.sources] == list(range(1, len(page.sources) + 1))
    html = html_of("plan", plan, DAY)
    pointed = set(map(int, re.findall(r'href="#source-(\d+)"', html)))
    assert pointed == {source.n for source in page.sources}
    first = html[html.index('id="step-1"') : html.index('id="step-2"')]
    assert "common practice" in first
    assert "[" not in first


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_a_step_of_several_actions_is_told_line_by_line_and_loses_no_word(make_plan, name):
    plan = make_plan(name)
    steps = {s.n: s for phase in process_plan(plan, DAY).phases for s in phase.steps}
    assert any(step.lines for step in steps.values())
    for step in plan.steps:
        shown = steps[step.n]
        told = " ".join((shown.text, *shown.lines))
        assert squeezed(told) == squeezed(step.text) or squeezed(told) == squeezed(
            step.text.replace(";", "")
        )
        longest = max((shown.text, *shown.lines), key=len)
        sentences = re.split(r"(?<=[.!?])\s+(?=[A-Z])", longest)
        assert len(longest.split()) <= LONG_TEXT or len(sentences) < 3


def test_words_of_the_trade_that_the_plan_uses_are_explained_and_no_others(make_plan):
    glossary = load_knowledge().glossary
    words = {name: {w.term for w in make_plan(name).words} for name in ("cowl", "panel")}
    silica = glossary["aerated-concrete"].term
    assert silica in words["cowl"]
    assert silica not in words["panel"]
    for name, terms in words.items():
        told = " ".join(
            f"{step.title} {step.text} {step.why}" for step in make_plan(name).steps
        )
        used = {word.term for word in glossary.values() if word.stands_in(told)}
        assert used
        assert used <= terms < {word.term for word in glossary.values()}
