"""Much and strange input on paper: nothing runs off a page, nothing is lost (pdfium)."""

import re
from datetime import date

import pypdfium2
import pytest

from advisor.documents.render import DOCUMENTS, render

DAY = date(2026, 3, 14)
GREEK, RUSSIAN, ACCENTED = (
    "Κάλυμμα ανεμιστήρα",
    "Кожух вентилятора",
    "Ångström œuvre žluťoučký",
)
UNBROKEN = "K" * 90
TITLE = f"{GREEK} {RUSSIAN} {ACCENTED} {UNBROKEN}"
NOTE = f"{RUSSIAN}. {UNBROKEN * 2} " + "The customer waits for the paint shop. " * 20
SIDES = 28.0  # pt of white at the sides


@pytest.fixture(scope="module")
def plan(make_plan):
    """Forty plies, and sixty options that were ruled out."""
    made = make_plan(
        "cowl",
        {
            "title": TITLE,
            "customer": f"{UNBROKEN} {GREEK}",
            "revision": "B-2026-draft-of-the-third",
            "note": NOTE,
            "laminate.plies": 40,
            "laminate.layup": "[0/45/90/-45]5s",
            "run.parts": 480,
            "budget.total": 4_000_000,
        },
    )
    out = [one for one in made.options if one.verdict == "ruled-out"]
    more = [
        one.model_copy(update={"id": f"{one.id}-{n}", "name": f"{one.name} {GREEK} {n}"})
        for n in range(60 // len(out) + 1)
        for one in out
    ]
    return made.model_copy(update={"options": (*made.options, *more)})


def letters(text):
    """Return a text without what a broken line adds or drops."""
    return re.sub(r"[\s\x00-\x1f\u202f\u2060\ufffe-]", "", text)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("document", DOCUMENTS)
def test_nothing_runs_off_a_page_and_nothing_is_lost(plan, document, paper):
    made = render(plan, ("pdf",), DAY, paper, documents=(document,))[f"{document}.pdf"]()
    read = pypdfium2.PdfDocument(made)
    words = ""
    for n, page in enumerate(read, 1):
        text = page.get_textpage()
        boxes = [text.get_rect(n) for n in range(text.count_rects())]
        assert min(left for left, *_ in boxes) > SIDES, f"page {n}"
        assert max(right for *_, right, _ in boxes) < page.get_width() - SIDES, f"page {n}"
        assert min(bottom for _, bottom, *_ in boxes) > 14, f"page {n}"
        words += text.get_text_bounded()
    for one in (GREEK, RUSSIAN, ACCENTED, UNBROKEN):
        assert letters(one) in letters(words)
    assert document != "briefing" or len(read) == 2


def test_sixty_options_that_were_ruled_out_are_all_on_paper(plan):
    made = render(plan, ("pdf",), DAY, documents=("plan",))["plan.pdf"]()
    read = pypdfium2.PdfDocument(made)
    words = letters("".join(page.get_textpage().get_text_bounded() for page in read))
    out = [one for one in plan.options if one.verdict == "ruled-out"]
    assert len(out) >= 60
    for one in out:
        assert letters(one.name) in words
