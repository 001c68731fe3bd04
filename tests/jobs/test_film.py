"""Film on curves and over open pores: the verdicts follow radius, size and heat."""

import pytest

from advisor.knowledge.tables import build_knowledge, read_tables

CURVED = {
    "part.shape": "single-curvature",
    "finish.target": "as-moulded",
    "run.parts": 2,
    "cure.temperature": "80 degC",
    "proposal": {
        "tool": "aerated-concrete",
        "sealing": "none",
        "release": "adhesive-ptfe-film",
    },
}


def release(plan, id="adhesive-ptfe-film"):
    """Return verdict and rules on one release, judged for the chosen tool and seal."""
    option = next(o for o in plan.options if (o.stage, o.id) == ("release", id))
    return option.verdict, {reason.rule for reason in option.reasons}


def proposal(plan):
    """Return the rules and sentences that judged the proposal."""
    return {c.rule: c.sentence for c in plan.proposal.conclusions}


def step(plan, rule):
    """Return the step a rule wrote, or None."""
    return next((one for one in plan.steps if one.conclusion.rule == rule), None)


def test_a_tight_double_curve_refuses_film(make_plan):
    verdict, rules = release(make_plan("cowl"))
    assert verdict == "ruled-out"
    assert "REL-040" in rules


def test_a_shallow_crown_takes_film_in_counted_strips(make_plan, shallow_crown):
    plan = make_plan("cowl", shallow_crown)
    verdict, rules = release(plan)
    assert plan.route.release == "adhesive-ptfe-film"
    assert verdict == "doubtful"
    assert "REL-040" in rules
    strips, apart, first, width = step(plan, "STEP-445").quantities
    assert first.value == pytest.approx(apart.value / 2, rel=1e-4)
    assert apart.value <= width.value
    assert 1 < strips.value <= 20
    assert strips.value * width.value >= 440


def test_a_deeper_crown_takes_more_and_narrower_strips(make_plan, shallow_crown):
    flat, deep = (
        step(
            make_plan("cowl", shallow_crown | {"part.depth": depth}), "STEP-445"
        ).quantities
        for depth in (30, 50)
    )
    assert deep[0].value > flat[0].value
    assert deep[1].value < flat[1].value


def test_a_single_curve_takes_film_whole(make_plan):
    plan = make_plan("cowl", CURVED)
    assert step(plan, "STEP-445") is None
    assert not {"REL-040"} & release(plan)[1]


def test_open_pores_under_film_are_judged_by_their_size(make_plan):
    plan = make_plan("cowl", CURVED)
    assert plan.route.sealing == "none"
    widest = next(f for f in plan.findings if f.id == "open-pore")
    assert widest.low < widest.value
    cooler = make_plan("cowl", CURVED | {"cure.temperature": "60 degC"})
    assert next(f for f in cooler.findings if f.id == "open-pore").value > widest.value


def test_beyond_what_is_known_of_the_film_no_width_is_guessed(make_plan):
    plan = make_plan("cowl", CURVED | {"cure.temperature": "115 degC"})
    assert not [f for f in plan.findings if f.id == "open-pore"]


def test_coarse_pores_rule_the_film_out(make_plan):
    raw = read_tables()
    block = raw["tool_materials"]["aerated-concrete-400"]
    coarse = block["pore_size"] | {"value": 5.0, "high": 6.0}
    raw["tool_materials"]["aerated-concrete-400"] = block | {"pore_size": coarse}
    plan = make_plan("cowl", CURVED, knowledge=build_knowledge(raw))
    assert plan.route.tool != "aerated-concrete-400" or plan.route.sealing != "none"
