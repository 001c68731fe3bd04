"""What a typographer looks for, read back from the pages (pypdf)."""

import re
from datetime import date
from html import unescape
from importlib.resources import files
from io import BytesIO
from itertools import groupby

import pypdf
import pytest
from fontTools.ttLib import TTFont

from advisor.documents.columns import on_the_point
from advisor.documents.render import DOCUMENTS, html_of

DAY = date(2026, 3, 14)
JOBS = ("cowl", "panel", "duct")
JUDGED = ("watch", "fail")  # bold words of a judgement, in the last line of its row
HEADINGS = ("h1", "h2", "h3", "h4")
FORMS = ("record", "tool")
FOOT = 45.0  # pt, where the body ends


@pytest.fixture(scope="module")
def pages(demo_pdf):
    kept = {}

    def read(name, document, paper="a4"):
        key = (name, document, paper)
        if key not in kept:
            pdf = demo_pdf(name, document, paper)
            kept[key] = pypdf.PdfReader(BytesIO(pdf)).pages
        return kept[key]

    return read


def lines(page):
    """Return the lines of the body from the lowest up: words, and whether all are bold."""
    seen = []

    def see(text, page_at, at, font, _size):
        if text.strip():
            y = at[5] * page_at[3] + page_at[5]
            bold = bool(font) and "Bold" in str(font.get("/BaseFont"))
            x = at[4] * page_at[0] + page_at[4]
            seen.append((y, x, text.strip(), bold))

    page.extract_text(visitor_text=see)
    body = sorted(one for one in seen if one[0] > FOOT)
    for _, group in groupby(body, key=lambda one: round(one[0] / 4)):
        line = sorted(group, key=lambda one: one[1])
        yield " ".join(text for _, _, text, _ in line), all(bold for *_, bold in line)


def tight(words):
    """Return words without spaces, what a broken line adds, and the number of a step."""
    return re.sub(r"^\d+(?=[A-Z])|[\s\u202f\u2060-]", "", re.sub(r"[\s\u202f]", "", words))


def heads_of(html, marks):
    """Return the words of headings and of heads of tables."""
    return [
        tight(unescape(re.sub("<[^>]+>", "", one)))
        for mark in marks
        for one in re.findall(rf"<{mark}\b.*?</{mark}>", html, re.DOTALL)
    ]


@pytest.mark.parametrize("document", DOCUMENTS)
@pytest.mark.parametrize("name", JOBS)
def test_no_heading_and_no_head_of_a_table_ends_a_page(make_plan, pages, name, document):
    """A form to be filled in has nothing but lines under its head, so is not looked at."""
    html = html_of(document, make_plan(name), DAY)
    heads = heads_of(html, HEADINGS if document in FORMS else (*HEADINGS, "th", "thead"))
    for n, page in enumerate(pages(name, document), 1):
        words, bold = next(lines(page))
        ends = bold and any(one.endswith(tight(words)) for one in heads)
        assert words in JUDGED or not ends, f"page {n} ends with {words!r}"


@pytest.mark.parametrize("document", DOCUMENTS)
@pytest.mark.parametrize("name", JOBS)
def test_headings_are_known_when_they_are_seen(make_plan, pages, name, document):
    """What looks for a heading at the end of a page would know each of them."""
    seen = {
        tight(words)
        for page in pages(name, document)
        for words, bold in lines(page)
        if bold
    }
    for head in heads_of(html_of(document, make_plan(name), DAY), HEADINGS):
        assert any(one and head.endswith(one) for one in seen), head


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_page_says_which_of_how_many_and_of_what(pages, document):
    read = pages("cowl", document)
    for n, page in enumerate(read, 1):
        text = page.extract_text()
        assert f"{n} of {len(read)}" in text
        for words in ("Fan cowl, upper half", "evision B", "2026-03-14"):
            assert words in text, f"{words} on page {n}"


@pytest.mark.parametrize("document", DOCUMENTS)
def test_the_first_page_says_what_it_replaces(pages, document):
    text = " ".join(pages("cowl", document)[0].extract_text().split())
    assert re.search("[Rr]eplaces every earlier|through every revision", text)


@pytest.mark.parametrize("document", DOCUMENTS)
@pytest.mark.parametrize("name", JOBS)
def test_no_page_but_the_last_is_nearly_empty(pages, name, document):
    for n, page in enumerate(pages(name, document)[:-1], 1):
        assert len(list(lines(page))) >= 12, f"page {n}"


def width(text, face="NotoSans-Regular.ttf"):
    """Return the width of a text by the font's own table (OpenType hmtx)."""
    font = TTFont(str(files("advisor.templates").joinpath("fonts", face)))
    names, widths = font.getBestCmap(), font["hmtx"]
    return sum(widths[names[ord(one)]][0] for one in text)


@pytest.mark.parametrize(
    "column",
    [
        ["27", "441", "0.25", "1\u202f114", "9.5"],
        ["0.3", "0.25"],
        ["7"],
    ],
)
def test_amounts_are_equally_wide_and_their_points_align(column):
    padded = on_the_point(column)
    assert len({width(one) for one in padded}) == 1
    whole = {width(one.replace("\u2008", ".").partition(".")[0]) for one in padded}
    assert len(whole) == 1
    assert [one.strip("\u2007\u2008\u202f") for one in padded] == column


def test_points_align_before_units_and_in_the_units_that_are_printed():
    column = ["21 m² (226 ft²)", "4.63 m² (49.8 ft²)", "3", "a pair"]
    for units in ("both", "metric", "us"):
        *padded, words = on_the_point(column, units)
        assert words == "a pair"
        starts = {width(one.split(" ")[0].partition(".")[0]) for one in padded}
        assert len(starts) == 1
    assert on_the_point(column, "us")[1].strip("\u2007") == "49.8 ft²"
