"""The Plan: the only hand-over between reasoning and rendering (plan.json, version 1)."""

from typing import Any, Literal

from pydantic import Field

from advisor.knowledge.rows import Sign
from advisor.reasoning.conclusions import HeldFor, Judgement
from advisor.reasoning.provenance import Conclusion, Record

Verdict = Literal["route", "route-with-conditions", "no-route", "ask-first"]
OptionVerdict = Literal["ruled-out", "doubtful", "good", "stands"]
OptionStage = Literal["tool", "sealing", "release", "bagging"]


class QuestionRecord(Record):
    """A deciding fact that is missing, or two that contradict each other."""

    field: str
    text: str
    why_it_decides: str
    conclusion: Conclusion


class ConditionRecord(Record):
    """What must be true or be proved before the route may be used."""

    text: str
    proved_by: str
    conclusion: Conclusion


class ProposalRecord(Record):
    """The user's own idea, judged piece by piece."""

    as_given: dict[str, str]
    verdict: Literal["sound", "sound-in-part", "refused"]
    conclusions: tuple[Conclusion, ...]


class CostLine(Record):
    """One line of what a route costs, in the shop's currency."""

    label: str
    amount: float
    per: Literal["tool", "part", "run"]


class RouteRecord(Record):
    """Tool, sealing, release and bagging together, costed for the run."""

    tool: str
    sealing: str
    release: str
    bagging: str
    name: str
    construction: Literal["one-piece", "loose-piece", "split", "break-out", "wash-out"]
    tools: int
    parts_per_tool: int
    cost_total: float
    cost_low: float
    cost_high: float
    cost_per_part: float
    cost_lines: tuple[CostLine, ...]
    cost_at_runs: dict[str, float]
    currency: str
    price_basis: Literal["from-memory", "shop", "invented"]
    lead_time_h: float
    doubts: tuple[str, ...]
    reasons: tuple[Conclusion, ...]


class Alternative(RouteRecord):
    """A route that stands but lost, and what made it lose.

    From `breaks_even_at` parts on the dearer of the two is the cheaper; null if never.
    """

    lost_by: Literal["proposal", "doubt", "money-or-time"]
    lost_because: str
    breaks_even_at: int | None


class SaferRecord(Record):
    """A hazard of the route, and the standing route that spares the shop from it.

    `route` is null where none stands; `text` then says why.
    """

    hazard: str
    route: RouteRecord | None
    text: str
    conclusion: Conclusion


class OptionRecord(Record):
    """An option considered, chosen or not, with every reason for its verdict."""

    stage: OptionStage
    id: str
    family: str
    name: str
    verdict: OptionVerdict
    reasons: tuple[Conclusion, ...]


class FindingRecord(Record):
    """A computed number with its judgement.

    `worked` is its formula with figures, in metric units; empty where it is no one line.
    """

    id: str
    label: str
    value: float
    unit: str
    low: float | None
    high: float | None
    limit: float | None
    judgement: Judgement
    worked: str = ""
    conclusion: Conclusion


class CautionRecord(Record):
    """A hazard, what to do about it, and the steps it stands at.

    `gravity` 1 can kill or maim for life, 2 can hurt, 3 goes with the others. `sign` is
    the warning sign that stands beside it.
    """

    id: str
    hazard: str
    sign: Sign = "general"
    gravity: Literal[1, 2, 3]
    text: str
    applies_to_steps: tuple[int, ...]
    defers_to: str
    wear: tuple[str, ...] = ()
    conclusion: Conclusion


class QuantityRecord(Record):
    """An amount a step needs."""

    label: str
    value: float
    unit: str


class HoldPointRecord(Record):
    """A check that must be signed before work goes on.

    `record` is what is written beside the initials of those who sign; `held_for` says how
    often: once for each tool, for the first part, or for each part.
    """

    check: str
    accept: str
    record: str
    held_for: HeldFor = "part"
    signers: int = 1


class StepRecord(Record):
    """One step of the work."""

    n: int
    phase: str
    title: str
    text: str
    why: str
    listed: tuple[str, ...] = ()
    quantities: tuple[QuantityRecord, ...]
    hold_point: HoldPointRecord | None
    cautions: tuple[str, ...]
    conclusion: Conclusion


class ConsumableRecord(Record):
    """A consumable to pull from the shelf."""

    item: str
    quantity: float
    unit: str
    allowance: str
    lot: Literal["tool", "part"] | None = None
    conclusion: Conclusion


class SourceRecord(Record):
    """A source that the plan rests on."""

    id: str
    citation: str
    kind: str
    basis: str


class WordRecord(Record):
    """A word of the trade that the plan uses, explained."""

    term: str
    means: str
    sources: tuple[str, ...]


class PatchRecord(Record):
    """One patch of a trial: what is on it, and what the run would cost made so.

    `beware` names what it holds that the cautions of the plan do not speak of.
    """

    n: int
    sealing: str
    release: str
    name: str
    cost_total: float
    beware: str = ""


class GaugedRecord(Record):
    """What is measured on each patch, how, and what passes."""

    measure: str
    how: str
    passes_if: str
    conclusion: Conclusion


class OutcomeRecord(Record):
    """One way a trial may end, and what that changes."""

    outcome: str
    then: str


