"""Room models against printed worked checks, and settling against a printed table."""

import pytest

from advisor.calculations.dust_exposure import (
    purge_time_s,
    room_concentration_kg_m3,
    time_to_reach_s,
)

MG = 1e-6
MINUTE = 60.0
FT3 = 0.3048**3

# The balance is linear: a volume of vapour may stand for its mass, here scaled by 1e-3.
SCALE = 1e-3


@pytest.mark.published("room-model-package", at="concentration, example")
def test_concentration_in_a_room_as_printed(as_printed):
    share = room_concentration_kg_m3(
        1.4 * FT3 / MINUTE * SCALE, 2500.0 * FT3 / MINUTE, 75_000.0 * FT3, 11.0 * MINUTE
    )
    assert share / SCALE * 1e6 == as_printed("171.90")


@pytest.mark.published("room-model-package", at="time.interval, example")
def test_time_to_a_concentration_as_printed(as_printed):
    time_s = time_to_reach_s(
        1.4 * FT3 / MINUTE * SCALE,
        2500.0 * FT3 / MINUTE,
        75_000.0 * FT3,
        175e-6 * SCALE,
    )
    assert time_s / MINUTE == as_printed("11.24")


@pytest.mark.published("hvac-design-guide", at="purge from 20 % to 1.4 %, K 0.2")
def test_purge_as_printed(as_printed):
    # Two changes a minute; N 13.3 changes, 6.65 min.
    time_s = purge_time_s(2.0 * 100.0 / MINUTE, 100.0, 1.4 / 20.0, mixing=0.2)
    assert 2.0 * time_s / MINUTE == as_printed("13.3")
    assert time_s / MINUTE == as_printed("6.65")
