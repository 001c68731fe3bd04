"""What tests share: printed values, and the check that their sources are known."""

import tomllib
from contextlib import contextmanager
from copy import deepcopy
from decimal import Decimal
from importlib.resources import files
from pathlib import Path
from unittest import mock

import pytest
from hypothesis import settings

from advisor.advise import advise
from advisor.job import Job
from advisor.reading import parse
from advisor.reasoning.engine import RecordingEngine
from advisor.shop import Shop

TABLES = Path(__file__).parents[1] / "rules" / "tables"

# The same examples in every run, and nothing written into the checkout.
settings.register_profile("advisor", database=None, deadline=None, derandomize=True)
settings.load_profile("advisor")


# Files of tests that plan the same jobs run in one process, where each is planned once.
TOGETHER = frozenset(
    (
        "test_cautions_stay",
        "test_every_rule",
        "test_no_contradiction",
        "test_safety_invariants",
        "test_trade_cases",
        "test_words",
        "test_worked_lines",
    )
)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """Give a process whole files, and files that share their plans together."""
    if config.getvalue("dist") != "loadfile":
        return None
    from xdist.scheduler import LoadFileScheduling

    class SharedPlans(LoadFileScheduling):
        def _split_scope(self, nodeid):
            file = Path(nodeid.partition("::")[0])
            return "together" if file.stem in TOGETHER else str(file)

    return SharedPlans(config, log)


def pytest_addoption(parser):
    """Let more invented jobs be planned by hand than there is time for at each change."""
    parser.addoption("--safety-jobs", type=int, default=60, help="invented jobs to plan")
    parser.addoption("--safety-from", type=int, default=0, help="number of the first")


def known_sources():
    """Return the keys of all tables of sources, or None while there is no such file."""
    files = sorted(TABLES.glob("sources*.toml"))
    if not files:
        return None
    return {key for file in files for key in tomllib.loads(file.read_text("utf-8"))}


def published_source(marker):
    """Return the source key of a published marker, whose form is checked."""
    if len(marker.args) != 1 or set(marker.kwargs) != {"at"}:
        raise pytest.UsageError(
            f"published{marker.args} {marker.kwargs}: write published(SOURCE, at=PLACE)"
        )
    return marker.args[0]


def pytest_collection_modifyitems(items):
    known = known_sources()
    for item in items:
        for marker in item.iter_markers("published"):
            source = published_source(marker)
            if known is not None and source not in known:
                raise pytest.UsageError(
                    f"{item.nodeid}: published source {source!r} is in none of "
                    f"{TABLES}/sources*.toml. Add its row there, or correct the key."
                )


@pytest.fixture
def as_printed():
    """Compare to a printed number, to half a unit of its last printed digit."""

    def compare(printed: str, scale: float = 1.0):
        number = Decimal(printed)
        last_digit = Decimal(1).scaleb(number.as_tuple().exponent)
        return pytest.approx(
            float(number) * scale, rel=0, abs=float(last_digit) / 2 * scale
        )

    return compare


DEMO = ("cowl", "panel", "duct")


def demo_tables(name):
    """Return one of the demo's files as plain data."""
    return tomllib.loads(files("advisor.demo").joinpath(f"{name}.toml").read_text("utf-8"))


def merged(tables, changes):
    """Return nested tables with dotted changes applied; None takes a key away."""
    result = deepcopy(tables)
    for path, value in changes.items():
        *parents, key = path.split(".")
        place = result
        for parent in parents:
            place = place.setdefault(parent, {})
        if value is None:
            place.pop(key, None)
        else:
            place[key] = value
    return result


@contextmanager
def recording():
    """Collect the ids of the rules that fire."""
    fired, record = set(), RecordingEngine.record

    def listen(engine, advice, matched, outcomes):
        fired.add(advice.id)
        record(engine, advice, matched, outcomes)

    with mock.patch.object(RecordingEngine, "record", listen):
        yield fired


@pytest.fixture(scope="session")
def shallow_crown():
    """Return what makes the cowl a shallow crown that film is laid on in strips."""
    return {
        "part.smallest_radius": 900,
        "part.depth": 30,
        "finish.target": "as-moulded",
        "proposal": {
            "tool": "aerated-concrete",
            "sealing": "epoxy-glass-skin",
            "release": "adhesive-ptfe-film",
        },
    }


@pytest.fixture(scope="session")
def make_plan():
    """Return a call that plans a demo job with inputs moved: ``job={"run.parts": 500}``.

    ``make_plan.fired`` takes the same and returns the ids of the rules that fired.
    """
    kept, kept_fired = {}, {}

    def make(name, job=None, shop=None, knowledge=None):
        moved = (
            merged(demo_tables(name), job or {}),
            merged(demo_tables("shop"), shop or {}),
        )
        key = repr((moved, knowledge and id(knowledge)))
        if key not in kept:
            given = (
                parse(moved[0], Job, f"{name}.toml"),
                parse(moved[1], Shop, "shop.toml"),
            )
            with recording() as kept_fired[key]:
                kept[key] = advise(*given, knowledge)
        make.latest = key
        return kept[key]

    def fired(*arguments):
        make(*arguments)
        return kept_fired[make.latest]

    make.fired = fired
    return make


@pytest.fixture(params=DEMO)
def demo_plan(request, make_plan):
    """Each demo job's plan in turn."""
    return make_plan(request.param)
