"""No caution goes because less is said of the shop, or because something else is wished.

Two plans are compared only where they go the same way: with another tool, seal, release
or bag the work is another, and so are its hazards.
"""


def route_of(plan):
    """Return the pieces of a route and how its tool is built, or None."""
    one = plan.route
    return one and (one.tool, one.sealing, one.release, one.bagging, one.construction)


def same_work(before, after):
    """Return whether two plans go the same way, with a tool in stock or without."""
    in_stock = [
        any(step.title == "Inspect the tool in stock" for step in plan.steps)
        for plan in (before, after)
    ]
    way = route_of(before)
    return way is not None and way == route_of(after) and in_stock[0] == in_stock[1]


def lowered(before, after):
    """Yield each caution that a step of both plans has lost, and each that is gone."""
    kept = {step.conclusion.rule: set(step.cautions) for step in after.steps}
    for step in before.steps:
        lost = set(step.cautions) - kept.get(step.conclusion.rule, set(step.cautions))
        if lost:
            yield f"{step.conclusion.rule} lost {sorted(lost)}"
    if {step.conclusion.rule for step in before.steps} <= set(kept):
        gone = {one.id for one in before.cautions} - {one.id for one in after.cautions}
        if gone:
            yield f"gone: {sorted(gone)}"


LESS = (
    ("dust", "extraction"),
    ("dust", "wet_cutting"),
    ("dust", "respirators"),
    ("dust", "air_changes"),
    ("room", "humidity"),
    ("vacuum", "flow"),
    ("vacuum", "altitude"),
    ("people", "count"),
    ("people", "hoist"),
    ("oven", "kind"),
    ("oven", "limit"),
    ("oven", "length"),
    ("oven", "shelf_load"),
    ("oven", "over_temperature_trip"),
    ("oven", "fuel_fired"),
    ("making", "machining"),
    ("rates", "jurisdiction"),
)


def less(shop, number):
    """Return the shop with one of the things it says left out, and which."""
    said = [(table, key) for table, key in LESS if key in shop.get(table, {})]
    table, key = said[number // 4 % len(said)]
    return shop | {
        table: {name: value for name, value in shop[table].items() if name != key}
    }, f"{table}.{key}"


def test_less_said_of_the_shop_lowers_no_caution(few_plans, plan_invented, invent):
    faults, compared = [], 0
    for number, plan in few_plans.items():
        job, shop = invent(number)
        shop, field = less(shop, number)
        after = plan_invented(job, shop)
        if same_work(plan, after):
            compared += 1
            faults += [f"{number} {field}: {one}" for one in lowered(plan, after)]
    assert not faults
    assert compared


WISHES = (
    {"budget": {"priority": "cost"}},
    {"budget": {"priority": "lead-time"}},
    {"budget": {"priority": "certainty", "total": 1e7}},
    {"finish": {"target": "as-moulded"}},
    {"finish": {"target": "paint", "after": "none"}},
    {"finish": {"after": "bond"}},
)


def test_other_wishes_lower_no_caution(few_plans, plan_invented, invent):
    faults, compared = [], 0
    for number, plan in few_plans.items():
        job, shop = invent(number)
        wish = WISHES[number // 4 % len(WISHES)]
        after = plan_invented(job | wish, shop)
        if same_work(plan, after):
            compared += 1
            faults += [f"{number} {wish}: {one}" for one in lowered(plan, after)]
    assert not faults
    assert compared


def test_the_same_input_gives_the_same_plan(few_plans, plan_invented, invent):
    number = max(few_plans)
    assert plan_invented(*invent(number)).to_json() == few_plans[number].to_json()


def test_a_caution_that_went_is_seen(few_plans):
    plan = next(plan for plan in few_plans.values() if plan.route)
    bare = tuple(step.model_copy(update={"cautions": ()}) for step in plan.steps)
    assert list(lowered(plan, plan.model_copy(update={"steps": bare})))
    assert list(lowered(plan, plan.model_copy(update={"cautions": ()})))
    assert not list(lowered(plan, plan))
