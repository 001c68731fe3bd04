"""One system of units on the page, where a text has a number in both."""

import re
from typing import Literal

Units = Literal["both", "metric", "us"]

# Signs that stand for the same quantity, metric and US customary.
_PAIRS = (
    ("mm", "in"),
    ("mm", "mil"),
    ("m", "ft"),
    ("µm", "µin"),
    ("m²", "ft²"),
    ("m³", "ft³"),
    ("l", "gal"),
    ("m³/h", "ft³/min"),
    ("g", "oz"),
    ("kg", "lb"),
    ("g/m²", "oz/yd²"),
    ("kg/m³", "lb/ft³"),
    ("°C", "°F"),
    ("K", "°F"),
    ("K/min", "°F/min"),
    ("K/h", "°F/h"),
    ("kPa", "psi"),
    ("MPa", "psi"),
    ("mbar", "inHg"),
)
_SPACES = "[ \u202f\u00a0\u2009]"
_DIGITS = r"[−-]?\d(?:[\d.,]*\d)?"
_NUMBER = rf"{_DIGITS}(?:{_SPACES}\d{{3}})*(?: (?:to|or) {_DIGITS})?"
_JOINTS = "\u2060?"  # a word joiner may stand inside a sign


def _sign(sign: str) -> str:
    return _JOINTS.join(map(re.escape, sign))


_BOTH = [
    re.compile(
        rf"({_NUMBER}{_SPACES}?{_sign(metric)})\s\(({_NUMBER}{_SPACES}?{_sign(us)})\)"
    )
    for metric, us in _PAIRS
]


def in_units(text: str, units: Units) -> str:
    """Return a text with its numbers in one system of units, as far as it has both.

    A number that is printed in one system alone stays as it is.

    Parameters
    ----------
    text : str
        Any text, HTML too.
    units : {"both", "metric", "us"}
        What is kept.

    Examples
    --------
    >>> in_units("Cure at 120 °C (248 °F) on 600 mm (23.6 in).", "metric")
    'Cure at 120 °C on 600 mm.'
    >>> in_units("Cure at 120 °C (248 °F) on 600 mm (23.6 in).", "us")
    'Cure at 248 °F on 23.6 in.'
    >>> in_units("Baked, 80 °C (176 °F), 90 °C (194 °F).", "us")
    'Baked, 176 °F, 194 °F.'
    """
    if units == "both":
        return text
    kept = r"\1" if units == "metric" else r"\2"
    for pattern in _BOTH:
        text = pattern.sub(kept, text)
    return text
