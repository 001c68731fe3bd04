"""Both faces moulded: when two halves close on the part, and when they must not."""

import pytest

from advisor.costing import Geometry
from advisor.knowledge.tables import build_knowledge, read_tables

BOTH = {"finish.both_faces": True, "proposal": None, "budget.total": None}
ASKED = {"proposal": {"bagging": "matched-mould"}, "budget.total": None}
HALF_STEPS = {"STEP-102", "STEP-340", "STEP-470", "STEP-580", "STEP-805", "STEP-865"}
ONE_SIDED = {"STEP-511", "STEP-560", "STEP-615", "STEP-640"}


def reasons(plan, stage, id):
    """Return verdict and rules on one option."""
    option = next(o for o in plan.options if (o.stage, o.id) == (stage, id))
    return option.verdict, {reason.rule for reason in option.reasons}


def finding(plan, id):
    """Return a finding by its key."""
    return next(one for one in plan.findings if one.id == id)


def step_rules(plan):
    """Return the rules that wrote steps, in order."""
    return [one.conclusion.rule for one in plan.steps]


def against_proposal(plan):
    """Return the rules that judged the proposal."""
    return {one.rule for one in plan.proposal.conclusions}


@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_a_job_that_does_not_ask_is_bagged_on_one_side(make_plan, name):
    plan = make_plan(name)
    assert plan.route.bagging != "matched-mould"
    assert not HALF_STEPS & set(step_rules(plan))
    assert "crushing" not in {one.id for one in plan.cautions}
    assert not [one for one in plan.findings if one.id.startswith("gap-")]


def test_both_faces_rule_out_every_one_sided_bag(make_plan):
    plan = make_plan("cowl", BOTH)
    assert plan.route.bagging == "matched-mould"
    for bag in ("bag-to-tool", "bag-to-table", "envelope"):
        verdict, rules = reasons(plan, "bagging", bag)
        assert verdict == "ruled-out"
        assert "CLOSE-010" in rules
    assert "two halves" in plan.route.name


def test_one_face_leaves_the_matched_mould_to_money(make_plan):
    plan = make_plan("panel")
    verdict, rules = reasons(plan, "bagging", "matched-mould")
    assert verdict == "doubtful"
    assert rules & {"CLOSE-040"}
    assert "CLOSE-010" not in reasons(plan, "bagging", plan.route.bagging)[1]


def test_steps_of_two_halves_take_the_place_of_those_of_a_one_sided_bag(make_plan):
    done = step_rules(make_plan("cowl", BOTH))
    assert set(done) >= HALF_STEPS
    assert not ONE_SIDED & set(done)
    assert ONE_SIDED - {"STEP-615"} <= set(step_rules(make_plan("cowl")))
    for before, after in (
        ("STEP-102", "STEP-340"),
        ("STEP-340", "STEP-580"),
        ("STEP-530", "STEP-580"),
        ("STEP-580", "STEP-610"),
        ("STEP-805", "STEP-810"),
        ("STEP-810", "STEP-865"),
    ):
        assert done.index(before) < done.index(after)


def test_the_trial_closure_is_a_condition_and_a_hold_point(make_plan):
    plan = make_plan("cowl", BOTH)
    assert "CLOSE-040" in {one.conclusion.rule for one in plan.conditions}
    wax = next(one for one in plan.steps if one.conclusion.rule == "STEP-340")
    assert wax.hold_point


def test_hands_between_halves_are_cautioned_at_every_such_step(make_plan):
    plan = make_plan("cowl", BOTH)
    crushing = next(one for one in plan.cautions if one.id == "crushing")
    watched = {plan.steps[n - 1].conclusion.rule for n in crushing.applies_to_steps}
    assert watched == {"STEP-102", "STEP-340", "STEP-580", "STEP-805"}
    assert "local" in crushing.defers_to


def test_a_flat_panel_is_closed_between_two_plates(make_plan):
    plan = make_plan("panel", BOTH)
    assert plan.route.tool == "metal-plate"
    assert "STEP-101" in step_rules(plan)
    assert "STEP-102" not in step_rules(plan)
    lines = {one.label: one.amount for one in plan.route.cost_lines}
    assert lines["Tool material, both halves"] > 0  # one plate is owned, one is bought


