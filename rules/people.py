"""People at hand, and what the customer has to know before the tool is cut."""

from advisor.knowledge.tables import limit
from advisor.measures import phrase, worked
from advisor.reasoning.conclusions import Condition, Finding
from advisor.reasoning.expert import MATCH, NE, TEST, Rule, among
from advisor.reasoning.facts import Cure, Finish, Found, Part, Run, Shop
from advisor.reasoning.rulebook import advice

DAY = limit("working_day")


class Alone:
    """A shop of one."""

    stage = "plan"

    @Rule(Shop(people=1), Cure(temperature_c=MATCH.hot))
    @advice(
        id="PEOPLE-010",
        title="Name a second person before heat goes on",
        reason=(
            "One person works here: nobody would see a fire or an accident in a cure at "
            "{hot:temperature}, and the holds that a second person signs would be signed "
            "by the one who did the work."
        ),
        cites=("common-practice",),
    )
    def second_person(self, hot: float) -> Condition:
        return Condition(
            "A second person is named who is within call whenever the oven is hot, and who "
            "looks at the ply count and the bag, on the spot or from a photograph sent and "
            "answered before work goes on.",
            "name and telephone number on the traveller; answers kept with the record",
        )


class LongWatch:
    """A heating longer than one person's day."""

    stage = "plan"

    @Rule(
        Found(key="dwell-start", value=MATCH.start),
        Cure(hold_h=MATCH.hold),
        Run(parts=MATCH.parts),
        TEST(lambda start, hold: start > 0 and start + hold > DAY),
    )
    @advice(
        id="PEOPLE-020",
        title="Settle who watches a heating longer than a working day",
        reason=(
            "Each part keeps the oven hot for {start:about_hours} up to the dwell and "
            "{hold:hours} of dwell, with cooling after it; an oven that cures resin is not "
            "left alone, and one person watches for {working_day:hours} at most."
        ),
        cites=("common-practice",),
        limits=("working_day",),
    )
    def watched_in_turn(
        self, start: float, hold: float, parts: int
    ) -> list[Finding | Condition]:
        each, run = start + hold, parts * (start + hold)
        watched = Finding(
            "watch-hours",
            "Watch over the oven to the end of the dwell, all parts, not in the cost",
            run,
            "h",
            "parts · (start of the dwell + hold)",
            worked=worked("{} · ({} + {})", parts, (start, "h"), (hold, "h")),
        )
        condition = Condition(
            "A watch is named while the oven is hot, nights too, in turns of "
            f"{{working_day:hours}} at most: {phrase('{h:about_hours}', h=each)} a part to "
            f"the end of the dwell, {phrase('{h:about_hours}', h=run)} in all, "
            "and cooling.",
            "names and hours on the traveller of each part",
        )
        return [watched, condition]


class SeenFace:
    """Which face the finish belongs to."""

    stage = "plan"

    @Rule(
        Part(tool_side="male", shape=MATCH.shape),
        Cure(pressure=NE("tape")),
        Finish(target=MATCH.target & among("paint", "gloss")),
    )
    @advice(
        id="FACE-010",
        title="Settle which face is seen",
        reason=(
            "On a male tool the inside is moulded and gets the finish asked for, {target}; "
            "the outside is the bag side, with the print of peel ply and pleats."
        ),
        cites=("common-practice",),
    )
    def outside_is_bag_side(self, shape: str, target: str) -> Condition:
        return Condition(
            "The customer has seen a bag side and agrees that the outside looks so, or it "
            "is filled and sanded at his cost; if the outside is the face that is seen, "
            "the tool is female and the job is planned again.",
            "a sample of the bag side signed by the customer",
        )
