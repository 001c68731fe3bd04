"""HTML from a plan, and PDF from the HTML; nothing is fetched from disk or network."""

import json
import logging
import re
from collections.abc import Callable
from dataclasses import asdict
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any, Literal

import jinja2
from markupsafe import Markup

from advisor.documents.rule_book import RuleBookPage
from advisor.documents.view import process_plan
from advisor.measures import THIN
from advisor.plan import Plan

Paper = Literal["a4", "letter"]
Format = Literal["pdf", "html", "json"]
FORMATS: tuple[Format, ...] = ("pdf", "html", "json")

PANGO_HELP = (
    "The PDF needs the Pango library of the system, which is not here. Install it with\n"
    "  Debian, Ubuntu:  apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0\n"
    "  Fedora:          dnf install pango\n"
    "  macOS:           brew install pango\n"
    "  Windows:         see the installation page of WeasyPrint's documentation\n"
    "and run again."
)


class PdfUnavailableError(Exception):
    """The system lacks what the PDF needs; the message says what to install."""


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


def plan_pdf(html: str) -> bytes:
    """Return the PDF of an HTML file made by `plan_html` or `book_html`.

    Raises
    ------
    PdfUnavailableError
        If Pango is missing.
    """
    try:
        import weasyprint
        from weasyprint.text.fonts import FontConfiguration
        from weasyprint.urls import URLFetcher, URLFetcherResponse
    except OSError as error:
        raise PdfUnavailableError(PANGO_HELP) from error
    logging.getLogger("fontTools").setLevel(logging.ERROR)

    class PackageFetcher(URLFetcher):  # type: ignore[misc]
        """Serves the fonts of the package and nothing else."""

        def fetch(self, url: str, headers: Any = None) -> Any:
            name = url.removeprefix("package:///fonts/")
            font = files("advisor.templates").joinpath("fonts", name)
            if name == url or "/" in name or not font.is_file():
                raise ValueError(f"not a file of the package: {url}")
            return URLFetcherResponse(url, body=font.read_bytes())

    fetcher, fonts = PackageFetcher(), FontConfiguration()
    faces = files("advisor.templates").joinpath("fonts.css").read_text(encoding="utf-8")
    sheet = weasyprint.CSS(string=faces, font_config=fonts, url_fetcher=fetcher)
    document = weasyprint.HTML(string=html, url_fetcher=fetcher, base_url="package:///")
    pdf: bytes = document.write_pdf(stylesheets=[sheet], font_config=fonts, pdf_tags=True)
    return pdf


def render(
    plan: Plan, formats: tuple[Format, ...], printed_on: date, paper: Paper = "a4"
) -> dict[Format, Callable[[], bytes]]:
    """Return, for each format asked for, a call that makes its bytes."""
    html = plan_html(plan, printed_on, paper) if {"html", "pdf"} & set(formats) else ""
    makers: dict[Format, Callable[[], bytes]] = {
        "json": lambda: plan.to_json().encode(),
        "html": html.encode,
        "pdf": lambda: plan_pdf(html),
    }
    return {name: makers[name] for name in FORMATS if name in formats}


def render_book(
    page: RuleBookPage, paper: Paper = "a4"
) -> dict[Format, Callable[[], bytes]]:
    """Return, for each format, a call that makes the rule book's bytes."""
    return {
        "json": lambda: json.dumps(asdict(page), ensure_ascii=False, indent=2).encode(),
        "html": lambda: book_html(page, paper).encode(),
        "pdf": lambda: plan_pdf(book_html(page, paper)),
    }
