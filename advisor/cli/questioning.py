"""Commands that question a plan: why, what if, over which range."""

import sys
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from advisor.advise import Consultation, plan_of
from advisor.cli.files import JobPath, ShopPath, read, stop, write
from advisor.knowledge.tables import load_knowledge
from advisor.questioning.changes import back_again
from advisor.questioning.flips import Search
from advisor.questioning.inputs import Move, moved, read_move
from advisor.questioning.route_map import FORMATS, axes_of, route_map
from advisor.questioning.sweep import Row, Sweep, read_axis, run
from advisor.questioning.told import answer_told, comparison_told
from advisor.questioning.whatif import compare
from advisor.questioning.why import UnknownIdError
from advisor.questioning.why import why as explain
from advisor.reading import InputError


def why(
    job: JobPath,
    id: Annotated[
        str,
        typer.Argument(
            metavar="ID",
            help="An id printed in the plan: an option, a number, a caution, a rule; the "
            "number of a step; or route.",
        ),
    ],
    shop: ShopPath = None,
) -> None:
    """Say why a plan says something, or why not: from your input, with its sources."""
    search = Search(Consultation(), *read(job, shop))
    plan = plan_of(search.base)
    try:
        answer = explain(plan, id)
    except UnknownIdError as error:
        hint = f" Did you mean {' or '.join(error.near)}?" if error.near else ""
        stop(
            [
                f"ID: given {id!r}; accepted an option, a number, a caution or a rule that "
                f"the plan of {job.name} prints, the number of a step, or route.{hint}"
            ]
        )
    out = {one.id for one in plan.options if one.stage == "tool"} & {answer.id}
    if out and not any(one.stands for one in search.base.routes_of(answer.id)):
        answer = replace(
            answer, outcome=f"{answer.outcome} {back_again(search, answer.id)}"
        )
    typer.echo(answer_told(answer, plan))


def whatif(
    job: JobPath,
    changes: Annotated[
        list[str],
        typer.Option(
            "--set",
            metavar="FIELD=VALUE",
            help='An input moved, as run.parts=40 or cure.temperature="120 degC"; '
            "shop.oven.limit=200 for one of the shop; nothing after = takes it away. "
            "May be given again.",
        ),
    ],
    shop: ShopPath = None,
) -> None:
    """Show side by side what another input changes: decision, cost, cautions, steps."""
    before = read(job, shop)
    try:
        moves = [read_move(one) for one in changes]
        after = moved(*before, moves)
        consultation = Consultation()
        plans = consultation.plan(*before), consultation.plan(*after)
    except InputError as error:
        stop(error.faults)
    heads = ("as the files say", ", ".join(_told(one) for one in moves))
    typer.echo(comparison_told(compare(*plans), heads))


def _told(move: Move) -> str:
    return f"{move.field} {'not given' if move.value is None else f'= {move.value}'}"


def sweep(
    job: JobPath,
    vary: Annotated[
        list[str],
        typer.Option(
            metavar="FIELD=VALUES",
            help="An input over a range: cure.temperature=60:180:13 (from, to, how many) "
            "or run.parts=1,5,20,100. May be given again; every combination is decided.",
        ),
    ],
    shop: ShopPath = None,
    out: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="The table, a .csv; JOB.sweep.csv if left out."),
    ] = None,
    picture: Annotated[
        Path | None,
        typer.Option(
            metavar="FILE",
            help="The map of one or two inputs, .svg, .png or .pdf; beside the table if "
            "left out.",
        ),
    ] = None,
    processes: Annotated[
        int | None, typer.Option(min=1, max=64, help="How many; else every core.")
    ] = None,
) -> None:
    """Decide over ranges of inputs, and map which tool leads; goes on where it stopped."""
    table = out or Path(f"{job.stem}.sweep.csv")
    _refuse_no_file(table, "--out")
    drawn = picture or table.with_suffix(".svg")
    form = drawn.suffix.lower().removeprefix(".")
    if form not in FORMATS:
        stop([f"--picture: given {str(picture)!r}; accepted a name in .svg, .png or .pdf"])
    _refuse_no_file(drawn, "--picture")
    job_read, shop_read = read(job, shop)
    try:
        asked = Sweep(job_read, shop_read, tuple(read_axis(one) for one in vary))
        asked.check()
        rows = _decided(asked, table, processes)
    except InputError as error:
        stop(error.faults)
    except OSError as error:
        stop([f"{table}: cannot be written ({error.strerror})"])
    except KeyboardInterrupt:
        typer.echo(
            f"Stopped; {table} holds what is done. The same command goes on.", err=True
        )
        raise typer.Exit(130) from None
    for name, count in _counted(rows).most_common():
        typer.echo(f"  {count:>6}  {name}")
    typer.echo(f"  wrote {table}")
    if axes_of(asked) is None:
        typer.echo("  No map: it shows one or two inputs that vary.")
        return
    try:
        write(drawn, route_map(asked, rows, load_knowledge(), form))
    except OSError as error:
        stop([f"{drawn}: cannot be written ({error.strerror})"])
    typer.echo(f"  wrote {drawn}")


def _refuse_no_file(path: Path, option: str) -> None:
    """Stop where a path that is written to is a folder, or lies in none."""
    if path.is_dir() or not path.parent.is_dir():
        wanted = "the name of a file, in a folder that is there"
        stop([f"{option}: given {str(path)!r}; accepted {wanted}"])


def _decided(asked: Sweep, table: Path, processes: int | None) -> list[Row]:
    """Decide all variants and show how far it is."""
    with typer.progressbar(
        length=len(asked), label=f"{len(asked)} variants", file=sys.stderr
    ) as bar:

        def told(done: int, of: int) -> None:
            bar.update(done - bar.pos)

        return run(asked, table, processes, told)


def _counted(rows: list[Row]) -> Counter[str]:
    names = {id: row.name for id, row in load_knowledge().tool_materials.items()}
    said = {"no-route": "no route stands", "ask-first": "questions first"}
    answers = (row.get("tool") or row["verdict"] for row in rows)
    return Counter((names | said).get(one, one) for one in answers)
