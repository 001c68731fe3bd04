import pytest

from advisor.calculations.hollow import parting_force_n, soak_time_s

PSI = 6894.757
INCH = 0.0254
POUND = 4.4482216


@pytest.mark.published("army-composites-manual", at="page image 171")
def test_full_vacuum_on_a_square_as_printed(as_printed):
    # 14.7 psi on a patch of 10 by 10 in: 1,470 lb.
    force = parting_force_n(14.7 * PSI, 10 * INCH, 10 * INCH)
    assert force / POUND == as_printed("1470")


@pytest.mark.published("sand-core-2025", at="abstract: penetration rate at 50 degC")
def test_water_goes_in_by_the_printed_rate():
    # 0.94 mm/s: 940 mm in a thousand seconds.
    assert soak_time_s(0.940, 0.94e-3) == pytest.approx(1000)


def test_a_way_twice_as_long_takes_twice_as_long():
    assert soak_time_s(0.5, 1e-3) == pytest.approx(2 * soak_time_s(0.25, 1e-3))


@pytest.mark.parametrize("wrong", [(0.0, 1e-3), (480.0, 1e-3), (0.48, 0.94)])
def test_no_way_and_no_rate_of_water_is_refused(wrong):
    with pytest.raises(ValueError, match=r"way_m|rate_m_s"):
        soak_time_s(*wrong)


@pytest.mark.parametrize("wrong", [(0.0, 1.0, 1.0), (1e5, 480.0, 1.0), (1e5, 1.0, -1.0)])
def test_no_pressure_and_no_area_is_refused(wrong):
    with pytest.raises(ValueError, match=r"pressure_pa|length_m|width_m"):
        parting_force_n(*wrong)
