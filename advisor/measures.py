"""Numbers with units: what the user may type, and how a number is printed."""

import math
import re
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from functools import cache, lru_cache
from string import Formatter
from typing import Any

import pint
from pydantic_core import CoreSchema, core_schema


@cache
def units() -> pint.UnitRegistry[float]:
    """Return the one unit registry of the program."""
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@dataclass(frozen=True)
class Measure:
    """A number as the user gave it, resolved to the unit its field states.

    Attributes
    ----------
    value : float
        The number in `unit`.
    unit : str
        The field's stated unit, as pint spells it.
    given : str
        What stood in the file, for echoing.
    """

    value: float
    unit: str
    given: str

    def to(self, unit: str) -> float:
        """Return the number in another unit of the same kind."""
        return _convert(self.value, self.unit, unit)


@lru_cache(maxsize=10_000)
def _convert(number: float, given: str, wanted: str) -> float:
    return float(units().Quantity(number, given).to(wanted).magnitude)


def read_measure(
    given: object, unit: str, low: float, high: float, low_included: bool = True
) -> Measure:
    """Read a bare number in `unit`, or a string that carries its own unit.

    Parameters
    ----------
    given : object
        What the user wrote: 600, "24 in", "180 degF".
    unit : str
        Unit of a bare number and of the result.
    low, high : float
        Accepted range [unit].
    low_included : bool
        Whether `low` itself is accepted.

    Raises
    ------
    ValueError
        If it is not a number, its unit is of another kind, or it is out of range; the
        message says what would be accepted.
    """
    edge = "from" if low_included else "above"
    kind = f'a number in {unit} or a string with its unit such as "{_example(unit)}"'
    accepted = kind if unit == "1" else f"{kind}, {edge} {low:g} to {high:g} {unit}"
    value = _resolve(given, unit, accepted)
    inside = math.isfinite(value) and (low < value or (low_included and low == value))
    if not (inside and value <= high):
        shown = "" if isinstance(given, int | float) else f" ({value:.4g} {unit})"
        raise ValueError(
            f"given {echoed(given)}{shown}; accepted {edge} {low:g} to {high:g} {unit}"
        )
    return Measure(value, unit, str(given))


def echoed(given: object, most: int = 60) -> str:
    """Return what a user gave as a message tells it: on one line, not at any length."""
    text = repr(given)
    return text if len(text) <= most else f"{text[:most]}..."


def _resolve(given: object, unit: str, accepted: str) -> float:
    if isinstance(given, Measure):
        return given.to(unit)
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise ValueError(f"given {echoed(given)}; accepted {accepted}")
    if isinstance(given, int | float):
        return float(given)
    try:
        return _in_unit(given, unit)
    except pint.DimensionalityError:
        kind = ", whose unit is of another kind"
    except Exception:  # pint raises a wide range of errors for text it cannot read
        kind = ""
    meant = _meant(given, unit)
    kind, hint = ("", f". Did you mean {meant!r}?") if meant else (kind, "")
    raise ValueError(f"given {echoed(given)}{kind}; accepted {accepted}{hint}")


def _in_unit(given: str, unit: str) -> float:
    number, _, own_unit = given.strip().partition(" ")
    quantity = units().Quantity(float(number), own_unit.strip() or unit)
    return float(quantity.to(unit).magnitude)


# How people write units that pint spells otherwise, or takes for something else: F is the
# farad to it, C the coulomb.
_SLIPS = (
    (r"(?:(?:\bdeg(?:rees?)?\.?|°)\s*|\b)f\b", "degF"),
    (r"(?:(?:\bdeg(?:rees?)?\.?|°)\s*|\b)c\b", "degC"),
    (r"in(?:ch(?:es)?)?\.?\s*(?:of\s*)?hg", "inHg"),
    (r"[\"”″]|''", "in"),
    (r"['’′]", "ft"),
    (r"\bmils?\b", "thou"),
    (r"\bgsm\b", "g/m**2"),
    (r"\bcfm\b", "ft**3/min"),
    (r"%", "percent"),
    (r"(?<=[a-z])[²2]", "**2"),
    (r"(?<=[a-z])[³3]", "**3"),
)


def _meant(given: str, unit: str) -> str | None:
    """Return what a string that cannot be read was surely meant to be, as it is read.

    Examples
    --------
    >>> _meant("350F", "degC"), _meant("24inch", "mm"), _meant("1,200 mm", "mm")
    ('350 degF', '24 inch', None)
    """
    parts = re.fullmatch(r"\s*([-+]?\d+(?:\.\d*)?(?:,\d{1,2})?)\s*(\D.*?)?\s*", given)
    if not parts:
        return None
    number, own = parts[1].replace(",", "."), parts[2] or ""
    for slip, spelt in _SLIPS:
        own = re.sub(slip, spelt, own, flags=re.IGNORECASE)
    meant = f"{number} {own}".strip()
    try:
        _in_unit(meant, unit)
    except Exception:  # as in `_resolve`
        return None
    return meant