def test_a_closed_part_has_no_second_half(make_plan):
    plan = make_plan("duct", {"finish.both_faces": True})
    assert plan.verdict == "no-route"
    assert {one.conclusion.rule for one in plan.conditions} == {"CLOSE-001"}
    assert "CLOSE-020" in against_proposal(make_plan("duct", ASKED))


def test_an_undercut_keeps_the_halves_open(make_plan):
    undercut = {"part.undercut": True}
    plan = make_plan("cowl", BOTH | undercut)
    assert plan.verdict == "no-route"
    assert "CLOSE-002" in {one.conclusion.rule for one in plan.conditions}
    assert "CLOSE-022" in against_proposal(make_plan("cowl", ASKED | undercut))
    assert "CLOSE-022" not in against_proposal(make_plan("cowl", ASKED))


@pytest.mark.parametrize(("draft", "closes"), [(0.9, False), (1.0, True)])
def test_walls_need_the_least_draft(make_plan, draft, closes):
    plan = make_plan("cowl", BOTH | {"part.draft": draft})
    assert (plan.verdict != "no-route") is closes
    if not closes:
        assert "CLOSE-003" in {one.conclusion.rule for one in plan.conditions}
    asked = make_plan("cowl", ASKED | {"part.draft": draft})
    assert ("CLOSE-024" in against_proposal(asked)) is not closes


def test_a_vessel_does_not_press_what_stops_hold_apart(make_plan):
    vessel = {"cure.pressure": "autoclave", "cure.autoclave_pressure": 5}
    plan = make_plan("cowl", BOTH | vessel, {"oven.kind": "autoclave"})
    assert plan.verdict == "no-route"
    assert "CLOSE-004" in {one.conclusion.rule for one in plan.conditions}


@pytest.mark.parametrize(
    ("tool", "rule"),
    [
        ("aerated-concrete-500", "CLOSE-030"),
        ("ceramic-gypsum", "CLOSE-030"),
        ("graphite", "CLOSE-030"),
        ("mdf", "CLOSE-032"),
    ],
)
def test_a_body_that_clamps_crush_is_ruled_out(make_plan, tool, rule):
    job = {"proposal": {"tool": tool}, "budget.total": None, "run.parts": 2}
    plan = make_plan("cowl", job)
    assert plan.route.tool == tool
    verdict, rules = reasons(plan, "bagging", "matched-mould")
    assert verdict == "ruled-out"
    assert rule in rules


@pytest.mark.parametrize("tool", ["aluminium", "steel", "epoxy-board", "carbon-laminate"])
def test_hard_halves_are_not_ruled_out(make_plan, tool):
    plan = make_plan("cowl", BOTH | {"proposal": {"tool": tool}})
    assert (plan.route.tool, plan.route.bagging) == (tool, "matched-mould")
    assert finding(plan, "clamp-factor").judgement in {"ok", "watch"}


def test_a_body_too_weak_for_stops_is_ruled_out(make_plan):
    raw = read_tables()
    crush = raw["tool_materials"]["epoxy-board"]["compressive_strength"]
    # 2 MPa under stops, three times over; the board keeps half of its own at its limit.
    weak = {"value": 7.0, "low": 6.0, "high": 8.0}
    raw["tool_materials"]["epoxy-board"]["compressive_strength"] = crush | weak
    job = {"proposal": {"tool": "epoxy-board"}, "budget.total": None}
    plan = make_plan("cowl", job, knowledge=build_knowledge(raw))
    assert plan.route.tool == "epoxy-board"
    verdict, rules = reasons(plan, "bagging", "matched-mould")
    assert verdict == "ruled-out"
    assert "CLOSE-034" in rules
    as_sold = make_plan("cowl", job)
    assert "CLOSE-034" not in reasons(as_sold, "bagging", "matched-mould")[1]


