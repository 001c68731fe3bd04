import inspect
import math
from types import FunctionType

import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations import dust_exposure
from advisor.calculations.dust_exposure import (
    purge_time_s,
    room_concentration_kg_m3,
    silica_generation_kg_s,
    time_to_reach_s,
)

MG = 1e-6
MINUTE = 60.0
generations = st.floats(1e-12, 1e-3)
airflows = st.floats(1e-3, 10.0)
volumes = st.floats(1.0, 1e4)
times = st.floats(0.0, 1e5)
mixings = st.floats(0.05, 1.0)


@pytest.mark.parametrize("module", [dust_exposure])
def test_every_docstring_says_that_it_is_an_estimate(module):
    texts = {"module": module.__doc__}
    for name, thing in vars(module).items():
        if getattr(thing, "__module__", None) != module.__name__ or name.startswith("_"):
            continue
        texts[name] = thing.__doc__
        if inspect.isclass(thing):
            for part, member in vars(thing).items():
                if isinstance(member, property | FunctionType) and not part.startswith("_"):
                    texts[f"{name}.{part}"] = member.__doc__
    assert len(texts) > 2
    for name, text in texts.items():
        words = " ".join(text.split()).lower()
        assert "a screening estimate: measure, do not rely on it" in words, name


def test_worked_what_if_of_a_block():
    # 1 kg in 8 h, 15 % silica, 0.1 % in the air: 0.3125 mg/min, 0.0625 mg/m3 at 5 m3/min.
    made = silica_generation_kg_s(1.0, 8 * 3600.0, 0.001, 0.15)
    assert made / MG * MINUTE == pytest.approx(0.3125)
    steady = room_concentration_kg_m3(made, 5.0 / MINUTE, 100.0, math.inf)
    assert steady / MG == pytest.approx(0.0625)
    assert steady / (0.05 * MG) == pytest.approx(1.25)


def test_worked_waits_at_three_changes_an_hour():
    assert purge_time_s(5.0 / MINUTE, 100.0, 0.1) / MINUTE == pytest.approx(46.0, abs=0.5)
    assert purge_time_s(5.0 / MINUTE, 100.0, 0.01) / MINUTE == pytest.approx(92.0, abs=0.5)


def test_worked_room_with_a_leak_and_bad_mixing():
    # G 15, Q 85, V 1000, to 5 %, with K 0.2 in the time only: N = 1.666 changes.
    time_s = time_to_reach_s(0.015, 0.085, 1.0 / 0.2, 0.05)
    assert time_s * 0.085 == pytest.approx(1.666, abs=5e-4)


@pytest.mark.parametrize(("share", "printed_ppm"), [(0.1, 21), (0.3, 63), (1.0, 211)])
def test_worked_styrene_in_a_room(share, printed_ppm):
    # 125 g in 30 min, 60 m3, 4 changes an hour; 24.45 litres a mole.
    made = 0.125 * share / 1800.0
    found = room_concentration_kg_m3(made, 4.0 * 60.0 / 3600.0, 60.0, 1800.0)
    ppm = found / 0.10415 * 24.45e-3 * 1e6
    assert ppm == pytest.approx(printed_ppm, abs=0.6)


@given(generations, airflows, volumes, times, mixings)
def test_room_never_passes_its_steady_state(made, airflow, volume, time_s, mixing):
    steady = room_concentration_kg_m3(made, airflow, volume, math.inf, mixing=mixing)
    now = room_concentration_kg_m3(made, airflow, volume, time_s, mixing=mixing)
    assert 0.0 <= now <= steady
    assert steady == pytest.approx(made / (mixing * airflow))


@given(generations, airflows, volumes, mixings, st.floats(0.0, 0.1))
def test_room_starts_from_where_it_was(made, airflow, volume, mixing, start):
    found = room_concentration_kg_m3(made, airflow, volume, 0.0, start, mixing)
    assert found == start


@given(generations, airflows, volumes, times, mixings)
def test_poor_mixing_and_less_air_never_lower_the_steady_state(
    made, airflow, volume, time_s, mixing
):
    poor = room_concentration_kg_m3(made, airflow, volume, time_s, mixing=mixing)
    good = room_concentration_kg_m3(made, airflow, volume, time_s)
    assert poor >= good * (1.0 - 1e-12)


@given(generations, airflows, volumes, mixings, st.floats(0.01, 0.95))
def test_time_to_reach_turns_the_room_round(made, airflow, volume, mixing, share):
    target = min(0.1, share * made / (mixing * airflow))
    time_s = time_to_reach_s(made, airflow, volume, target, mixing)
    found = room_concentration_kg_m3(made, airflow, volume, time_s, mixing=mixing)
    assert found == pytest.approx(target, rel=1e-6)


@given(airflows, volumes, mixings, st.floats(0.001, 1.0))
def test_purge_leaves_the_share_asked_for(airflow, volume, mixing, share):
    time_s = purge_time_s(airflow, volume, share, mixing)
    left = room_concentration_kg_m3(0.0, airflow, volume, time_s, 0.01, mixing)
    assert left == pytest.approx(0.01 * share, rel=1e-9)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_in_the_air_and_more_silica_make_more(airborne, silica):
    made = silica_generation_kg_s(1.0, 3600.0, airborne, silica)
    assert 0.0 <= made <= 1.0 / 3600.0
    assert silica_generation_kg_s(1.0, 3600.0, 1.0, silica) >= made


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: silica_generation_kg_s(-1.0, 1.0, 0.1, 0.1), "removed_kg is -1.0"),
        (lambda: silica_generation_kg_s(1.0, 0.0, 0.1, 0.1), "working_s is 0.0"),
        (lambda: silica_generation_kg_s(1.0, 1.0, 2.0, 0.1), "airborne_share is 2.0.*cent"),
        (lambda: silica_generation_kg_s(1.0, 1.0, 0.1, 15.0), "silica_share is 15.0.*cent"),
        (lambda: room_concentration_kg_m3(-1.0, 1.0, 1.0, 1.0), "generation_kg_s is -1.0"),
        (lambda: room_concentration_kg_m3(0.1, 0.0, 1.0, 1.0), "airflow_m3_s is 0.0"),
        (lambda: room_concentration_kg_m3(0.1, 1.0, 0.0, 1.0), "volume_m3 is 0.0"),
        (lambda: room_concentration_kg_m3(0.1, 1.0, 1.0, math.nan), "time_s is nan"),
        (lambda: room_concentration_kg_m3(0.1, 1.0, 1.0, 1.0, 5.0), "start_kg_m3.*mg/m3"),
        (lambda: room_concentration_kg_m3(0.1, 1.0, 1.0, 1.0, 0.0, 2.0), "mixing is 2.0"),
        (lambda: time_to_reach_s(0.0, 1.0, 1.0, 1e-6), "generation_kg_s is 0.0"),
        (lambda: time_to_reach_s(0.1, 1.0, 1.0, 0.05e6), "target_kg_m3.*mg/m3"),
        (lambda: purge_time_s(1.0, 1.0, 0.0), "left_share is 0.0"),
    ],
)
def test_dust_refuses_what_does_not_hold(call, named):
    with pytest.raises(ValueError, match=named):
        call()
