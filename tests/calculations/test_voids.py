from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.voids import (
    highest_humidity,
    least_resin_pressure_pa,
    pressure_margin,
)

humidities = st.floats(0.05, 1.0)
temperatures = st.floats(1.0, 250.0)


@given(temperatures, humidities)
def test_least_pressure_gives_a_margin_of_one(temperature_c, humidity):
    needed_pa = min(3e6, least_resin_pressure_pa(temperature_c, humidity))
    assert pressure_margin(temperature_c, humidity, needed_pa) <= 1.0
    assert pressure_margin(temperature_c, humidity, needed_pa / 2.0) <= 0.5


@given(temperatures, st.floats(1.0, 3e6))
def test_highest_humidity_needs_no_more_than_there_is(temperature_c, pressure_pa):
    humidity = highest_humidity(temperature_c, pressure_pa)
    assert 0.0 < humidity <= 1.0
    needed_pa = least_resin_pressure_pa(temperature_c, humidity)
    assert needed_pa <= pressure_pa * (1 + 1e-12)
