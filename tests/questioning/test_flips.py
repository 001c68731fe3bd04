"""What would change a plan is true: it flips there, and one notch nearer not yet."""

import pytest

from advisor.advise import Consultation, advise
from advisor.job import Job
from advisor.questioning.fields import field_at, value_at
from advisor.questioning.flips import Search
from advisor.questioning.inputs import Move, moved
from advisor.questioning.questioned import questioned_plan
from advisor.reading import parse
from advisor.shop import Shop
from tests.conftest import DEMO, demo_tables, merged

NOTCH = {"run.parts": 1, "cure.temperature": 1, "part.draft": 0.5}


@pytest.fixture(scope="module", params=DEMO)
def search(request):
    return a_search(request.param)


def a_search(name, changes=None):
    job = parse(merged(demo_tables(name), changes or {}), Job, f"{name}.toml")
    shop = parse(demo_tables("shop"), Shop, "shop.toml")
    return Search(Consultation(), job, shop)


def out(option):
    return (option.stage, option.verdict) == ("tool", "ruled-out")


def stands(decision, tool):
    return any(one.stands for one in decision.routes_of(tool))


APART = Consultation()  # remembers nothing of the searches


def decided(search, moves):
    """Decide apart from the search."""
    return APART.decide(*moved(search.job, search.shop, moves))


def one_notch_nearer(search, flip):
    """Return the moves of a flip of one number with that number one notch nearer."""
    [path] = flip.chosen
    old = value_at(search.job, search.shop, path)
    new = float(str(flip.moves[0].value).split()[0])
    notch = NOTCH.get(path, new * 0.011)
    nearer = new - notch if new > old else new + notch
    unit = field_at(path).unit
    value = int(nearer) if path == "run.parts" else f"{nearer:g} {unit}" if unit else nearer
    return (Move(path, value), *flip.moves[1:])


@pytest.fixture(scope="module")
def back(search):
    """Return what brings back each tool material that is ruled out."""
    out = [id for id in search.base.tool_facts if not stands(search.base, id)]
    return {id: search.brings_back(id) for id in out}


def test_what_is_said_to_come_back_does(search, back):
    assert sum(flip is not None for flip in back.values()) > len(back) / 2
    for tool, flip in back.items():
        if flip is not None:
            assert stands(decided(search, flip.moves), tool), (tool, flip.moves)


def test_one_notch_nearer_it_does_not_yet(search, back):
    for tool, flip in back.items():
        if flip is not None and len(flip.chosen) == 1 and flip.more[0] is not None:
            nearer = one_notch_nearer(search, flip)
            assert not stands(decided(search, nearer), tool), (tool, flip.moves)


def test_of_two_changes_neither_would_do_alone(search, back):
    for tool, flip in back.items():
        if flip is not None and len(flip.chosen) == 2:
            first = [one.field for one in flip.moves].index(flip.chosen[1])
            for half in (flip.moves[:first], flip.moves[first:]):
                assert not stands(decided(search, half), tool), (tool, half)


def test_only_inputs_that_stand_behind_a_refusal_are_moved(search, back):
    for tool, flip in back.items():
        if flip is not None and len(flip.chosen) == 1:
            assert flip.chosen[0] in search.inputs_behind(search.base, tool)
            assert not flip.chosen[0].startswith(("part.shape", "part.duty", "title"))


def test_what_unseats_a_plan_does_and_one_notch_nearer_does_not_yet(search):
    leader, found = search.base.winner.ids[0], search.unseats()
    assert found
    for flip in found:
        then = decided(search, flip.moves).winner
        assert then is None or then.ids[0] != leader
        if flip.more[0] is not None:
            assert decided(search, one_notch_nearer(search, flip)).winner.ids[0] == leader


def test_a_tool_that_lacks_only_money_comes_back_at_the_price_of_its_cheapest_route():
    search = a_search("cowl")
    rich = a_search("cowl", {"budget.total": 1e7})
    price = min(one.cost.total for one in rich.base.routes_of("steel") if one.stands)
    [move] = search.brings_back("steel").moves
    assert move.field == "budget.total"
    assert price <= move.value <= price * 1.011


def test_a_cooler_cure_brings_the_hold_that_its_resin_lists():
    flip = a_search("cowl").brings_back("mdf")
    assert flip.moves == (Move("cure.temperature", "80 degC"), Move("cure.hold", "8 h"))


def test_a_cure_out_of_the_resins_range_brings_another_class():
    flip = a_search("panel").brings_back("mdf")
    assert {one.field: one.value for one in flip.moves} == {
        "cure.temperature": "80 degC",
        "cure.resin": "epoxy-low-temperature",
        "cure.hold": "8 h",
    }


def test_a_shape_no_tool_can_have_is_not_talked_round():
    assert a_search("cowl").brings_back("metal-plate") is None


def test_where_no_route_stands_the_nearest_openings_are_told():
    search = a_search("cowl", {"budget.total": 500, "proposal": None})
    plan = questioned_plan(search.consultation, search.job, search.shop)
    assert plan.verdict == "no-route"
    assert {one.about for one in plan.changes} == {"option"}
    assert "comes back with a budget of " in plan.changes[0].text
    then = [Move(field, float(value)) for field, value in plan.changes[0].moves.items()]
    assert decided(search, then).winner is not None


def test_the_plan_is_the_same_besides_and_says_it_in_words():
    search = a_search("duct")
    plan = questioned_plan(search.consultation, search.job, search.shop)
    plain = advise(search.job, search.shop)
    same = {"sources": plain.sources, "words": plain.words}
    assert plan.model_copy(update={"changes": (), "sureness": None} | same) == plain
    assert set(plan.sources) >= set(plain.sources)
    assert set(plan.words) >= set(plain.words)
    texts = [one.text for one in plan.changes]
    assert any("instead of" in text and text.endswith(" leads.") for text in texts)
    named = {id for one in plan.changes for id in one.options}
    out = {
        one.id for one in plan.options if (one.stage, one.verdict) == ("tool", "ruled-out")
    }
    assert named == out


def test_a_job_that_asks_or_is_refused_has_nothing_to_change():
    search = a_search("cowl", {"cure.temperature": None})
    assert questioned_plan(search.consultation, search.job, search.shop).changes == ()
