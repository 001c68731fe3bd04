"""A guess is answered point by point and has no weight in the decision."""

import pytest

from advisor.knowledge.tables import load_knowledge
from advisor.questioning.guess import Guess, read_guess, with_guesses
from advisor.reading import InputError


def answered(plan, *guesses):
    made = with_guesses(plan, [Guess(*one.split("=")) for one in guesses])
    assert made.model_copy(update={"guesses": ()}) == plan
    return made.guesses


def test_a_right_guess_is_told_so(make_plan):
    plan = make_plan("cowl")
    [one] = answered(plan, f"tool={plan.route.tool}")
    assert one.verdict == "right"
    assert one.text.endswith("as the tool: so does the plan.")


def test_a_family_stands_for_the_one_of_it_that_fared_best(make_plan):
    [one] = answered(make_plan("cowl"), "tool=aerated-concrete")
    assert one.verdict == "right"


def test_a_wrong_guess_is_told_the_limit_and_what_the_plan_takes(make_plan):
    plan = make_plan("cowl")
    [one] = answered(plan, "tool=mdf")
    assert one.verdict == "ruled-out"
    assert one.text.startswith("MDF board as the tool: it is ruled out: hard limit.")
    assert "serves to 80" in one.text
    assert "The plan takes aerated-concrete block" in one.text
    out = next(option for option in plan.options if option.id == "mdf")
    assert one.conclusions == tuple(r for r in out.reasons if r.kind == "ruled-out")


def test_a_guess_that_stands_is_told_why_it_lost(make_plan):
    [one] = answered(make_plan("cowl", {"proposal": None}), "tool=carbon-laminate")
    assert one.verdict == "stands"
    assert "lost" in one.text


def test_each_point_is_answered_in_the_order_given(make_plan):
    points = ("bagging=envelope", "tool=steel", "release=wax", "sealing=none")
    records = answered(make_plan("cowl"), *points)
    assert [f"{one.stage}={one.id}" for one in records] == list(points)


def test_what_cannot_be_judged_yet_says_so(make_plan):
    asks = make_plan("cowl", {"cure.temperature": None})
    assert answered(asks, "tool=mdf")[0].verdict == "not-judged"
    blocked = make_plan("cowl", {"budget.total": 500})
    records = answered(blocked, "tool=mdf", "release=wax")
    assert [one.verdict for one in records] == ["ruled-out", "not-judged"]


@pytest.mark.parametrize("text", ["mdf", "tool=", "=mdf", "tol=mdf", ""])
def test_what_is_no_guess_is_refused(text):
    with pytest.raises(InputError, match=r"^--guess: given .* accepted STAGE=ID"):
        read_guess(text, load_knowledge())


def test_an_unknown_option_names_the_nearest():
    with pytest.raises(InputError, match="Did you mean 'mdf'"):
        read_guess("tool=mdff", load_knowledge())
