"""A route at nearly the price of the cheapest goes first if it spares a hazard."""

import re
from dataclasses import replace

import pytest

from advisor.knowledge.tables import load_knowledge

KNOWN = load_knowledge()
ONE = {"proposal": {}, "budget.total": None, "run.parts": 1}
TWELVE = ONE | {"run.parts": 12}
SAME = "counts as the same price"


def why_first(plan):
    """Return the sentence that says why the route is the plan's."""
    (one,) = [reason for reason in plan.route.reasons if reason.rule == "JOIN-060"]
    return one.sentence.replace("\u202f", " ")


def allowing(share):
    """Return the tables with another share that counts as the same price."""
    row = KNOWN.limits["price_tie"]
    figure = row.figure.model_copy(update={"value": share, "low": None, "high": None})
    limits = {**KNOWN.limits, "price_tie": row.model_copy(update={"figure": figure})}
    return replace(KNOWN, limits=limits)


def sure(plan):
    """Return the alternatives that leave nothing to prove."""
    return [one for one in plan.alternatives if not one.doubts]


def test_the_route_without_silica_goes_first_at_nearly_the_same_price(make_plan):
    plan = make_plan("cowl", ONE)
    cheapest = min(sure(plan), key=lambda one: one.cost_total)
    more = plan.route.cost_total - cheapest.cost_total
    assert KNOWN.tool_materials[cheapest.tool].dust == "silica"
    assert KNOWN.tool_materials[plan.route.tool].dust != "silica"
    assert 0 < more <= 0.1 * cheapest.cost_total
    assert f"Without its crystalline silica, this route costs {more:.0f} EUR more (" in (
        why_first(plan)
    )
    assert why_first(plan).endswith(f"up to 10 % more {SAME}.")
    assert f"costs {more:.0f} EUR less over the run, but brings crystalline silica" in (
        cheapest.lost_because
    )


def test_the_cheapest_that_brings_no_hazard_stays_first(make_plan):
    plan = make_plan("cowl", TWELVE)
    assert SAME not in why_first(plan)
    assert all(plan.route.cost_total <= one.cost_total for one in sure(plan))


def test_what_is_dearer_than_a_tie_is_not_moved_up(make_plan):
    plan = make_plan("cowl", ONE, knowledge=allowing(0.02))
    assert KNOWN.tool_materials[plan.route.tool].dust == "silica"
    assert SAME not in why_first(plan)


@pytest.mark.parametrize("priority", ["lead-time", "certainty"])
def test_where_cost_does_not_decide_there_is_no_tie_of_price(make_plan, priority):
    plan = make_plan("cowl", ONE | {"budget.priority": priority})
    assert SAME not in why_first(plan)


def test_the_wish_of_the_user_goes_before_the_tie(make_plan):
    plan = make_plan("cowl", ONE | {"proposal": {"tool": "ceramic-gypsum"}})
    assert plan.route.tool == "ceramic-gypsum"
    assert SAME not in why_first(plan)


def test_no_share_lets_a_route_with_more_to_prove_go_first(make_plan):
    plan = make_plan("cowl", ONE, knowledge=allowing(100.0))
    assert not plan.route.doubts
    assert {one.tool for one in plan.alternatives if one.doubts} >= {"mdf", "plywood"}


@pytest.mark.parametrize("parts", [1, 2, 3, 5, 40])
def test_only_a_hazard_keeps_a_cheaper_route_from_the_first_place(make_plan, parts):
    plan = make_plan("cowl", ONE | {"run.parts": parts})
    cheaper = [one for one in sure(plan) if one.cost_total < plan.route.cost_total]
    assert bool(cheaper) == (SAME in why_first(plan))
    for one in cheaper:
        assert plan.route.cost_total <= 1.1 * one.cost_total
        assert re.search(r"but (may bring|brings) .+; the plan does not", one.lost_because)
