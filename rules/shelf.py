"""Temperature classes of what lies in the bag: which to pull, and where there is none."""

from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NE, NOT, TEST, Rule
from advisor.reasoning.facts import Cure, Found, Grade, Tool
from advisor.reasoning.rulebook import advice

MARGIN = limit("shelf_margin")
# What lies in the bag, in the order in which it is built; the class of each is found
# under a key of its own.
ROLES = {
    "peel-ply": ("class-peel-ply", "Peel ply"),
    "release-film": ("class-release-film", "Release film over the plies"),
    "breather": ("class-breather", "Breather"),
    "edge-breather": ("class-edge-breather", "Edge breather"),
    "flash-tape": ("class-flash-tape", "Flash tape"),
    "sealant-tape": ("class-sealant-tape", "Sealant tape"),
    "bag-film": ("class-bag-film", "Bag film"),
}
TAPE = "shrink-tape"
WOUND = {TAPE: ("class-shrink-tape", "Shrink tape")}


def laid_over(role: str, mode: str) -> bool:
    """Return whether a material lies over plies that are pressed in this way."""
    return (role == TAPE) == (mode == "tape")


def class_of(role: str, stands: float, needed: float, held: bool) -> Finding:
    """Return the class that a material must have; `held` if the table holds one."""
    key, words = (ROLES | WOUND)[role]
    return Finding(
        key,
        f"{words}: class, at least",
        stands,
        "degC",
        "lowest class at or above the cure and its margin",
        limit=needed,
        judgement="ok" if held else "watch",
    )


class Classes:
    """Which class of each material the heat asks for."""

    stage = "plan"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Grade(
            role=MATCH.role,
            name=MATCH.grade,
            limit_c=MATCH.stands,
            next_lower_c=MATCH.below,
        ),
        Cure(pressure=MATCH.mode),
        Tool(name=MATCH.tool),
        TEST(laid_over),
        TEST(lambda hot, stands, below: below < hot + MARGIN <= stands),
    )
    @advice(
        id="SHELF-010",
        title="Pull the class that the heat asks for",
        reason=(
            "{grade} stands {stands:temperature}: the lowest class at least "
            "{shelf_margin:difference} above the {hot:temperature} of the cure, as the "
            "hottest spot of a load runs ahead of the rest."
        ),
        limits=("shelf_margin",),
    )
    def class_to_pull(
        self,
        hot: float,
        role: str,
        grade: str,
        stands: float,
        below: float,
        mode: str,
        tool: str,
    ) -> Finding:
        return class_of(role, stands, hot + MARGIN, held=True)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Grade(role=MATCH.role, name=MATCH.grade, limit_c=MATCH.stands),
        Cure(pressure=MATCH.mode),
        Tool(name=MATCH.tool),
        TEST(laid_over),
        TEST(lambda hot, stands: stands < hot + MARGIN),
        NOT(Grade(role=MATCH.role, next_lower_c=MATCH.stands)),
    )
    @advice(
        id="SHELF-020",
        title="Find a grade for the heat, by its own sheet",
        reason=(
            "The highest class held here, {grade}, is planned to {stands:temperature}; "
            "the cure is {hot:temperature} and its hottest spot runs "
            "{shelf_margin:difference} ahead. Some grades of a class stand more."
        ),
        limits=("shelf_margin",),
    )
    def none_stands(
        self, hot: float, role: str, grade: str, stands: float, mode: str, tool: str
    ) -> Finding:
        return class_of(role, hot + MARGIN, hot + MARGIN, held=False)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Grade(role="bag-film", name=MATCH.grade, limit_c=MATCH.stands),
        Cure(pressure=NE("tape")),
        Tool(name=MATCH.tool),
        TEST(lambda hot, stands: stands < hot + MARGIN),
        NOT(Grade(role="bag-film", next_lower_c=MATCH.stands)),
    )
    @advice(
        id="SHELF-030",
        title="Find bag film for the heat, by its own sheet",
        reason=(
            "The cure is {hot:temperature} and {grade} is planned to {stands:temperature}; "
            "some grades stand more than their class, and only their sheet says which."
        ),
        cites=("nylon-bag-page", "faa-ac-43-13-1b"),
        limits=("shelf_margin",),
    )
    def film_by_its_sheet(
        self, hot: float, grade: str, stands: float, tool: str
    ) -> Condition:
        return Condition(
            "Bag film is at hand whose own sheet takes {hot:temperature} and "
            "{shelf_margin:difference} more; tape, felt and peel ply that go with it take "
            "as much.",
            "the sheets, at hand when the bag is built",
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Found(key="class-peel-ply", value=MATCH.peel_ply),
        Found(key="class-release-film", value=MATCH.release_film),
        Found(key="class-breather", value=MATCH.breather),
        Found(key="class-edge-breather", value=MATCH.edge_breather),
        Found(key="class-flash-tape", value=MATCH.flash_tape),
        Found(key="class-sealant-tape", value=MATCH.sealant_tape),
        Found(key="class-bag-film", value=MATCH.bag_film),
    )
    @advice(
        id="STEP-604",
        title="Read the class on every material before it goes under the bag",
        reason=(
            "A film, tape or felt of too low a class shrinks, melts or burns at "
            "{hot:temperature}, and one weak piece loses the bag."
        ),
        cites=("army-composites-manual", "common-practice"),
    )
    def read_the_labels(self, hot: float, **classes: float) -> Step:
        return Step(
            "bag",
            "Take each from the shelf with its sheet or label and read what it stands: "
            "the classes below are planning figures, and the grade's own sheet decides. "
            "What lies colder goes back. Hose, couplings and thermocouple wire inside the "
            "oven stand as much as the bag film.",
            quantities=[
                Quantity(words, classes[role.replace("-", "_")], "degC")
                for role, (_, words) in ROLES.items()
            ],
            hold_point=HoldPoint(
                "Every label read",
                "each stands its class or more, hose and couplings too",
                "grades and lots",
            ),
        )
