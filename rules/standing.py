"""What stands on every plan: who decides, what is recorded, what is cleared away."""

from advisor.reasoning.conclusions import Caution, HoldPoint, Step
from advisor.reasoning.expert import MATCH, Rule
from advisor.reasoning.facts import JobFile, Route, Tool
from advisor.reasoning.rulebook import advice


class StandingSteps:
    """First and last steps of every plan."""

    stage = "plan"

    @Rule(JobFile(title=MATCH.title), Tool(name=MATCH.name))
    @advice(
        id="STEP-010",
        title="Read the plan and its cautions with everyone who will work on it",
        reason="A caution that only its writer has read protects nobody.",
    )
    def read_together(self, title: str, name: str) -> Step:
        return Step(
            "prepare",
            "Go through the steps at the bench. Name who stays with the oven, who may "
            "stop the job, and whom to call. Conditions that can be shown now are signed "
            "now, on the sheet that lists them; the others get a name and a date.",
            does=(),
            hold_point=HoldPoint(
                "Conditions signed, people named",
                "each has a signature, or a name and a date",
                "names",
            ),
        )

    @Rule(JobFile(title=MATCH.title), Route(parts_per_tool=MATCH.life))
    @advice(
        id="STEP-1010",
        title="Write the record of tool and part",
        reason="A tool is planned for about {life:parts}; its record says how it went.",
    )
    def keep_record(self, title: str, life: int) -> Step:
        retired = (
            " Retire the tool when a point has moved half the tolerance or it fails its "
            "leak test twice."
            if life > 1
            else ""
        )
        return Step(
            "record",
            "On the tool's record: cycle number, release renewed, what was found, "
            "repairs. On the part's: lots, hours out, leak test, chart, sizes, "
            "deviations." + retired,
            does=(),
            hold_point=HoldPoint(
                "Records complete",
                "no blank left; what does not apply is struck through",
                "numbers of both records",
            ),
        )

    @Rule(JobFile(title=MATCH.title), Tool(name=MATCH.name))
    @advice(
        id="STEP-1020",
        title="Clear up and sort the waste",
        reason="Resin, rags and dust go on reacting and floating after the work is done.",
        cites=("hazardous-waste-article", "silica-housekeeping-text"),
    )
    def clear_up(self, title: str, name: str) -> Step:
        return Step(
            "record",
            "Vacuum with the H-class or HEPA cleaner or wipe wet. Keep uncured resin, "
            "solvent rags, dust and laminate apart and lidded, and ask the local waste "
            "authority.",
            does=("cleans-dust", "clears-up", "discards"),
        )


class StandingCaution:
    """The sentence under every plan."""

    stage = "people"

    @Rule(JobFile(title=MATCH.title))
    @advice(
        id="CAUT-001",
        title="Know what this plan is not",
        reason="A plan for {title} cannot see the shop, the stock or the people.",
    )
    def standing(self, title: str) -> Caution:
        return Caution("standing", "everything")
