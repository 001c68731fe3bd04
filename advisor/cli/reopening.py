"""The command that reads a printed plan back from its PDF."""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

import typer
from pydantic import ValidationError

from advisor.advise import advise
from advisor.cli.files import make_folder, stop, write
from advisor.documents.carried import JOB, PLAN, SHOP, carried
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.plan import Plan
from advisor.questioning.told import comparison_told
from advisor.questioning.whatif import compare
from advisor.reading import InputError, read_text
from advisor.shop import Shop

DECIDES_OTHERWISE = 6


def open_pdf(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A PDF that plan wrote.")],
    out: Annotated[
        Path | None,
        typer.Option(metavar="DIR", help="Write the files that the PDF carries here."),
    ] = None,
) -> None:
    """Read a printed plan back, and say whether today's rule base decides the same."""
    try:
        found = carried(file)
        then = _plan(found, file.name)
        now = _decided_today(found, file.name)
    except InputError as error:
        stop(error.faults)
    if out is not None:
        _write(found, out)
    typer.echo(
        f"{then.job['title']}, revision {then.job['revision']}: made by advisor "
        f"{then.advisor_version} with rule base {then.rule_base_version}; here is advisor "
        f"{now.advisor_version} with rule base {now.rule_base_version}."
    )
    comparison = compare(then, now)
    if comparison.same:
        typer.echo("Today it would be decided the same.")
        return
    typer.echo(comparison_told(comparison, ("as printed", "today")))
    raise typer.Exit(DECIDES_OTHERWISE)


def _plan(found: Mapping[str, bytes], name: str) -> Plan:
    try:
        return Plan.model_validate_json(found[PLAN])
    except ValidationError as error:
        raise InputError(
            [
                f"{name}: {PLAN}: is no plan of this version "
                f"({error.errors()[0]['msg'].lower()})"
            ]
        ) from None


def _decided_today(found: Mapping[str, bytes], name: str) -> Plan:
    job = read_text(found[JOB], Job, f"{name}: {JOB}")
    shop = read_text(found[SHOP], Shop, f"{name}: {SHOP}") if SHOP in found else Shop()
    return advise(job, shop, load_knowledge())


def _write(found: Mapping[str, bytes], out: Path) -> None:
    make_folder(out)
    for name in (JOB, SHOP, PLAN):
        if name in found:
            try:
                write(out / name, found[name])
            except OSError as error:
                stop([f"{out / name}: cannot be written ({error.strerror})"])
            typer.echo(f"  wrote {out / name}")
