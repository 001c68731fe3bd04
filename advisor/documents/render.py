"""The documents of a plan, as calls that make their bytes."""

import json
import re
from collections.abc import Callable, Iterable
from dataclasses import asdict
from datetime import date
from functools import cache
from typing import Literal

import jinja2
from markupsafe import Markup

from advisor.documents.pdf import Attached, pdf_of
from advisor.documents.rule_book import RuleBookPage
from advisor.documents.view import process_plan
from advisor.measures import THIN
from advisor.plan import Plan

Paper = Literal["a4", "letter"]
Format = Literal["pdf", "html", "json"]
FORMATS: tuple[Format, ...] = ("pdf", "html", "json")

_UNIT_AFTER_NUMBER = re.compile(r"(?<=\d) (?=(?:°|K\b|mm\b|m\b|h\b|min\b|bar\b|in\b|%))")


def _tight(value: object) -> object:
    """Keep a number and its unit on one line, also where a sentence was written by hand."""
    if not isinstance(value, str) or isinstance(value, Markup):
        return value  # what a macro made is markup and stays so
    return _UNIT_AFTER_NUMBER.sub(THIN, value)


@cache
def _templates() -> jinja2.Environment:
    return jinja2.Environment(
        loader=jinja2.PackageLoader("advisor.templates", ""),
        autoescape=True,
        undefined=jinja2.StrictUndefined,
        finalize=_tight,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def plan_html(plan: Plan, printed_on: date, paper: Paper = "a4") -> str:
    """Return the process plan as one self-contained HTML file.

    Parameters
    ----------
    plan : Plan
        The decision to print.
    printed_on : date
        The date on the pages.
    paper : {"a4", "letter"}
        Page size for print.
    """
    template = _templates().get_template("process_plan.html")
    return template.render(page=process_plan(plan, printed_on), paper=paper)


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
) -> dict[Format, Callable[[], bytes]]:
    """Return, for each format asked for, a call that makes its bytes.

    The PDF carries the plan as data, and the files it came from, `sources`.
    """
    html = plan_html(plan, printed_on, paper) if {"html", "pdf"} & set(formats) else ""
    makers: dict[Format, Callable[[], bytes]] = {
        "json": lambda: plan.to_json().encode(),
        "html": html.encode,
        "pdf": lambda: pdf_of(html, printed_on, attached),
    }
    data = Attached("plan.json", plan.to_json().encode(), "The plan as data")
    attached = [*sources, data]
    return {name: makers[name] for name in FORMATS if name in formats}


def render_book(
    page: RuleBookPage, paper: Paper = "a4"
) -> dict[Format, Callable[[], bytes]]:
    """Return, for each format, a call that makes the rule book's bytes."""
    return {
        "json": lambda: json.dumps(asdict(page), ensure_ascii=False, indent=2).encode(),
        "html": lambda: book_html(page, paper).encode(),
        "pdf": lambda: pdf_of(book_html(page, paper)),
    }
