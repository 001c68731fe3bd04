"""Drying of a slab against tabulated numbers."""

import pytest

from advisor.calculations.drying import drying_time_s, water_left_share


@pytest.mark.published("crank-diffusion", at="plane sheet; from memory")
@pytest.mark.parametrize(
    ("left", "printed"),
    [(0.5, "0.1967"), (0.1, "0.8481"), (0.05, "1.1290"), (0.01, "1.7813")],
)
def test_fourier_number_of_a_share_left(left, printed, as_printed):
    assert drying_time_s(left, 1.0, 1e-6) * 1e-6 == as_printed(printed)
    assert water_left_share(float(printed)) == pytest.approx(left, rel=1e-3)
