"""The quick matcher against the one that experta ships: the same activations, always."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from advisor.advise import advise
from advisor.reading import read_job, read_shop
from advisor.reasoning.engine import RecordingEngine
from advisor.reasoning.expert import (
    GE,
    MATCH,
    NOT,
    OR,
    TEST,
    Fact,
    Field,
    KnowledgeEngine,
    Rule,
    W,
)
from advisor.reasoning.matching import JoiningMatcher
from advisor.reasoning.rulebook import engine_class

DEMO = Path(__file__).parents[2] / "advisor" / "demo"


class Block(Fact):
    n = Field(int)
    kind = Field(str)


class Coat(Fact):
    n = Field(int)


class Rules:
    @Rule(Block(n=MATCH.n), Coat(n=MATCH.n))
    def same(self, n):
        pass

    @Rule(Block(n=MATCH.n & GE(2), kind="a"), Coat(n=MATCH.m), TEST(lambda n, m: n > m))
    def more(self, n, m):
        pass

    @Rule(Block(n=MATCH.n), NOT(Coat(n=MATCH.n)))
    def bare(self, n):
        pass

    @Rule(NOT(Block(kind="b")))
    def none_of_that_kind(self):
        pass

    @Rule(OR(Block(kind="a"), Coat(n=0)), Block(n=W(), kind=MATCH.kind))
    def either(self, kind):
        pass


class Stock(Rules, KnowledgeEngine):
    pass


class Quick(Rules, KnowledgeEngine):
    __matcher__ = JoiningMatcher


FACTS = st.one_of(
    st.builds(
        lambda n, kind: ("block", n, kind), st.integers(0, 3), st.sampled_from(["a", "b"])
    ),
    st.builds(lambda n: ("coat", n, ""), st.integers(0, 3)),
)


def made(kind, n, word):
    return Block(n=n, kind=word) if kind == "block" else Coat(n=n)


def standing(engine):
    """Return the agenda as text: rules, numbers of their facts, names and values."""
    return sorted(
        (
            one.rule.__name__,
            sorted({fact["__factid__"] for fact in one.facts}),
            sorted((k, v) for k, v in one.context.items() if not k.startswith("__")),
        )
        for one in engine.agenda.activations
    )


@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    first=st.lists(FACTS, max_size=6, unique=True),
    later=st.lists(FACTS, max_size=3, unique=True),
    gone=st.sets(st.integers(1, 6), max_size=3),
)
def test_both_matchers_find_the_same(first, later, gone):
    agendas = []
    for kind in (Stock, Quick):
        engine = kind()
        engine.restart([made(*one) for one in first])
        engine.strategy.update_agenda(engine.agenda, *engine.get_activations())
        engine.declare(*(made(*one) for one in later)) if later else None
        for number in sorted(gone):
            if number in engine.facts:
                engine.retract(number)
        agendas.append(standing(engine))
    assert agendas[0] == agendas[1]


class Unbound(KnowledgeEngine):
    __matcher__ = JoiningMatcher

    @Rule("block" << Block())
    def whole(self, block):
        pass


def test_a_condition_the_quick_matcher_does_not_know_is_refused():
    with pytest.raises(TypeError, match="not supported"):
        Unbound()


@pytest.mark.slow
@pytest.mark.parametrize("name", ["cowl", "panel", "duct"])
def test_a_plan_is_the_same_with_either_matcher(name, monkeypatch):
    job, shop = read_job(DEMO / f"{name}.toml"), read_shop(DEMO / "shop.toml")
    quick = advise(job, shop).model_dump_json()
    monkeypatch.setattr(RecordingEngine, "__matcher__", KnowledgeEngine.__matcher__)
    engine_class.cache_clear()
    stock = advise(job, shop).model_dump_json()
    engine_class.cache_clear()
    assert stock == quick
