import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.cost import (
    BreakEven,
    Route,
    break_even_parts,
    coats_needed,
    cost_per_part,
    route_total,
    run_total,
    tools_needed,
)

counts = st.integers(1, 10_000)
money = st.floats(0.0, 1e5)
routes = st.builds(
    Route, st.integers(0, 500), st.integers(0, 500), st.integers(1, 20), st.integers(0, 50)
)


@given(counts, counts)
def test_tools_are_enough_and_one_fewer_is_not(parts, parts_per_tool):
    tools = tools_needed(parts, parts_per_tool)
    assert (tools - 1) * parts_per_tool < parts <= tools * parts_per_tool


@pytest.mark.parametrize(("parts", "tools"), [(1, 1), (5, 1), (6, 2), (10, 2), (11, 3)])
def test_tool_is_renewed_with_the_part_after_its_last(parts, tools):
    assert tools_needed(parts, parts_per_tool=5) == tools


@given(money, st.integers(0, 100), money, counts)
def test_cost_of_each_part_times_the_parts_is_the_total(tool_cost, tools, part_cost, parts):
    total = run_total(tool_cost, tools, part_cost, parts)
    each = cost_per_part(tool_cost, tools, part_cost, parts)
    assert each * parts == pytest.approx(total)
    assert each >= part_cost * (1 - 1e-12)


@given(routes, st.integers(1, 500))
def test_one_part_more_never_costs_less(route, parts):
    assert route_total(route, parts + 1) >= route_total(route, parts)


@given(routes, routes)
def test_break_even_is_where_the_totals_say(route_a, route_b):
    found = break_even_parts(route_a, route_b, up_to_parts=60)
    pays = [route_total(route_b, n) <= route_total(route_a, n) for n in range(1, 61)]
    assert found.first == (pays.index(True) + 1 if any(pays) else None)
    if found.lasting is None:
        assert not pays[-1]
    else:
        assert all(pays[found.lasting - 1 :])
        assert found.lasting == 1 or not pays[found.lasting - 2]


@given(routes)
def test_route_is_no_dearer_than_itself_from_the_first_part(route):
    assert break_even_parts(route, route, up_to_parts=20) == BreakEven(1, 1)


def test_durable_tool_pays_when_the_third_cheap_one_would_be_made():
    # 100 for every five parts against 250 once: 200 at ten parts, 300 at eleven.
    block = Route(0.0, 100.0, 5, 10.0)
    plate = Route(0.0, 250.0, 1000, 10.0)
    assert break_even_parts(block, plate, 100) == BreakEven(first=11, lasting=11)


def test_totals_that_cross_more_than_once_have_a_later_lasting_break_even():
    # A: 100 per five parts.  B: 180 per ten parts and 1 a part more.
    # At 6 parts 200 against 186; at 11 300 against 371; again at 16, 21, 26, 31.
    route_a = Route(0.0, 100.0, 5, 0.0)
    route_b = Route(0.0, 180.0, 10, 1.0)
    assert break_even_parts(route_a, route_b, 30) == BreakEven(first=6, lasting=26)
    assert break_even_parts(route_a, route_b, 31) == BreakEven(first=6, lasting=None)


def test_route_that_never_pays_has_no_break_even():
    assert break_even_parts(
        Route(0.0, 100.0, 5, 1.0), Route(900.0, 100.0, 5, 1.0), 50
    ) == BreakEven(None, None)


@pytest.mark.parametrize(
    ("call", "values", "named"),
    [
        (tools_needed, (0, 5), "parts is 0"),
        (tools_needed, (5, 0), "parts_per_tool is 0"),
        (tools_needed, (2.5, 5), "parts is 2.5"),
        (run_total, (-1.0, 1, 1.0, 1), "tool_cost is -1.0"),
        (run_total, (1.0, -1, 1.0, 1), "tools is -1"),
        (run_total, (1.0, 1, math.nan, 1), "part_cost is nan"),
        (cost_per_part, (math.inf, 1, 1.0, 1), "tool_cost is inf"),
        (route_total, (Route(-1.0, 1.0, 1, 1.0), 1), "fixed_cost is -1.0"),
        (break_even_parts, (Route(0, 1, 1, 1), Route(0, 1, 1, 1), 0), "up_to_parts is 0"),
    ],
)
def test_cost_refuses_what_does_not_hold(call, values, named):
    with pytest.raises(ValueError, match=named):
        call(*values)


@given(st.integers(1, 200), st.integers(1, 30), st.integers(1, 30))
def test_a_tool_is_coated_anew_whenever_tool_or_coat_is_used_up(
    parts, parts_per_tool, parts_per_coat
):
    """Made part by part, as on the bench."""
    coats = on_tool = on_coat = 0
    for _ in range(parts):
        if on_tool == 0 or on_coat == parts_per_coat:
            coats, on_coat = coats + 1, 0
        on_coat += 1
        on_tool = (on_tool + 1) % parts_per_tool
    assert coats_needed(parts, parts_per_tool, parts_per_coat) == coats
