"""A hazard that another standing route spares is offered away; it is never a refusal."""

from dataclasses import replace

import pytest

from advisor.knowledge.tables import load_knowledge

KNOWN = load_knowledge()
LACQUER = {
    "cure.temperature": "65 degC",
    "cure.hold": "16 h",
    "cure.resin": "epoxy-low-temperature",
    "run.parts": 2,
    "proposal": {"tool": "pu-board", "sealing": "lacquer"},
}


@pytest.fixture
def plan_route(make_plan):
    """Return a call that plans a job with the pieces of a route proposed."""

    def make(name, job, route):
        pieces = ("tool", "sealing", "release", "bagging")
        proposal = {piece: getattr(route, piece) for piece in pieces}
        plan = make_plan(name, {**job, "proposal": proposal})
        assert {piece: getattr(plan.route, piece) for piece in pieces} == proposal
        return plan

    return make


def of(plan, hazard):
    """Return what is said of sparing one hazard, or None."""
    return next((one for one in plan.safer if one.hazard == hazard), None)


def test_a_mineral_block_brings_an_offer_without_silica(make_plan):
    plan = make_plan("cowl")
    said = of(plan, "crystalline silica")
    assert KNOWN.tool_materials[plan.route.tool].dust == "silica"
    assert KNOWN.tool_materials[said.route.tool].dust != "silica"
    more = said.route.cost_total - plan.route.cost_total
    assert f"costs {more:.0f} EUR more" in said.text
    assert "the same checks of tool, seal, release, bag and price" in said.text


def test_the_offer_is_one_of_the_routes_that_stand(make_plan):
    plan = make_plan("cowl")
    offered = of(plan, "crystalline silica").route
    standing = {(one.tool, one.sealing) for one in plan.alternatives}
    assert (offered.tool, offered.sealing) in standing


def test_where_none_stands_the_plan_says_why(make_plan):
    said = of(make_plan("duct"), "crystalline silica")
    assert said.route is None
    assert "ruled out" in said.text
    assert len(said.conclusion.grounds) > 10


def test_a_budget_that_keeps_the_offer_out_is_named(make_plan):
    plan = make_plan("cowl", {"budget.total": 2950})
    said = of(plan, "crystalline silica")
    assert plan.route is not None
    assert said.route is None
    assert "the budget is" in said.text


def test_a_tool_in_stock_is_not_cut_again(make_plan):
    made = {"kind": "tool", "material": "aerated-concrete-500", "length": 800, "width": 600}
    shop = {"stock": [made | {"made_for": "Fan cowl, upper half"}]}
    plan = make_plan("cowl", {"proposal": {"tool": "aerated-concrete-500"}}, shop)
    assert plan.route.tool == "aerated-concrete-500"
    assert of(plan, "crystalline silica") is None
    cut = make_plan("cowl", {"proposal": {"tool": "aerated-concrete-500"}})
    assert cut.route.tool == "aerated-concrete-500"
    assert of(cut, "crystalline silica") is not None


def test_isocyanate_in_the_seal_brings_an_offer_without_it(make_plan):
    plan = make_plan("cowl", LACQUER)
    assert "isocyanate" in KNOWN.sealers[plan.route.sealing].contains
    offered = of(plan, "isocyanates").route
    assert "isocyanate" not in KNOWN.sealers[offered.sealing].contains


def test_a_clean_route_offers_nothing(make_plan):
    assert make_plan("panel").safer == ()


def test_no_other_avoidable_hazard_comes_in_its_place(make_plan):
    offered = of(make_plan("cowl", LACQUER), "isocyanates").route
    assert KNOWN.tool_materials[offered.tool].dust != "silica"
    assert not {"styrene", "peroxide"} & set(KNOWN.sealers[offered.sealing].contains)


PAINTED = LACQUER | {"finish.after": "paint"}


def test_paint_keeps_its_isocyanates_whatever_the_route(make_plan, plan_route):
    said = of(make_plan("cowl", PAINTED), "isocyanates")
    assert said.text.startswith("Without isocyanates in the seal: ")
    assert "Whatever the route" in said.text
    assert "the paint that follows" in said.text
    assert {one.name for one in said.conclusion.grounds} >= {
        "Guard against isocyanates in the paint"
    }
    offered = plan_route("cowl", PAINTED, said.route)
    assert "isocyanate" in {one.id for one in offered.cautions}


