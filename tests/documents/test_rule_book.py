"""The rule book on paper, read back from the PDF by an independent reader (pypdf)."""

import json
import re
from dataclasses import asdict
from io import BytesIO

import pypdf
import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.cli.files import said_if_slow
from advisor.documents import render
from advisor.documents.pdf import PdfUnavailableError
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base.book import rule_book
from advisor.rule_base.looked_at import looked_at


@pytest.fixture(scope="module")
def page():
    return rule_book(rule_entries(), load_knowledge())


@pytest.fixture(scope="module")
def pdf(page):
    return render.render_book(page)["pdf"]()


@pytest.fixture(scope="module")
def text(pdf):
    reader = pypdf.PdfReader(BytesIO(pdf))
    words = "\n".join(one.extract_text() for one in reader.pages)
    return re.sub(r"\s+", " ", words)


def bare(words):
    """Return words without spaces, joiners and thin spaces, which a PDF may drop."""
    return re.sub(r"[\s\u2060]", "", words)


def book(*arguments):
    return CliRunner().invoke(app, ["rules", "book", *arguments])


def test_every_rule_stands_in_the_book_once(page):
    printed = [rule.id for topic in page.topics for rule in topic.rules]
    assert sorted(printed) == [entry.advice.id for entry in rule_entries()]


def test_every_rule_limit_caution_and_source_is_on_paper(text):
    known = load_knowledge()
    squeezed = bare(text)
    wanted = [entry.advice.id for entry in rule_entries()]
    wanted += [row.meaning for row in known.limits.values()]
    wanted += [row.text[:50] for row in known.cautions.values()]
    wanted += [s.citation[:30] for s in known.sources.values() if s.kind != "none"]
    wanted += [row.name for row in known.tool_materials.values()]
    wanted += [word.means[:50] for word in known.glossary.values()]
    for words in wanted:
        assert bare(words) in squeezed, words


def test_chapters_come_in_the_order_of_the_trade(page, text):
    heads = [*(topic.title for topic in page.topics), "Options and their figures"]
    heads += ["Limits", "Cautions", "Words of the trade", "Sources"]
    places = []
    for head in heads:  # the contents name each first
        places.append(text.index(head, places[-1] if places else 0))
    assert places == sorted(places)
    assert "Contents" in text[: places[0]]


def test_counts_of_the_title_page_are_those_of_the_rule_base(page):
    counts = {what: int(n) for n, what in page.counts}
    assert counts["rules"] == len(rule_entries())
    assert sum(n for what, n in counts.items() if what.startswith("of them")) == len(
        rule_entries()
    )


def test_nothing_runs_off_the_page(pdf):
    for one in pypdf.PdfReader(BytesIO(pdf)).pages:
        places = []
        one.extract_text(
            visitor_text=lambda text, cm, tm, font, size, places=places: (
                places.append(cm[4] + tm[4] * cm[0]) if text.strip() else None
            )
        )
        assert min(places) > 30
        assert max(places) < 595 - 28


def test_the_same_rules_give_the_same_bytes(page, pdf):
    assert render.render_book(page)["pdf"]() == pdf


def test_every_rule_says_in_words_what_it_looks_at():
    for entry in rule_entries():
        words = looked_at(entry.rule)
        assert words, entry.advice.id
        for sign in ("_", "<", "W(", "P(", "()", "None", "lambda"):
            assert sign not in words, f"{entry.advice.id}: {words}"


def test_a_file_is_written_by_its_ending(tmp_path, page):
    path = tmp_path / "book.json"
    assert book("--output", str(path)).exit_code == 0
    assert json.loads(path.read_text("utf-8")) == json.loads(json.dumps(asdict(page)))
    assert book("--output", str(tmp_path / "book.html"), "--paper", "letter").exit_code == 0
    assert "size: letter" in (tmp_path / "book.html").read_text("utf-8")


@pytest.mark.parametrize("name", ["book.doc", "nowhere/book.pdf"])
def test_a_name_that_cannot_be_written_is_a_fault(tmp_path, name):
    done = book("--output", str(tmp_path / name))
    assert done.exit_code == 2
    assert done.stderr.count("\n") == 1
    assert "--output: given" in done.stderr


def test_without_pango_the_book_is_written_otherwise(tmp_path, monkeypatch):
    def refuse(*_):
        raise PdfUnavailableError("no Pango")

    monkeypatch.setattr(render, "pdf_of", refuse)
    monkeypatch.chdir(tmp_path)
    assert book("--output", "book.pdf").exit_code == 5
    done = book()
    assert done.exit_code == 0
    assert "no Pango" in done.stderr
    assert {one.name for one in tmp_path.iterdir()} == {"rule-book.html", "rule-book.json"}


def test_a_long_wait_is_announced(capsys):
    import time

    with said_if_slow("wait", after_s=0.01):
        time.sleep(0.2)
    assert capsys.readouterr().err == "wait\n"


def test_what_a_job_supplies_is_set_in_italics_and_typed_marks_stay_text(page):
    rules = {rule.id: rule for topic in page.topics for rule in topic.rules}
    assert "<i>tool material</i>" in rules["CLOSE-160"].why
    for rule in rules.values():
        assert not re.search(r"[{}\u2039\u203a]|<(?!/?i>)", f"{rule.title} {rule.why}")
