"""A cup reading is compared only with its like."""

import pytest

from laydown.trade.cups import CUPS, CupTarget, compare_with_target, cup_time_s, read_cup

TARGET = CupTarget("ISO 2431 4 mm", 35.0, 45.0, 20.0)


@pytest.mark.parametrize(
    ("cup", "time_s", "paint_c", "state"),
    [
        ("ISO 2431 4 mm", 40.0, 21.0, "inside"),
        ("ISO 2431 4 mm", 50.0, 20.0, "too thick"),
        ("ISO 2431 4 mm", 31.0, 20.0, "too thin"),
        ("ASTM D1200 no. 4", 40.0, 20.0, "not comparable"),
        ("ISO 2431 4 mm", 40.0, None, "not comparable"),
        ("ISO 2431 4 mm", 40.0, 15.0, "not comparable"),
        ("ISO 2431 4 mm", 20.0, 20.0, "not comparable"),
    ],
)
def test_a_reading_stands_beside_the_target_or_says_why_not(cup, time_s, paint_c, state):
    found = compare_with_target(TARGET, cup, time_s, paint_c)
    assert found.state == state
    assert found.text


@pytest.mark.parametrize("cup", sorted(CUPS))
def test_seconds_and_viscosity_undo_each_other(cup):
    middle = 0.5 * (CUPS[cup].low_s + CUPS[cup].high_s)
    assert cup_time_s(cup, read_cup(cup, middle).viscosity_mm2_s) == pytest.approx(middle)


def test_a_time_of_nothing_is_refused():
    with pytest.raises(ValueError, match="time_s"):
        read_cup("ISO 2431 4 mm", 0.0)