@pytest.mark.parametrize("shape", ["single-curvature", "double-curvature"])
def test_what_is_cut_from_both_halves_fills_the_height_of_the_part(shape):
    female = Geometry(shape, "female", 0.62, 0.40, 0.15, 0.06, 0.05)
    male = female.counterpart
    assert male.side == "male"
    box_m3 = (0.62 + 0.12) * (0.40 + 0.12) * 0.15
    assert female.removed_m3 + male.removed_m3 == pytest.approx(box_m3)
    assert male.counterpart == female


def test_two_halves_cost_more_than_one_and_less_than_three(make_plan):
    steel = {"proposal": {"tool": "aluminium"}, "budget.total": None}
    one = make_plan("cowl", steel | {"finish.both_faces": False}).route
    two = make_plan("cowl", steel | {"finish.both_faces": True}).route
    assert one.tool == two.tool == "aluminium"

    def per_tool(route):
        return sum(line.amount for line in route.cost_lines if line.per == "tool")

    assert 1.5 * per_tool(one) < per_tool(two) < 3 * per_tool(one)
    assert two.lead_time_h > one.lead_time_h


def test_a_wall_less_well_known_widens_the_span_of_the_price_at_both_ends(make_plan):
    """A thin wall leaves more to cut away: it belongs to the dear end."""
    raw = read_tables()
    wall = raw["limits"]["metal_wall"]["figure"]
    wall["low"] = wall["high"] = wall["value"]
    job = {"proposal": {"tool": "aluminium"}, "budget.total": None}
    known = make_plan("cowl", job, knowledge=build_knowledge(raw)).route
    span = make_plan("cowl", job).route
    assert known.tool == span.tool == "aluminium"
    assert known.cost_total == span.cost_total
    assert span.cost_low < known.cost_low
    assert span.cost_high > known.cost_high


def test_the_gap_follows_the_fibre_that_is_wanted(make_plan):
    usual = make_plan("cowl", BOTH)
    leaner = make_plan("cowl", BOTH | {"laminate.fibre_volume": 0.58})
    assert finding(leaner, "gap-cold").value < finding(usual, "gap-cold").value
    assert finding(leaner, "gap-fibre").value == pytest.approx(58.0, abs=0.05)
    assert finding(leaner, "gap-resin").value > finding(usual, "gap-resin").value
    # The part is what the gap gives, not the plies with all their resin.
    measured = next(s for s in usual.steps if s.conclusion.rule == "STEP-870")
    thick = next(q.value for q in measured.quantities if "Thickness" in q.label)
    assert thick == pytest.approx(finding(usual, "gap-part").value)


def test_more_fibre_than_halves_close_on_is_refused(make_plan):
    plan = make_plan("panel", ASKED | {"laminate.fibre_volume": 0.68})
    verdict, rules = reasons(plan, "bagging", "matched-mould")
    assert verdict == "ruled-out"
    assert "CLOSE-120" in rules


def test_a_laminate_thinner_than_its_gap_can_be_cut_is_refused(make_plan):
    thin = make_plan("panel", ASKED | {"laminate.plies": 2, "laminate.areal_weight": 100})
    assert "CLOSE-115" in reasons(thin, "bagging", "matched-mould")[1]
    usual = make_plan("panel", ASKED)
    assert "CLOSE-115" not in reasons(usual, "bagging", "matched-mould")[1]
    assert usual.route.bagging == "matched-mould"


def test_plies_between_two_boards_warm_later_than_under_a_bag(make_plan):
    board = {"proposal": {"tool": "epoxy-board"}, "budget.total": None}
    closed = make_plan("cowl", board | {"finish.both_faces": True})
    open_ = make_plan("cowl", board | {"finish.both_faces": False})
    assert closed.route.tool == open_.route.tool == "epoxy-board"
    assert finding(closed, "dwell-delay").value > finding(open_, "dwell-delay").value
    assert "CLOSE-160" in {one.conclusion.rule for one in closed.conditions}
    metal = make_plan("cowl", BOTH | {"proposal": {"tool": "aluminium"}})
    assert "CLOSE-160" not in {one.conclusion.rule for one in metal.conditions}