class TrialRecord(Record):
    """What to prove first, on a small scale: the piece, its patches, the measures.

    `cures` is how often it is cured, `takes_h` the hours by the clock until it has spoken.
    """

    text: str
    passes_if: str
    fails_if: str
    conclusion: Conclusion
    piece: str = ""
    patches: tuple[PatchRecord, ...] = ()
    gauged: tuple[GaugedRecord, ...] = ()
    cures: int = 1
    takes_h: float = 0.0
    takes: str = ""
    outcomes: tuple[OutcomeRecord, ...] = ()


class LayerRecord(Record):
    """One layer of the bag stack in order, the tool among them, and what it does.

    `id` is that of its kind, `text` how it is laid, where the bag says more than its name.
    A tool that is a `shell` has a wall of even thickness on a frame; any other is solid.
    """

    id: str
    name: str
    text: str
    does: str
    shell: bool = False
    sources: tuple[str, ...]


class LineRecord(Record):
    """One line of a course, a value for each of its times."""

    name: str
    unit: str
    values: tuple[float, ...]


class MarkRecord(Record):
    """What happens at one time of a course."""

    at_h: float
    text: str


class PlaceRecord(Record):
    """A kind of place and the numbers of the thermocouples that stand there."""

    kind: str
    first: int
    last: int
    words: str


class ThermocouplesRecord(Record):
    """Where the thermocouples of a cure stand."""

    places: tuple[PlaceRecord, ...]
    conclusion: Conclusion


class CourseRecord(Record):
    """A cure over time, in hours from heat-on, by calculation.

    `run_away` counts the published resins that run away and so are not among the lines.
    """

    times_h: tuple[float, ...]
    lines: tuple[LineRecord, ...]
    marks: tuple[MarkRecord, ...]
    run_away: int = 0
    conclusion: Conclusion


class BlankRecord(Record):
    """How the blank of a tool is laid up from what is sold; lengths in mm.

    `along`, `across` and `up` hold the parts in each direction, in order.
    """

    piece: str
    length: float
    width: float
    height: float
    along: tuple[float, ...]
    across: tuple[float, ...]
    up: tuple[float, ...]
    conclusion: Conclusion


class StripsRecord(Record):
    """Film in strips over a double curve; lengths in mm."""

    count: int
    apart: float
    girth: float
    length: float
    lap: float
    conclusion: Conclusion


class ChangeRecord(Record):
    """The nearest change of inputs at which an answer flips.

    `about` is ``route`` for the lead of the route, ``option`` for tool materials that come
    back. `moves` says what the files would hold, by field; it is empty where no change was
    found.
    """

    about: Literal["route", "option"]
    options: tuple[str, ...]
    text: str
    moves: dict[str, str] = Field(default_factory=dict)


class GuessRecord(Record):
    """What the user guessed before the answer, and how it fared."""

    stage: OptionStage
    id: str
    verdict: Literal["right", "stands", "ruled-out", "not-judged"]
    text: str
    conclusions: tuple[Conclusion, ...] = ()


class TurnRecord(Record):
    """A range within which the answer turns, and how the shop would narrow it.

    The usual or given `value`, `low`, `high` and `at` are in `unit`. From `at` to the `end`
    of the range the route `falls`, leaves something more to be proved (`doubt`) or no
    longer leads (`lead`).
    """

    name: str
    unit: str
    value: float
    low: float
    high: float
    at: float
    end: Literal["low", "high"]
    effect: Literal["falls", "doubt", "lead"]
    text: str
    narrow_by: str
    sources: tuple[str, ...]


class SurenessRecord(Record):
    """Whether the answer holds all over the ranges of what it rests on.

    `ranges` were moved one at a time, then `draws` times all of them at once, in `stood`
    of which the route stood with nothing more to prove.
    """

    firm: bool
    ranges: int
    draws: int
    stood: int
    text: str
    turns: tuple[TurnRecord, ...]


class Plan(Record):
    """A whole process plan. Its JSON is the same, byte for byte, for the same input."""

    schema_version: Literal[1] = 1
    advisor_version: str
    rule_base_version: str
    job_sha256: str
    job: dict[str, Any]
    shop: dict[str, Any]
    verdict: Verdict
    questions: tuple[QuestionRecord, ...] = ()
    conditions: tuple[ConditionRecord, ...] = ()
    proposal: ProposalRecord | None = None
    route: RouteRecord | None = None
    alternatives: tuple[Alternative, ...] = ()
    safer: tuple[SaferRecord, ...] = ()
    options: tuple[OptionRecord, ...] = ()
    findings: tuple[FindingRecord, ...] = ()
    cautions: tuple[CautionRecord, ...] = ()
    steps: tuple[StepRecord, ...] = ()
    stack: tuple[LayerRecord, ...] = ()
    thermocouples: ThermocouplesRecord | None = None
    course: CourseRecord | None = None
    blank: BlankRecord | None = None
    strips: StripsRecord | None = None
    consumables: tuple[ConsumableRecord, ...] = ()
    sources: tuple[SourceRecord, ...] = ()
    assumptions: tuple[str, ...] = Field(default=())
    trials: tuple[TrialRecord, ...] = ()
    words: tuple[WordRecord, ...] = ()
    changes: tuple[ChangeRecord, ...] = ()
    sureness: SurenessRecord | None = None
    guesses: tuple[GuessRecord, ...] = ()

    def to_json(self) -> str:
        """Return plan.json: two-space indent, UTF-8 text, a line break at the end."""
        return self.model_dump_json(indent=2) + "\n"
