"""The revised NIOSH lifting equation against printed exercises."""

import pytest

from advisor.calculations.lifting import (
    coupling_multiplier,
    distance_multiplier,
    frequency_multiplier,
    horizontal_multiplier,
    lifting_index,
    recommended_weight_limit_kg,
    vertical_multiplier,
)

INCH_M = 0.0254
POUND_KG = 0.45359237

# 12 kg, H 25, V 55, D 95 cm, straight ahead, 3 lifts a minute for 45 min, fair hold.
EXERCISE = (0.25, 0.55, 0.95, 0.0, 3.0, 0.75, "fair")


@pytest.mark.published("lifting-exercises", at="p/1089113, multipliers")
def test_multipliers_of_the_metric_exercise(as_printed):
    assert horizontal_multiplier(0.25) == as_printed("1")
    assert vertical_multiplier(0.55) == as_printed(".94")
    assert distance_multiplier(0.95) == as_printed(".867")
    assert frequency_multiplier(3.0, 0.75, 0.55) == as_printed(".88")
    assert coupling_multiplier("fair", 0.55) == as_printed(".95")


@pytest.mark.published("lifting-exercises", at="p/1089113, RWL")
def test_weight_limit_of_the_metric_exercise(as_printed):
    assert recommended_weight_limit_kg(*EXERCISE) == as_printed("15.7")


@pytest.mark.published("lifting-exercises", at="p/1089113, LI")
def test_lifting_index_of_the_metric_exercise(as_printed):
    # The page divides by its rounded limit, 12 / 15.7, and prints 0.76; unrounded it is
    # 0.765.
    assert 12.0 / round(recommended_weight_limit_kg(*EXERCISE), 1) == as_printed("0.76")
    assert lifting_index(12.0, *EXERCISE) == pytest.approx(12.0 / 15.7, rel=0.05 / 15.7)


@pytest.mark.published("lifting-exercises", at="203981, multipliers")
def test_multipliers_of_the_exercise_in_inches(as_printed):
    # H 20, V 6, D 16 in, fair.  Its HM .50 is 10/H with the rounded 10 in; metric .492.
    assert vertical_multiplier(6 * INCH_M) == as_printed(".82")
    assert distance_multiplier(16 * INCH_M) == as_printed(".93")
    assert coupling_multiplier("fair", 6 * INCH_M) == as_printed(".95")


@pytest.mark.published("lifting-equation", at="Example 1, origin; from memory")
def test_metric_form_stays_within_four_per_cent_below_the_answer_in_inches():
    # 44 lb, H 23, V 15, D 49 in, fair, at most 0.2 lifts a minute, up to 1 h: 16.3 lb.
    limit_kg = recommended_weight_limit_kg(
        23 * INCH_M, 15 * INCH_M, 49 * INCH_M, 0.0, 0.2, 1.0, "fair"
    )
    assert 0.96 * 16.3 <= limit_kg / POUND_KG <= 16.3


@pytest.mark.published("lifting-equation", at="Example 1, origin; from memory")
def test_multipliers_of_the_manual_s_first_example(as_printed):
    assert vertical_multiplier(15 * INCH_M) == as_printed("0.89")
    assert distance_multiplier(49 * INCH_M) == as_printed("0.86")


@pytest.mark.published("lifting-equation", at="Table 5, transcribed")
@pytest.mark.parametrize(
    ("lifts_per_minute", "hours", "vertical_m", "printed"),
    [
        (0.2, 1.0, 0.3, "1.00"),
        (0.2, 8.0, 0.3, ".85"),
        (1.0, 2.0, 0.3, ".88"),
        (2.4, 8.0, 0.15, ".55"),
        (8.0, 8.0, 0.9, ".18"),
        (9.0, 8.0, 0.74, ".00"),
        (9.0, 8.0, 0.75, ".15"),
        (10.0, 2.0, 0.3, ".26"),
        (11.0, 2.0, 0.3, ".00"),
        (11.0, 2.0, 0.9, ".23"),
        (12.0, 1.0, 0.3, ".37"),
        (13.0, 1.0, 0.3, ".00"),
        (15.0, 1.0, 0.9, ".28"),
        (15.1, 1.0, 0.9, ".00"),
    ],
)
def test_frequency_table(lifts_per_minute, hours, vertical_m, printed, as_printed):
    assert frequency_multiplier(lifts_per_minute, hours, vertical_m) == as_printed(printed)


@pytest.mark.published("lifting-equation", at="coupling table; from memory")
@pytest.mark.parametrize(
    ("coupling", "low", "high"),
    [("good", "1.00", "1.00"), ("fair", "0.95", "1.00"), ("poor", "0.90", "0.90")],
)
def test_coupling_table_has_the_lower_fair_value_below_the_knuckles(
    coupling, low, high, as_printed
):
    assert coupling_multiplier(coupling, 0.74) == as_printed(low)
    assert coupling_multiplier(coupling, 0.75) == as_printed(high)
