"""Vacuum: does the gauge follow the height, and the bag what seeps through the tool?"""

import tomllib
from importlib.resources import files

import pytest

from advisor.calculations.vacuum import leak_accepted
from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.reading import parse
from advisor.reasoning.engine import Reasoner
from advisor.shop import Shop


def found(plan, key):
    """Return one number of the plan."""
    return next(f for f in plan.findings if f.id == key)


def rules_of(plan):
    """Return the rules behind the plan's findings and steps."""
    return {one.conclusion.rule for one in (*plan.findings, *plan.steps)}


def step(plan, rule):
    return next(one for one in plan.steps if one.conclusion.rule == rule)


@pytest.mark.parametrize("name", ["panel", "cowl"])
def test_the_gauge_shows_less_the_higher_the_shop_lies(make_plan, name):
    low = make_plan(name, shop={"vacuum.altitude": 0, "vacuum.reading": "800 mbar"})
    high = make_plan(name, shop={"vacuum.altitude": 1500, "vacuum.reading": "800 mbar"})
    assert found(high, "gauge-expected").value < found(low, "gauge-expected").value
    assert found(low, "gauge-expected").judgement == "watch"
    assert found(high, "gauge-expected").judgement == "ok"


def test_the_leak_test_is_told_in_absolute_pressure(make_plan):
    plan = make_plan("panel")
    test = step(plan, "STEP-650")
    amounts = {one.label: one.value for one in test.quantities}
    end = amounts["Absolute pressure at the end, at most"]
    drop = amounts["Loss in a minute, at most"]
    start = end - 10 * drop
    assert "absolute" in test.hold_point.accept
    assert leak_accepted(
        start * 100, end * 100, 600, start * 100 + 1, drop * 100 / 60 + 1e-6
    )


def test_steady_pressure_is_read_where_pores_lie_under_the_bag(make_plan):
    assert "STEP-660" in rules_of(make_plan("cowl"))
    assert "STEP-660" not in rules_of(make_plan("panel"))


def test_a_block_that_seeps_more_than_the_pump_takes_is_bagged_all_round(make_plan):
    plan = make_plan("cowl")
    seeps = found(plan, "seep-pump")
    assert seeps.low < seeps.value < seeps.high
    assert seeps.judgement == "watch"


def judged_bags(flow):
    """Return the rules that spoke of a bag on a block whose seal is not tight."""
    demo = files("advisor.demo")
    job, shop = (
        tomllib.loads(demo.joinpath(f"{name}.toml").read_text("utf-8"))
        for name in ("cowl", "shop")
    )
    shop["vacuum"]["flow"] = flow
    job, shop = parse(job, Job, "cowl.toml"), parse(shop, Shop, "shop.toml")
    decision = Decision(job, shop, Reasoner(load_knowledge()))
    judged = decision.bags_on("aerated-concrete-500", "high-temp-epoxy")["bag-to-tool"]
    return judged.verdict, {one.conclusion.rule for one in judged.concluded}


def test_a_great_pump_lets_the_bag_on_the_face_with_proof():
    verdict, rules = judged_bags(10)
    assert verdict == "ruled-out"
    assert "BAG-122" in rules
    verdict, rules = judged_bags(600)
    assert verdict == "doubtful"
    assert "BAG-124" in rules
    assert "BAG-122" not in rules


def test_a_tight_tool_has_no_seepage(make_plan):
    assert "SEEP-010" not in rules_of(make_plan("panel"))
