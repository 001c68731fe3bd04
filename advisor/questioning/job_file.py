"""A job file that is filled in answer by answer, and keeps what a person wrote in it."""

from functools import reduce
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.items import Comment, Table, Whitespace
from tomlkit.toml_document import TOMLDocument

from advisor.job import Job
from advisor.measures import Measure, sign
from advisor.questioning.fields import info_at
from advisor.reading import parse

_HEAD = (
    'A job for advisor. A bare number is in the unit named beside it; "24 in" has its own.'
)
_OPEN = "left open"
UNNAMED = "not named yet"


class JobFile:
    """The text of a job file; comments and layout of the user stay as they are.

    Parameters
    ----------
    text : str
        What the file holds; nothing, if it is new.
    """

    def __init__(self, text: str = ""):
        self._document: TOMLDocument = tomlkit.parse(text)
        if not text:
            self._document.add(tomlkit.comment(_HEAD))

    @classmethod
    def at(cls, path: Path) -> "JobFile":
        """Return the file that is there, or a new one."""
        return cls(path.read_bytes().decode("utf-8-sig") if path.exists() else "")

    @property
    def text(self) -> str:
        """The whole file."""
        return tomlkit.dumps(self._document)

    def job(self) -> Job:
        """Return the job as far as the file holds it, one without a title as `UNNAMED`.

        Raises
        ------
        InputError
            If it holds what no job may.
        """
        return parse({"title": UNNAMED, **self._document.unwrap()}, Job, "")

    def has(self, path: str) -> bool:
        """Tell whether a field is given."""
        found: Any = self._document
        for name in path.split("."):
            if name not in found:
                return False
            found = found[name]
        return True

    def put(self, path: str, value: Any) -> None:
        """Write an answer, with what the field means and its unit beside it.

        Parameters
        ----------
        path : str
            The dotted field of the job.
        value : object
            As a TOML file would hold it.
        """
        self._unmark(path)
        table, key = self._table_of(path)
        if key in table or not isinstance(table, Table | TOMLDocument):
            table[key] = value
            return
        item = tomlkit.item(value)
        item.comment(meaning(path))
        _add(table, key, item)

    def leave_open(self, path: str) -> None:
        """Write that a field was asked for and left open, and what is taken then."""
        self.drop(path)
        table, _ = self._table_of(path)
        mark = tomlkit.comment(f"{path}: {_OPEN}; {when_open(path)}")
        if isinstance(table, Table) and not table.is_super_table():
            _add(table, mark)
        else:
            self._document.add(mark)

    def is_open(self, path: str) -> bool:
        """Tell whether a field was left open."""
        return any(_marks(line, path) for line in self.text.splitlines())

    def drop(self, path: str) -> None:
        """Take away what was said of a field, as if it had not been asked for."""
        self._unmark(path)
        table, key = self._table_of(path)
        table.pop(key, None)

    def _table_of(self, path: str) -> tuple[Any, str]:
        *parents, key = path.split(".")
        return reduce(_inner, parents, self._document), key

    def _unmark(self, path: str) -> None:
        if self.is_open(path):
            lines = self.text.splitlines(keepends=True)
            kept = "".join(line for line in lines if not _marks(line, path))
            self._document = tomlkit.parse(kept)


def _marks(line: str, path: str) -> bool:
    return line.strip().startswith(f"# {path}: {_OPEN}")


def _inner(table: Any, name: str) -> Any:
    if name not in table:
        table[name] = tomlkit.table()
    return table[name]


def _add(table: Table | TOMLDocument, *what: Any) -> None:
    """Add to a table, above the empty line that parts it from what comes next.

    A comment below that line is about the next table, whoever wrote it.
    """
    body = table.value.body if isinstance(table, Table) else table.body
    end = len(body)
    while end and isinstance(body[end - 1][1], Whitespace | Comment):
        end -= 1
    while end < len(body) and isinstance(body[end][1], Comment):
        end += 1
    below = body[end:]
    del body[end:]
    table.add(*what)
    body += below


def meaning(path: str) -> str:
    """Return what a field means, as its comment says it."""
    info = info_at(path)
    return (info.description if info else None) or path


def when_open(path: str) -> str:
    """Return what is done where a field is left open."""
    info = info_at(path)
    extra = info.json_schema_extra if info else None
    note = str(extra.get("when_absent", "")) if isinstance(extra, dict) else ""
    if note:
        return note
    default = info.default if info else None
    if isinstance(default, Measure):
        return f"{default.value:g} {sign(default.unit)} is taken".replace("  ", " ")
    if isinstance(default, bool):
        return f"{'true' if default else 'false'} is taken"
    return "the plan will ask for it" if default is None else f"{default} is taken"
