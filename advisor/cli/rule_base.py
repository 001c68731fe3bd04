"""Commands on the rule base: list, show, check, print."""

from difflib import get_close_matches
from pathlib import Path
from typing import Annotated

import typer

from advisor.cli.files import PaperOption, said_if_slow, stop, write
from advisor.documents.pdf import PdfUnavailableError
from advisor.documents.render import FORMATS, Format, render_book
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import check as rule_check
from advisor.rule_base.book import rule_book

rules_app = typer.Typer(help="Look into the rule base.")


@rules_app.callback(invoke_without_command=True)
def rules_list(context: typer.Context) -> None:
    """List every rule: id, module and what it asks for; or show or check them."""
    if context.invoked_subcommand is None:
        typer.echo(rule_check.listing())


@rules_app.command("show")
def rules_show(
    id: Annotated[str, typer.Argument(metavar="ID", help="As printed in a plan.")],
) -> None:
    """Explain one rule, with its thresholds and sources."""
    try:
        typer.echo(rule_check.explained(id.upper()))
    except KeyError:
        known = [entry.advice.id for entry in rule_entries()]
        near = get_close_matches(id.upper(), known, n=3)
        hint = f" Did you mean {', '.join(near)}?" if near else ""
        stop([f"ID: given {id!r}; accepted an id that `advisor rules` lists.{hint}"])


@rules_app.command("check")
def rules_check() -> None:
    """Check the rule base: sources, names, words, rules and rows that serve nothing."""
    found = rule_check.faults()
    if found:
        stop(found)
    for remark in rule_check.remarks():
        typer.echo(remark)
    typer.echo(f"{len(rule_entries())} rules, no fault found.")


BOOK_FORMATS: dict[str, Format] = {f".{name}": name for name in FORMATS}


@rules_app.command("book")
def rules_book(
    output: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="Ends in .pdf, .html or .json; rule-book.pdf."),
    ] = None,
    paper: PaperOption = "a4",
) -> None:
    """Print the rule base as a book: rules, options, limits, cautions, words, sources."""
    path = output or Path("rule-book.pdf")
    wanted = BOOK_FORMATS.get(path.suffix.lower())
    if wanted is None:
        stop(
            [f"--output: given {str(path)!r}; accepted a name in {', '.join(BOOK_FORMATS)}"]
        )
    if not path.parent.is_dir():
        stop([f"--output: given {str(path)!r}; accepted a name in a folder that is there"])
    makers = render_book(rule_book(rule_entries(), load_knowledge()), paper)
    try:
        with said_if_slow("Printing the rule book takes about a quarter of a minute."):
            content = makers[wanted]()
    except PdfUnavailableError as error:
        typer.echo(str(error), err=True)
        for name in ("html", "json") if output is None else ():
            _write_book(path.with_suffix(f".{name}"), makers[name]())
        raise typer.Exit(5 if output else 0) from None
    _write_book(path, content)


def _write_book(path: Path, content: bytes) -> None:
    try:
        write(path, content)
    except OSError as error:
        stop([f"{path}: cannot be written ({error.strerror})"])
    typer.echo(f"  wrote {path}")