def _example(unit: str) -> str:
    examples = {
        "mm": "24 in",
        "m": "4000 ft",
        "degC": "180 degF",
        "delta_degC/min": "3 delta_degF/min",
        "h": "90 min",
        "kg": "40 lb",
        "bar": "45 psi",
        "mbar": "28 inHg",
        "g/m**2": "6 oz/yd**2",
        "m**3/h": "3 ft**3/min",
        "deg": "3 deg",
        "1": "35 percent",
    }
    return examples.get(unit, f"1 {unit}")


@dataclass(frozen=True)
class In:
    """Unit and range of a field that holds a `Measure`: ``Annotated[Measure, In(...)]``.

    Attributes
    ----------
    unit : str
        Unit of a bare number.
    low, high : float
        Accepted range in `unit`.
    low_included : bool
        Whether `low` itself is accepted.
    """

    unit: str
    low: float
    high: float
    low_included: bool = True

    def __get_pydantic_core_schema__(self, *_: Any) -> CoreSchema:
        """Read as `read_measure` does; write value, unit and what was given."""
        return core_schema.no_info_plain_validator_function(
            self._read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                asdict, return_schema=core_schema.dict_schema()
            ),
        )

    def __get_pydantic_json_schema__(self, *_: Any) -> dict[str, Any]:
        """Say in the published schema what `_read` leaves behind."""
        return {
            "type": "object",
            "properties": {
                "value": {"type": "number"},
                "unit": {"const": self.unit},
                "given": {"type": "string"},
            },
            "required": ["value", "unit", "given"],
        }

    def _read(self, given: object) -> Measure:
        return read_measure(given, self.unit, self.low, self.high, self.low_included)


# ---------------------------------------------------------------------- printing

THIN = "\u202f"  # narrow no-break space: between a number and its unit
MINUS = "\u2212"
JOIN = "\u2060"  # word joiner: no line break after the stroke of kg/m³


def _digits(value: float, significant: int = 3) -> str:
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    decimals = max(0, significant - 1 - math.floor(math.log10(abs(value))))
    rounded = round(value, significant - 1 - math.floor(math.log10(abs(value))))
    text = f"{rounded:,.{decimals}f}".replace(",", THIN).replace("-", MINUS)
    return text.rstrip("0").rstrip(".") if "." in text else text


_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def plain_number(value: float) -> str:
    """Return a figure as its table gives it, powers of ten raised.

    Examples
    --------
    >>> plain_number(0.04), plain_number(1e-13), plain_number(1.82e-5)
    ('0.04', '10⁻¹³', '1.82 × 10⁻⁵')
    """
    digits, _, power = f"{value:g}".partition("e")
    if not power:
        return digits.replace("-", MINUS)
    raised = f"10{str(int(power)).translate(_RAISED)}"
    return raised if digits == "1" else f"{digits} × {raised}"


def _pair(si: float, unit: str, metric: str, customary: str) -> str:
    """Return a number in two units, the second to no more figures than the first."""
    left = _digits(_convert(si, unit, metric))
    figures = len("".join(filter(str.isdigit, left)).lstrip("0"))
    right = _digits(_convert(si, unit, customary), min(3, max(2, figures)))
    return f"{left}{THIN}{_joined(metric)} ({right}{THIN}{_joined(customary)})"


def _joined(unit: str) -> str:
    return sign(unit).replace("/", f"/{JOIN}")


# Signs that pint spells otherwise; within a compound unit the longer stand first.
_SIGNS = {
    "delta_degC": "K",
    "delta_degF": "°F",
    "degC": "°C",
    "degF": "°F",
    "microinch": "µin",
    "percent": "%",
    "liter": "L",
    "count": "",
    "thou": "mil",
    "gal": "US gal",
    "deg": "°",
    "um": "µm",
    "ug": "µg",
    "1": "",
}
_IN_COMPOUNDS = {
    "**2": "²",
    "**3": "³",
    "*": "·",
    **{word: _SIGNS[word] for word in ("delta_degC", "delta_degF", "um", "ug")},
}


