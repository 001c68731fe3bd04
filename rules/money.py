"""Routes judged as a whole: price against budget, and how many tools a run takes."""

from math import ceil

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Doubtful, Finding, Good, RuledOut
from advisor.reasoning.expert import GT, MATCH, TEST, Rule, among
from advisor.reasoning.facts import Budget, Cure, Found, Route, Run, Shop, Tool
from advisor.reasoning.rulebook import advice

TOOLS = limit("tools_in_a_run")
CORES = limit("cores_in_a_run")
A_WEEK = limit("parts_a_week")
_HOURS_A_DAY = 24.0


def cures_a_week(hours: float) -> float:
    """Return how many cures of so many hours one tool goes through in a working week."""
    return A_WEEK // ceil(hours / _HOURS_A_DAY)


class JudgeRoute:
    """Money and numbers; neither ever outweighs a hazard or a hard limit."""

    stage = "route"

    @Rule(
        Budget(total=MATCH.budget),
        Route(cost_total=MATCH.spent),
        Run(parts=MATCH.parts),
        Tool(name=MATCH.name),
        Shop(currency=MATCH.currency),
        TEST(lambda budget, spent: spent > budget),
    )
    @advice(
        id="MONEY-010",
        title="Keep within the budget",
        reason=(
            "By way of {name} the run of {parts} costs about {spent:money} {currency}; "
            "the budget is {budget:money} {currency}."
        ),
        cites=("memory-prices",),
    )
    def over_budget(
        self, budget: float, spent: float, parts: int, name: str, currency: str
    ) -> RuledOut:
        return RuledOut("a budget of {spent:money_up} {currency}")

    @Rule(
        Route(
            tools=MATCH.tools & GT(TOOLS),
            parts_per_tool=MATCH.life,
            construction=among("one-piece", "loose-piece", "split"),
        ),
        Run(parts=MATCH.parts),
        Tool(name=MATCH.name),
    )
    @advice(
        id="MONEY-020",
        title="Take a longer-lived tool for a long run",
        reason=(
            "{name} gives about {life:parts} a tool, so {parts:parts} would take "
            "{tools:tools}; more than {tools_in_a_run:number} means building the same "
            "tool over and over, each a little different."
        ),
        limits=("tools_in_a_run",),
    )
    def too_many_tools(self, tools: int, life: int, parts: int, name: str) -> RuledOut:
        return RuledOut("a shorter run")

    @Rule(
        Run(per_week=MATCH.rate),
        Route(tools=MATCH.tools, construction=among("one-piece", "loose-piece", "split")),
        Tool(name=MATCH.name),
        TEST(lambda rate, tools: rate > tools * A_WEEK),
    )
    @advice(
        id="MONEY-025",
        title="Build tools for the rate, not only for the run",
        reason=(
            "{rate:parts} a week are wanted; {tools:tools} of {name} at one cure a "
            "working day give {parts_a_week:number} each."
        ),
        limits=("parts_a_week",),
    )
    def too_slow(self, rate: float, tools: int, name: str) -> Doubtful:
        return Doubtful(
            "The weekly rate is met: more than one cure a day, or more tools than the run "
            "alone needs, in the budget.",
            "a week's oven plan with this cure's heating, dwell and cooling times",
        )

    @Rule(
        Run(per_week=MATCH.rate),
        Route(tools=MATCH.tools),
        Found(key="dwell-start", value=MATCH.start),
        Cure(hold_h=MATCH.hold),
        Tool(name=MATCH.name),
        TEST(lambda rate, tools: rate <= tools * A_WEEK),
        TEST(lambda rate, tools, start, hold: rate > tools * cures_a_week(start + hold)),
    )
    @advice(
        id="MONEY-027",
        title="Count the days that one cure takes",
        reason=(
            "{rate:parts} a week are wanted; with {start:about_hours} to the dwell and "
            "{hold:hours} of it, a cure on {name} takes more than a day, and a week has "
            "{parts_a_week:number}."
        ),
        limits=("parts_a_week",),
    )
    def cure_too_long(
        self, rate: float, tools: int, start: float, hold: float, name: str
    ) -> Doubtful:
        return Doubtful(
            "The weekly rate is met: the oven runs through nights and weekends under "
            "watch, or more tools share a heat, or the tool is thin enough to heat in a "
            "day.",
            "a week's oven plan with this cure's heating, dwell and cooling times",
        )

    @Rule(
        Route(tools=MATCH.tools & GT(CORES), construction=among("break-out", "wash-out")),
        Run(parts=MATCH.parts),
        Tool(name=MATCH.name),
    )
    @advice(
        id="MONEY-030",
        title="Find a core that can be used again for a long run",
        reason=(
            "Every part spends a tool of {name}; {parts:parts} would take {tools}, more "
            "than the {cores_in_a_run:number} a run is planned with."
        ),
        limits=("cores_in_a_run",),
    )
    def too_many_cores(self, tools: int, parts: int, name: str) -> RuledOut:
        return RuledOut("a shorter run, or a section that lets its core go")

    @Rule(
        Route(
            cost_total=MATCH.spent,
            cost_per_part=MATCH.each,
            tools=MATCH.tools,
            parts_per_tool=MATCH.life,
        ),
        Run(parts=MATCH.parts),
        Shop(currency=MATCH.currency),
    )
    @advice(
        id="MONEY-040",
        title="Work out the cost of a part",
        reason=(
            "{parts:parts} from {tools:tools} of about {life:parts} each cost about "
            "{spent:money} {currency} in all, {each:money} a part."
        ),
        cites=("memory-prices", "common-practice"),
    )
    def cost_of_a_part(
        self, spent: float, each: float, tools: int, life: int, parts: int, currency: str
    ) -> Finding:
        formula = "(tools · tool cost + parts · part cost) / parts"
        return Finding("cost-per-part", "Cost of a part", each, "money", formula)

    @Rule(
        Route(
            parts_per_tool=MATCH.life,
            construction=among("one-piece", "loose-piece", "split"),
        ),
        Run(parts=MATCH.parts),
        TEST(lambda parts, life: life >= parts),
    )
    @advice(
        id="MONEY-050",
        title="Do the whole run on one tool",
        reason="The run is {parts:parts}, and one tool gives about {life:parts}.",
    )
    def one_tool_for_the_run(self, life: int, parts: int) -> Good:
        return Good()
