"""What no plan may say, whatever the job: words left unfilled, miscounted or said twice."""

import re
from collections import Counter
from collections.abc import Mapping

import pytest

UNFILLED = r"\b(None|nan|inf|True|False)\b(?! in stock)|[{}]|\bTODO\b|\bXXX\b"
SPACED = r" {2}|\.\.|,,|,\.|;\.|\. \.| [,;](?! )|[a-z)] \.(?!\d)"
MISCOUNTED = (
    r"(?<![\d.,])1 (parts|tools|plies|pulls|joints|days|coats|points|hours|layers)\b|"
    r"(?<![\d.,])1 are\b|(?<![\d.,]) (0|[2-9]|\d\d+) (part|ply|pull|joint|day) "
)
ARTICLE = r"\b[Aa]n [bcdfgjklmnpqrstvwyz]|\b[Aa] (?!one\b|uni|use)[aeio][a-z]"
TWICE = r"\b(the|a|an|of|to|and|is|are|in|on|with|for) \1\b"


def texts(content, place=""):
    """Yield every text that a plan prints, with its place; what was typed is left out."""
    if isinstance(content, Mapping):
        for key, value in content.items():
            if key not in {"job", "shop", "sources", "grounds", "formula", "id"}:
                yield from texts(value, f"{place}.{key}")
    elif isinstance(content, list | tuple):
        for number, value in enumerate(content):
            yield from texts(value, f"{place}[{number}]")
    elif isinstance(content, str):
        yield place, content.replace("\u202f", " ").replace("\u2060", "")


def said(plan):
    """Return every text of a plan with its place."""
    return list(texts(plan.model_dump()))


@pytest.mark.parametrize(
    ("pattern", "wrong"),
    [
        (UNFILLED, "The tool is None thick"),
        (UNFILLED, "at {hot:temperature}"),
        (SPACED, "Sand it.. Then wipe it."),
        (SPACED, "Sand it  well."),
        (MISCOUNTED, "Cut 1 plies of 200 g/m²"),
        (MISCOUNTED, "and 1 are wanted"),
        (MISCOUNTED, "about 12 part a tool"),
        (ARTICLE, "the shop has a industrial oven"),
        (ARTICLE, "with an wedge"),
        (TWICE, "lay the the first ply"),
    ],
)
def test_no_text_of_a_plan_reads_so(few_plans, pattern, wrong):
    assert re.search(pattern, wrong)
    for number, plan in few_plans.items():
        for place, text in said(plan):
            found = re.search(pattern, text)
            assert not found, (number, place, found[0], text)


def repeated(plan):
    """Yield what a plan says twice where once is meant."""
    for kind, every in (
        ("condition", [one.text for one in plan.conditions]),
        ("consumable", [one.item for one in plan.consumables]),
        ("trial", [one.text for one in plan.trials]),
        ("finding", [one.label for one in plan.findings]),
        ("caution", [one.text for one in plan.cautions]),
        (
            "verdict on the proposal",
            [one.sentence for one in plan.proposal.conclusions] if plan.proposal else [],
        ),
    ):
        for text, count in Counter(every).items():
            if count > 1:
                yield f"{kind}: {text}"


def test_a_plan_says_nothing_twice_in_one_list(few_plans):
    for number, plan in few_plans.items():
        assert list(repeated(plan)) == [], number


def test_what_is_said_twice_is_found(first_plans):
    plan = next(one for one in first_plans.values() if one.conditions)
    twice = plan.model_copy(update={"conditions": plan.conditions * 2})
    assert len(list(repeated(twice))) == len(plan.conditions)


def test_the_lines_of_the_price_add_up_to_the_price(few_plans):
    """Each line is rounded to a hundredth; the sum may be off by half of that a line."""
    for number, plan in few_plans.items():
        for route in filter(None, (plan.route, *plan.alternatives)):
            times = {"tool": route.tools, "part": plan.job["run"]["parts"], "run": 1}
            total = sum(line.amount * times[line.per] for line in route.cost_lines)
            off = 0.005 * (1 + sum(times[line.per] for line in route.cost_lines))
            assert total == pytest.approx(route.cost_total, rel=0, abs=off), number
            assert route.cost_low <= route.cost_total <= route.cost_high, number
            assert route.cost_at_runs[str(plan.job["run"]["parts"])] * plan.job["run"][
                "parts"
            ] == pytest.approx(route.cost_total, abs=0.01 * plan.job["run"]["parts"])
