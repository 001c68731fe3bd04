"""Links and bookmarks of the process plan, followed in the PDF itself (pypdf)."""

import re
from io import BytesIO

import pypdf
import pytest

JOBS = ("cowl", "panel", "duct")


class Read:
    """A PDF with its links, its places and the texts of its pages, read once."""

    def __init__(self, pdf):
        self.reader = pypdf.PdfReader(BytesIO(pdf))
        self.texts = [tight(page.extract_text()) for page in self.reader.pages]
        self.places = self.reader.named_destinations
        self.annotations = [
            (n, one.get_object())
            for n, page in enumerate(self.reader.pages)
            for one in page.get("/Annots") or ()
        ]
        self.links = [
            (n, str(one.get("/Dest") or one["/A"]["/D"]))
            for n, one in self.annotations
            if one["/Subtype"] == "/Link"
        ]

    def led_to(self, name):
        """Return the text of the page that a link leads to."""
        return self.texts[self.reader.get_destination_page_number(self.places[name])]


def tight(text):
    """Return a text without what a broken line adds or drops."""
    return re.sub(r"[\s\u202f\u2060-]+", "", text)


@pytest.fixture(scope="module", params=JOBS)
def read(request, demo_pdf):
    return Read(demo_pdf(request.param))


def test_every_link_leads_to_a_place_in_the_document(read):
    assert len(read.links) > 150
    for page, name in read.links:
        assert name in read.places, f"page {page + 1}: {name}"


def test_no_link_leads_out_of_it(read):
    for _, one in read.annotations:
        assert "/URI" not in one.get("/A", {})


def test_a_source_s_number_leads_to_the_page_of_its_citation(read):
    names = {name for _, name in read.links if name.startswith("source-")}
    assert len(names) > 40
    for name in names:
        assert f"{name.removeprefix('source-')}." in read.led_to(name), name


def test_what_is_named_again_leads_to_its_caution_in_full(read):
    names = {name for _, name in read.links if name.startswith("caution-")}
    assert names
    for name in names:
        assert "Caution:" in read.led_to(name), name


def test_bookmarks_lead_to_their_headings_in_the_order_of_the_pages(read):
    marks = list(flat(read.reader.outline))
    pages = [read.reader.get_destination_page_number(one) for one in marks]
    assert len(marks) > 30
    assert pages == sorted(pages)
    for mark, page in zip(marks, pages, strict=True):
        assert tight(mark.title) in read.texts[page], mark.title


def flat(entries):
    """Yield the bookmarks of an outline, those below a heading after it."""
    for one in entries:
        if isinstance(one, list):
            yield from flat(one)
        else:
            yield one
