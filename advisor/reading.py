"""Reading the user's files, with every fault found told at once and in one place."""

import tomllib
from difflib import get_close_matches
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from advisor.job import Job
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
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        raise InputError([f"{path}: there is no such file"]) from None
    except UnicodeDecodeError:
        raise InputError([f"{path}: not a UTF-8 text file; save it as UTF-8"]) from None
    except OSError as error:
        raise InputError([f"{path}: cannot be read ({error.strerror})"]) from None
    try:
        given = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError([f"{path.name}: not valid TOML: {error}"]) from None
    return parse(given, model, path.name)


def parse(given: dict[str, Any], model: type[Model], name: str) -> Model:
    """Check plain data against a model, telling every fault with the file's name."""
    try:
        return model.model_validate(given)
    except ValidationError as error:
        raise InputError([_fault(one, model, name) for one in error.errors()]) from None


def _fault(error: Any, model: type[BaseModel], name: str) -> str:
    path = [str(step) for step in error["loc"] if not str(step).startswith("function-")]
    field = ".".join(path)
    given = error.get("input")
    match error["type"]:
        case "extra_forbidden":
            known = _known_keys(model, path[:-1])
            near = get_close_matches(path[-1], known, n=1)
            hint = f" Did you mean {near[0]!r}?" if near else ""
            return f"{name}: {field}: unknown key; accepted here: {', '.join(known)}.{hint}"
        case "missing":
            return f"{name}: {field}: nothing was given; {_meaning(model, path)} is needed"
        case "literal_error":
            accepted = error["ctx"]["expected"].replace(" or ", ", ")
            return f"{name}: {field}: given {given!r}; accepted {accepted}"
        case "value_error":
            message = str(error["ctx"]["error"])
            joint = "." if field and ": given" in message else ": " if field else ""
            return f"{name}: {field}{joint}{message}"
        case "bool_type" | "bool_parsing":
            return f"{name}: {field}: given {given!r}; accepted true or false"
        case "model_type" | "dict_type":
            return f"{name}: {field}: given {given!r}; accepted a table, [{field}]"
        case "string_pattern_mismatch":
            return f"{name}: {field}: given {given!r}; accepted an id such as 'metal-plate'"
        case _:
            accepted = error["msg"].removeprefix("Input should be ")
            return f"{name}: {field}: given {given!r}; accepted {accepted}"


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
