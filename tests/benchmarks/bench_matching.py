"""Time the matching of the rule base: the matcher that ships against experta's own.

Run it as a script: ``python tests/benchmarks/bench_matching.py``.  For each demo job it
decides once with either matcher and prints the time spent in finding out which rules hold,
and the time of the whole decision.  `tests/health/test_matching.py` holds the plans of
both to be the same.  Then it decides with every tool material, seal, release or way to bag
there twice, and prints by how much the time of the decision grows.
"""

import gc
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from importlib.resources import files
from itertools import chain
from pathlib import Path
from typing import Any

from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.tables import Knowledge, load_knowledge
from advisor.reading import read_job, read_shop
from advisor.reasoning.engine import Reasoner, RecordingEngine
from advisor.reasoning.expert import KnowledgeEngine
from advisor.reasoning.matching import JoiningMatcher
from advisor.reasoning.rulebook import engine_class
from advisor.shop import Shop

REPEATS = 5
RATIO_WANTED = 10.0
GROWTH_WANTED = 2.0
TIMING = 0.1  # two runs of the same differ by about as much
DEMO = Path(str(files("advisor.demo")))


@contextmanager
def matcher(kind: type[Any]) -> Iterator[None]:
    """Build every engine on this matcher."""
    shipped = RecordingEngine.__matcher__
    RecordingEngine.__matcher__ = kind
    engine_class.cache_clear()
    try:
        yield
    finally:
        RecordingEngine.__matcher__ = shipped
        engine_class.cache_clear()


@contextmanager
def clocked(kind: type[Any]) -> Iterator[list[float]]:
    """Sum up the time that a matcher takes to follow changes and to forget."""
    spent = [0.0]
    originals = {name: getattr(kind, name) for name in ("changes", "reset")}

    def timed(original: Any) -> Any:
        def call(*args: Any, **kwargs: Any) -> Any:
            begun = time.perf_counter()
            try:
                return original(*args, **kwargs)
            finally:
                spent[0] += time.perf_counter() - begun

        return call

    for name, original in originals.items():
        setattr(kind, name, timed(original))
    try:
        yield spent
    finally:
        for name, original in originals.items():
            setattr(kind, name, original)


def decided(job: Job, shop: Shop, reasoner: Reasoner) -> float:
    """Return the seconds of one decision, every route judged."""
    gc.collect()
    gc.disable()
    begun = time.perf_counter()
    assert Decision(job, shop, reasoner).ranked
    spent = time.perf_counter() - begun
    gc.enable()
    return spent


def times(kind: type[Any], job: Job, shop: Shop) -> tuple[float, float]:
    """Return the least time of matching, and of a whole decision, of several runs."""
    runs = []
    with matcher(kind):
        reasoner = Reasoner(load_knowledge())
        decided(job, shop, reasoner)  # engines are built once
        for _ in range(REPEATS):
            with clocked(kind) as matching:
                whole = decided(job, shop, reasoner)
            runs.append((matching[0], whole))
    return min(one for one, _ in runs), min(one for _, one in runs)


def twice(knowledge: Knowledge, table: str) -> Knowledge:
    """Return the tables with every row of one of them there under a second name."""
    rows = getattr(knowledge, table)
    second = {f"{id}-again": row for id, row in rows.items()}
    prices = {
        f"{id}-again": row
        for id, row in knowledge.prices.items()
        if id.partition("-")[2] in rows
    }
    return replace(
        knowledge,
        **{table: dict(chain(rows.items(), second.items()))},
        prices=dict(chain(knowledge.prices.items(), prices.items())),
    )


def growth(job: Job, shop: Shop, table: str) -> float:
    """Return by how much a decision takes longer with twice the options of one kind."""
    least = []
    for knowledge in (load_knowledge(), twice(load_knowledge(), table)):
        reasoner = Reasoner(knowledge)
        decided(job, shop, reasoner)
        least.append(min(decided(job, shop, reasoner) for _ in range(REPEATS)))
    return least[1] / least[0]


def told() -> Iterator[str]:
    """Yield the lines of the tables; the last says if a ratio that is wanted was missed."""
    shop = read_shop(DEMO / "shop.toml")
    jobs = {name: read_job(DEMO / f"{name}.toml") for name in ("cowl", "panel", "duct")}
    missed = []
    yield "job      matching, ms             decision, ms"
    yield "         experta  shipped  ratio  experta  shipped  ratio"
    for name, job in jobs.items():
        stock = times(KnowledgeEngine.__matcher__, job, shop)
        quick = times(JoiningMatcher, job, shop)
        columns = []
        for one, other in zip(stock, quick, strict=True):
            columns.append(f"{1e3 * one:7.0f}  {1e3 * other:7.0f}  {one / other:5.1f}")
        missed += [name] if stock[0] / quick[0] < RATIO_WANTED else []
        yield f"{name:<8} {'  '.join(columns)}"
    yield ""
    yield "twice as many      takes so many times as long"
    for table in ("tool_materials", "sealers", "releases", "bagging"):
        grown = growth(jobs["panel"], shop, table)
        missed += [table] if grown > GROWTH_WANTED + TIMING else []
        yield f"{table:<18} {grown:.2f}"
    yield ""
    wanted = f"{RATIO_WANTED:g} times as quick at matching, {GROWTH_WANTED:g} times at most"
    yield f"wanted: {wanted}; missed by {', '.join(missed) or 'none'}"


if __name__ == "__main__":
    line = ""
    for line in told():
        sys.stdout.write(line + "\n")
        sys.stdout.flush()
    sys.exit(not line.endswith("none"))
