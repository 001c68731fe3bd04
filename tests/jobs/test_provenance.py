"""Every conclusion leads back to the user's own input and to a source or basis."""

import json

from advisor.plan import Plan
from advisor.reasoning.provenance import conclusions_in


def roots(conclusion):
    """Yield what a conclusion rests on in the end."""
    for ground in conclusion.grounds:
        if ground.conclusion:
            yield from roots(ground.conclusion)
        else:
            yield ground


def test_every_conclusion_rests_on_the_job_or_the_shop(demo_plan):
    for conclusion in conclusions_in(demo_plan):
        kinds = {ground.kind for ground in roots(conclusion)}
        assert kinds & {"job", "shop", "assumption"}, conclusion.id


def test_every_conclusion_names_a_source_that_the_plan_lists(demo_plan):
    listed = {source.id for source in demo_plan.sources}
    for conclusion in conclusions_in(demo_plan):
        assert conclusion.sources, conclusion.id
        assert set(conclusion.sources) <= listed
        assert conclusion.basis


def test_no_source_is_listed_that_nothing_rests_on(demo_plan):
    cited = set()
    for conclusion in conclusions_in(demo_plan):
        cited.update(conclusion.sources)
        for ground in conclusion.grounds:
            cited.update(ground.sources)
    assert {source.id for source in demo_plan.sources} == cited


def test_every_caution_defers_and_every_named_hazard_stands_at_its_step(demo_plan):
    texts = {caution.id: caution for caution in demo_plan.cautions}
    assert "standing" in texts
    for caution in demo_plan.cautions:
        assert caution.defers_to
        assert caution.applies_to_steps
    for step in demo_plan.steps:
        assert "standing" not in step.cautions
        for name in step.cautions:
            assert step.n in texts[name].applies_to_steps


def test_no_conclusion_is_said_twice_with_different_words(demo_plan):
    said = {}
    for conclusion in conclusions_in(demo_plan):
        assert said.setdefault(conclusion.id, conclusion.sentence) == conclusion.sentence


def test_a_plan_survives_the_way_through_json(demo_plan):
    again = Plan.model_validate_json(demo_plan.to_json())
    assert again == demo_plan
    assert json.loads(demo_plan.to_json())["schema_version"] == 1


def test_no_sentence_kept_a_brace(demo_plan):
    assert "{" not in "".join(f"{c.sentence}{c.title}" for c in conclusions_in(demo_plan))
    for step in demo_plan.steps:
        hold = step.hold_point
        words = step.text + (f"{hold.check}{hold.accept}{hold.record}" if hold else "")
        assert "{" not in words, step.title


def test_laminate_dust_is_cautioned_where_laminate_is_cut_and_not_before(demo_plan):
    """A caution at a step without its hazard teaches people to skip cautions."""
    trim = next(step.n for step in demo_plan.steps if step.title == "Trim to the line")
    (carbon,) = [c for c in demo_plan.cautions if c.id == "carbon-dust"]
    assert min(carbon.applies_to_steps) == trim
    assert max(carbon.applies_to_steps) == len(demo_plan.steps)


ORDER = ("published", "shop", "common-practice", "from-memory", "invented")


def test_no_conclusion_is_called_surer_than_anything_it_rests_on(demo_plan):
    for conclusion in conclusions_in(demo_plan):
        bases = [g.conclusion.basis for g in conclusion.grounds if g.conclusion]
        bases += [g.basis for g in conclusion.grounds if g.basis]
        for basis in bases:
            assert ORDER.index(conclusion.basis) >= ORDER.index(basis), conclusion.id


def test_an_exposure_limit_brings_its_own_source(demo_plan):
    """The printed noise limit of the demonstration's jurisdiction is from memory."""
    (noise,) = [caution for caution in demo_plan.cautions if caution.id == "noise"]
    assert "memory-noise-directive" in noise.conclusion.sources
    assert noise.conclusion.basis == "from-memory"


def test_an_empty_oven_holds_no_film_and_no_board(demo_plan):
    mapped = next(step for step in demo_plan.steps if step.title.startswith("Map the oven"))
    assert not {"fluoropolymer", "formaldehyde"} & set(mapped.cautions)
    (fume,) = [caution for caution in demo_plan.cautions if caution.id == "fluoropolymer"]
    assert fume.applies_to_steps


def test_what_an_option_is_claims_nothing_and_how_it_behaves_does(make_plan):
    said = {
        ground.name: ground.basis
        for conclusion in conclusions_in(make_plan("cowl"))
        for ground in conclusion.grounds
    }
    assert said["form, aerated-concrete-400"] is None
    assert said["brittle, aerated-concrete-400"] == "published"
    assert said["tightness, aerated-concrete-400"] == "common-practice"


def test_what_the_shop_owns_rests_on_the_shop(make_plan):
    owned = [
        ground
        for conclusion in conclusions_in(make_plan("panel"))
        for ground in conclusion.grounds
        if ground.name == "shop stock, metal-plate"
    ]
    assert owned
    assert {(ground.kind, ground.value) for ground in owned} == {("shop", "yes")}
