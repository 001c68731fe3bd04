import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.layup import is_balanced, is_symmetric, ply_angles_deg

angles = st.lists(
    st.integers(-900, 900).map(lambda n: n / 10.0), min_size=1, max_size=12
).map(tuple)


def written(angles_deg):
    return "[" + "/".join(f"{angle:g}" for angle in angles_deg) + "]"


@given(angles)
def test_angles_written_out_are_read_back(angles_deg):
    assert ply_angles_deg(written(angles_deg)) == angles_deg


@given(angles, st.integers(1, 5))
def test_count_repeats_and_mirror_doubles(angles_deg, times):
    text = f"{written(angles_deg)}{times}s"
    repeated = angles_deg * times
    assert ply_angles_deg(text) == repeated + repeated[::-1]
    assert is_symmetric(ply_angles_deg(text))


@given(angles)
def test_plies_with_their_opposites_are_balanced(angles_deg):
    assert is_balanced(angles_deg + tuple(-angle for angle in angles_deg))


@pytest.mark.parametrize(
    ("layup", "plies"),
    [
        ("[0/45/-45/90]s", (0, 45, -45, 90, 90, -45, 45, 0)),
        ("[0/90]_2S", (0, 90, 0, 90, 90, 0, 90, 0)),
        ("[ ±45 / 0_3 ]", (45, -45, 0, 0, 0)),
        ("[+-30_2]", (30, -30, 30, -30)),
        ("[+/-30/90]", (30, -30, 90)),
        ("[∓45]", (-45, 45)),
        ("[+45/−45°]", (45, -45)),
        ("[13.4/-.5]", (13.4, -0.5)),
        ("[0]", (0,)),
    ],
)
def test_usual_ways_of_writing(layup, plies):
    assert ply_angles_deg(layup) == plies


@pytest.mark.parametrize(
    ("layup", "named"),
    [
        ("0/90", "square brackets"),
        ("[0/90", "square brackets"),
        ("[0/90]t", "square brackets"),
        ("[0/[90]]", "square brackets"),
        ("[]", "'' is not an angle"),
        ("[0//90]", "'' is not an angle"),
        ("[0/x]", "'x' is not an angle"),
        ("[(0/90)]2s", "round brackets"),
        ("[0/270]", "beyond 180"),
        ("[0_0/90]", "count of 0"),
        ("[0/90]0", "count of 0"),
        ("[0/90]999999999", "more than 2000"),
        ("[0_999999999]", "more than 2000"),
        ("[0_1001]s", "more than 2000"),
    ],
)
def test_what_cannot_be_read_is_refused_with_an_example(layup, named):
    with pytest.raises(ValueError, match=rf"{named}.*Write it as"):
        ply_angles_deg(layup)


def test_opposite_ends_of_a_direction_are_one():
    assert is_symmetric((90.0, 0.0, -90.0))
    assert is_balanced((90.0, 0.0))
    assert is_balanced((135.0, 45.0))
    assert not is_balanced((45.0, 45.0, -45.0))
    assert not is_symmetric((45.0, -45.0))


def test_no_ply_is_no_lay_up():
    with pytest.raises(ValueError, match="number of plies is 0"):
        is_symmetric(())
    with pytest.raises(ValueError, match="number of plies is 0"):
        is_balanced(())
