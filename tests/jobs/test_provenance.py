"""Every conclusion leads back to the user's own input and to a source or basis."""

import json
from collections import Counter
from datetime import date

import pytest

from advisor.documents.process_plan import process_plan
from advisor.plan import Plan
from advisor.reasoning.provenance import basis_as_decided, conclusions_in, is_decision


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
    for word in demo_plan.words:
        cited.update(word.sources)
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


def evidence(conclusion):
    """Yield every basis that stands under a conclusion, down to what was decided."""
    open_ends = [conclusion]
    while open_ends:
        one = open_ends.pop()
        joins = any(ground.conclusion for ground in one.grounds)
        yield one.reason_basis or ("published" if joins else one.basis)
        for ground in one.grounds:
            if ground.conclusion is None:
                yield ground.basis or "published"  # the user's own word claims nothing
            elif not is_decision(ground.conclusion):
                open_ends.append(ground.conclusion)


def test_the_count_as_decided_leaves_out_decisions_and_nothing_else(demo_plan):
    for conclusion in conclusions_in(demo_plan):
        weakest = max(evidence(conclusion), key=ORDER.index)
        said = basis_as_decided(conclusion)
        assert said == weakest, conclusion.id
        assert ORDER.index(said) <= ORDER.index(conclusion.basis), conclusion.id
        if not any(is_decision(one) for one in conclusions_in(conclusion)):
            assert said == conclusion.basis, conclusion.id


def test_a_decision_is_what_the_plan_does_and_never_a_finding_or_a_verdict(demo_plan):
    decided = {one.kind for one in conclusions_in(demo_plan) if is_decision(one)}
    assert decided == {"step", "use", "chosen"}
    assert {one.rule for one in conclusions_in(demo_plan) if is_decision(one)} & {
        "JOIN-060"
    }


def test_silica_is_as_sure_as_its_source_whatever_the_route_was_chosen_for(make_plan):
    (dust,) = [one for one in make_plan("cowl").cautions if one.id == "silica"]
    assert basis_as_decided(dust.conclusion) == "published"
    assert dust.conclusion.basis == "common-practice"


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_most_reasons_are_published_and_the_plan_prints_how_many(make_plan, name):
    every = {one.id: one for one in conclusions_in(make_plan(name))}.values()
    reasons = Counter(one.reason_basis for one in every if one.reason_basis)
    assert reasons["published"] > reasons.total() / 2
    decided = Counter(basis_as_decided(one) for one in every)
    assert decided["published"] > sum(one.basis == "published" for one in every)
    rows = process_plan(make_plan(name), date(2026, 1, 5)).rests_on
    printed = {row.basis: row.counts[-1] for row in rows}
    assert printed["together"] == len(every)
    assert printed["published"] == decided["published"]


@pytest.mark.parametrize("hazard", ["vacuum", "hot-surface"])
def test_a_caution_is_no_surer_than_its_words(make_plan, hazard):
    """Their words are common practice, whatever the rule that raises them cites."""
    (caution,) = [one for one in make_plan("cowl").cautions if one.id == hazard]
    words = next(g for g in caution.conclusion.grounds if g.name == "words of the caution")
    assert words.basis == "common-practice"
    assert basis_as_decided(caution.conclusion) != "published"


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
