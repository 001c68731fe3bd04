"""Materials, skins and inner bags: what follows from choosing one, and what must not."""

import tomllib
from dataclasses import replace
from importlib.resources import files

import pytest

from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.reading import parse
from advisor.reasoning.conclusions import Doubtful, Finding, RuledOut
from advisor.reasoning.engine import Reasoner
from advisor.shop import Shop

ROWS = load_knowledge().tool_materials
CERAMIC = {
    "part.shape": "single-curvature",
    "part.depth": "40 mm",
    "part.smallest_radius": "400 mm",
    "part.draft": "5 deg",
    "part.undercut": False,
    "part.tool_side": "male",
    "cure.resin": "epoxy-180",
    "cure.temperature": "180 degC",
    "cure.hold": "2 h",
    "finish.target": "paint",
    "budget.total": 60000,
    "proposal": {"tool": "castable-ceramic"},
}
HOT_SHOP = {"oven.limit": "250 degC", "stock": []}
TUBE = {"part.tool_side": "female", "part.undercut": False, "budget.total": 60000}


def titles(plan):
    """Return the titles of the steps, in the order of the bench."""
    return [one.title for one in plan.steps]


@pytest.mark.parametrize("id", ["printed-sand", "castable-ceramic"])
def test_sand_and_castable_count_as_silica(id):
    """Common practice, no source: until a sheet shows otherwise, both hold quartz."""
    assert ROWS[id].dust == "silica"


@pytest.mark.published("tooling-laminate-article", at="product table, glass transition")
def test_bismaleimide_ends_at_the_glass_transition_printed():
    assert ROWS["carbon-laminate-bmi"].short_limit.value == 213.0
    assert ROWS["carbon-laminate"].short_limit.value <= 203.0


@pytest.mark.published("cast-acrylic-page", at="average physical properties")
def test_filled_acrylic_serves_no_hotter_than_acrylic_is_used():
    row = ROWS["acrylic-sheet"]
    assert row.service_limit.high_si <= 80.0
    assert row.short_limit.high_si < 100.0


@pytest.mark.published("carbon-foam-paper", at="summary")
def test_carbon_foam_lies_within_the_densities_that_are_made():
    row = ROWS["carbon-foam"]
    assert 30.0 <= row.density.low_si <= row.density.high_si <= 600.0


def test_a_cast_ceramic_is_baked_before_it_is_skinned_and_skinned_before_release(make_plan):
    """Common practice, no source: water first, skin second, release last."""
    told = titles(make_plan("panel", CERAMIC, HOT_SHOP))
    bake = told.index("Bake the ceramic in stages before it is sealed")
    skin = told.index("Lay the skin in tooling prepreg and cure it on the body")
    again = told.index("Bake the coat in stages")
    assert bake < skin < again


def test_a_skinned_ceramic_warns_of_silica_steam_and_vacuum(make_plan):
    cautions = {one.id for one in make_plan("panel", CERAMIC, HOT_SHOP).cautions}
    assert {"silica", "steam", "vacuum"} <= cautions


def test_conductive_dust_of_the_tool_is_told_where_the_part_is_glass(make_plan):
    """A glass part brings no carbon dust of its own: the tool does."""
    job = {
        "laminate.fibre": "glass",
        "run.parts": 6,
        "budget.total": 60000,
        "proposal": {"tool": "carbon-foam"},
    }
    plan = make_plan("cowl", job)
    assert plan.route.tool == "carbon-foam"
    assert {"carbon-dust", "electrical"} <= {one.id for one in plan.cautions}


def test_the_tube_is_open_to_the_air_and_has_no_port(make_plan):
    """Common practice, no source: what is sealed off or pumped inside presses nothing."""
    plan = make_plan("duct", TUBE | {"proposal": {"bagging": "tube-bag"}})
    assert plan.route.bagging == "tube-bag"
    stack = next(
        one.text for one in plan.steps if one.title.startswith("Lay the bag stack")
    )
    assert "inside of the tube stays open to the air" in stack
    assert "none in the tube" in stack


