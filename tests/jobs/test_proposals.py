"""Proposed pieces that stand alone and yet in no route, or not in one together."""

import pytest


def said(plan, rule):
    """Return what a rule of joining says of the proposal."""
    return [one for one in plan.proposal.conclusions if one.rule == rule]


def proposed(**pieces):
    return {"proposal": pieces, "budget.total": None}


def test_a_seal_that_no_release_follows_says_so(make_plan):
    plan = make_plan("cowl", proposed(sealing="vinyl-ester-putty"))
    (one,) = said(plan, "JOIN-074")
    assert "no route is left" in one.sentence
    assert {ground.name for ground in one.grounds} >= {"Put film over putty"}
    assert plan.proposal.verdict == "refused"


def test_no_seal_on_a_porous_core_says_what_stops_it_on_that_core(make_plan):
    plan = make_plan("duct", proposed(tool="washout-core", sealing="none"))
    (one,) = said(plan, "JOIN-074")
    assert "wash-out core" in one.sentence
    assert "open pores" in one.sentence
    assert [kept.id for kept in said(plan, "JOIN-030")] == ["JOIN-030:tool:washout-core"]
    assert plan.proposal.verdict == "sound-in-part"


@pytest.mark.parametrize(
    "piece", [{"sealing": "epoxy-glass-skin"}, {"bagging": "matched-mould"}]
)
def test_a_piece_that_stands_in_a_route_is_sound(make_plan, piece):
    plan = make_plan("panel", proposed(**piece))
    assert plan.proposal.verdict == "sound"
    assert not said(plan, "JOIN-074") + said(plan, "JOIN-084")


def test_two_pieces_that_stand_apart_and_not_together_say_why(make_plan):
    pair = {"sealing": "epoxy-glass-skin", "bagging": "matched-mould"}
    plan = make_plan("panel", {"proposal": pair})
    (one,) = said(plan, "JOIN-084")
    assert one.id == "JOIN-084:epoxy-glass-skin+matched-mould"
    assert "the budget is" in one.sentence
    assert plan.route.bagging == "matched-mould"
    assert plan.proposal.verdict == "sound-in-part"


def test_only_the_smallest_set_is_told(make_plan):
    more = proposed(sealing="vinyl-ester-putty", bagging="envelope")
    plan = make_plan("cowl", more)
    assert [one.id for one in said(plan, "JOIN-074")] == ["JOIN-074:vinyl-ester-putty"]
    assert not said(plan, "JOIN-084")


@pytest.mark.parametrize(
    "piece", [{"sealing": "neat-epoxy"}, {"release": "semi-permanent"}, {"tool": "mdf"}]
)
def test_where_no_route_is_left_no_proposal_is_sound(make_plan, piece):
    plan = make_plan("cowl", {"proposal": piece, "budget.total": 10})
    assert plan.verdict == "no-route"
    assert plan.proposal.verdict == "refused"
    assert said(plan, "JOIN-091")
    assert not said(plan, "JOIN-030")


def test_a_refused_piece_names_its_way_back_and_what_takes_its_place(make_plan):
    plan = make_plan("cowl", proposed(sealing="vinyl-ester-putty"))
    (one,) = said(plan, "JOIN-091")
    assert one.sentence.startswith("Vinyl-ester putty would need ")
    assert "°C" not in one.sentence  # what another release would take is not asked too
    assert "; the route leaves the tool unsealed instead." in one.sentence
    assert plan.route.sealing != "vinyl-ester-putty"
    assert not said(make_plan("panel", proposed(bagging="matched-mould")), "JOIN-091")


def test_what_comes_back_with_a_budget_comes_with_conditions(make_plan):
    plan = make_plan("cowl", {"budget.total": 10})
    first = plan.conditions[0].text
    assert "back with a budget of" in first
    assert "conditions that go with it" in first


def test_a_seal_kept_on_another_tool_says_why_not_on_the_one_proposed(make_plan):
    plan = make_plan("cowl", proposed(tool="aluminium", sealing="high-temp-epoxy"))
    assert plan.route.sealing == "high-temp-epoxy"
    assert plan.route.tool != "aluminium"
    (one,) = said(plan, "JOIN-084")
    assert "Machined aluminium has no pores to fill" in one.sentence
    (back,) = said(plan, "JOIN-091")
    assert back.sentence.startswith("Machined aluminium stands by itself")
    assert "porous" not in back.sentence


def test_what_is_said_of_a_piece_is_not_said_again_of_two(make_plan):
    pair = {"tool": "aerated-concrete", "sealing": "neat-epoxy"}
    plan = make_plan("cowl", proposed(**pair) | {"cure.temperature": "110 degC"})
    sentences = [one.sentence for one in plan.proposal.conclusions]
    assert any("neat epoxy" in one.lower() for one in sentences)
    for one in sentences:
        assert sum(one in other for other in sentences) == 1, one


def test_a_kept_piece_is_called_by_its_name(make_plan):
    plan = make_plan("duct", proposed(tool="washout-core", sealing="none"))
    (one,) = said(plan, "JOIN-030")
    (name,) = [tool.name for tool in plan.options if tool.id == "washout-core"]
    assert one.sentence.startswith(f"{name}: ")
