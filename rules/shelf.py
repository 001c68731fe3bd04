"""Temperature classes of what lies in the bag: which to pull, and where there is none."""

from advisor.knowledge.tables import limit
from advisor.measures import STYLES
from advisor.reasoning.conclusions import Condition, Finding, HoldPoint, Quantity, Step
from advisor.reasoning.expert import MATCH, NOT, TEST, Rule
from advisor.reasoning.facts import Bagging, Finish, Found, Grade, Shelf, Tool
from advisor.reasoning.rulebook import advice

MARGIN = limit("shelf_margin")
LEAD = limit("air_lead")
# What lies over the plies in the order in which a bag is built, then what presses them
# otherwise; the class of each is found under a key of its own.
ROLES = {
    "peel-ply": ("class-peel-ply", "Peel ply"),
    "release-film": ("class-release-film", "Release film over the plies"),
    "breather": ("class-breather", "Breather"),
    "edge-breather": ("class-edge-breather", "Edge breather"),
    "flash-tape": ("class-flash-tape", "Flash tape"),
    "sealant-tape": ("class-sealant-tape", "Sealant tape"),
    "bag-film": ("class-bag-film", "Bag film"),
    "shrink-tape": ("class-shrink-tape", "Shrink tape"),
    "bladder": ("class-bladder", "Bladder"),
}


def needed_c(hot: float, margin: float = MARGIN, lead: float = LEAD) -> float:
    """Return what a material in the load must stand: the cure and all that runs ahead.

    The air leads the laminate while it heats, and the hottest spot of the load leads the
    coldest; the two are not added, for the laminate leads only where the air has led it.
    """
    return hot + max(margin, lead)


def lies_in(role: str, after: str) -> bool:
    """Return whether a material of the bag is laid in this job: peel ply for bonding."""
    return role != "peel-ply" or after == "bond"


def pulled(
    hot: float, roles: list[str], limits: list[float], after: str
) -> dict[str, float]:
    """Return the class to pull of each material, in the order in which they are laid.

    Where no class held is high enough it is the temperature that a grade's own sheet must
    show.
    """
    needed = needed_c(hot)
    held = list(zip(roles, limits, strict=True))
    return {
        role: min((c for one, c in held if one == role and c >= needed), default=needed)
        for role in ROLES
        if role in roles and lies_in(role, after)
    }


def class_of(role: str, stands: float, needed: float, held: bool) -> Finding:
    """Return the class that a material must have; `held` if the table holds one."""
    key, words = ROLES[role]
    return Finding(
        key,
        f"{words}: class, at least",
        stands,
        "degC",
        "lowest class held at or above T + max(margin, air lead)"
        if held
        else "T + max(margin, air lead); no class held reaches it",
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
        Finish(after=MATCH.after),
        Tool(name=MATCH.tool),
        TEST(lambda role, after: lies_in(role, after)),
        TEST(lambda hot, stands, below: below < needed_c(hot) <= stands),
    )
    @advice(
        id="SHELF-010",
        title="Pull the class that the heat asks for",
        reason=(
            "{grade} stands {stands:temperature}: the lowest class above the "
            "{hot:temperature} of the cure by {shelf_margin:difference} for the hottest "
            "spot of the load and by the {air_lead:difference} that the air may lead, "
            "whichever is more."
        ),
        cites=("helicopter-repair-manual", "common-practice"),
        limits=("shelf_margin", "air_lead"),
    )
    def class_to_pull(
        self,
        hot: float,
        role: str,
        grade: str,
        stands: float,
        below: float,
        after: str,
        tool: str,
    ) -> Finding:
        return class_of(role, stands, needed_c(hot), held=True)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Grade(role=MATCH.role, name=MATCH.grade, limit_c=MATCH.stands),
        Finish(after=MATCH.after),
        Tool(name=MATCH.tool),
        TEST(lambda role, after: lies_in(role, after)),
        TEST(lambda hot, stands: stands < needed_c(hot)),
        NOT(Grade(role=MATCH.role, next_lower_c=MATCH.stands)),
    )
    @advice(
        id="SHELF-020",
        title="Find a grade for the heat, by its own sheet",
        reason=(
            "The highest class held here, {grade}, is planned to {stands:temperature}; "
            "the cure is {hot:temperature}, its hottest spot may run "
            "{shelf_margin:difference} ahead and the air {air_lead:difference}. Some "
            "grades of a class stand more."
        ),
        cites=("helicopter-repair-manual", "common-practice"),
        limits=("shelf_margin", "air_lead"),
    )
    def none_stands(
        self, hot: float, role: str, grade: str, stands: float, after: str, tool: str
    ) -> Finding:
        return class_of(role, needed_c(hot), needed_c(hot), held=False)

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Grade(role="bag-film", name=MATCH.grade, limit_c=MATCH.stands),
        Tool(name=MATCH.tool),
        TEST(lambda hot, stands: stands < needed_c(hot)),
        NOT(Grade(role="bag-film", next_lower_c=MATCH.stands)),
    )
    @advice(
        id="SHELF-030",
        title="Find bag film for the heat, by its own sheet",
        reason=(
            "The cure is {hot:temperature} and {grade} is planned to {stands:temperature}, "
            "the least that is printed of it: sources differ, for grades do, and only the "
            "maker of a grade can say what it stands."
        ),
        cites=("nylon-bag-page", "faa-ac-43-13-1b", "army-composites-manual"),
        limits=("shelf_margin", "air_lead"),
    )
    def film_by_its_sheet(
        self, hot: float, grade: str, stands: float, tool: str
    ) -> Condition:
        return Condition(
            f"Bag film is at hand whose own sheet takes "
            f"{STYLES['temperature'](needed_c(hot))}; tape, felt and peel ply that go with "
            "it take as much.",
            "the sheets, at hand when the bag is built",
        )

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Shelf(roles=MATCH.roles, limits_c=MATCH.limits),
        Finish(after=MATCH.after),
        Bagging(name=MATCH.bag, pressure=MATCH.mode),
    )
    @advice(
        id="STEP-604",
        title="Read the class on every material before it goes over the plies",
        reason=(
            "A film, tape or felt of too low a class shrinks, melts or burns at "
            "{hot:temperature}, and one weak piece loses the part."
        ),
        cites=("army-composites-manual", "common-practice"),
        limits=("shelf_margin", "air_lead"),
    )
    def read_the_labels(
        self,
        hot: float,
        roles: list[str],
        limits: list[float],
        after: str,
        bag: str,
        mode: str,
    ) -> Step:
        wire = "thermocouple wire inside the oven stand"
        with_it = {
            "tape": f"The stands of the mandrel and {wire} as much.",
            "bladder": f"Air line, couplings, valves and {wire} as much as the bladder.",
        }.get(mode, f"Hose, couplings and {wire} as much as the bag film.")
        return Step(
            "bag",
            "Take each from the shelf with its sheet or label and read what it stands: "
            "the classes below are planning figures, and the grade's own sheet decides. "
            f"What stands less goes back. {with_it}",
            quantities=[
                Quantity(ROLES[role][1], stands, "degC")
                for role, stands in pulled(hot, roles, limits, after).items()
            ],
            hold_point=HoldPoint(
                "Every label read",
                "each stands its class or more, and all that goes in with it",
                "grades and lots",
            ),
        )
