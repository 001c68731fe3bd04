"""Commands that plan: demo, plan, check; and what a job may hold."""

import json
from collections.abc import Sequence
from datetime import date
from importlib.resources import files
from pathlib import Path
from typing import Annotated, TypeVar

import typer

from advisor.advise import Consultation, advise
from advisor.cli.files import (
    EXIT_CODES,
    JobPath,
    OutDir,
    PaperOption,
    ShopPath,
    make_folder,
    read,
    said_if_slow,
    stop,
    write,
)
from advisor.documents.carried import sources
from advisor.documents.pdf import Attached, PdfUnavailableError
from advisor.documents.render import (
    DOCUMENTS,
    FORMATS,
    Document,
    Format,
    Paper,
    render,
)
from advisor.documents.units import Units
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.plan import Plan
from advisor.questioning.guess import Guess, read_guess, with_guesses
from advisor.questioning.questioned import questioned_plan
from advisor.reading import InputError, did_you_mean, read_job, read_shop
from advisor.rule_base import options
from advisor.shop import Shop
from advisor.terminal import summary

Word = TypeVar("Word", bound=str)

DEMO_JOBS = ("cowl", "panel", "duct")

Quick = Annotated[
    bool,
    typer.Option(
        "--quick",
        help="Leave out what would change the plan and how sure it is: sooner done.",
    ),
]


def demo(
    out: OutDir = Path("demo-plans"), paper: PaperOption = "a4", quick: Quick = False
) -> None:
    """Plan three invented jobs in an invented shop, and write their files too."""
    source = files("advisor.demo")
    make_folder(out)
    for name in ("shop", *DEMO_JOBS):
        text = source.joinpath(f"{name}.toml").read_bytes()
        write(out / f"{name}.toml", text)
    shop = read_shop(out / "shop.toml")
    for name in DEMO_JOBS:
        job = read_job(out / f"{name}.toml")
        files_read = [(out / f"{one}.toml").read_bytes() for one in (name, "shop")]
        _plan_and_write(
            job,
            shop,
            out,
            name,
            FORMATS,
            paper,
            carried=sources(*files_read),
            quick=quick,
            pdf_wanted=False,
        )


def plan(
    job: JobPath,
    shop: ShopPath = None,
    out: OutDir = Path("."),
    formats: Annotated[
        str | None,
        typer.Option(metavar="pdf,html,json", help="Formats to write; all if left out."),
    ] = None,
    documents: Annotated[
        str | None,
        typer.Option(
            metavar="plan,briefing,record,tool",
            help="Documents to write: the process plan, the bench briefing, the process "
            "record, the tool record; all if left out.",
        ),
    ] = None,
    paper: PaperOption = "a4",
    units: Annotated[
        Units, typer.Option(help="Units to print where a number has both.")
    ] = "both",
    guess: Annotated[
        list[str] | None,
        typer.Option(
            metavar="STAGE=ID",
            help="Your own guess, as tool=mdf or sealing=neat-epoxy: taken down first, "
            "answered point by point, without weight in the decision.",
        ),
    ] = None,
    quick: Quick = False,
) -> None:
    """Plan a job: decide, print the summary, write the plan."""
    wanted = _chosen(formats, "--formats", FORMATS)
    printed = _chosen(documents, "--documents", DOCUMENTS)
    job_read, shop_read = read(job, shop)
    guesses = _guesses(guess or [])
    make_folder(out)
    made = _plan_and_write(
        job_read,
        shop_read,
        out,
        job.stem,
        wanted,
        paper,
        documents=printed,
        units=units,
        pdf_wanted=formats is not None,
        carried=sources(job.read_bytes(), shop.read_bytes() if shop else None),
        quick=quick,
        guesses=guesses,
    )
    raise typer.Exit(EXIT_CODES[made.verdict])


def check(job: JobPath, shop: ShopPath = None) -> None:
    """Say what is wrong or missing in the files, all at once; write nothing."""
    job_read, shop_read = read(job, shop)
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


def schema() -> None:
    """Print the JSON Schema of plan.json."""
    typer.echo(json.dumps(Plan.model_json_schema(mode="serialization"), indent=2))


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
        stop([f"KIND: given {kind!r}; accepted {', '.join(known)}.{hint}"])
    typer.echo(options.listed(load_knowledge(), (kind,) if kind else ()))


def _chosen(given: str | None, option: str, known: tuple[Word, ...]) -> tuple[Word, ...]:
    """Return the words of a list with commas, in their own order; all if none is given."""
    if given is None:
        return known
    asked = [name.strip() for name in given.split(",") if name.strip()]
    if not asked or not set(asked) <= set(known):
        words = ", ".join(known)
        stop([f"{option}: given {given!r}; accepted any of {words}, with commas"])
    return tuple(name for name in known if name in asked)


def _guesses(given: list[str]) -> list[Guess]:
    try:
        return [read_guess(one, load_knowledge()) for one in given]
    except InputError as error:
        stop(error.faults)


def _plan_and_write(
    job: Job,
    shop: Shop,
    out: Path,
    stem: str,
    formats: tuple[Format, ...],
    paper: Paper,
    *,
    documents: tuple[Document, ...] = DOCUMENTS,
    units: Units = "both",
    pdf_wanted: bool,
    carried: Sequence[Attached],
    quick: bool = False,
    guesses: Sequence[Guess] = (),
) -> Plan:
    consultation = Consultation()
    if quick:
        made = consultation.plan(job, shop)
    else:
        with said_if_slow(f"{job.title}: trying what would change the plan."):
            made = questioned_plan(consultation, job, shop)
    made = with_guesses(made, guesses)
    typer.echo(summary(made))
    missing: str | None = None
    for name, make in render(
        made, formats, date.today(), paper, carried, documents, units
    ).items():
        path = out / f"{stem}.{name}"
        try:
            write(path, make())
        except PdfUnavailableError as error:
            missing = str(error)
            continue
        except OSError as error:
            stop([f"{path}: cannot be written ({error.strerror})"])
        typer.echo(f"  wrote {path}")
    typer.echo()
    if missing:
        typer.echo(missing, err=True)
        if pdf_wanted:
            raise typer.Exit(5)
    return made
