"""Time the printing of a plan's documents against WeasyPrint alone on the same HTML.

Run it as a script: ``python tests/benchmarks/bench_render.py``.  For each demo job it makes
all four documents as PDF and HTML, then prints the same HTML with WeasyPrint and nothing
else, and prints how many times as long the whole took.
"""

import gc
import sys
import time
from collections.abc import Callable, Iterator
from datetime import date
from importlib.resources import files
from pathlib import Path

import weasyprint

from advisor.advise import advise
from advisor.documents.render import DOCUMENTS, FORMATS, html_of, render
from advisor.plan import Plan
from advisor.reading import read_job, read_shop

DAY = date(2026, 3, 14)
DEMO = Path(str(files("advisor.demo")))
RATIO_WANTED = 2.0
REPEATS = 2


def least(work: Callable[[], object]) -> float:
    """Return the least seconds of several runs."""
    found = float("inf")
    for _ in range(REPEATS):
        gc.collect()
        begun = time.perf_counter()
        work()
        found = min(found, time.perf_counter() - begun)
    return found


def printed(plan: Plan) -> list[bytes]:
    """Return every document of a plan."""
    return [make() for make in render(plan, FORMATS, DAY).values()]


def told() -> Iterator[str]:
    """Yield the lines of the table; the last says which jobs missed the ratio."""
    shop = read_shop(DEMO / "shop.toml")
    missed = []
    yield "job      decided, s  printed, s  WeasyPrint alone, s  ratio"
    for name in ("cowl", "panel", "duct"):
        job = read_job(DEMO / f"{name}.toml")
        plan = advise(job, shop)
        decided = least(lambda job=job: advise(job, shop))
        whole = least(lambda plan=plan: printed(plan))
        pages = [html_of(one, plan, DAY) for one in DOCUMENTS]
        bare = least(
            lambda pages=pages: [weasyprint.HTML(string=one).write_pdf() for one in pages]
        )
        ratio = (decided + whole) / bare
        missed += [name] if ratio > RATIO_WANTED else []
        yield f"{name:<8} {decided:10.2f}  {whole:10.2f}  {bare:19.2f}  {ratio:5.2f}"
    yield f"wanted: {RATIO_WANTED:g} times at most; missed by {', '.join(missed) or 'none'}"


if __name__ == "__main__":
    line = ""
    for line in told():
        sys.stdout.write(line + "\n")
        sys.stdout.flush()
    sys.exit(not line.endswith("none"))
