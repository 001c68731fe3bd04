"""The documents of a plan, as calls that make their bytes."""

import json
import re
from collections.abc import Callable, Iterable
from dataclasses import asdict
from datetime import date
from functools import cache, partial
from typing import Literal

import jinja2
from markupsafe import Markup

from advisor.documents.briefing import briefing
from advisor.documents.columns import on_the_point
from advisor.documents.pdf import Attached, pdf_of
from advisor.documents.process_plan import process_plan
from advisor.documents.records import process_record, tool_record
from advisor.documents.rule_book import RuleBookPage
from advisor.documents.units import Units, in_units
from advisor.measures import THIN, in_sentence
from advisor.plan import Plan

Paper = Literal["a4", "letter"]
Format = Literal["pdf", "html", "json"]
FORMATS: tuple[Format, ...] = ("pdf", "html", "json")
Document = Literal["plan", "briefing", "record", "tool"]
DOCUMENTS: tuple[Document, ...] = ("plan", "briefing", "record", "tool")

_DOCUMENTS: dict[Document, tuple[str, Callable[[Plan, date], object]]] = {
    "plan": ("process_plan.html", process_plan),
    "briefing": ("briefing.html", briefing),
    "record": ("process_record.html", process_record),
    "tool": ("tool_record.html", tool_record),
}

_UNIT_AFTER_NUMBER = re.compile(r"(?<=\d) (?=(?:°|K\b|mm\b|m\b|h\b|min\b|bar\b|in\b|%))")


def _tight(value: object) -> object:
    """Keep a number and its unit on one line, also where a sentence was written by hand."""
    if not isinstance(value, str) or isinstance(value, Markup):
        return value  # what a macro made is markup and stays so
    return _UNIT_AFTER_NUMBER.sub(THIN, value)


@cache
def _templates() -> jinja2.Environment:
    environment = jinja2.Environment(
        loader=jinja2.PackageLoader("advisor.templates", ""),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        finalize=_tight,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["in_sentence"] = in_sentence
    environment.filters["on_the_point"] = on_the_point
    return environment


def html_of(
    document: Document,
    plan: Plan,
    printed_on: date,
    paper: Paper = "a4",
    units: Units = "both",
) -> str:
    """Return one document of a plan as a self-contained HTML file.

    Parameters
    ----------
    document : {"plan", "briefing", "record", "tool"}
        The process plan, the bench briefing, the process record, the tool record. All but
        the first need a plan that has a route.
    plan : Plan
        The decision to print.
    printed_on : date
        The date on the pages.
    paper : {"a4", "letter"}
        Page size for print.
    units : {"both", "metric", "us"}
        Which of two units is printed where a number has both.

    Raises
    ------
    ValueError
        If the plan has no route and the document needs one.
    """
    template, page_of = _DOCUMENTS[document]
    page = page_of(plan, printed_on)
    html = _templates().get_template(template).render(page=page, paper=paper, units=units)
    return in_units(html, units)


def book_html(page: RuleBookPage, paper: Paper = "a4") -> str:
    """Return the rule book as one self-contained HTML file.

    Parameters
    ----------
    page : RuleBookPage
        Every word and number of it.
    paper : {"a4", "letter"}
        Page size for print.
    """
    return _templates().get_template("rule_book.html").render(page=page, paper=paper)


def render(
    plan: Plan,
    formats: tuple[Format, ...],
    printed_on: date,
    paper: Paper = "a4",
    sources: Iterable[Attached] = (),
    documents: Iterable[Document] = DOCUMENTS,
    units: Units = "both",
) -> dict[str, Callable[[], bytes]]:
    """Return, for each file asked for, a call that makes its bytes.

    A file goes by its ending: ``plan.pdf``, ``briefing.html``, ``plan.json``. Every PDF
    carries the plan as data, and the files it came from, `sources`. A plan without a route
    has nothing to brief or to record: it is printed alone.
    """
    data = plan.to_json().encode()
    attached = [*sources, Attached("plan.json", data, "The plan as data")]
    made: dict[str, Callable[[], bytes]] = {}
    for document in documents:
        if plan.route is None and document != "plan":
            continue
        html = html_of(document, plan, printed_on, paper, units)
        made[f"{document}.pdf"] = partial(pdf_of, html, printed_on, attached)
        made[f"{document}.html"] = html.encode
    made["plan.json"] = lambda: data
    return {name: made[name] for name in made if name.rpartition(".")[2] in formats}


def render_book(
    page: RuleBookPage, paper: Paper = "a4"
) -> dict[Format, Callable[[], bytes]]:
    """Return, for each format, a call that makes the rule book's bytes."""
    return {
        "json": lambda: json.dumps(asdict(page), ensure_ascii=False, indent=2).encode(),
        "html": lambda: book_html(page, paper).encode(),
        "pdf": lambda: pdf_of(book_html(page, paper)),
    }
