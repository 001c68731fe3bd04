"""Moves an input of a job or a shop to another value, as if the file had said so."""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, TypeVar

from advisor.job import Job, Table
from advisor.measures import Measure
from advisor.reading import InputError, parse
from advisor.shop import Shop

Model = TypeVar("Model", bound=Table)

_OF_SHOP = "shop."


@dataclass(frozen=True)
class Move:
    """One input and the value it is moved to; None takes away what was given.

    Attributes
    ----------
    field : str
        The dotted key of the job file, or of the shop file behind ``shop.``.
    value : object
        What would stand in the file: 40, "120 degC", True.
    """

    field: str
    value: Any

    @property
    def of_shop(self) -> bool:
        """Whether it moves an input of the shop."""
        return self.field.startswith(_OF_SHOP)


def read_move(text: str, option: str = "--set") -> Move:
    """Read ``cure.temperature=120 degC``; quotes may stand as in a TOML file.

    Raises
    ------
    InputError
        If there is no field or no ``=``.

    Examples
    --------
    >>> read_move("run.parts=40"), read_move("cure.temperature = 120 degC")
    (Move(field='run.parts', value=40), Move(field='cure.temperature', value='120 degC'))
    """
    field, equals, value = (one.strip() for one in text.partition("="))
    if not (field and equals):
        raise InputError(
            [f"{option}: given {text!r}; accepted FIELD=VALUE, such as run.parts=40"]
        )
    return Move(field, read_value(value))


def read_value(text: str) -> Any:
    """Return a value as a TOML file would give it; bare words are text, nothing is None.

    Examples
    --------
    >>> read_value("40"), read_value("120 degC"), read_value("true"), read_value("")
    (40, '120 degC', True, None)
    """
    if not text:
        return None
    try:
        return tomllib.loads(f"value = {text}")["value"]
    except tomllib.TOMLDecodeError:
        return text


def moved(
    job: Job, shop: Shop, moves: Iterable[Move], option: str = "--set"
) -> tuple[Job, Shop]:
    """Return job and shop with some inputs moved.

    Raises
    ------
    InputError
        If a field is unknown or its value is not accepted; `option` names where the move
        was given.
    """
    moves = list(moves)
    of_shop = [Move(one.field[len(_OF_SHOP) :], one.value) for one in moves if one.of_shop]
    of_job = [one for one in moves if not one.of_shop]
    return _moved(job, of_job, f"{option} "), _moved(shop, of_shop, f"{option} shop.")


def _moved(table: Model, moves: list[Move], where: str) -> Model:
    if not moves:
        return table
    given = as_given(table)
    for move in moves:
        *parents, key = move.field.split(".")
        place = given
        for parent in parents:
            place = place.setdefault(parent, {})
            if not isinstance(place, dict):
                raise InputError(
                    [f"{where}{move.field}: given a field of {parent}, which has none"]
                )
        if move.value is None:
            place.pop(key, None)
        else:
            place[key] = move.value
    try:
        return parse(given, type(table), "")
    except InputError as error:
        raise InputError(
            [f"{where}{one.removeprefix(': ')}" for one in error.faults]
        ) from None


def as_given(table: Table) -> dict[str, Any]:
    """Return what stood in the file that a table was read from, as plain data."""
    return {name: _plain(getattr(table, name)) for name in table.model_fields_set}


def _plain(value: Any) -> Any:
    if isinstance(value, Measure):
        return read_value(value.given)
    if isinstance(value, Table):
        return as_given(value)
    if isinstance(value, tuple) and value and isinstance(value[0], Table):
        return [as_given(one) for one in value]
    return value
