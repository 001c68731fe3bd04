"""Work that the law keeps for others is handed to them; other work is left alone."""

import pytest

from advisor.knowledge.tables import load_knowledge

DUTIES = load_knowledge().duties


def conditions(plan):
    """Return the conditions by the rule that asks for them."""
    return {one.conclusion.rule: one for one in plan.conditions}


@pytest.mark.parametrize("duty", DUTIES)
def test_each_duty_is_handed_to_those_who_may_approve_it(make_plan, duty):
    plan = make_plan("cowl", {"part.duty": duty})
    handed = conditions(plan)["DUTY-010"]
    assert DUTIES[duty].approver in handed.text
    assert "neither design data nor an approval" in handed.conclusion.sentence
    assert set(DUTIES[duty].source) <= set(handed.conclusion.sources)
    step = next(one for one in plan.steps if one.conclusion.rule == "STEP-014")
    assert step.hold_point
    assert step.n < next(one.n for one in plan.steps if one.phase != step.phase)


@pytest.mark.published("us-14-cfr-21-9", at="paragraph (a)")
def test_the_law_on_aircraft_parts_is_named_by_its_clause():
    assert "may only be produced under an approval (14 CFR 21.9" in DUTIES["aircraft"].law


@pytest.mark.published("eu-2014-68-article-1", at="article 1(1)")
def test_pressure_law_begins_where_it_is_printed():
    assert "more than 0.5 bar" in DUTIES["pressure"].law


@pytest.mark.parametrize(
    ("title", "duty"),
    [
        ("Aileron shroud", "aircraft"),
        ("Helmet shell", "personal-protection"),
        ("Brake duct", "road-safety"),
    ],
)
def test_a_title_that_hints_at_an_approval_is_asked_about(make_plan, title, duty):
    asked = conditions(make_plan("cowl", {"title": title}))["DUTY-020"]
    assert DUTIES[duty].name in asked.text


def test_none_settles_the_question(make_plan):
    plan = make_plan("cowl", {"title": "Brake duct", "part.duty": "none"})
    assert not {"DUTY-010", "DUTY-020"} & set(conditions(plan))


def test_a_plain_part_is_left_alone_and_the_plan_says_what_it_took(make_plan):
    plan = make_plan("cowl")
    assert not {"DUTY-010", "DUTY-020"} & set(conditions(plan))
    assert any("part.duty" in one for one in plan.assumptions)
