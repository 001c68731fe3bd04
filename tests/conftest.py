"""What tests share: printed values, and the check that their sources are known."""

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import settings

TABLES = Path(__file__).parents[1] / "rules" / "tables"

# The same examples in every run, and nothing written into the checkout.
settings.register_profile("advisor", database=None, deadline=None, derandomize=True)
settings.load_profile("advisor")


def pytest_configure(config):
    config.addinivalue_line(
        "markers",
        "published(source, at): the expected values are printed in a source of the tables",
    )


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
