"""A hazard that another standing route spares is offered away; it is never a refusal."""

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
    assert "meets the same needs" in said.text


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


@pytest.mark.parametrize("row", KNOWN.avoidable.values(), ids=KNOWN.avoidable)
def test_an_avoidable_hazard_has_its_cautions(row):
    assert set(row.cautions) <= set(KNOWN.cautions)
    assert row.dust or row.families or row.contains
