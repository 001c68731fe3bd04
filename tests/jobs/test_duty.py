"""Work that the law keeps for others is handed to them; other work is left alone."""

import re

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


@pytest.mark.published("us-14-cfr-21-9", at="paragraph (a), its condition and (1) to (7)")
@pytest.mark.parametrize(
    "printed",
    [
        "replacement or modification article",
        "likely to be installed on a type-certificated product",
        "under a type certificate",
        "production approval",
        "standard part",
        "commercial part",
        "owner or operator",
        "quality system",
        "approved by the FAA",
    ],
)
def test_the_law_on_aircraft_parts_keeps_its_condition_and_every_way(printed):
    """The words in quotation are those of the paragraph."""
    assert printed in DUTIES["aircraft"].law


@pytest.mark.published("eu-2014-68-article-1", at="article 1(1)")
def test_pressure_law_begins_where_it_is_printed():
    printed = "a maximum allowable pressure PS greater than 0,5 bar"
    figure = printed.removesuffix(" bar").rpartition(" ")[2].replace(",", ".")
    assert f"more than {figure} bar" in DUTIES["pressure"].law


@pytest.mark.published("eu-2016-425-article-19", at="article 19, (a) to (c)")
def test_only_category_i_of_what_protects_people_is_left_to_its_maker():
    printed = {
        "Category I": "internal production control (module A)",
        "Category II": "type-examination (module B)",
        "Category III": "type-examination (module B)",
    }
    left_out = [name for name, way in printed.items() if "type-examination" not in way]
    law = DUTIES["personal-protection"].law.replace("category", "Category")
    assert re.findall(r"Category [IV]+", law) == left_out
    assert "type-examination" in law


@pytest.mark.published("us-49-usc-30112", at="paragraph (a)")
@pytest.mark.parametrize("printed", ["for sale", "complies with the standard", "certif"])
def test_the_law_on_vehicle_parts_keeps_its_conditions(printed):
    assert printed in DUTIES["road-safety"].law


@pytest.mark.parametrize(
    ("title", "duty"),
    [
        ("Helmets for climbers", "personal-protection"),
        ("Two brakes", "road-safety"),
        ("Drone arm", "aircraft"),
        ("Wing skin, left", "aircraft"),
        ("Racing seat", "road-safety"),
        ("Hand-made UAV tail", "aircraft"),
        ("Prostheses, below the knee", "medical"),
        ("Gas tank shell", "pressure"),
        ("Winches' drum", "lifting"),
    ],
)
def test_plurals_and_phrases_of_a_title_are_understood(title, duty):
    assert [id for id, row in DUTIES.items() if row.hint(title)] == [duty]


@pytest.mark.parametrize(
    "title",
    [
        "Rear wing endplate",
        "Wheel arch liner",
        "Toilet seats",
        "Cylinder head cover",
        "Wiring harness tray",
        "Swing tray",
        "Hovercraft duct",
        "Forklift mast cover",
    ],
)
def test_a_word_that_means_something_else_is_no_alarm(title):
    assert not [id for id, row in DUTIES.items() if row.hint(title)]


@pytest.mark.parametrize("duty", DUTIES)
def test_every_word_and_every_exception_of_a_duty_counts(duty):
    row = DUTIES[duty]
    for word in row.words:
        assert row.hint(f"Left {word}s, thin") in row.words, word
    for phrase in row.but:
        bare = row.model_copy(update={"but": ()})
        assert bare.hint(phrase), f"{phrase}: no word of the row stands in it"
        assert not row.hint(phrase)


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
