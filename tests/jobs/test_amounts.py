"""What to pull and order for the run, and how the heaviest piece is lifted."""

import re

import pytest

from advisor.knowledge.tables import load_knowledge


def uses(plan):
    """Return quantities by item."""
    return {one.item: one.quantity for one in plan.consumables}


def rules(plan):
    """Return the rules that set conditions."""
    return {one.conclusion.rule for one in plan.conditions}


@pytest.mark.parametrize(
    "item",
    [
        "Prepreg",
        "Bag film",
        "Sealant tape",
        "Breather",
        "Release film over the plies",
    ],
)
def test_the_run_takes_as_often_as_there_are_parts(make_plan, item):
    pulled = uses(make_plan("cowl"))
    each = pulled[f"{item}, each part"]
    assert pulled[f"{item}, all 12 parts"] == pytest.approx(12 * each, rel=1e-4)


def test_a_single_part_is_listed_once(make_plan):
    pulled = uses(make_plan("cowl", {"run.parts": 1}))
    assert "Prepreg, each part" in pulled
    assert not [item for item in pulled if ", all " in item]


def test_two_people_carry_what_is_a_little_too_heavy_for_one(make_plan):
    # HSE guidance on the Manual Handling Operations Regulations 1992, paragraph 120: two
    # lift about two thirds of the sum of what each could, so 4/3 of one person's lift.
    hoist, none = {"people.hoist": True}, {"people.hoist": False}
    for shop in (hoist, none):
        assert "LIFT-038" in rules(make_plan("panel", shop=shop))
        longer = rules(make_plan("panel", {"part.length": 800}, shop=shop))
        assert "LIFT-038" not in longer
    assert "LIFT-040" in rules(make_plan("panel", shop=hoist | {"people.count": 1}))


def test_two_people_without_a_hoist_have_the_lift_assessed(make_plan):
    no_hoist = {"people.hoist": False}
    longer = {"part.length": 800}
    assert {"LIFT-045", "LIFT-050"} <= rules(make_plan("panel", longer, shop=no_hoist))
    assert not {"LIFT-045", "LIFT-050"} & rules(make_plan("panel", shop=no_hoist))
    alone = rules(make_plan("panel", shop=no_hoist | {"people.count": 1}))
    assert "LIFT-050" in alone
    assert "LIFT-045" not in alone
    assert not {"LIFT-045", "LIFT-050"} & rules(make_plan("cowl"))


def test_what_is_far_too_heavy_is_lifted_by_no_hands(make_plan):
    no_hoist = {"people.hoist": False, "people.count": 8}
    assert "LIFT-045" not in rules(make_plan("cowl", shop=no_hoist))
    assert "LIFT-048" in rules(make_plan("cowl", shop=no_hoist))
    assert "LIFT-048" not in rules(make_plan("panel", shop=no_hoist))
    assert "LIFT-048" not in rules(make_plan("cowl"))


def found(plan, id):
    """Return the value of a finding."""
    return next(one.value for one in plan.findings if one.id == id)


def test_what_the_tools_are_made_of_is_on_the_list_for_all_of_them(make_plan):
    plan = make_plan("cowl")
    pulled, tools = uses(plan), plan.route.tools
    assert tools == 2
    assert pulled["Blocks for the tools of the run"] == tools * found(plan, "stock-pieces")
    bonded = pulled["Adhesive for the joints of the blanks"]
    assert bonded == pytest.approx(tools * found(plan, "bond-adhesive"), rel=1e-4)
    row = load_knowledge().sealers["epoxy-glass-skin"]
    mass = pulled["Seal, its coats and plies together"]
    cloth = pulled["Glass cloth for the skin of the tools"]
    area = mass / row.material_use.si
    assert area > tools * found(plan, "face-area")
    assert cloth == pytest.approx(3 * area * 1.25, rel=1e-3)


def test_a_tool_in_stock_is_neither_bought_nor_sealed(make_plan):
    pulled = uses(make_plan("panel"))
    assert not [item for item in pulled if re.search("tools|blanks|Seal,", item)]


def test_a_core_that_is_not_sold_in_sizes_is_listed_by_mass(make_plan):
    plan = make_plan("duct")
    mass = uses(plan)["Tool material, as it stays in the tools of the run"]
    assert mass == pytest.approx(plan.route.tools * found(plan, "tool-mass"), rel=1e-4)


def test_peel_ply_dam_and_strings_follow_the_bag(make_plan):
    plain, bonded = (
        uses(make_plan("cowl")),
        uses(make_plan("cowl", {"finish.after": "bond"})),
    )
    assert "Peel ply, each part" not in plain
    film = bonded["Release film over the plies, each part"]
    assert bonded["Peel ply, each part"] == film
    assert plain["Edge dam, each part"] == pytest.approx(2 * (0.62 + 0.44))
    assert plain["Vent strings of dry glass tow, each part"] == 8.0
    assert uses(make_plan("duct"))["Vent strings of dry glass tow, each part"] == 4.0
    closed = {"finish.both_faces": True, "finish.after": "bond", "proposal": {}}
    shut = uses(make_plan("cowl", closed | {"budget.total": 900_000}))
    assert not [item for item in shut if re.search("Peel|dam|strings|Release film", item)]


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_as_many_thermocouples_are_listed_as_are_placed(make_plan, name):
    plan = make_plan(name)
    [placed] = [one for one in plan.steps if one.conclusion.rule == "STEP-525"]
    counted = sum(one.value for one in placed.quantities)
    assert uses(plan)["Thermocouples, checked"] == counted


def test_gloves_are_there_for_everyone(make_plan):
    def pairs(people):
        pulled = uses(make_plan("panel", shop={"people.count": people}))
        return next(n for item, n in pulled.items() if item.startswith("Gloves"))

    assert (pairs(1), pairs(4)) == (1.0, 4.0)


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_the_lines_add_up_to_what_the_run_costs(make_plan, name):
    plan = make_plan(name)
    route, parts = plan.route, plan.job["run"]["parts"]
    per = {
        kind: sum(one.amount for one in route.cost_lines if one.per == kind)
        for kind in ("tool", "part")
    }
    total = per["tool"] * route.tools + per["part"] * parts
    assert route.cost_total == pytest.approx(total, abs=0.02 * parts)
    assert route.cost_at_runs[str(parts)] == pytest.approx(route.cost_per_part, abs=0.01)


def test_release_is_listed_by_whole_applications(make_plan):
    """Five parts an application, ten a tool: three for twelve parts."""
    plan = make_plan("cowl")
    assert load_knowledge().releases[plan.route.release].pulls.si == 5.0
    assert plan.route.parts_per_tool == 10
    assert uses(plan)["Release, applications over the run"] == 3.0


def test_only_tools_are_shared_by_the_run(make_plan):
    """A part takes as much film, felt and prepreg in a run of 500 as in one of 10."""
    at = make_plan("cowl").route.cost_at_runs
    assert at["500"] == pytest.approx(at["10"], abs=0.01)
    assert at["1"] > at["2"] > at["5"] > at["10"]
