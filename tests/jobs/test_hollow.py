"""Core or tube for a closed section: the way out, the soak, the drying, the force."""

import pytest

TUBE = {
    "part.shape": "closed",
    "part.tool_side": "female",
    "part.undercut": False,
    "part.width": 200,
    "part.depth": 150,
    "budget.total": 60_000,
    "proposal": {"tool": "epoxy-board"},
}


def told(plan):
    return {one.conclusion.rule for one in (*plan.conditions, *plan.trials, *plan.steps)}


def found(plan, id):
    return next(one for one in plan.findings if one.id == id)


def test_a_core_that_washes_out_is_proved_timed_and_the_part_dried(make_plan):
    plan = make_plan("duct")
    assert {"HOLLOW-043", "HOLLOW-063", "STEP-843", "STEP-853"} <= told(plan)
    places = {one.conclusion.rule: one.n for one in plan.steps}
    assert places["STEP-843"] < places["STEP-850"] < places["STEP-853"]


@pytest.mark.published("sand-core-2025", at="abstract: penetration rate at 50 degC")
def test_the_quickest_soak_is_half_the_length_by_the_printed_rate(make_plan):
    # The duct is 480 mm long and open at both ends: 240 mm at 0.94 mm/s.
    assert found(make_plan("duct"), "core-soak").value == pytest.approx(
        240 / 0.94 / 60, 1e-3
    )


def test_the_wash_takes_the_coupons_time_as_often_as_the_way_is_longer(make_plan):
    assert found(make_plan("duct"), "core-over-coupon").value == pytest.approx(2.4)


def test_the_force_of_a_blown_tube_grows_with_the_section(make_plan):
    small, large = (
        found(make_plan("cowl", TUBE | {"part.width": width}), "parting-force").value
        for width in (100, 200)
    )
    assert large == pytest.approx(2 * small, rel=1e-5)  # six digits are kept
    length = make_plan("cowl", TUBE).job["part"]["length"]
    assert large == pytest.approx(1e5 * length["value"] / 1000 * 0.2 / 9.80665, rel=1e-4)


def test_a_wide_section_needs_no_rehearsal_with_putty(make_plan):
    assert "HOLLOW-013" not in told(make_plan("cowl", TUBE))
    film = {"proposal": {"tool": "epoxy-board", "bagging": "tube-bag"}}
    narrow = TUBE | {"part.width": 80, "part.depth": 60} | film
    assert "HOLLOW-013" in told(make_plan("cowl", narrow))


def test_a_closed_section_is_asked_core_or_tube_once(make_plan):
    plan = make_plan("cowl", {"part.shape": "closed", "part.tool_side": None})
    asked = [one.text for one in plan.questions if one.field == "part.tool_side"]
    assert len(asked) == 1
    assert "core" in asked[0]
    assert "tube" in asked[0]


def test_the_plan_says_why_core_or_tube_fits(make_plan):
    for plan, rule in (
        (make_plan("duct"), "HOLLOW-073"),
        (make_plan("cowl", TUBE), "HOLLOW-083"),
    ):
        assert rule in {one.rule for one in plan.route.reasons}
    assert "HOLLOW-073" not in {one.rule for one in make_plan("cowl").route.reasons}