def test_both_halves_have_to_stand_in_the_oven(make_plan):
    board = BOTH | {"proposal": {"tool": "aluminium"}}
    # 150 mm of part, two bodies of 50 mm and 50 mm of bag: 300 mm, 50 mm of air above.
    fits = make_plan("cowl", board, {"oven.height": "400 mm"})
    assert finding(fits, "closed-height").value == pytest.approx(300.0)
    assert fits.route.tool == "aluminium"
    low = make_plan("cowl", board, {"oven.height": "330 mm"})
    assert low.route is None or low.route.tool != "aluminium"


def test_steep_walls_are_watched_for_plies_dragged_down(make_plan):
    shallow = {"part.depth": 15, "part.draft": 1.0, "laminate.plies": 12}
    plan = make_plan("cowl", BOTH | shallow)
    assert finding(plan, "wall-travel").judgement == "watch"
    assert "CLOSE-140" in {one.conclusion.rule for one in plan.conditions}
    assert finding(make_plan("cowl", BOTH), "wall-travel").judgement == "ok"


def test_a_shell_is_backed_before_it_is_clamped(make_plan):
    shell = make_plan("cowl", BOTH | {"proposal": {"tool": "carbon-laminate"}})
    assert "CLOSE-170" in {one.conclusion.rule for one in shell.conditions}
    solid = make_plan("cowl", BOTH | {"proposal": {"tool": "aluminium"}})
    assert "CLOSE-170" not in {one.conclusion.rule for one in solid.conditions}


def test_a_tool_that_was_made_for_a_bag_gets_no_second_half(make_plan):
    owned = {"kind": "tool", "material": "aluminium", "length": 800, "width": 600}
    title = make_plan("cowl").job["title"]
    shop = {"stock": [owned | {"made_for": title}]}
    plan = make_plan("cowl", {"proposal": {"tool": "aluminium"}}, shop)
    assert plan.route.tool == "aluminium"
    verdict, rules = reasons(plan, "bagging", "matched-mould")
    assert verdict == "ruled-out"
    assert "CLOSE-036" in rules
    new = make_plan("cowl", BOTH | {"proposal": {"tool": "aluminium"}})
    assert "CLOSE-036" not in reasons(new, "bagging", "matched-mould")[1]


def test_both_halves_are_weighed_together(make_plan):
    plan = make_plan("cowl", BOTH | {"proposal": {"tool": "epoxy-board"}})
    heaviest = finding(plan, "heaviest-lift")
    assert heaviest.value == pytest.approx(finding(plan, "tool-mass").value)
    assert heaviest.value > finding(plan, "blank-mass").value
    # Two blanks of 740 x 560 x 200 mm less the box of 740 x 560 x 150 mm, 700 kg/m3.
    by_hand = 0.74 * 0.56 * (2 * 0.20 - 0.15) * 700
    assert heaviest.value == pytest.approx(by_hand, rel=1e-3)


def test_two_halves_of_metal_weigh_their_walls_and_less_than_one_blank(make_plan):
    plan = make_plan("cowl", BOTH | {"proposal": {"tool": "aluminium"}})
    halves = finding(plan, "tool-mass").value
    # Two walls of 20 mm over 740 x 560 mm, were the face flat, 2700 kg/m3.
    assert 2 * 0.74 * 0.56 * 0.02 * 2700 < halves < 1.5 * 2 * 0.74 * 0.56 * 0.02 * 2700
    assert finding(plan, "heaviest-lift").value == finding(plan, "blank-mass").value


def test_heat_shut_in_between_two_halves_is_cautioned_and_clamps_alone_are_not_trusted(
    make_plan,
):
    closed = make_plan("cowl", BOTH)
    assert "closed-mould-heat" in {one.id for one in closed.cautions}
    assert "CLOSE-173" in {one.conclusion.rule for one in closed.conditions}
    assert "closed-mould-heat" not in {one.id for one in make_plan("cowl").cautions}


def test_a_resin_without_kinetics_has_its_maker_asked(make_plan):
    hot = {"cure.resin": "epoxy-120", "cure.temperature": 120}
    known, unknown = make_plan("cowl", BOTH | hot), make_plan("cowl", BOTH)
    assert "CLOSE-163" in {one.conclusion.rule for one in unknown.conditions}
    assert "CLOSE-163" not in {one.conclusion.rule for one in known.conditions}
