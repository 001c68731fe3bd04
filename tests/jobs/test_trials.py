"""The trial of a plan is laid out for its job, and says what each end of it changes."""

from importlib.resources import files
from pathlib import Path

import pytest

from advisor.advise import Consultation
from advisor.knowledge.tables import load_knowledge
from advisor.questioning.inputs import Move, moved
from advisor.reading import read_job, read_shop

KNOWN = load_knowledge()
HELD = {"epoxy", "styrene", "peroxide", "solvent", "isocyanate"}
FILM = {
    "part.shape": "single-curvature",
    "part.smallest_radius": "400 mm",
    "finish.target": "as-moulded",
    "proposal": {"tool": "aerated-concrete", "release": "adhesive-ptfe-film"},
}


def as_demo(name):
    folder = Path(str(files("advisor.demo")))
    return read_job(folder / f"{name}.toml"), read_shop(folder / "shop.toml")


@pytest.fixture(scope="module")
def cowl(make_plan):
    plan = make_plan("cowl")
    [trial] = plan.trials
    return plan, trial


def test_thin_evidence_puts_other_seals_of_the_same_body_beside_the_planned_one(cowl):
    plan, trial = cowl
    first, *others = trial.patches
    assert (first.sealing, first.release) == (plan.route.sealing, plan.route.release)
    assert first.cost_total == plan.route.cost_total
    assert others
    assert len({one.sealing for one in trial.patches}) == len(trial.patches)
    standing = {one.id for one in plan.options if one.stage == "sealing"}
    assert {one.sealing for one in trial.patches} <= standing


def test_a_proven_face_has_one_patch_and_one_cure(make_plan):
    [trial] = make_plan("panel").trials
    assert len(trial.patches) == 1
    assert trial.cures == 1
    assert not any("the next" in one.then.lower() for one in trial.outcomes)


def test_the_price_of_a_patch_is_that_of_the_best_route_made_so(cowl):
    """Decided without the trial's own code."""
    plan, trial = cowl
    decision = Consultation().decide(*as_demo("cowl"))
    for patch in trial.patches[1:]:
        same = [
            one
            for one in decision.ranked
            if one.ids[:2] == (plan.route.tool, patch.sealing)
        ]
        assert patch.cost_total == round(same[0].cost.total, 2)
        assert patch.release == same[0].ids[2]


def test_the_cheaper_patch_says_by_how_much_and_a_plan_with_it_agrees(cowl):
    plan, trial = cowl
    patch = min(trial.patches, key=lambda one: one.cost_total)
    [outcome] = [
        one for one in trial.outcomes if one.outcome == f"Patch {patch.n} passes too"
    ]
    assert (
        f"costs {round(plan.route.cost_total - patch.cost_total)} EUR less" in outcome.then
    )
    job, shop = as_demo("cowl")
    asked = [
        Move("proposal.sealing", patch.sealing),
        Move("proposal.release", patch.release),
    ]
    again = Consultation().plan(*moved(job, shop, asked))
    assert again.route.sealing == patch.sealing
    assert again.route.cost_total == pytest.approx(patch.cost_total)


def test_what_a_coupon_shows_is_signed_as_a_condition(cowl):
    plan, trial = cowl
    shown = next(one.then for one in trial.outcomes if one.outcome == "Patch 1 passes")
    told = [one.text for one in plan.conditions if one.text in shown]
    assert len(told) == 2
    assert all("coupon" in one.proved_by for one in plan.conditions if one.text in told)


def test_a_skin_is_cured_as_often_as_its_condition_says(cowl):
    plan, trial = cowl
    cures = int(KNOWN.limits["skin_cures"].figure.si)
    assert trial.cures == cures
    assert any(f"{cures} cures" in one.proved_by for one in plan.conditions)


def test_the_time_is_that_of_the_sheets_and_of_every_cure(cowl):
    plan, trial = cowl
    ready = max(
        KNOWN.sealers[one.sealing].elapsed.value + KNOWN.releases[one.release].elapsed.value
        for one in trial.patches
    )
    found = {one.id: one.value for one in plan.findings}
    cure = found["dwell-start"] + plan.job["cure"]["hold"]["value"] + found["cooling-time"]
    assert trial.takes_h == pytest.approx(ready + trial.cures * cure, abs=0.1)


def test_the_piece_is_as_large_as_its_patches_and_their_land(cowl):
    _, trial = cowl
    assert len(trial.patches) == 3  # two across, two down
    assert "360 mm (14.2 in) by 360 mm (14.2 in)" in trial.piece.replace("\u202f", " ")


def test_what_no_caution_of_the_plan_covers_is_named_at_its_patch(make_plan):
    """A seal on trial may hold what the planned one does not, styrene for one."""
    plan = make_plan("cowl", FILM | {"cure.temperature": 60, "cure.hold": "10 h"})
    [trial] = plan.trials
    planned = set(KNOWN.sealers[plan.route.sealing].contains)
    assert not KNOWN.releases[plan.route.release].solvent
    seen = set()
    for patch in trial.patches:
        new = (set(KNOWN.sealers[patch.sealing].contains) & HELD) - planned
        seen |= new
        assert all(what in patch.beware for what in new)
        assert bool(new) == ("do not cover" in patch.beware)
    assert "solvent" in seen


def test_a_worn_face_is_told_from_where_the_next_body_is_cheaper(cowl):
    plan, trial = cowl
    [worn] = [one for one in trial.outcomes if "worn out" in one.outcome]
    parts = int(worn.outcome.split("after ")[1].split()[0])
    tools = -(-plan.job["run"]["parts"] // parts)
    assert f"{tools} tools" in worn.then.replace("\u202f", " ")
    other = next(one for one in plan.alternatives if not one.tool.startswith("aerated"))
    made = sum(one.amount for one in plan.route.cost_lines if one.per == "tool")
    each = sum(one.amount for one in plan.route.cost_lines if one.per == "part")
    run = plan.job["run"]["parts"]

    def total(life):
        return made * -(-run // life) + each * run

    assert total(parts) > other.cost_total >= total(parts + 1)


def test_a_film_on_pores_has_a_trial_too(make_plan):
    plan = make_plan("cowl", FILM)
    assert plan.route.release == "adhesive-ptfe-film"
    assert [one.conclusion.rule for one in plan.trials] == ["COUPON-005"]
    assert "pore" in plan.trials[0].passes_if


def test_each_measure_has_its_rule_and_a_film_needs_no_leak_test(cowl):
    _, trial = cowl
    rules = {one.conclusion.rule for one in trial.gauged}
    assert {"COUPON-010", "COUPON-020", "COUPON-040", "COUPON-050"} <= rules
    assert "COUPON-030" not in rules  # the bag goes round the table, not to the block
