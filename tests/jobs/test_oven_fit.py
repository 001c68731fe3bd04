"""The bagged tool in the oven: floor, door, turning and shelf."""

OVENS = {"oven.length": 1800, "oven.width": 1200, "oven.height": 1100}


def said(plan):
    """Return every rule a plan speaks by: bags judged, conditions, joins followed."""
    rules = {one.conclusion.rule for one in plan.conditions}
    for option in plan.options:
        for reason in option.reasons:
            rules.add(reason.rule)
            rules |= {g.conclusion.rule for g in reason.grounds if g.conclusion}
    return rules


def test_the_demo_oven_takes_the_tool(make_plan):
    assert not {"OVEN-050", "OVEN-052", "OVEN-054", "OVEN-140"} & said(make_plan("cowl"))


def test_an_oven_that_takes_the_part_may_not_take_the_bagged_tool(make_plan):
    shop = {"oven.length": 680, "oven.width": 500, "oven.height": 400}
    plan = make_plan("cowl", shop=shop)
    assert "OVEN-050" in said(plan)


def test_a_narrow_door_stops_a_tool_that_would_lie_inside(make_plan):
    assert "OVEN-052" in said(make_plan("cowl", shop=OVENS | {"oven.door_width": 450}))
    assert "OVEN-052" in said(make_plan("cowl", shop=OVENS | {"oven.door_height": 200}))
    wide = OVENS | {"oven.door_width": 1200, "oven.door_height": 1100}
    assert "OVEN-052" not in said(make_plan("cowl", shop=wide))


def test_a_long_narrow_tool_lies_corner_to_corner(make_plan):
    long = {"part.length": 1850, "part.width": 100, "part.depth": 30, "proposal": None}
    long |= {"part.smallest_radius": 15, "budget.total": 60_000, "run.parts": 2}
    long |= {"part.tolerance_over": 1850, "part.tolerance": 5}
    shop = {"oven.length": 1900, "oven.width": 1500}
    assert "OVEN-054" in said(make_plan("cowl", long, shop))


def test_a_weak_shelf_asks_for_a_plate_then_for_something_else(make_plan):
    def shelf(rated):
        plan = make_plan("cowl", shop={"oven.shelf_load": rated})
        load = next(one for one in plan.findings if one.id == "shelf-load")
        return load, [c.text for c in plan.conditions if c.conclusion.rule == "OVEN-140"]

    strong, weak, poor = shelf(500), shelf(25), shelf(10)
    assert strong[0].judgement == "ok"
    assert not strong[1]
    assert weak[0].judgement == "watch"
    assert "stiff plate" in weak[1][0]
    assert poor[0].judgement == "fail"
    assert "rated for its weight" in poor[1][0]


def test_a_shelf_of_unknown_size_is_held_to_its_rating(make_plan):
    unknown = dict.fromkeys(OVENS)
    assert "OVEN-142" in said(make_plan("cowl", shop=unknown | {"oven.shelf_load": 10}))
    assert "OVEN-142" not in said(make_plan("cowl", shop=unknown))
    assert "OVEN-142" not in said(make_plan("cowl", shop={"oven.shelf_load": 10}))
