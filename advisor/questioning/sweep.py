"""Decides a job over ranges of inputs: a table of decisions, and a map of two inputs."""

import csv
import gc
import hashlib
import json
import math
import multiprocessing
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from pathlib import Path
from typing import Any, TextIO

from advisor.advise import Consultation
from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.tables import Knowledge, load_knowledge
from advisor.questioning.cures import going_with
from advisor.questioning.fields import field_at
from advisor.questioning.inputs import Move, moved, read_value
from advisor.reading import InputError
from advisor.shop import Shop

DECIDED = (
    "verdict",
    "tool",
    "sealing",
    "release",
    "bagging",
    "tools",
    "cost_total",
    "cost_per_part",
    "lead_time_h",
    "to_prove",
)
MOST = 100_000  # variants of one sweep
_CHUNK = 50  # variants that one process decides at a stretch, at most

Row = dict[str, str]


@dataclass(frozen=True)
class Axis:
    """One input and the values it takes.

    Attributes
    ----------
    field : str
        The dotted key of the job file, or of the shop file behind ``shop.``.
    values : tuple
        As a file would give them.
    """

    field: str
    values: tuple[Any, ...]


def read_axis(text: str) -> Axis:
    """Read ``cure.temperature=60:180:13``, from, to, how many, or ``run.parts=1,5,20``.

    Raises
    ------
    InputError
        If there is no field, no value, or the range is none.

    Examples
    --------
    >>> read_axis("run.parts=1,5,20")
    Axis(field='run.parts', values=(1, 5, 20))
    >>> read_axis("cure.temperature=60:90:3")
    Axis(field='cure.temperature', values=(60, 75, 90))
    """
    field, equals, given = (one.strip() for one in text.partition("="))
    if not (field and equals and given):
        raise InputError(
            [
                f"--vary: given {text!r}; accepted FIELD=FROM:TO:COUNT, such as "
                "cure.temperature=60:180:13, or FIELD=VALUE,VALUE"
            ]
        )
    ends = given.split(":")
    if len(ends) == 1:
        return Axis(field, tuple(read_value(one.strip()) for one in given.split(",")))
    return Axis(field, _range(field, text, ends))


def _range(field: str, text: str, ends: Sequence[str]) -> tuple[Any, ...]:
    try:
        low, high, count = float(ends[0]), float(ends[1]), int(ends[2])
    except (IndexError, ValueError):
        low, high, count = math.nan, math.nan, 0
    finite = math.isfinite(low) and math.isfinite(high)
    if len(ends) != 3 or not finite or not low < high or not 2 <= count <= MOST:
        raise InputError(
            [
                f"--vary {field}: given {text.partition('=')[2]!r}; accepted "
                "FROM:TO:COUNT, numbers in the field's own unit, FROM below TO, COUNT 2 or "
                "more"
            ]
        )
    values = (low + (high - low) * n / (count - 1) for n in range(count))
    kind = field_at(field)
    if kind and kind.kind == "count":
        return tuple(dict.fromkeys(round(value) for value in values))
    return tuple(_plain(round(value, 9)) for value in values)


def _plain(value: float) -> float | int:
    return int(value) if value == int(value) else value