def sign(unit: str) -> str:
    """Return the printed sign of a pint unit.

    Examples
    --------
    >>> sign("delta_degC/min"), sign("um/(m*K)"), sign("count")
    ('K/min', 'µm/(m·K)', '')
    """
    if unit in _SIGNS:
        return _SIGNS[unit]
    for spelt, printed in _IN_COMPOUNDS.items():
        unit = unit.replace(spelt, printed)
    return unit


def rounded_down(amount: float, digits: int = 2) -> float:
    """Return a positive upper bound as it is told: shorter, and never above itself.

    Examples
    --------
    >>> rounded_down(0.0311), rounded_down(30.0)
    (0.031, 30.0)
    """
    step = 10.0 ** (math.floor(math.log10(amount)) + 1 - digits)
    return float(f"{math.floor(amount / step + 1e-9) * step:.{digits}g}")


def _rounded_up(amount: float) -> float:
    """Return an amount rounded up to three digits, so that it is surely enough."""
    step = 10.0 ** (math.floor(math.log10(amount)) - 2) if amount > 0 else 1.0
    return math.ceil(amount / step) * step


def _counted(count: float, thing: str, things: str = "") -> str:
    return f"{_digits(count)} {thing if count == 1 else things or f'{thing}s'}"


def _temperature(c: float) -> str:
    return f"{round(c):d}{THIN}°C ({round(c * 9 / 5 + 32):d}{THIN}°F)".replace("-", MINUS)


def _ramp(r: float) -> str:
    """Return a ramp a minute, or an hour where no clock shows what a minute brings."""
    per = "min" if abs(r) >= 0.5 else "h"
    return _pair(r, "delta_degC/min", f"delta_degC/{per}", f"delta_degF/{per}")


def _minutes(seconds: float) -> str:
    """Return a time in minutes; in seconds below one, in hours from two hours on."""
    if seconds < 60:
        return f"{_digits(seconds, 2)}{THIN}s"
    if seconds >= 7200:
        return f"{_digits(seconds / 3600, 2)}{THIN}h"
    return f"{_digits(seconds / 60, 2)}{THIN}min"


# How a rule's sentence prints a number: {cure_c:temperature}, {length_m:length} ...
STYLES: dict[str, Callable[[float], str]] = {
    "temperature": _temperature,
    "difference": lambda k: _pair(k, "delta_degC", "delta_degC", "delta_degF"),
    "ramp": _ramp,
    "length": lambda m: _pair(m, "m", "mm", "in" if abs(m) >= 0.005 else "thou"),
    "distance": lambda m: _pair(m, "m", "m", "ft"),
    "air": lambda v: _pair(v, "m**3", "m**3", "ft**3"),
    "minutes": _minutes,
    "fine": lambda m: _pair(m, "m", "um", "microinch"),
    "gap": lambda m: _pair(m, "m", "mm", "thou"),
    "area": lambda a: _pair(a, "m**2", "m**2", "ft**2"),
    "flow": lambda v: _pair(v, "m**3/s", "m**3/h", "ft**3/min"),
    "volume": lambda v: _pair(v, "m**3", "liter", "gal"),
    "per_air": lambda c: f"{_digits(1e6 * c, 2)}{THIN}mg/{JOIN}m³",
    "grams": lambda m: _pair(m, "kg", "g", "oz"),
    "mass": lambda m: _pair(m, "kg", "kg", "lb"),
    "density": lambda d: _pair(d, "kg/m**3", "kg/m**3", "lb/ft**3"),
    "pressure": lambda p: _pair(p, "Pa", "kPa", "psi"),
    "vacuum": lambda p: _pair(p, "Pa", "mbar", "inHg"),
    "strength": lambda p: _pair(p, "Pa", "MPa", "psi"),
    "hours": lambda h: f"{_digits(h)}{THIN}h",
    "about_hours": lambda h: f"{_digits(h, 2)}{THIN}h",
    "days": lambda d: _counted(d, "day") if d >= 2 else f"{_digits(24 * d, 2)}{THIN}h",
    "percent": lambda x: f"{_digits(100 * x)}{THIN}%",
    "angle": lambda a: f"{_digits(a)}°",
    "money": lambda x: _digits(x, 3 if x >= 100 else 2),
    "money_up": lambda x: _digits(_rounded_up(x)),
    "number": lambda x: _digits(x),
    "parts": lambda n: _counted(n, "part"),
    "tools": lambda n: _counted(n, "tool"),
    "joints": lambda n: _counted(n, "joint"),
    "plies": lambda n: _counted(n, "ply", "plies"),
    "pulls": lambda n: _counted(n, "pull"),
    "changes": lambda n: _counted(n, "change"),
    "factor": lambda x: f"{x:.5f}",
    "expansion": lambda a: f"{_digits(a * 1e6, 2)} × 10⁻⁶/K",
    "peel_energy": lambda e: f"{_digits(e, 2)}{THIN}J/m²",
    "areal": lambda w: _pair(w, "kg/m**2", "g/m**2", "oz/yd**2"),
}


