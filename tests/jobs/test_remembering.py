"""What is remembered between decisions changes none of them, byte for byte."""

import random
from unittest import mock

import pytest

from advisor.advise import Consultation, advise
from advisor.job import Job
from advisor.reading import parse
from advisor.reasoning.engine import Reasoner
from advisor.shop import Shop
from tests.conftest import DEMO, demo_tables, merged

WALK = {
    "cure.hold": (4, 9),
    "run.parts": (1, 2, 3),
    "run.per_week": (1, 2),
    "budget.total": (9000, 90000),
    "budget.priority": ("lead-time", "certainty", "cost"),
    "finish.target": ("paint", "gloss"),
    "part.draft": (3, 8),
    "laminate.plies": (3, 12),
    "title": ("Another", "A third"),
    "shop.oven.limit": (160, 205),
    "shop.vacuum.flow": (4, 400),
    "shop.room.humidity": (0.3, 0.7),
    "shop.rates.jurisdiction": ("uk", "unknown"),
    "shop.dust.extraction": ("none", "class-h"),
    "shop.making.machining": ("hand", "cnc-router"),
}
TEMPERATURES = {"cowl": (82, 90), "panel": (118, 122), "duct": (82, 90)}
STEPS = 14


def read(name, changes):
    """Return the job and the shop of the demo with inputs moved."""
    of_shop = {k.removeprefix("shop."): v for k, v in changes.items() if "shop." in k}
    of_job = {k: v for k, v in changes.items() if "shop." not in k}
    return (
        parse(merged(demo_tables(name), of_job), Job, "job.toml"),
        parse(merged(demo_tables("shop"), of_shop), Shop, "shop.toml"),
    )


def walk(name):
    """Yield job and shop after each of some steps that move or put back one input."""
    draw, changes = random.Random(f"walk of {name}"), {}
    inputs = WALK | {"cure.temperature": TEMPERATURES[name]}
    for _ in range(STEPS):
        field = draw.choice(list(inputs))
        if field in changes and draw.random() < 0.5:
            del changes[field]
        else:
            changes[field] = draw.choice(inputs[field])
        yield read(name, changes)


@pytest.mark.parametrize("name", DEMO)
def test_a_walk_through_inputs_gives_the_plans_of_a_fresh_start(name):
    consultation, answers = Consultation(), set()
    for job, shop in walk(name):
        plan = consultation.plan(job, shop)
        assert plan.to_json() == advise(job, shop).to_json()
        answers.add(plan.model_copy(update={"job": {}, "shop": {}}).to_json())
    assert len(answers) > STEPS / 2, "the walk moves too little to prove anything"


def test_invented_jobs_one_after_another_give_the_plans_of_a_fresh_start(invent):
    consultation = Consultation()
    for number in range(7000, 7012):
        job, shop = invent(number)
        job, shop = parse(job, Job, "job.toml"), parse(shop, Shop, "shop.toml")
        assert consultation.plan(job, shop).to_json() == advise(job, shop).to_json()


@pytest.mark.parametrize("name", DEMO)
def test_the_winner_found_without_the_others_is_the_first_of_all(name):
    consultation, found = Consultation(), 0
    for priority in ("cost", "lead-time", "certainty"):
        for parts in (1, 8, 40):
            job, shop = read(name, {"budget.priority": priority, "run.parts": parts})
            winner = consultation.decide(job, shop).winner
            ranked = consultation.decide(job, shop).ranked
            assert (winner and winner.ids) == (ranked[0].ids if ranked else None)
            found += winner is not None
    assert found


def test_what_is_known_to_be_out_without_asking_is_out():
    consultation, known = Consultation(), 0
    for parts in (38, 60, 8):
        for total in (6500, 3000):
            moved = {"run.parts": parts, "budget.total": total}
            winner = consultation.decide(*read("cowl", moved)).winner
            decision = Consultation().decide(*read("cowl", moved))
            assert (winner and winner.ids) == (decision.winner and decision.winner.ids)
            again = consultation.decide(*read("cowl", moved))
            for one in again.candidates:
                unasked = "concluded" not in vars(one.route_judged)
                assert one.route_judged.stands == (not one.route_judged.against)
                known += unasked and not one.route_judged.stands
    assert known


@pytest.mark.parametrize(
    ("field", "value", "most"),
    [("run.parts", 9, 60), ("budget.total", 5000, 5), ("customer", "Other", 0)],
)
def test_an_input_that_moves_asks_again_only_what_it_touches(field, value, most):
    consultation = Consultation()
    asked = []
    ask = Reasoner.ask

    def listen(reasoner, stage, common, own=(), subject=""):
        asked.append(stage)
        return ask(reasoner, stage, common, own, subject)

    with mock.patch.object(Reasoner, "ask", listen):
        assert consultation.decide(*read("cowl", {})).winner
        first = sum(stage != "route" for stage in asked)
        asked.clear()
        assert consultation.decide(*read("cowl", {field: value})).winner
        again = sum(stage != "route" for stage in asked)
    assert again <= most < first / 5


@pytest.mark.parametrize("name", DEMO)
def test_what_the_job_alone_rules_out_is_ruled_out_on_every_face(name):
    decision, known_before = Consultation().decide(*read(name, {})), 0
    for tool in decision.tool_facts:
        if not decision.tool(tool).stands:
            continue
        for seal, sealed in decision.seals_on(tool).items():
            pairs = [sealed]
            pairs += decision.releases_on(tool, seal).values()
            pairs += decision.bags_on(tool, seal).values()
            for judged in pairs:
                known_before += "concluded" not in vars(judged)
                assert judged.stands == (not judged.against)
    assert known_before
