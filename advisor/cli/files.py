"""What every command shares: the files it is given, what it writes, how it stops."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Timer
from typing import Annotated, NoReturn

import typer

from advisor.documents.render import Paper
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.naming import unknown_names
from advisor.questioning.ranges import given
from advisor.reading import InputError, read_job, read_shop
from advisor.shop import Shop

EXIT_CODES = {"route": 0, "route-with-conditions": 0, "no-route": 3, "ask-first": 4}

JobPath = Annotated[Path, typer.Argument(metavar="JOB", help="The job file (TOML).")]
ShopPath = Annotated[
    Path | None,
    typer.Option("--shop", metavar="SHOP", help="The shop file (TOML); else a bare shop."),
]
OutDir = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the plan.")]
PaperOption = Annotated[Paper, typer.Option(help="Page size.")]


def read(job: Path, shop: Path | None) -> tuple[Job, Shop]:
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
    if job_read is not None and shop_read is not None:
        faults += _ranges_that_are_none(job_read, shop_read, job.name)
    if faults or job_read is None or shop_read is None:
        stop(faults)
    return job_read, shop_read


def _ranges_that_are_none(job: Job, shop: Shop, name: str) -> list[str]:
    try:
        given(job, shop)
    except InputError as error:
        return [f"{name}: {one}" for one in error.faults]
    return []


def make_folder(out: Path) -> None:
    """Make the folder that is written to, or stop."""
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        stop(
            [f"--out: given {str(out)!r}; accepted a folder to write in ({error.strerror})"]
        )


def write(path: Path, content: bytes) -> None:
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


def stop(faults: list[str]) -> NoReturn:
    """Tell every fault on the error stream and end with the code of bad input."""
    for fault in faults:
        typer.echo(fault, err=True)
    raise typer.Exit(2)


@contextmanager
def said_if_slow(text: str, after_s: float = 2.0) -> Iterator[None]:
    """Say on the error stream what is going on, if it takes longer than a moment."""
    timer = Timer(after_s, lambda: typer.echo(text, err=True))
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