def test_a_part_on_a_core_gets_no_tube(make_plan):
    verdicts = {one.id: one.verdict for one in make_plan("duct").options}
    assert verdicts["tube-bag"] == "ruled-out"


def test_the_seal_of_the_pattern_is_paid_by_the_hour(make_plan):
    """A laminate tool's pattern is sealed like any board: more hours than cutting alone."""
    knowledge = load_knowledge()
    seal = knowledge.sealers["epoxy-fairing"]
    quick = seal.effort.model_copy(update={"value": 0.0, "low": 0.0, "high": 0.0})
    free = knowledge.sealers | {"epoxy-fairing": seal.model_copy(update={"effort": quick})}
    cheap = replace(knowledge, sealers=free)
    job = {"budget.total": 60000, "proposal": {"tool": "carbon-laminate"}}
    cost = make_plan("cowl", job).route.cost_total
    assert make_plan("cowl", job, knowledge=cheap).route.cost_total < cost


HOT = {"cure.resin": "epoxy-180", "cure.temperature": "180 degC", "budget.total": 60000}


def test_a_carbon_skin_peels_off_a_weak_block_at_180_degrees(make_plan):
    plan = make_plan("cowl", HOT)
    for block in ("aerated-concrete-400", "aerated-concrete-500", "aerated-concrete-650"):
        on_block = [one for one in plan.options if one.id.startswith(block)]
        assert {one.verdict for one in on_block if one.stage == "tool"} == {"ruled-out"}
    assert not plan.route.tool.startswith("aerated-concrete")


def test_a_glass_skin_stays_on_the_block_of_the_cowl(make_plan):
    [peel] = [one for one in make_plan("cowl").findings if one.id == "skin-peel"]
    assert peel.low <= peel.value <= peel.high
    assert peel.judgement == "watch"
    tough = load_knowledge().tool_materials["aerated-concrete-400"].fracture_energy
    assert peel.value < tough.low_si
    assert "whichever strains it more" in peel.conclusion.sentence


@pytest.fixture(scope="module")
def skinned():
    """Every brittle body under every stiff skin at 90 and at 50 degrees, as judged."""
    known, pairs = load_knowledge(), []
    cowl = tomllib.loads(files("advisor.demo").joinpath("cowl.toml").read_text("utf-8"))
    for hot, resin in ((90, "epoxy-low-temperature"), (50, "epoxy-tooling")):
        cure = {"temperature": hot, "resin": resin, "hold": 12}
        job = parse(cowl | {"cure": cure}, Job, "cowl.toml")
        decision = Decision(job, Shop(), Reasoner(known))
        for (tool, _), judged in decision.seals.items():
            own = [one for one in judged.concluded if one.conclusion.rule == "SEAL-061"]
            if own:
                found = next(one.outcome for one in own if isinstance(one.outcome, Finding))
                tough = known.tool_materials[tool].fracture_energy
                pairs.append((found, tough, {type(one.outcome) for one in own} - {Finding}))
    return pairs


def test_a_skin_that_may_tear_the_weakest_lot_of_the_body_is_proved_first(skinned):
    for found, tough, verdict in skinned:
        if found.value > tough.high_si:
            assert verdict == {RuledOut}
        else:
            assert verdict == ({Doubtful} if found.high > tough.low_si else set())
    between = [x for x, tough, _ in skinned if tough.low_si < x.high <= tough.high_si]
    assert between, "no pair shows that the weak end decides"


def test_the_span_of_a_skin_is_wider_than_its_two_histories(skinned):
    """The middle figures alone leave out a stiff skin on a body that grows least."""
    for found, _, _ in skinned:
        assert found.low <= found.value <= found.high
        assert found.low == 0.0 or found.high > 2 * found.value


def test_money_decides_between_what_is_proved_and_what_has_to_be(make_plan):
    """At 180 degrees metal is proved and dear; a skinned ceramic is cheap and is not."""
    rich, poor = make_plan("cowl", HOT), make_plan("cowl", HOT | {"budget.total": 6500})
    assert rich.route.tool == "aluminium"
    assert poor.route.tool in {"castable-ceramic", "carbon-laminate-bmi"}
    assert poor.route.doubts
