"""Two plans side by side: what differs is told, what does not is not."""

from advisor.questioning.told import comparison_told
from advisor.questioning.whatif import compare


def group(comparison, title):
    return next((one for one in comparison.groups if one.title == title), None)


def tools_that_stand(plan):
    tools = (one for one in plan.options if one.stage == "tool")
    return {one.name for one in tools if one.verdict != "ruled-out"}


def test_the_same_plan_twice_differs_in_nothing(make_plan):
    comparison = compare(make_plan("cowl"), make_plan("cowl"))
    assert comparison.same
    assert "Nothing else changes." in comparison_told(comparison, ("a", "b"))


def test_a_longer_run_changes_cost_and_the_amounts_of_steps(make_plan):
    before, after = make_plan("cowl"), make_plan("cowl", {"run.parts": 9})
    comparison = compare(before, after)
    decision = {one.label: (one.before, one.after) for one in comparison.decision}
    assert decision["Tools"] == (str(before.route.tools), str(after.route.tools))
    assert decision["Tool"][0] == decision["Tool"][1] == before.route.name
    steps = group(comparison, "Steps")
    assert not steps.gone
    assert not steps.came
    [blocks] = [one for one in steps.changed if "Blocks for all tools" in one.label]
    assert float(blocks.before) > float(blocks.after)


def test_what_goes_and_comes_is_the_difference_of_both_plans(make_plan):
    before = make_plan("cowl")
    after = make_plan("cowl", {"proposal": {"tool": "carbon-laminate"}})
    assert before.route.tool != after.route.tool
    comparison = compare(before, after)
    hazards = [{one.hazard for one in plan.cautions} for plan in (before, after)]
    cautions = group(comparison, "Cautions")
    assert set(cautions.gone) == hazards[0] - hazards[1]
    assert set(cautions.came) == hazards[1] - hazards[0]
    assert "respirable crystalline silica dust" in cautions.gone
    rules = [{one.conclusion.rule for one in plan.steps} for plan in (before, after)]
    steps = group(comparison, "Steps")
    assert len(steps.gone) == len(rules[0] - rules[1])
    assert len(steps.came) == len(rules[1] - rules[0])


def test_options_that_come_back_are_told(make_plan):
    hot = make_plan("cowl", {"proposal": None, "budget.total": 60000})
    cool = make_plan(
        "cowl", {"proposal": None, "budget.total": 60000, "cure.temperature": 65}
    )
    changed = {one.label for one in group(compare(hot, cool), "Tool materials").changed}
    stood, stands = (
        {
            one.name
            for one in p.options
            if one.stage == "tool" and one.verdict != "ruled-out"
        }
        for p in (hot, cool)
    )
    assert stands ^ stood <= changed
    assert stands - stood, "the cooler cure brings nothing back: the test proves nothing"


def test_where_a_route_is_lost_no_work_is_listed(make_plan):
    comparison = compare(make_plan("cowl"), make_plan("cowl", {"budget.total": 500}))
    assert {one.title for one in comparison.groups} == {
        "Tool materials",
        "What would open a route",
    }


def test_a_question_takes_the_place_of_a_decision(make_plan):
    asks = make_plan("cowl", {"cure.temperature": None})
    comparison = compare(make_plan("cowl"), asks)
    assert group(comparison, "Questions").came == tuple(one.text for one in asks.questions)


def test_of_a_changed_text_only_the_sentences_that_changed_are_told(make_plan):
    cooler = make_plan("cowl", {"cure.temperature": 85})
    steps = group(compare(make_plan("cowl"), cooler), "Steps")
    [bond] = [one for one in steps.changed if one.label.startswith("Bond the blank")]
    assert bond.before.startswith("The adhesive must hold at 90")
    assert "thin-bed mortar" not in bond.before


def test_no_line_is_wider_than_a_terminal(make_plan):
    cooler = make_plan("cowl", {"cure.temperature": 85})
    text = comparison_told(compare(make_plan("cowl"), cooler), ("before", "after " * 20))
    assert max(map(len, text.splitlines())) <= 90
