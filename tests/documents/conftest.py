"""The demo's documents on paper, each printed once for all who read it back."""

import os
from datetime import date
from importlib.resources import files
from pathlib import Path

import pytest

from advisor.documents.carried import sources
from advisor.documents.render import render

DAY = date(2026, 3, 14)
DEMO = Path(str(files("advisor.demo")))


@pytest.fixture(scope="session")
def demo_pdf(make_plan, tmp_path_factory):
    """Return a call that gives the PDF of a document of a demo job, its files attached.

    Processes that test side by side share what they print; who comes too early prints
    for itself.
    """
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent

    def print_once(name, document="plan", paper="a4"):
        kept = folder / f"{name}.{document}.{paper}.pdf"
        if not kept.exists():
            given = sources(
                *((DEMO / f"{one}.toml").read_bytes() for one in (name, "shop"))
            )
            made = render(make_plan(name), ("pdf",), DAY, paper, given, (document,))
            own = kept.with_suffix(f".{os.getpid()}")
            own.write_bytes(made[f"{document}.pdf"]())
            own.replace(kept)
        return kept.read_bytes()

    return print_once
