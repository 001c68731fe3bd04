"""What an input of a job or a shop may be: its kind, its range, its words."""

from dataclasses import dataclass
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from annotated_types import Ge, Gt, Le
from pydantic import BaseModel
from pydantic.fields import FieldInfo

from advisor.job import Job, Table
from advisor.measures import In, Measure
from advisor.shop import Shop

Kind = Literal["measure", "count", "number", "switch", "word", "other"]


@dataclass(frozen=True)
class InputField:
    """An input that may be moved.

    Attributes
    ----------
    path : str
        Its dotted key; behind ``shop.`` one of the shop.
    kind : str
        ``measure`` with a unit, ``count``, ``number``, ``switch`` or ``word``.
    unit : str
        Unit of a measure, as pint spells it.
    low, high : float
        The range that is accepted [unit].
    choices : tuple of str
        The words that are accepted.
    """

    path: str
    kind: Kind
    unit: str = ""
    low: float = 0.0
    high: float = 0.0
    choices: tuple[str, ...] = ()

    def written(self, number: float) -> Any:
        """Return a number as a file would give it."""
        if self.kind == "count":
            return int(number)
        return f"{number:g} {self.unit}" if self.unit not in ("", "1") else number


def field_at(path: str) -> InputField | None:
    """Return the input behind a dotted key, or None if there is none.

    Examples
    --------
    >>> field_at("cure.temperature")
    InputField(path='cure.temperature', kind='measure', unit='degC', low=20, high=250, \
choices=())
    >>> field_at("shop.making.printer").kind, field_at("cure.nothing")
    ('switch', None)
    """
    info = info_at(path)
    return _field(path, info.annotation, list(info.metadata)) if info else None


def info_at(path: str) -> FieldInfo | None:
    """Return what the model says of the input behind a dotted key, or None."""
    names = path.split(".")
    model: Any = Job
    if names[0] == "shop":
        model, names = Shop, names[1:]
    info: FieldInfo | None = None
    for name in names:
        model = _model(info.annotation) if info else model
        if model is None or name not in model.model_fields:
            return None
        info = model.model_fields[name]
    return info


def value_at(job: Job, shop: Shop, path: str) -> Any:
    """Return the value of an input, a measure in the unit of its field."""
    names = path.split(".")
    found: Any = job
    if names[0] == "shop":
        found, names = shop, names[1:]
    for name in names:
        found = getattr(found, name)
    return found.value if isinstance(found, Measure) else found


def _model(annotation: Any) -> type[BaseModel] | None:
    for one in _alternatives(annotation):
        if isinstance(one, type) and issubclass(one, Table):
            return one
    return None


def _alternatives(annotation: Any) -> tuple[Any, ...]:
    if get_origin(annotation) in (Union, UnionType):
        return tuple(one for one in get_args(annotation) if one is not NoneType)
    return (annotation,)


def _field(path: str, annotation: Any, metadata: list[Any]) -> InputField:
    [kind] = _alternatives(annotation)[:1]
    if get_origin(kind) is Annotated:
        kind, *more = get_args(kind)
        metadata = [*metadata, *more]
    if kind is Measure:
        unit = next(one for one in metadata if isinstance(one, In))
        return InputField(path, "measure", unit.unit, unit.low, unit.high)
    if kind is bool:
        return InputField(path, "switch")
    if get_origin(kind) is Literal:
        return InputField(path, "word", choices=get_args(kind))
    if kind in (int, float):
        low, high = _range(metadata)
        return InputField(path, "count" if kind is int else "number", "", low, high)
    return InputField(path, "other")


def _range(metadata: list[Any]) -> tuple[float, float]:
    low, high = 0.0, float("inf")
    for one in metadata:
        for bound in getattr(one, "metadata", [one]):
            match bound:
                case Ge(ge) if isinstance(ge, int | float):
                    low = ge
                case Gt(gt) if isinstance(gt, int | float):
                    low = gt
                case Le(le) if isinstance(le, int | float):
                    high = le
    return low, high
