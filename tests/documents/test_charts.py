"""Charts: their points are the plan's numbers, no colour is needed, words stand beside."""

import math
import re
from datetime import date
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from advisor.documents.pictures.cost_chart import cost_chart
from advisor.documents.render import html_of

DAY = date(2026, 3, 14)


@pytest.fixture(scope="module")
def chart(make_plan):
    return cost_chart(make_plan("cowl"))


def test_it_is_black_and_told_apart_by_dashes(chart):
    colours = set(re.findall(r"(?:fill|stroke)=\"(#[0-9a-f]+)", chart.svg))
    assert colours <= {"#000000", "#ffffff"}
    dashes = set(re.findall(r"stroke-dasharray=\"([^\"]+)", chart.svg))
    assert len(dashes) >= 4


def test_it_names_every_route_it_shows_and_says_the_prices_in_words(chart, make_plan):
    plan = make_plan("cowl")
    shown = (plan.route, *plan.alternatives[:4])
    texts = " ".join(ElementTree.fromstring(chart.svg).itertext())
    for one in shown:
        assert one.name.lower() in texts.lower()
    words = chart.words.replace("\u202f", " ")
    assert f"At {plan.job['run']['parts']} parts" in words
    assert f"{round(plan.route.cost_per_part)}" in words


def test_the_first_line_goes_through_the_costs_of_the_plan(chart, make_plan):
    """Read back from the drawing: both axes are logarithmic, so steps keep their ratio."""
    at_runs = make_plan("cowl").route.cost_at_runs
    costs = [at_runs[run] for run in sorted(at_runs, key=int)]
    line = r'<g id="cost-line2d_\d+">\s*<path d="([^"]+)" clip-path[^>]*stroke-width="2"'
    path = re.search(line, chart.svg).group(1)
    heights = [float(y) for _, y in re.findall(r"([\d.]+) ([\d.]+)", path)]
    steps = [before - after for before, after in pairwise(heights)]
    ratios = [math.log(after / before) for before, after in pairwise(costs)]
    scale = steps[0] / ratios[0]
    assert steps == pytest.approx([scale * ratio for ratio in ratios], abs=0.05)


def test_a_route_that_stands_alone_has_nothing_to_be_held_against(make_plan):
    plan = make_plan("cowl")
    assert cost_chart(plan.model_copy(update={"alternatives": ()})) is None
    assert cost_chart(make_plan("cowl", {"budget.total": 10})) is None


def test_the_plan_shows_it_with_a_title_for_who_cannot_see_it(make_plan, chart):
    html = html_of("plan", make_plan("cowl"), DAY)
    assert "<title>Cost of a part" in html
    assert html.count('class="chart"') == 2


def test_lines_that_lie_on_each_other_are_one_line_of_two_names(make_plan):
    plan = make_plan("cowl")
    twin = plan.alternatives[0].model_copy(
        update={"name": "Its twin", "cost_at_runs": plan.route.cost_at_runs}
    )
    drawn = cost_chart(plan.model_copy(update={"alternatives": (twin,)}))
    words = " ".join(ElementTree.fromstring(drawn.svg).itertext())
    assert plan.route.name in words
    assert "on it its twin" in words
    assert "stroke-dasharray" not in drawn.svg, "a second line"