@dataclass(frozen=True)
class Sweep:
    """A job and a shop over some axes; variants are numbered, the last axis first."""

    job: Job
    shop: Shop
    axes: tuple[Axis, ...]

    def __len__(self) -> int:
        return math.prod(len(axis.values) for axis in self.axes)

    def check(self) -> None:
        """Refuse at once what would fail later.

        Raises
        ------
        InputError
            If an axis names no input, a value is not accepted, or there are too many.
        """
        if len(self) > MOST:
            raise InputError(
                [f"--vary: given {len(self)} variants; accepted {MOST} at most"]
            )
        fields = [axis.field for axis in self.axes]
        twice = sorted({field for field in fields if fields.count(field) > 1})
        faults = [f"--vary {field}: given twice; accepted once" for field in twice]
        for axis in self.axes:
            for value in axis.values:
                try:
                    moved(self.job, self.shop, [Move(axis.field, value)], "--vary")
                except InputError as error:
                    faults += error.faults
        if faults:
            raise InputError(list(dict.fromkeys(faults)))

    def moves(self, number: int) -> list[Move]:
        """Return the inputs of a variant, one for each axis."""
        moves = []
        for axis in reversed(self.axes):
            number, n = divmod(number, len(axis.values))
            moves.append(Move(axis.field, axis.values[n]))
        return moves[::-1]

    def going_with(self, varied: list[Move], knowledge: Knowledge) -> tuple[Move, ...]:
        """Return the resin and the hold of a varied temperature, if they are not varied."""
        fields = {axis.field for axis in self.axes}
        if "cure.temperature" not in fields or fields & {"cure.resin", "cure.hold"}:
            return ()
        job, _ = moved(self.job, self.shop, varied, "--vary")
        if job.cure.temperature is None:
            return ()
        return going_with(job, knowledge, job.cure.temperature.value)

    def header(self) -> list[str]:
        """Return the heads of the table's columns."""
        return ["n", *(axis.field for axis in self.axes), "with", *DECIDED, "sweep"]

    def mark(self, rule_base: str) -> str:
        """Return what tells this sweep from another: job, shop, axes and rule base."""
        axes = [(axis.field, [str(value) for value in axis.values]) for axis in self.axes]
        parts = [self.job.sha256(), self.shop.model_dump_json(), axes, rule_base]
        return hashlib.sha256(json.dumps(parts).encode()).hexdigest()[:16]


def decide_variant(consultation: Consultation, sweep: Sweep, number: int) -> Row:
    """Return the row of one variant; what cannot be decided says why in its verdict.

    Where the cure temperature is varied and resin and hold are not, they go with it.
    """
    varied = sweep.moves(number)
    given = {one.field: _written(one) for one in varied if one.value is not None}
    row = {"n": str(number)} | given
    moves = [*sweep.going_with(varied, consultation.knowledge), *varied]
    going = [f"{one.field} = {_written(one)}" for one in moves if one not in varied]
    if going:
        row["with"] = "; ".join(going)
    try:
        job, shop = moved(sweep.job, sweep.shop, moves, "--vary")
        return row | _decided(consultation.decide(job, shop))
    except InputError:
        return row | {"verdict": "not accepted together"}


def _written(move: Move) -> str:
    return "" if move.value is None else str(move.value)


def _decided(decision: Decision) -> Row:
    if decision.questions:
        return {"verdict": "ask-first"}
    winner = decision.winner
    if winner is None:
        return {"verdict": "no-route"}
    tool, sealing, release, bagging = winner.ids
    cost = winner.cost
    return {
        "verdict": "route",
        "tool": tool,
        "sealing": sealing,
        "release": release,
        "bagging": bagging,
        "tools": str(cost.tools),
        "cost_total": f"{cost.total:.2f}",
        "cost_per_part": f"{cost.total / decision.pricer.parts:.2f}",
        "lead_time_h": f"{cost.lead_time_h:.1f}",
        "to_prove": str(len(winner.doubts)),
    }


# ---------------------------------------------------------------------- many at once


def run(
    sweep: Sweep,
    path: Path,
    processes: int | None = None,
    told: Callable[[int, int], None] = lambda done, of: None,
) -> list[Row]:
    """Decide every variant, in several processes, and keep each row once it is known.

    Parameters
    ----------
    sweep : Sweep
        What is decided.
    path : Path
        The table, as CSV. Rows that it holds already, of the same sweep and rule base, are
        not decided again: an interrupted sweep goes on.
    processes : int, optional
        How many processes; left out, one for each core this process may use.
    told : callable
        Is told how many variants are done, and of how many.

    Returns
    -------
    list of dict
        Every row, in the order of the variants.

    Raises
    ------
    InputError
        If the file is there and is not the table of this sweep.
    """
    table = _Table(sweep, path, load_knowledge().version)
    rows = table.kept()
    told(len(rows), len(sweep))
    missing = [n for n in range(len(sweep)) if n not in rows]
    if missing:
        table.write(rows)
        chunks = list(_chunked(missing, len(sweep.axes[-1].values)))
        for found in _decided_in(sweep, chunks, processes or _cores()):
            rows |= found
            table.append(found)
            told(len(rows), len(sweep))
        table.write(rows)
    return [rows[n] for n in range(len(sweep))]


