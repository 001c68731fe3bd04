"""The command line: thin; it reads files, calls `advise`, writes files, sets exit codes."""

import gc
from typing import Annotated

import typer

from advisor import __version__
from advisor.cli import interview, plans, questioning, reopening, rule_base
from advisor.knowledge.tables import load_knowledge

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help=(
        "Plan how to make a composite part: what to make the tool of, how to seal, "
        "release, bag and cure it, and what could hurt people, with the reason and the "
        "source of each piece of advice.\n\n"
        "Start with `advisor demo`, copy one of the job files it writes, change it, and "
        "run `advisor check JOB` and `advisor plan JOB --shop SHOP`.\n\n"
        "Exit codes: 0 a route, with or without conditions; 2 bad input; 3 no route; 4 ask "
        "first; 5 the PDF asked for could not be made; 6 a plan that was opened would be "
        "decided otherwise today."
    ),
)

app.command()(plans.demo)
app.command()(plans.plan)
app.command()(interview.ask)
app.command()(plans.check)
app.command()(plans.schema)
app.command("open")(reopening.open_pdf)
app.command()(questioning.why)
app.command()(questioning.whatif)
app.command()(questioning.sweep)
app.command("options")(plans.options_list)
app.add_typer(rule_base.rules_app, name="rules")


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
    # A decision makes many small objects and hardly a cycle: looking for cycles at every
    # turn took a third of its time.
    gc.set_threshold(200_000, 20, 100)
