"""Missing deciding facts and contradictions are asked about, never settled in silence."""

import pytest

CURVED = ("part.depth", "part.draft", "part.undercut", "part.tool_side")


@pytest.mark.parametrize(
    "field",
    ["part.length", "part.width", "part.shape", *CURVED, "cure.temperature", "run.parts"],
)
def test_a_missing_deciding_fact_is_asked_for(make_plan, field):
    plan = make_plan("cowl", {field: None})
    assert plan.verdict == "ask-first"
    assert field in {question.field for question in plan.questions}
    assert plan.route is None
    assert not plan.steps


def test_everything_missing_is_asked_at_once(make_plan):
    plan = make_plan("cowl", {"part": None, "cure": None, "run": None, "budget": None})
    assert {q.field for q in plan.questions} >= {
        "part.length",
        "part.width",
        "part.shape",
        "cure.temperature",
        "run.parts",
    }


@pytest.mark.parametrize("field", CURVED)
def test_a_flat_part_is_not_asked_how_it_leaves(make_plan, field):
    assert field not in {q.field for q in make_plan("panel").questions}


@pytest.mark.parametrize(
    ("name", "moved", "field"),
    [
        ("panel", {"part.smallest_radius": "50 mm"}, "part.smallest_radius"),
        ("panel", {"part.undercut": True}, "part.undercut"),
        ("panel", {"part.depth": "60 mm"}, "part.depth"),
        ("cowl", {"cure.autoclave_pressure": "5 bar"}, "cure.autoclave_pressure"),
        ("cowl", {"cure.pressure": "autoclave"}, "cure.autoclave_pressure"),
        ("cowl", {"cure.first_cure": "60 degC"}, "cure.first_cure"),
        ("cowl", {"cure.free_standing_post_cure": True}, "cure.first_cure"),
        (
            "cowl",
            {"cure.free_standing_post_cure": True, "cure.first_cure": "110 degC"},
            "cure.first_cure",
        ),
        ("cowl", {"cure.temperature": "180 degC"}, "cure.resin"),
        ("cowl", {"part.tolerance_over": "700 mm"}, "part.tolerance_over"),
        ("cowl", {"part.smallest_radius": "15 m"}, "part.smallest_radius"),
    ],
)
def test_a_contradiction_is_asked_about(make_plan, name, moved, field):
    plan = make_plan(name, moved)
    assert plan.verdict == "ask-first"
    assert field in {question.field for question in plan.questions}