@lru_cache(maxsize=10_000)
def _parsed(template: str) -> tuple[tuple[str, str | None, str], ...]:
    """Return the pieces of a template: what stands before a name, the name, its style."""
    return tuple(
        (before, name, style or "")
        for before, name, style, _ in Formatter().parse(template)
    )


def _printed(value: object, style: str) -> str:
    """Print one value in a named style, or as `format` would."""
    if style in STYLES:
        return STYLES[style](float(value))  # type: ignore[arg-type]
    return format(value, style)


def sentence(template: str, **values: object) -> str:
    r"""Fill a rule's sentence with numbers printed in both unit systems.

    Examples
    --------
    >>> sentence("The cure is {cure_c:temperature}.", cure_c=90.0)
    'The cure is 90\u202f°C (194\u202f°F).'
    """
    text = phrase(template, **values)
    return text[:1].upper() + text[1:]


def phrase(template: str, **values: object) -> str:
    """Fill a part of a sentence, as `sentence` does, and leave its first letter alone."""
    return "".join(
        before if name is None else f"{before}{_printed(values[name], style)}"
        for before, name, style in _parsed(template)
    )


def in_sentence(name: str) -> str:
    """Return a name as it stands inside a sentence: small first letter, save acronyms."""
    return name if name[1:2].isupper() else name[:1].lower() + name[1:]


_STYLE_OF_UNIT = {
    "mm": "length",
    "m": "distance",
    "deg": "angle",
    "um/(m*K)": "expansion",
    "degC": "temperature",
    "delta_degC/min": "ramp",
    "K": "difference",
    "h": "hours",
    "d": "days",
    "g": "grams",
    "kg": "mass",
    "liter": "volume",
    "um": "fine",
    "percent": "percent",
    "mg/m**3": "per_air",
    "m**3": "air",
    "min": "minutes",
    "m**2": "area",
    "m**3/h": "flow",
    "kPa": "pressure",
    "bar": "pressure",
    "mbar": "vacuum",
    "MPa": "strength",
    "g/m**2": "areal",
    "J/m**2": "peel_energy",
    "money": "money",
    "factor": "factor",
}


def enumerated(words: Sequence[str]) -> str:
    """Return words as a list in a sentence.

    Parameters
    ----------
    words : sequence of str
        At least one.

    Examples
    --------
    >>> enumerated(["ramp", "dwell", "cooling"])
    'ramp, dwell and cooling'
    """
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else words[0]


def in_styles(value: float, unit: str) -> str:
    """Return a number of a plan as printed, in both unit systems where there are two."""
    return STYLES[_STYLE_OF_UNIT.get(unit, "number")](to_si(value, unit))


def worked(formula: str, *figures: float | tuple[float, str]) -> str:
    """Return a formula with figures in place of its signs, metric, to be worked again.

    Parameters
    ----------
    formula : str
        With a pair of braces for each figure.
    figures : float or tuple of float and str
        Numbers without a unit, or in SI units with the pint unit that they are printed in.

    Examples
    --------
    >>> worked("{} · {} / {}", 3, (0.002, "mm"), (1.5, "m")).replace(THIN, " ")
    '3 · 2 mm / 1.5 m'
    """
    return formula.format(*(_figure(one) for one in figures))


def _figure(one: float | tuple[float, str]) -> str:
    if not isinstance(one, tuple):
        return _digits(one, 4)
    si, unit = one
    return f"{_digits(from_si(si, unit), 4)}{THIN}{_joined(unit)}"


# Units in which the whole program keeps its numbers, whatever the base of the system.
KEPT_UNITS = frozenset(
    (
        "count",
        "1",
        "degC",
        "delta_degC/min",
        "h",
        "h/m**2",
        "d",
        "deg",
        "l/h",
        "ppm",
        "dB",
        "money",
        "factor",
    )
)


@lru_cache(maxsize=10_000)
def to_si(number: float, unit: str) -> float:
    """Return a number in SI base units, save those of `KEPT_UNITS` and prices."""
    if unit in KEPT_UNITS or unit.startswith("EUR"):
        return number
    return float(units().Quantity(number, unit).to_base_units().magnitude)


def from_si(number: float, unit: str) -> float:
    """Return a number that is in SI in `unit`, to six significant digits."""
    if unit not in KEPT_UNITS:
        number = number / to_si(1.0, unit)
    return float(f"{number:.6g}")
