import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.bladder import (
    bolts_along,
    corner_pressure_pa,
    growth_m,
    proof_load_n,
    shut_pressure_pa,
)
from advisor.calculations.hollow import parting_force_n
from advisor.knowledge.tables import limit, limit_span

PSI = 6894.757
INCH = 0.0254
RUBBER = (2.4e6, 0.05, 0.002)
radii = st.floats(0.002, 0.5)


@pytest.mark.published("hatch-force-problem", at="solution of problem 11")
def test_force_of_a_pressure_on_a_rectangle_as_worked(as_printed):
    # 1024 kg/m3, 9.8 m/s2 and 100 m of water on 1.2 m by 0.60 m: 7.2e5 N.
    assert parting_force_n(1024 * 9.8 * 100, 1.2, 0.60) == as_printed("7.2e5")


@pytest.mark.published("hoop-stress-problem", at="problem 314, solution")
def test_a_ring_that_carries_the_whole_pressure_leaves_none_as_worked():
    # 500 psi inside a mean radius of 0.265 in, wall 0.03 in: hoop stress of 4,417 psi.
    left = corner_pressure_pa(500 * PSI, 4417 * PSI, 1.0, 0.03 * INCH, 0.265 * INCH)
    assert left / PSI == pytest.approx(0, abs=0.5)


@pytest.mark.published("bolt-class-page", at="example: class 8.8, M12")
def test_proof_load_as_worked(as_printed):
    assert proof_load_n(580e6, 84.3e-6) == as_printed("48.9", scale=1e3)


@pytest.mark.published("bolt-area-table", at="stress areas of M8, M10 and M12")
def test_the_bolts_of_the_plan_have_the_printed_areas():
    areas = [one * 1e6 for one in limit_span("mould_bolt_area")]
    assert areas == pytest.approx([36.6, 58.0, 84.3])


@pytest.mark.published("silicone-expansion-2023", at="abstract")
def test_unfilled_rubber_grows_and_gives_as_the_abstract_has_it():
    # Filled: 210.0e-6 per K, about 22 % less than unfilled; 4.7 MPa, about 96 % more.
    filled = growth_m(1.0, 210e-6, 200.0, 20.0)
    unfilled = growth_m(1.0, limit("bladder_expansion"), 200.0, 20.0)
    assert 1 - filled / unfilled == pytest.approx(0.22, abs=0.005)
    assert 4.7e6 / limit("bladder_modulus") - 1 == pytest.approx(0.96, abs=0.005)


@pytest.mark.published("tyre-pressure-problem", at="question 1507, P2 absolute")
def test_air_shut_in_and_heated_as_worked(as_printed):
    # 658 kPa gauge at 20 degC, 101.3 kPa outside, heated to 60 degC: 862.9 kPa absolute.
    hot = shut_pressure_pa(658e3, 20.0, 60.0, 101.3e3)
    assert hot + 101.3e3 == as_printed("862.9", scale=1e3)


@given(radii, st.floats(1.01, 5.0))
def test_the_wider_the_corner_the_more_reaches_it(radius, times):
    near, far = (corner_pressure_pa(3e5, *RUBBER, r) for r in (radius, times * radius))
    assert near < far < 3e5


def test_a_bladder_cast_to_size_keeps_nothing_back():
    assert corner_pressure_pa(9e4, 2.4e6, 0.0, 0.002, 0.003) == 9e4


@given(st.floats(0.05, 10.0), st.floats(0.05, 0.3))
def test_no_two_bolts_stand_farther_apart_than_the_pitch(length, pitch):
    gaps = bolts_along(length, pitch) // 2 - 1
    assert length / gaps <= pitch * (1 + 1e-6)
    assert gaps == 1 or length / (gaps - 1) > pitch


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ((0.0, 2e6, 0.05, 0.002, 0.01), "pressure_pa"),
        ((3e5, 2e12, 0.05, 0.002, 0.01), "modulus_pa"),
        ((3e5, 2e6, 5.0, 0.002, 0.01), "stretch"),
        ((3e5, 2e6, 0.05, 0.0, 0.01), "wall_m"),
        ((3e5, 2e6, 0.05, 0.002, 0.0), "radius_m"),
    ],
)
def test_what_is_no_bladder_is_refused(wrong, named):
    with pytest.raises(ValueError, match=named):
        corner_pressure_pa(*wrong)


def test_a_cure_colder_than_the_room_is_refused():
    with pytest.raises(ValueError, match="hot_c"):
        growth_m(1.0, 270e-6, 10.0, 20.0)


@pytest.mark.parametrize("wrong", [(3.0e8, 20.0, 120.0, 1e5), (3e5, 20.0, 10.0, 1e5)])
def test_air_that_was_not_shut_in_and_heated_is_refused(wrong):
    with pytest.raises(ValueError, match=r"gauge_pa|hot_c"):
        shut_pressure_pa(*wrong)


@pytest.mark.parametrize("wrong", [(580.0e6, 58.0), (0.0, 58.0e-6)])
def test_a_bolt_of_no_size_is_refused(wrong):
    with pytest.raises(ValueError, match=r"proof_stress_pa|stress_area_m2"):
        proof_load_n(*wrong)
