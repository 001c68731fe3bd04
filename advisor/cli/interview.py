"""The command that asks for a job, question by question."""

import shlex
import textwrap
from collections.abc import Iterator
from pathlib import Path

import typer

from advisor.cli.files import JobPath, ShopPath, read, stop, write
from advisor.measures import sign
from advisor.questioning.interview import Effect, Interview, Question
from advisor.questioning.job_file import JobFile, meaning, when_open
from advisor.reading import InputError, read_shop
from advisor.shop import Shop
from advisor.terminal import WIDTH

_WORDS = (
    "An empty line leaves a question open. ? says more, back asks the last one again, done "
    "ends with what is given, leave stops for now."
)
_MOST_TOLD = 5  # reasons told after one answer


def ask(job: JobPath, shop: ShopPath = None) -> None:
    """Ask for a job in the order of the trade, and write the job file as it is answered."""
    interview = _begun(job, shop)
    _say(_WORDS)
    try:
        while question := interview.next():
            if not _dealt_with(interview, question, job):
                return
    except typer.Abort:
        typer.echo()
        _left(job)
        raise typer.Exit(130) from None
    _end(interview, job, shop)


def _begun(job: Path, shop: Path | None) -> Interview:
    """Return the interview, with what the file holds taken as answered."""
    if job.exists():
        _, shop_read = read(job, shop)
        _say(f"{job} is there: what it holds is taken as answered.")
    else:
        if job.suffix != ".toml" or not job.parent.is_dir():
            wanted = "a name that ends in .toml, in a folder that is there"
            stop([f"JOB: given {str(job)!r}; accepted {wanted}"])
        shop_read = _shop(shop)
    interview = Interview(JobFile.at(job), shop_read)
    _tell(interview.so_far())
    return interview


def _shop(path: Path | None) -> Shop:
    try:
        return read_shop(path) if path else Shop()
    except InputError as error:
        stop(error.faults)


def _dealt_with(interview: Interview, question: Question, job: Path) -> bool:
    """Ask one question until it is dealt with; tell whether the interview goes on."""
    left = sum(1 for _ in interview.questions())
    typer.echo()
    _say(f"{question.row.text} ({left} left)", indent="")
    _say(question.row.why)
    for line in _accepted(question):
        _say(line)
    while True:
        text = typer.prompt("", default="", show_default=False, prompt_suffix="> ").strip()
        if text == "?":
            _explain(question)
        elif text == "leave":
            _left(job)
            return False
        elif question.path == "title" and text in ("", "back", "done"):
            _say("The name comes first: nothing is written without it.")
        elif text == "done":
            interview.leave_the_rest_open()
            return True
        elif text == "back" and not interview.back():
            _say("There is nothing before this one.")
        elif text == "back" or _taken(interview, question, text):
            _keep(interview, job)
            return True


def _taken(interview: Interview, question: Question, text: str) -> bool:
    """Take an answer, or none; tell why not if it is no answer to this question."""
    if not text:
        if question.deciding:
            _say("Left open for now: nothing can be decided without it.")
        interview.leave_open(question)
        return True
    try:
        _tell(interview.answer(question, text))
    except InputError as error:
        for fault in error.faults:
            _say(fault.strip())
        return False
    return True


def _keep(interview: Interview, job: Path) -> None:
    try:
        write(job, interview.file.text.encode())
    except OSError as error:
        stop([f"{job}: cannot be written ({error.strerror})"])


# ---------------------------------------------------------------------- what is said


def _say(text: str, indent: str = "  ") -> None:
    typer.echo(
        textwrap.fill(
            text,
            WIDTH,
            initial_indent=indent,
            subsequent_indent=indent,
            break_on_hyphens=False,
            break_long_words=False,
        )
    )


def _accepted(question: Question) -> Iterator[str]:
    """Yield the lines that say what an answer may be."""
    for n, (word, name) in enumerate(question.choices, 1):
        yield f"{n}  {word}" + (f": {name}" if name != word else "")
    field = question.field
    if question.choices or field is None:
        return
    match field.kind:
        case "switch":
            yield "yes or no"
        case "measure" | "number" | "count":
            low = f"from {field.low:g} " if field.low else ""
            high = f"up to {field.high:.15g} " if field.high < float("inf") else ""
            own = ", or with a unit of its own" if field.kind == "measure" else ""
            yield f"{low}{high}{sign(field.unit)}".strip() + own


def _explain(question: Question) -> None:
    _say(f"In the file: {question.path}, {meaning(question.path)}.")
    _say(f"Left open: {when_open(question.path)}.")


def _tell(effect: Effect) -> None:
    """Tell at once what an answer did."""
    for fallen in effect.out[:_MOST_TOLD]:
        _say(f"Out: {'; '.join(fallen.names)}. {fallen.why}")
    more = sum(len(one.names) for one in effect.out[_MOST_TOLD:])
    if more:
        _say(f"Out as well, for other reasons: {more} more.")
    if effect.back:
        _say(f"Back: {'; '.join(effect.back)}.")
    for text in effect.refused:
        _say(f"No tool helps: {text}")
    for text in effect.asked:
        _say(f"These contradict each other: {text}")
    if effect.leads:
        _say(f"{effect.standing} tool materials stand. In the lead: {effect.leads}.")


def _left(job: Path) -> None:
    _say(
        f"{job} holds what was answered; the same command goes on."
        if job.exists()
        else "Nothing was written."
    )


def _end(interview: Interview, job: Path, shop: Path | None) -> None:
    """Write the file and say what comes next."""
    _keep(interview, job)
    typer.echo()
    missing = sorted(interview.missing)
    if missing:
        _say(f"Wrote {job}. Nothing can be decided without: {', '.join(missing)}.")
        return
    leads = interview.so_far().leads
    _say(
        f"Wrote {job}. In the lead: {leads}."
        if leads
        else f"Wrote {job}. As it stands no route does; the plan says what would open one."
    )
    words = ["advisor", "plan", str(job), *(["--shop", str(shop)] if shop else [])]
    typer.echo(f"  Next: {shlex.join(words)}")
