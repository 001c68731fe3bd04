"""What the body of a rule may return."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Judgement = Literal["ok", "watch", "fail"]
HeldFor = Literal["tool", "first part", "part"]  # once for each tool, once, or for each


@dataclass(frozen=True)
class Question:
    """A deciding fact is missing, or two contradict each other."""

    field: str


@dataclass(frozen=True)
class Need:
    """The job needs something; later stages see it as a fact."""

    kind: str
    value: str


@dataclass(frozen=True)
class Refusal:
    """The job cannot be done in this shop as it stands, whatever the tool."""

    lifted_by: str


@dataclass(frozen=True)
class RuledOut:
    """The option under judgement must not be used; `lifted_by` would change that."""

    lifted_by: str


@dataclass(frozen=True)
class Doubtful:
    """The option may be used once something has been proved.

    `coupon_cures` says how often a coupon of the face is cured to prove it; 0 where it is
    proved otherwise.
    """

    prove: str
    proved_by: str
    coupon_cures: int = 0


@dataclass(frozen=True)
class Good:
    """The option suits this job particularly."""


@dataclass(frozen=True)
class Finding:
    """A computed number with its judgement.

    `value`, `low`, `high` and `limit` are in SI units (temperatures in °C); `unit` is what
    they are printed in, and `formula` how they were found; `worked` is it with its figures.
    """

    key: str
    label: str
    value: float
    unit: str
    formula: str
    low: float | None = None
    high: float | None = None
    limit: float | None = None
    judgement: Judgement = "ok"
    worked: str = ""


@dataclass(frozen=True)
class HoldPoint:
    """A check that must be signed before work goes on.

    `record` is what is written beside the initials of those who sign; `held_for` says how
    often, where it is not as often as its phase.
    """

    check: str
    accept: str
    record: str
    held_for: HeldFor | None = None
    signers: int = 1


@dataclass(frozen=True)
class Quantity:
    """An amount a step needs."""

    label: str
    value: float
    unit: str


@dataclass(frozen=True)
class Step:
    """One step of the work; `does` names what people do in it, for the cautions.

    `listed` is printed under the text, one line each.
    """

    phase: str
    text: str
    does: Sequence[str] = ()
    listed: Sequence[str] = ()
    quantities: Sequence[Quantity] = ()
    hold_point: HoldPoint | None = None


@dataclass(frozen=True)
class Condition:
    """Something that must be true or be proved before the route may be used."""

    text: str
    proved_by: str


@dataclass(frozen=True)
class Trial:
    """Something to try first on a small scale; `of` the tool's face or of a core."""

    of: Literal["face", "core"]
    text: str
    passes_if: str
    fails_if: str


@dataclass(frozen=True)
class Gauged:
    """Something that is measured on each patch of a trial of the face."""

    measure: str
    how: str
    passes_if: str


@dataclass(frozen=True)
class Use:
    """A consumable to pull from the shelf; `lot` names the record its lot is written in."""

    item: str
    quantity: float
    unit: str
    allowance: str
    lot: Literal["tool", "part"] | None = None


@dataclass(frozen=True)
class Place:
    """A kind of place and the numbers, first and last, of what stands there."""

    kind: str
    first: int
    last: int
    words: str


@dataclass(frozen=True)
class Thermocouples:
    """Where thermocouples stand, by the numbers on their wires."""

    places: tuple[Place, ...]


@dataclass(frozen=True)
class Line:
    """What is drawn over the times of a course; `unit` as its `values` are in."""

    name: str
    unit: str
    values: tuple[float, ...]


@dataclass(frozen=True)
class CureCourse:
    """A cure over time, in hours from heat-on; `marks` say what happens when.

    `run_away` counts the published resins that run away and so are not among the lines.
    """

    times_h: tuple[float, ...]
    lines: tuple[Line, ...]
    marks: tuple[tuple[float, str], ...]
    run_away: int = 0


@dataclass(frozen=True)
class BlankLayout:
    """How the blank of a tool is laid up; sizes, and parts along each side, in metres."""

    piece: str
    size_m: tuple[float, float, float]
    parts_m: tuple[tuple[float, ...], tuple[float, ...], tuple[float, ...]]


@dataclass(frozen=True)
class StripLayout:
    """How film lies in strips over a face: their number and middle lines, in metres."""

    count: int
    apart_m: float
    girth_m: float
    length_m: float
    lap_m: float


@dataclass(frozen=True)
class Caution:
    """A hazard of one activity; the words stand in the table of cautions."""

    hazard: str
    activity: str
    agent: str | None = None


Outcome = (
    Question
    | Need
    | Refusal
    | RuledOut
    | Doubtful
    | Good
    | Finding
    | Step
    | Condition
    | Trial
    | Gauged
    | Use
    | CureCourse
    | BlankLayout
    | StripLayout
    | Thermocouples
    | Caution
)
