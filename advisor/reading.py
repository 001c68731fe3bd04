"""Reading the user's files, with every fault found told at once and in one place."""

import tomllib
from collections.abc import Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from advisor.job import Job
from advisor.measures import echoed
from advisor.shop import Shop

Model = TypeVar("Model", bound=BaseModel)


class InputError(Exception):
    """The user's file cannot be used.

    Attributes
    ----------
    faults : list of str
        One line a fault: file, field, what was given, what is accepted.
    """

    def __init__(self, faults: list[str]):
        super().__init__("\n".join(faults))
        self.faults = faults


def read_job(path: Path) -> Job:
    """Read a ``job.toml``; raise `InputError` with every fault in it."""
    return _read(path, Job)


def read_shop(path: Path) -> Shop:
    """Read a ``shop.toml``; raise `InputError` with every fault in it."""
    return _read(path, Shop)


def _read(path: Path, model: type[Model]) -> Model:
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        raise InputError([f"{path}: there is no such file"]) from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise InputError([f"{path}: cannot be read ({why})"]) from None
    return read_text(content, model, path.name)


def read_text(content: bytes, model: type[Model], name: str) -> Model:
    """Read the content of a user's file; raise `InputError` with every fault in it."""
    if content.startswith(b"%PDF"):
        raise InputError([f"{name}: this is a PDF; accepted a text file in TOML"])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise InputError([f"{name}: not a UTF-8 text file; save it as UTF-8"]) from None
    if text.lstrip().startswith("{"):
        raise InputError([f"{name}: this is JSON; accepted a text file in TOML"])
    try:
        given = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise InputError([f"{name}: not valid TOML: {error}"]) from None
    _refuse_the_other(given, model, name)
    return parse(given, model, name)


# What each file is called, and how it is given on the command line.
_CALLED: dict[type[BaseModel], str] = {
    Job: "a job file, given as JOB",
    Shop: "a shop file, given as --shop SHOP",
}


def _refuse_the_other(given: dict[str, Any], model: type[BaseModel], name: str) -> None:
    """Say in one line that a shop was given for a job, or a job for a shop."""
    if given.keys() & model.model_fields.keys():
        return
    for other, called in _CALLED.items():
        if given.keys() & other.model_fields.keys():
            raise InputError(
                [f"{name}: this looks like {called}; accepted {_CALLED[model]}"]
            )


def parse(given: dict[str, Any], model: type[Model], name: str) -> Model:
    """Check plain data against a model, telling every fault with the file's name."""
    try:
        return model.model_validate(given)
    except ValidationError as error:
        raise InputError([_fault(one, model, name) for one in error.errors()]) from None


def _fault(error: Any, model: type[BaseModel], name: str) -> str:
    path = [str(step) for step in error["loc"] if not str(step).startswith("function-")]
    field = ".".join(path)
    given = echoed(error.get("input"))
    match error["type"]:
        case "extra_forbidden":
            known = _known_keys(model, path[:-1])
            hint = did_you_mean(path[-1], known) or _belongs(path[-1], model)
            return f"{name}: {field}: unknown key; accepted here: {', '.join(known)}.{hint}"
        case "missing":
            return f"{name}: {field}: nothing was given; {_meaning(model, path)} is needed"
        case "literal_error":
            accepted = error["ctx"]["expected"].replace(" or ", ", ")
            words = [one.strip("'") for one in accepted.split(", ")]
            hint = did_you_mean(error["input"], words)
            return f"{name}: {field}: given {given}; accepted {accepted}.{hint}"
        case "value_error":
            message = str(error["ctx"]["error"])
            joint = "." if field and ": given" in message else ": " if field else ""
            return f"{name}: {field}{joint}{message}"
        case "bool_type" | "bool_parsing":
            return f"{name}: {field}: given {given}; accepted true or false"
        case "model_type" | "dict_type":
            return f"{name}: {field}: given {given}; accepted a table, [{field}]"
        case "tuple_type" | "list_type":
            return f"{name}: {field}: given {given}; accepted tables, [[{field}]]"
        case "int_parsing" | "int_type" | "int_from_float":
            return f"{name}: {field}: given {given}; accepted a whole number"
        case "string_pattern_mismatch":
            return (
                f"{name}: {field}: given {given}; accepted an id that `advisor options` "
                "lists"
            )
        case _:
            accepted = error["msg"].removeprefix("Input should be ")
            return f"{name}: {field}: given {given}; accepted {accepted}"


def _belongs(key: str, model: type[BaseModel]) -> str:
    """Return a sentence that names the table a key belongs in, if there is one."""
    tables = [
        name
        for name, info in model.model_fields.items()
        if (inner := _inner(info.annotation)) and key in inner.model_fields
    ]
    return f" It belongs in [{'] or ['.join(tables)}]." if tables else ""


def did_you_mean(given: object, known: Sequence[str]) -> str:
    """Return a question that names what may have been meant, or nothing.

    Examples
    --------
    >>> did_you_mean("lenght", ["length", "width"]), did_you_mean("x", ["length"])
    (" Did you mean 'length'?", '')
    >>> did_you_mean("US", ["us-osha", "us-niosh", "uk"])
    " Did you mean 'us-osha' or 'us-niosh'?"
    """
    word = str(given).strip().lower().replace(" ", "-").replace("_", "-")
    near = [one for one in known if word and one.replace("_", "-").startswith(word)]
    near = near or get_close_matches(str(given).lower(), known, n=1)
    return f" Did you mean {' or '.join(map(repr, near))}?" if near else ""


def _model_at(model: type[BaseModel], path: list[str]) -> type[BaseModel] | None:
    found: type[BaseModel] | None = model
    for step in path:
        if found is None or step.isdigit():
            continue
        info = found.model_fields.get(step)
        found = _inner(info.annotation) if info else None
    return found


def _inner(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for argument in getattr(annotation, "__args__", ()):
        inner = _inner(argument)
        if inner:
            return inner
    return None


def _known_keys(model: type[BaseModel], path: list[str]) -> list[str]:
    found = _model_at(model, path)
    return list(found.model_fields) if found else []


def _meaning(model: type[BaseModel], path: list[str]) -> str:
    found = _model_at(model, path[:-1])
    info = found.model_fields.get(path[-1]) if found else None
    return (info.description if info else None) or "a value"
