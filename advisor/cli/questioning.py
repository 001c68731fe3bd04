"""Commands that question a plan: why, what if, over which range."""

from dataclasses import replace
from typing import Annotated

import typer

from advisor.advise import Consultation, plan_of
from advisor.cli.files import JobPath, ShopPath, read, stop
from advisor.questioning.changes import back_again
from advisor.questioning.flips import Search
from advisor.questioning.inputs import Move, moved, read_move
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
