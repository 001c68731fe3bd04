"""The command line: thin; it reads files, calls `advise`, writes files, sets exit codes."""

import json
import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from difflib import get_close_matches
from importlib.resources import files
from pathlib import Path
from threading import Timer
from typing import Annotated, NoReturn

import typer

from advisor import __version__
from advisor.advise import advise
from advisor.documents.render import (
    FORMATS,
    Format,
    Paper,
    PdfUnavailableError,
    render,
    render_book,
)
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.naming import unknown_names
from advisor.plan import Plan
from advisor.reading import InputError, did_you_mean, read_job, read_shop
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import check as rule_check
from advisor.rule_base import options
from advisor.rule_base.book import rule_book
from advisor.shop import Shop
from advisor.terminal import summary

EXIT_CODES = {"route": 0, "route-with-conditions": 0, "no-route": 3, "ask-first": 4}
DEMO_JOBS = ("cowl", "panel", "duct")

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help=(
        "Plan how to make a composite part: what to make the tool of, how to seal, "
        "release, "
        "bag and cure it, and what could hurt people, with the reason and the source of "
        "each "
        "piece of advice.\n\n"
        "Start with `advisor demo`, copy one of the job files it writes, change it, and "
        "run "
        "`advisor check JOB` and `advisor plan JOB --shop SHOP`.\n\n"
        "Exit codes: 0 a route, with or without conditions; 2 bad input; 3 no route; 4 ask "
        "first; 5 the PDF asked for could not be made."
    ),
)

JobPath = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).")]
ShopPath = Annotated[
    Path | None,
    typer.Option("--shop", metavar="SHOP", help="The shop file (TOML); else a bare shop."),
]
OutDir = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the plan.")]
PaperOption = Annotated[Paper, typer.Option(help="Page size.")]


@app.command()
def demo(
    out: OutDir = Path("demo-plans"),
    paper: PaperOption = "a4",
) -> None:
    """Plan three invented jobs in an invented shop, and write their files too."""
    source = files("advisor.demo")
    _make_folder(out)
    for name in ("shop", *DEMO_JOBS):
        text = source.joinpath(f"{name}.toml").read_bytes()
        _write(out / f"{name}.toml", text)
    shop = read_shop(out / "shop.toml")
    for name in DEMO_JOBS:
        job = read_job(out / f"{name}.toml")
        _plan_and_write(job, shop, out, name, FORMATS, paper, pdf_wanted=False)


@app.command()
def plan(
    job: JobPath,
    shop: ShopPath = None,
    out: OutDir = Path("."),
    formats: Annotated[
        str | None,
        typer.Option(metavar="pdf,html,json", help="Formats to write; all if left out."),
    ] = None,
    paper: PaperOption = "a4",
) -> None:
    """Plan a job: decide, print the summary, write the plan."""
    wanted = _formats(formats)
    job_read, shop_read = _read(job, shop)
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        _stop(
            [f"--out: given {str(out)!r}; accepted a folder to write in ({error.strerror})"]
        )
    made = _plan_and_write(
        job_read, shop_read, out, job.stem, wanted, paper, pdf_wanted=formats is not None
    )
    raise typer.Exit(EXIT_CODES[made.verdict])


@app.command()
def check(job: JobPath, shop: ShopPath = None) -> None:
    """Say what is wrong or missing in the files, all at once; write nothing."""
    job_read, shop_read = _read(job, shop)
    made = advise(job_read, shop_read)
    for question in made.questions:
        typer.echo(
            f"{job.name}: {question.field}: {question.text} {question.why_it_decides}"
        )
    if made.questions:
        raise typer.Exit(EXIT_CODES["ask-first"])
    typer.echo(f"{job.name}: complete. {len(made.assumptions)} defaults would be taken:")
    for line in made.assumptions:
        typer.echo(f"  {line}")


@app.command()
def schema() -> None:
    """Print the JSON Schema of plan.json."""
    typer.echo(json.dumps(Plan.model_json_schema(mode="serialization"), indent=2))


@app.command("options")
def options_list(
    kind: Annotated[
        str | None,
        typer.Argument(metavar="[KIND]", help=f"{', '.join(options.KINDS)}; else all."),
    ] = None,
) -> None:
    """List the ids that a job or a shop may name, with their limits and what decides."""
    if kind is not None and kind not in options.KINDS:
        known = list(options.KINDS)
        hint = did_you_mean(kind, known)
        _stop([f"KIND: given {kind!r}; accepted {', '.join(known)}.{hint}"])
    typer.echo(options.listed(load_knowledge(), (kind,) if kind else ()))


