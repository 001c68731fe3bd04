"""Hold the matching of the rule base against a rule engine written in C, and experta's.

Run it as a script: ``python tests/benchmarks/bench_yardstick.py``.  Every set of facts that
the decision of a demo job shows to a stage is recorded once.  Three engines then match the
same rules over the same sets: experta as it comes (its own list of facts, network and
strategy), the matcher that ships, and CLIPS, for which the conditions are written out in
its own language; what that cannot say, a Python function that it calls back.  First the
activations of all three are held to be the same.  A set of facts is matched whole, and
nothing is fired; writing facts out for CLIPS is not counted, reading them by CLIPS is.
"""

import gc
import re
import sys
import time
from collections import Counter
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from typing import Any

from clips_rules import as_text, translated

from advisor.advise import plan_of
from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.reading import read_job, read_shop
from advisor.reasoning.engine import Reasoner, RecordingEngine
from advisor.reasoning.expert import (
    Fact,
    FactList,
    InitialFact,
    KnowledgeEngine,
)
from advisor.reasoning.rulebook import engine_class
from advisor.shop import Shop

REPEATS = 3
DEMO = Path(str(files("advisor.demo")))
STOCK = KnowledgeEngine.__base__  # experta's own engine, nothing mended

Match = tuple[str, tuple[int, ...]]  # a rule, and the numbers of the facts that meet it
Session = tuple[str, tuple[Fact, ...]]  # a stage, and what it was shown


def recorded(job: Job, shop: Shop) -> list[Session]:
    """Return every set of facts that a decision shows to a stage, and what it adds."""
    sessions: list[Session] = []
    run = RecordingEngine.run

    def recording(engine: Any, steps: float = float("inf")) -> None:
        run(engine, steps)
        known = [one for one in engine.facts.values() if not isinstance(one, InitialFact)]
        numbered = FactList()
        for one in (InitialFact(), *(one.copy() for one in known)):
            numbered.declare(one)
        sessions.append((type(engine).stage, tuple(numbered.values())[1:]))

    RecordingEngine.run = recording
    try:
        plan_of(Decision(job, shop, Reasoner(load_knowledge())))
    finally:
        RecordingEngine.run = run
    return sessions


class Shipped:
    """The matcher that ships."""

    def __init__(self, sessions: list[Session]):
        self.sessions = sessions
        stages = {stage for stage, _ in sessions}
        self.matchers = {
            stage: engine_class(stage, RecordingEngine)().matcher for stage in stages
        }

    def match(self) -> Iterator[tuple[str, Any]]:
        """Match every set of facts as if none had been seen before; yield each result."""
        for matcher in self.matchers.values():
            matcher._network._met.clear()
        for stage, facts in self.sessions:
            matcher = self.matchers[stage]
            matcher.reset()
            yield stage, matcher.changes(adding=facts)[0]

    @staticmethod
    def matches(result: Any) -> set[Match]:
        """Return the activations of one set of facts."""
        return {_named(one.rule.__name__, one.facts) for one in result}


class Stock:
    """experta as it comes."""

    def __init__(self, sessions: list[Session]):
        stages = {stage for stage, _ in sessions}
        self.engines = {stage: engine_class(stage, STOCK)() for stage in stages}
        self.sessions = sessions

    def match(self) -> Iterator[tuple[str, Any]]:
        """Match every set of facts; yield each result."""
        for stage, facts in self.sessions:
            engine = self.engines[stage]
            engine.reset()
            engine.declare(*facts)
            yield stage, engine.agenda.activations

    @staticmethod
    def matches(result: Any) -> set[Match]:
        """Return the activations of one set of facts."""
        return {_named(one.rule.__name__, one.facts) for one in result}


class Clips:
    """CLIPS, given the facts as text."""

    def __init__(self, sessions: list[Session]):
        self.made = {
            stage: translated(
                engine_class(stage, STOCK),
                [fact for one, shown in sessions if one == stage for fact in shown],
            )
            for stage in {stage for stage, _ in sessions}
        }
        self.texts = [(stage, as_text(facts)) for stage, facts in sessions]

    def match(self) -> Iterator[tuple[str, Any]]:
        """Match every set of facts; yield each result."""
        for stage, text in self.texts:
            env = self.made[stage].env
            env.reset()
            env.load_facts(text)
            yield stage, env

    @staticmethod
    def matches(result: Any) -> set[Match]:
        """Return the activations of one set of facts."""
        found = set()
        for activation in result.activations():
            name, _, basis = str(activation).split(None, 1)[1].partition(":")
            numbers = map(int, re.findall(r"f-(\d+)", basis))
            found.add((name.rpartition("--")[0], tuple(sorted(numbers))))
        return found


def _named(rule: str, facts: tuple[Fact, ...]) -> Match:
    numbers = (one.__factid__ for one in facts if not isinstance(one, InitialFact))
    return rule, tuple(sorted(numbers))


ENGINES = {"experta": Stock, "shipped": Shipped, "CLIPS": Clips}


def differing(sessions: list[Session]) -> list[str]:
    """Return where the three engines do not find the same activations."""
    made = {name: engine(sessions) for name, engine in ENGINES.items()}
    faults = []
    for n, results in enumerate(zip(*(one.match() for one in made.values()), strict=True)):
        found = [
            engine.matches(result)
            for engine, (_, result) in zip(made.values(), results, strict=True)
        ]
        if any(one != found[0] for one in found):
            faults.append(f"{sessions[n][0]}, set {n}: {found}")
    return faults


def seconds(engine: Any) -> float:
    """Return the least time of several in which an engine matches every set of facts."""
    least = float("inf")
    for _ in range(REPEATS):
        gc.collect()
        gc.disable()
        begun = time.perf_counter()
        for _ in engine.match():
            pass
        least = min(least, time.perf_counter() - begun)
        gc.enable()
    return least


def told() -> Iterator[str]:
    """Yield the lines of the table."""
    shop = read_shop(DEMO / "shop.toml")
    yield "job      sets  facts  experta, ms  shipped, ms  CLIPS, ms  CLIPS calls Python in"
    for name in ("cowl", "panel", "duct"):
        sessions = recorded(read_job(DEMO / f"{name}.toml"), shop)
        faults = differing(sessions)
        if faults:
            raise AssertionError("\n".join(faults[:5]))
        made = {one: engine(sessions) for one, engine in ENGINES.items()}
        took = {one: 1e3 * seconds(engine) for one, engine in made.items()}
        asked = sum((one.conditions for one in made["CLIPS"].made.values()), Counter())
        facts = sum(len(shown) for _, shown in sessions)
        yield (
            f"{name:<7} {len(sessions):5}  {facts:5}  {took['experta']:11.0f}  "
            f"{took['shipped']:11.0f}  {took['CLIPS']:9.0f}  "
            f"{asked['called back']} of {asked.total()} conditions"
        )


if __name__ == "__main__":
    for line in told():
        sys.stdout.write(line + "\n")
        sys.stdout.flush()