@pytest.mark.parametrize("job", [{}, LACQUER, {"proposal.tool": "acrylic-sheet"}])
def test_the_plan_of_an_offer_does_not_warn_of_what_it_spares(make_plan, plan_route, job):
    for said in make_plan("cowl", job).safer:
        if said.route is not None:
            offered = plan_route("cowl", job, said.route)
            warned = {one.id for one in offered.cautions}
            (row,) = [one for one in KNOWN.avoidable.values() if one.hazard == said.hazard]
            assert not warned & set(row.cautions)


COOL = {
    "cure.temperature": "50 degC",
    "cure.hold": "16 h",
    "cure.resin": "epoxy-tooling",
    "run.parts": 1,
}


@pytest.mark.parametrize(
    ("job", "proposed", "held"),
    [
        ({}, "castable-ceramic", "aerated-concrete-400"),
        (COOL, "castable-ceramic", "gypsum"),
    ],
)
def test_a_tool_in_stock_is_no_offer_without_the_silica_it_may_hold(
    make_plan, job, proposed, held
):
    tool = {"kind": "tool", "material": held, "length": 800, "width": 600}
    stock = {"stock": [tool | {"made_for": "Fan cowl, upper half"}]}
    plan = make_plan("cowl", job | {"proposal": {"tool": proposed}}, stock)
    assert plan.route.tool == proposed
    assert min(plan.alternatives, key=lambda one: one.cost_total).tool == held
    offered = of(plan, "crystalline silica").route
    assert KNOWN.tool_materials[offered.tool].dust not in ("silica", "gypsum")


def knowing(**avoidable):
    """Return the tables with other rows of avoidable hazards, the rest as they are."""
    rows = {id: KNOWN.avoidable[id].model_copy(update=new) for id, new in avoidable.items()}
    return replace(KNOWN, avoidable={**KNOWN.avoidable, **rows})


EVERY_SEAL_BUT_LACQUER = knowing(styrene={"contains": ("none", "epoxy", "styrene")})


def test_a_route_with_another_hazard_in_its_place_is_named_as_that(make_plan):
    plan = make_plan("cowl", LACQUER, knowledge=EVERY_SEAL_BUT_LACQUER)
    said = of(plan, "isocyanates")
    assert said.route is None
    assert "No route" not in said.text
    assert "brings another such hazard in its place" in said.text
    assert said.text.endswith("brings styrene and organic peroxide.")


def test_a_seal_that_nothing_replaces_speaks_of_seals_not_of_tools(make_plan):
    every = knowing(isocyanates={"contains": ("epoxy", "styrene", "isocyanate")})
    wanted = ("mdf", "pu-board", "gypsum", "metal-plate")
    few = replace(every, tool_materials={id: KNOWN.tool_materials[id] for id in wanted})
    said = of(make_plan("cowl", LACQUER, knowledge=few), "isocyanates")
    assert said.route is None
    assert "tool materials" not in said.text
    assert "No seal without it completes a route" in said.text


def test_the_tools_counted_as_ruled_out_are_ruled_out(make_plan):
    plan = make_plan("duct")
    said = of(plan, "crystalline silica")
    without = [
        one
        for one in plan.options
        if one.stage == "tool"
        and KNOWN.tool_materials[one.id].dust not in ("silica", "gypsum")
    ]
    assert {one.verdict for one in without} == {"ruled-out"}
    assert f"the {len(without)} tool materials without it" in said.text
    assert len(said.conclusion.grounds) == len(without)


def test_an_offer_that_leaves_the_proposal_says_so(make_plan):
    assert "It leaves the proposal." in of(make_plan("cowl", LACQUER), "isocyanates").text


@pytest.mark.parametrize("row", KNOWN.avoidable.values(), ids=KNOWN.avoidable)
def test_an_avoidable_hazard_has_its_cautions(row):
    assert set(row.cautions) <= set(KNOWN.cautions)
    assert row.dust or row.families or row.contains