rules_app = typer.Typer(help="Look into the rule base.")
app.add_typer(rules_app, name="rules")


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
        _stop([f"ID: given {id!r}; accepted an id that `advisor rules` lists.{hint}"])


@rules_app.command("check")
def rules_check() -> None:
    """Check the rule base: sources, names, words, rules and rows that serve nothing."""
    found = rule_check.faults()
    if found:
        _stop(found)
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
        _stop(
            [f"--output: given {str(path)!r}; accepted a name in {', '.join(BOOK_FORMATS)}"]
        )
    if not path.parent.is_dir():
        _stop([f"--output: given {str(path)!r}; accepted a name in a folder that is there"])
    makers = render_book(rule_book(rule_entries(), load_knowledge()), paper)
    try:
        with _said_if_slow("Printing the rule book takes about a quarter of a minute."):
            content = makers[wanted]()
    except PdfUnavailableError as error:
        typer.echo(str(error), err=True)
        for name in ("html", "json") if output is None else ():
            _write_book(path.with_suffix(f".{name}"), makers[name]())
        raise typer.Exit(5 if output else 0) from None
    _write_book(path, content)


def _write_book(path: Path, content: bytes) -> None:
    try:
        _write(path, content)
    except OSError as error:
        _stop([f"{path}: cannot be written ({error.strerror})"])
    typer.echo(f"  wrote {path}")


@contextmanager
def _said_if_slow(text: str, after_s: float = 2.0) -> Iterator[None]:
    """Say on the error stream what is going on, if it takes longer than a moment."""
    timer = Timer(after_s, lambda: typer.echo(text, err=True))
    timer.start()
    try:
        yield
    finally:
        timer.cancel()


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"advisor {__version__}, rule base {load_knowledge().version}")
        raise typer.Exit


@app.callback()
def main(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Say which.")
    ] = False,
) -> None:
    """Set what holds for every command."""


# ---------------------------------------------------------------------- doing it


def _read(job: Path, shop: Path | None) -> tuple[Job, Shop]:
    """Read both files and check their names; every fault in either is told at once."""
    faults: list[str] = []
    job_read: Job | None = None
    shop_read: Shop | None = Shop()
    try:
        job_read = read_job(job)
    except InputError as error:
        faults += error.faults
    if shop is not None:
        try:
            shop_read = read_shop(shop)
        except InputError as error:
            faults += error.faults
            shop_read = None
    shop_name = shop.name if shop else "shop.toml"
    faults += unknown_names(
        job_read or Job(title="unread"),
        shop_read or Shop(),
        load_knowledge(),
        job.name,
        shop_name,
    )
    if faults or job_read is None or shop_read is None:
        _stop(faults)
    return job_read, shop_read


def _formats(given: str | None) -> tuple[Format, ...]:
    if given is None:
        return FORMATS
    asked = [name.strip() for name in given.split(",") if name.strip()]
    unknown = [name for name in asked if name not in FORMATS]
    if unknown or not asked:
        _stop(
            [
                (
                    f"--formats: given {given!r}; accepted any of {', '.join(FORMATS)}, "
                    f"with commas"
                )
            ]
        )
    return tuple(name for name in FORMATS if name in asked)


def _plan_and_write(
    job: Job,
    shop: Shop,
    out: Path,
    stem: str,
    formats: tuple[Format, ...],
    paper: Paper,
    *,
    pdf_wanted: bool,
) -> Plan:
    made = advise(job, shop)
    typer.echo(summary(made))
    missing: str | None = None
    for name, make in render(made, formats, date.today(), paper).items():
        path = out / f"{stem}.plan.{name}"
        try:
            _write(path, make())
        except PdfUnavailableError as error:
            missing = str(error)
            continue
        except OSError as error:
            _stop([f"{path}: cannot be written ({error.strerror})"])
        typer.echo(f"  wrote {path}")
    typer.echo()
    if missing:
        typer.echo(missing, err=True)
        if pdf_wanted:
            raise typer.Exit(5)
    return made


def _make_folder(out: Path) -> None:
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        _stop(
            [f"--out: given {str(out)!r}; accepted a folder to write in ({error.strerror})"]
        )


def _write(path: Path, content: bytes) -> None:
    """Write under a temporary name, then rename: a file is whole or it is not there."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(temporary).chmod(0o644)
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise


def _stop(faults: list[str]) -> NoReturn:
    for fault in faults:
        typer.echo(fault, err=True)
    raise typer.Exit(2)
