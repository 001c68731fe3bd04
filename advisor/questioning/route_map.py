"""A picture of a sweep: which tool leads over two inputs, legible without colour."""

import io
import string
from collections import Counter
from collections.abc import Sequence
from typing import Any

from advisor.knowledge.tables import Knowledge
from advisor.measures import sign
from advisor.questioning.fields import field_at
from advisor.questioning.sweep import Axis, Row, Sweep

# Light enough for black letters on top, dark enough to be told apart; the letters carry
# the meaning, the tints only help the eye.
_TINTS = (
    "#dce9f2",
    "#f3e3c8",
    "#dcefd9",
    "#efdbe6",
    "#e6e2f3",
    "#f2f0c9",
    "#d5ecec",
    "#f0dcd2",
)
_OTHERS = {
    "no-route": ("-", "#ffffff", "no route stands"),
    "ask-first": ("?", "#ffffff", "questions first"),
    "not accepted together": ("x", "#ffffff", "not accepted together"),
}
_UNDATED: dict[str, dict[str, str | None]] = {
    "svg": {"Date": None},
    "pdf": {"CreationDate": None},
}
_CELL_IN, _LEAST_IN = 0.3, 4.0
FORMATS = ("svg", "png", "pdf")


def axes_of(sweep: Sweep) -> tuple[Axis, Axis | None] | None:
    """Return the inputs of a map, across and up; None if more than two vary, or none."""
    moving = [axis for axis in sweep.axes if len(axis.values) > 1]
    if not 1 <= len(moving) <= 2:
        return None
    return moving[0], moving[1] if len(moving) == 2 else None


def route_map(sweep: Sweep, rows: Sequence[Row], knowledge: Knowledge, form: str) -> bytes:
    """Return a map of the tools that lead, one cell a variant, as a picture.

    Parameters
    ----------
    sweep : Sweep
        With one or two axes of more than one value.
    rows : sequence of dict
        As `sweep.run` returns them.
    knowledge : Knowledge
        For the names of the tools.
    form : str
        One of `FORMATS`.

    Raises
    ------
    ValueError
        If the sweep has more than two such axes.
    """
    from matplotlib import rc_context
    from matplotlib.figure import Figure
    from matplotlib.patches import Patch

    axes = axes_of(sweep)
    if axes is None:
        raise ValueError("a map shows one or two inputs that vary")
    across, up = axes
    columns, lines = len(across.values), len(up.values) if up else 1
    marks = _marks(rows, knowledge)
    with rc_context({"svg.hashsalt": "advisor", "svg.fonttype": "none", "font.size": 8}):
        figure = Figure(layout="constrained", figsize=_size_in(columns, lines, len(marks)))
        plot = figure.add_subplot()
        for row in rows:
            x, y = _place(sweep, int(row["n"]), across, up)
            letter, tint, _ = marks[_key(row)]
            plot.add_patch(_cell(x, y, tint))
            plot.text(x, y, letter, ha="center", va="center")
        plot.set(xlim=(-0.5, columns - 0.5), ylim=(-0.5, lines - 0.5), aspect="equal")
        plot.set_xticks(range(columns), _ticks(across.values), rotation=90)
        plot.set_yticks(range(lines) if up else [], _ticks(up.values) if up else [])
        plot.set_xlabel(_label(across.field))
        plot.set_ylabel(_label(up.field) if up else "")
        plot.tick_params(length=0)
        title = f"{sweep.job.title}: which tool leads"
        plot.set_title(title, loc="left", fontsize=10, fontweight="bold", wrap=True)
        figure.legend(
            handles=[
                Patch(facecolor=tint, edgecolor="#777777", label=f"{letter}   {name}")
                for letter, tint, name in marks.values()
            ],
            loc="outside lower left",
            frameon=False,
        )
        content = io.BytesIO()
        metadata = {"Title": sweep.job.title} | _UNDATED.get(form, {})
        figure.savefig(content, format=form, dpi=150, metadata=metadata)
    return content.getvalue()


def _size_in(columns: int, lines: int, names: int) -> tuple[float, float]:
    """Return width and height of the picture in inches."""
    width = max(columns * _CELL_IN, _LEAST_IN) + 1.0
    return width, lines * _CELL_IN + 2.0 + 0.18 * (names + 1)


def _place(sweep: Sweep, number: int, across: Axis, up: Axis | None) -> tuple[int, int]:
    values = {move.field: move.value for move in sweep.moves(number)}
    x = across.values.index(values[across.field])
    return x, up.values.index(values[up.field]) if up else 0


def _cell(x: float, y: float, tint: str) -> Any:
    from matplotlib.patches import Rectangle

    return Rectangle((x - 0.5, y - 0.5), 1, 1, facecolor=tint, edgecolor="#777777", lw=0.4)


def _key(row: Row) -> str:
    return row.get("tool") or row["verdict"]


def _marks(rows: Sequence[Row], knowledge: Knowledge) -> dict[str, tuple[str, str, str]]:
    """Return letter, tint and name of each answer, the commonest tool first."""
    counted = Counter(_key(row) for row in rows)
    tools = [key for key, _ in counted.most_common() if key in knowledge.tool_materials]
    marks = {}
    for n, (id, letter) in enumerate(zip(tools, string.ascii_uppercase * 2, strict=False)):
        name = f"{knowledge.tool_materials[id].name} ({counted[id]})"
        marks[id] = (letter, _TINTS[n % len(_TINTS)], name)
    for key, (letter, tint, name) in _OTHERS.items():
        if key in counted:
            marks[key] = (letter, tint, f"{name} ({counted[key]})")
    return marks


def _ticks(values: Sequence[object]) -> list[str]:
    return ["not given" if value is None else str(value) for value in values]


def _label(path: str) -> str:
    field = field_at(path)
    unit = sign(field.unit) if field else ""
    return f"{path}, {unit}" if unit else path
