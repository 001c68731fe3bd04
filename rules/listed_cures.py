"""The job's hold against the cures that its class of resin lists."""

from bisect import bisect_right

from advisor.reasoning.conclusions import Condition, Finding
from advisor.reasoning.expert import MATCH, TEST, P, Rule
from advisor.reasoning.facts import Cure, Found
from advisor.reasoning.rulebook import advice


def at_or_below(hot_c: float, points_c: list[float], holds_h: list[float]) -> float:
    """Return the hold of the hottest cure listed at or below a temperature [h]."""
    return holds_h[bisect_right(points_c, hot_c) - 1]


def _asked(hold: float, asked: float) -> Finding:
    return Finding(
        "hold-listed",
        "Hold that the class lists at or below this temperature",
        asked,
        "h",
        "next lower listed cure; nothing between the points",
        judgement="ok" if hold >= asked else "watch",
    )


class ListedHold:
    """The job's hold against the points the resin's class lists; never between them.

    Where the job gives lines of the maker's sheet, those count instead.
    """

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Cure(
            resin=MATCH.resin,
            hold_h=MATCH.hold,
            sheet_c=P(lambda lines: not lines),
            listed_low_c=MATCH.floor_c,
            listed_high_c=MATCH.top_c,
            shortest_h=MATCH.shortest,
        ),
        TEST(lambda hot, floor_c: hot >= floor_c),
        TEST(lambda hold, shortest: hold < shortest),
    )
    @advice(
        id="CURE-040",
        title="Ask whether the hold is long enough",
        reason=(
            "{resin} is held {shortest:hours} or more even at {top_c:temperature}, the "
            "hottest cure listed; the job holds {hold:hours} at {hot:temperature}."
        ),
        cites=("guide-to-prepregs", "memory-prepreg-sheets"),
    )
    def hold_too_short(
        self,
        hot: float,
        resin: str,
        hold: float,
        floor_c: float,
        top_c: float,
        shortest: float,
    ) -> Condition:
        return Condition(
            "The prepreg's own sheet lists {hold:hours} or less at {hot:temperature}; else "
            "hold as it says and plan again.",
            "sheet number and the line of its cure table",
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Cure(
            resin=MATCH.resin,
            hold_h=MATCH.hold,
            sheet_c=P(lambda lines: not lines),
            listed_low_c=MATCH.floor_c,
        ),
        TEST(lambda hot, floor_c: hot < floor_c),
    )
    @advice(
        id="CURE-050",
        title="Ask for a cure below the lowest that is listed",
        reason=(
            "The coolest cure held of {resin} is {floor_c:temperature}; below it nothing "
            "is worked out, and the job cures at {hot:temperature}."
        ),
        cites=("guide-to-prepregs", "memory-prepreg-sheets"),
    )
    def below_the_list(
        self, hot: float, resin: str, hold: float, floor_c: float
    ) -> Condition:
        return Condition(
            "The prepreg's own sheet lists a cure at {hot:temperature} of {hold:hours} or "
            "less.",
            "sheet number and the line of its cure table",
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Cure(
            resin=MATCH.resin,
            hold_h=MATCH.hold,
            sheet_c=P(lambda lines: not lines),
            listed_high_c=MATCH.top_c,
            dwell_at_high_h=MATCH.asked,
        ),
        TEST(lambda hot, top_c: hot >= top_c),
    )
    @advice(
        id="CURE-060",
        title="Hold the job's dwell against the hottest cure listed",
        reason=(
            "{resin} is held about {asked:hours} at {top_c:temperature}; the job holds "
            "{hold:hours} at {hot:temperature}. The maker's sheet decides."
        ),
        cites=("guide-to-prepregs", "memory-prepreg-sheets"),
    )
    def as_hot_as_listed(
        self, hot: float, resin: str, hold: float, top_c: float, asked: float
    ) -> Finding:
        return _asked(hold, asked)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Cure(
            resin=MATCH.resin,
            hold_h=MATCH.hold,
            sheet_c=P(lambda lines: not lines),
            listed_low_c=MATCH.floor_c,
            listed_high_c=MATCH.top_c,
            listed_c=MATCH.points_c,
            listed_h=MATCH.points_h,
        ),
        TEST(lambda hot, floor_c, top_c: floor_c <= hot < top_c),
    )
    @advice(
        id="CURE-070",
        title="Do not guess a cure time between the points listed",
        reason=(
            "{resin} is listed from {floor_c:temperature} to {top_c:temperature}; between "
            "two points only the cooler is sure, and the job holds {hold:hours} at "
            "{hot:temperature}. The maker's sheet decides."
        ),
        cites=("guide-to-prepregs", "memory-prepreg-sheets"),
    )
    def between_the_points(
        self,
        hot: float,
        resin: str,
        hold: float,
        floor_c: float,
        top_c: float,
        points_c: list[float],
        points_h: list[float],
    ) -> Finding:
        return _asked(hold, at_or_below(hot, points_c, points_h))

    @Rule(
        Found(key="hold-listed", value=MATCH.asked),
        Found(key="tool-temperature", value=MATCH.hot),
        Cure(
            resin=MATCH.resin,
            hold_h=MATCH.hold,
            shortest_h=MATCH.shortest,
            listed_high_c=MATCH.top_c,
            listed_c=MATCH.points_c,
            listed_least_h=MATCH.least_h,
        ),
        TEST(lambda hot, top_c: hot < top_c),
        TEST(
            lambda hot, hold, shortest, points_c, least_h: (
                shortest <= hold < at_or_below(hot, points_c, least_h)
            )
        ),
    )
    @advice(
        id="CURE-075",
        title="Show the line of the maker's sheet that a shorter hold rests on",
        reason=(
            "At or below {hot:temperature} {resin} is listed with {asked:hours}, and the "
            "job's {hold:hours} are under what any sheet read lists: too short a hold "
            "leaves a part that is soft, and a tool that it sticks to."
        ),
        cites=("guide-to-prepregs", "memory-prepreg-sheets"),
    )
    def shorter_than_listed(
        self,
        asked: float,
        hot: float,
        resin: str,
        hold: float,
        shortest: float,
        top_c: float,
        points_c: list[float],
        least_h: list[float],
    ) -> Condition:
        return Condition(
            "The prepreg's own sheet lists a hold of {hold:hours} or less at "
            "{hot:temperature}; else it is held {asked:hours}, or as the sheet says, and "
            "the job is planned again.",
            "sheet number and the line of its cure table",
        )