def _chunked(numbers: list[int], inner: int) -> Iterator[list[int]]:
    """Yield variants that differ in the last axis alone together: they share the most."""
    for _, group in groupby(numbers, key=lambda n: n // inner):
        together = list(group)
        for n in range(0, len(together), _CHUNK):
            yield together[n : n + _CHUNK]


def _cores() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _decided_in(
    sweep: Sweep, chunks: list[list[int]], processes: int
) -> Iterator[dict[int, Row]]:
    """Yield the rows of each chunk as it is done, by as many processes as are given."""
    if processes == 1 or len(chunks) == 1:
        _begin_process(sweep)
        yield from map(_chunk_decided, chunks)
        return
    with ProcessPoolExecutor(
        processes,
        mp_context=multiprocessing.get_context("spawn"),
        initializer=_begin_process,
        initargs=(sweep,),
    ) as pool:
        waiting = [pool.submit(_chunk_decided, chunk) for chunk in chunks]
        try:
            for one in as_completed(waiting):
                yield one.result()
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise


_HERE: dict[str, Any] = {}  # what one process decides, and what it remembers


def _begin_process(sweep: Sweep) -> None:
    gc.set_threshold(200_000, 20, 100)
    _HERE["sweep"], _HERE["consultation"] = sweep, Consultation()


def _chunk_decided(numbers: list[int]) -> dict[int, Row]:
    sweep, consultation = _HERE["sweep"], _HERE["consultation"]
    return {n: decide_variant(consultation, sweep, n) for n in numbers}


# ---------------------------------------------------------------------- the table


@dataclass(frozen=True)
class _Table:
    """The CSV file of a sweep; every row bears the mark of its sweep and rule base."""

    sweep: Sweep
    path: Path
    rule_base: str

    @cached_property
    def mark(self) -> str:
        return self.sweep.mark(self.rule_base)

    def kept(self) -> dict[int, Row]:
        """Return the rows that the file holds; a last line that was cut off is dropped."""
        if not self.path.exists():
            return {}
        text = self.path.read_text("utf-8", errors="replace")
        reader = csv.DictReader(text[: text.rfind("\n") + 1].splitlines())
        rows = list(reader)
        if reader.fieldnames != self.sweep.header() or any(
            row["sweep"] != self.mark for row in rows
        ):
            raise InputError(
                [
                    f"--out: given {str(self.path)!r}, which holds something else; "
                    "accepted a new file, or the table of this very sweep to go on with"
                ]
            )
        return {int(row["n"]): _without_blanks(row) for row in rows}

    def write(self, rows: Mapping[int, Row]) -> None:
        """Write the whole table, under another name first."""
        beside = self.path.with_name(f".{self.path.name}.part")
        with beside.open("w", encoding="utf-8", newline="") as file:
            self._writer(file, head=True).writerows(self._marked(rows))
        beside.replace(self.path)

    def append(self, rows: Mapping[int, Row]) -> None:
        """Add rows as they come."""
        with self.path.open("a", encoding="utf-8", newline="") as file:
            self._writer(file).writerows(self._marked(rows))

    def _marked(self, rows: Mapping[int, Row]) -> list[Row]:
        return [rows[n] | {"sweep": self.mark} for n in sorted(rows)]

    def _writer(self, file: TextIO, head: bool = False) -> "csv.DictWriter[str]":
        writer = csv.DictWriter(file, self.sweep.header(), restval="", lineterminator="\n")
        if head:
            writer.writeheader()
        return writer


def _without_blanks(row: Mapping[str, str]) -> Row:
    return {name: value for name, value in row.items() if value and name != "sweep"}
