"""The traps of the rule engine, and the cures that keep them shut."""

import logging
import subprocess
import sys

import pytest

from advisor.reasoning.expert import MATCH, NOT, Fact, Field, KnowledgeEngine, Rule
from advisor.reasoning.rulebook import advice


class Token(Fact):
    n = Field(int)


class Stop(Fact):
    pass


class Probe(KnowledgeEngine):
    fired = ()

    @Rule(Token(n=MATCH.n), NOT(Stop()))
    def first(self, n):
        self.fired += (n,)
        self.declare(Stop())


@pytest.mark.parametrize("count", range(3, 11))
def test_a_rule_does_not_fire_once_its_condition_is_false(count):
    engine = Probe()
    engine.fired = ()
    engine.restart([Token(n=n) for n in range(count)])
    engine.run()
    assert len(engine.fired) == 1


def test_importing_the_engine_leaves_the_root_logger_alone():
    program = (
        "import logging; import advisor.reasoning.expert; print(len(logging.root.handlers))"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "0"
    assert logging.getLogger("experta") is not None


def test_advice_above_rule_is_refused():
    def body(self):
        return None

    with pytest.raises(TypeError, match="below @Rule"):
        advice(id="X-1", title="X", reason="X.")(Rule(Token(n=MATCH.n))(body))
