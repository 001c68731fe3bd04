"""Every line of a plan can be asked about, and is led back to the user's own input."""

import pytest

from advisor.questioning.told import answer_told
from advisor.questioning.why import UnknownIdError, why
from advisor.reasoning.provenance import conclusions_in
from tests.conftest import DEMO

LEAVES = {"job", "shop", "assumption", "table"}


@pytest.fixture(scope="module", params=DEMO)
def plan(request, make_plan):
    return make_plan(request.param)


def lines_of(plan):
    """Yield the id of every option, number, caution, condition and step of a plan."""
    for group in (plan.options, plan.findings, plan.cautions):
        yield from (one.id for one in group)
    yield from (str(step.n) for step in plan.steps)
    yield from (one.conclusion.id for one in plan.conditions)
    yield from (one.conclusion.id for one in plan.consumables)
    yield "route"


def test_every_line_of_a_plan_has_an_answer(plan):
    for id in lines_of(plan):
        answer = why(plan, id)
        assert answer.about
        assert answer.reasons, id
        assert answer_told(answer, plan).startswith(answer.about)


def test_every_conclusion_of_a_plan_has_an_answer_by_its_own_id_and_its_rule(plan):
    for said in {one.id: one for one in conclusions_in(plan)}.values():
        assert said.id in {one.id for one in why(plan, said.rule).reasons}


def test_a_chain_goes_from_what_was_given_to_what_was_asked(plan):
    for id in lines_of(plan):
        for reason in why(plan, id).reasons:
            *_, last = reason.chain
            assert last.said.id == reason.id
            for link in reason.chain:
                assert all(n < link.n for n in link.follows)
                assert {one.kind for one in link.inputs} <= LEAVES
            used = {n for link in reason.chain for n in link.follows} | {last.n}
            assert used == {link.n for link in reason.chain}, f"{id}: an idle sentence"


def test_no_chain_tells_a_sentence_twice(plan):
    for id in lines_of(plan):
        for reason in why(plan, id).reasons:
            said = [(link.said.id, link.said.sentence) for link in reason.chain]
            assert len(said) == len(set(said))


def test_what_is_ruled_out_says_by_what_kind_of_thing(plan):
    for option in plan.options:
        answer = why(plan, option.id)
        weights = {one.weight for one in answer.reasons}
        if option.verdict == "ruled-out":
            assert weights & {"hard limit", "money or time"}, option.id
            assert answer.outcome.startswith("It is ruled out: ")
        else:
            assert "hard limit" not in weights


def test_only_a_budget_is_only_money(make_plan):
    plan = make_plan("cowl", {"budget.total": 500})
    answer = why(plan, "carbon-laminate")
    assert answer.outcome == "It is ruled out: money or time."
    [against] = [one for one in answer.reasons if one.weight]
    assert "budget is 500 EUR" in against.chain[-1].said.sentence


def test_a_hard_limit_is_told_with_its_number_and_its_source(make_plan):
    plan = make_plan("cowl")
    answer = why(plan, "pu-board")
    assert answer.outcome == "It is ruled out: hard limit."
    text = answer_told(answer, plan)
    assert "must never be taken above 80\u202f°C" in text
    assert "you gave: cure.temperature = 90 °C" in text
    assert "short limit, pu-board = 80 (70 to 130) °C [" in text


def test_what_lost_says_whether_by_money_by_doubt_or_for_the_proposal(make_plan):
    plan = make_plan("cowl")
    lost = {one.lost_by: one for one in plan.alternatives}
    assert "your own proposal stands" in why(plan, lost["proposal"].tool).outcome
    plan = make_plan("cowl", {"proposal": None})
    lost = {one.lost_by: one for one in plan.alternatives}
    assert "a doubt" in why(plan, lost["doubt"].tool).outcome
    assert "only money or time" in why(plan, lost["money-or-time"].tool).outcome


def test_a_plan_without_a_route_says_what_blocks_or_asks(make_plan):
    blocked = why(make_plan("cowl", {"budget.total": 500}), "route")
    assert blocked.outcome == "None stands."
    assert blocked.reasons
    asks = why(make_plan("cowl", {"cure.temperature": None}), "route")
    assert "before what is asked is answered" in asks.outcome
    assert asks.reasons


def test_an_unknown_id_names_the_nearest(make_plan):
    with pytest.raises(UnknownIdError) as error:
        why(make_plan("cowl"), "pu-bord")
    assert "pu-board" in error.value.near


def test_the_sources_that_are_cited_are_listed_once_in_the_order_of_their_numbers(plan):
    text = answer_told(why(plan, "route"), plan)
    listed = text.split("\nSources\n")[1]
    numbers = [int(line.split(".")[0]) for line in listed.splitlines() if line[4:5] == "."]
    assert numbers == list(range(1, len(numbers) + 1))
