"""What to do after a pour."""

import pytest

from cases.speech import english
from laydown.schema.product import RecipeLine
from laydown.trade.mixing.pour import PourRoom, judge_pour, overpour, pour_sheet, weighing_tolerance

LINES = tuple(
    RecipeLine(role, role, 1, "parts", "mass") for role in ("base", "hardener", "adjuster", "water")
)
TARGETS = (525.0, 27.5, 49.5, 25.0)
ROOM = PourRoom(usable_extra_g=60.0, cup_g=1000.0)


def test_halves_go_up_even_where_binary_falls_short():
    assert [step.running_g for step in pour_sheet([0.25, 0.10])] == [0.3, 0.4]


@pytest.mark.parametrize(("masses", "resolution"), [([1.0], 0.0), ([-1.0], 0.1), ([float("nan")], 0.1)])
def test_a_sheet_without_sense_is_refused(masses, resolution):
    with pytest.raises(ValueError, match="must be"):
        pour_sheet(masses, resolution)


def test_within_tolerance_is_left():
    # 2 % of 27.5 g of hardener is 0.55 g; 3 % of 525 g of base is 15.75 g.
    verdict = judge_pour(LINES, TARGETS, [535.0, 28.0], ROOM)
    assert verdict.decision == "leave"
    assert verdict.correction.factor == 1.0
    assert verdict.clock_running
    assert "clock runs" in english(verdict.text)


def test_pure_base_may_be_scooped_back():
    verdict = judge_pour(LINES, TARGETS, [560.0], ROOM)
    assert verdict.decision == "scoop back"
    assert "35.0 g" in english(verdict.text)
    assert not verdict.clock_running


def test_a_mix_is_never_scooped_but_scaled():
    verdict = judge_pour(LINES, TARGETS, [525.0, 30.0], ROOM)
    assert verdict.decision == "scale up"
    assert verdict.correction.add_g == pytest.approx([47.7, 0, 54.0, 27.3], abs=0.05)
    assert "do not scoop" in english(verdict.text)
    assert "nothing goes back" in english(verdict.text)


@pytest.mark.parametrize(
    ("room", "why"), [(PourRoom(50.0, 1000.0), "job can use"), (PourRoom(60.0, 680.0), "cup holds")]
)
def test_a_surplus_that_nobody_can_use_or_hold_is_binned(room, why):
    verdict = judge_pour(LINES, TARGETS, [525.0, 30.0], room)
    assert verdict.decision == "bin"
    assert why in english(verdict.text)


def test_too_little_is_no_fault():
    verdict = judge_pour(LINES, TARGETS, [500.0], ROOM)
    assert verdict.decision == "leave"
    assert verdict.correction.add_g == pytest.approx([25.0, 27.5, 49.5, 25.0])


def test_no_tolerance_is_tighter_than_the_scale():
    assert weighing_tolerance("hardener", 2.0, 0.1) == pytest.approx(0.05)
    assert weighing_tolerance("hardener", 100.0, 0.1) == 0.02
    assert weighing_tolerance("water", 100.0) == 0.03
    assert weighing_tolerance("water", 0.0, 0.1) == 0.03


def test_what_was_never_planned_cannot_be_put_right():
    with pytest.raises(ValueError, match="more lines"):
        overpour([1.0], [1.0, 1.0])
    with pytest.raises(ValueError, match="plans at 0"):
        overpour([1.0, 0.0], [1.0, 1.0])
