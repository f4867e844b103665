"""The mix sheet for what is in the cup or on the shelf."""

from types import SimpleNamespace

import pytest

from cases.speech import english
from laydown.desk.plans.mix_sheet import pour
from laydown.schema.figure import Spread
from laydown.schema.problem import InputError
from laydown.schema.supplies import Mix, PourLine

# 100 + 5 % hardener + 10 % adjuster + 5 % water, all of the base by volume; densities 1.05, 1.10, 0.99, 0.9982;
# 600 mL: 500 * 1.05 = 525 g, 25 * 1.10 = 27.5 g, 50 * 0.99 = 49.5 g, 25 * 0.9982 = 25.0 g.
LINES = (
    PourLine("ground base", "base", 525.0, 525.0),
    PourLine("hardener", "hardener", 27.5, 552.5),
    PourLine("reducer", "reducer", 49.5, 602.0),
    PourLine("water", "water", 25.0, 627.0),
)


def mix(layer):
    return Mix(
        layer,
        f"{layer}-x",
        480,
        600,
        627.0,
        1.045,
        LINES,
        7200,
        114.0,
        Spread(95, 40, 150),
        None,
        None,
        "",
        (),
    )


PLAN = SimpleNamespace(mixes=(mix("ground"), mix("effect")))


def test_without_more_words_the_sheet_is_the_planned_one():
    first, second = pour(PLAN, None, {}, {})
    assert [step.running_g for step in first.steps] == [525.0, 552.5, 602.0, 627.0]
    assert second.mix.layer == "effect"


def test_too_much_base_scales_the_other_lines_by_hand_worked_figures():
    # 560 / 525 = 1.066667; 27.5, 49.5 and 25.0 times that: 29.3, 52.8, 26.7; the scale goes on from 560.0
    (sheet,) = pour(PLAN, "ground", {"base": "560"}, {})
    assert sheet.factor == pytest.approx(560 / 525)
    assert [step.step_g for step in sheet.steps] == pytest.approx([0, 29.3, 52.8, 26.7], abs=0.11)
    assert [step.running_g for step in sheet.steps] == pytest.approx([560, 589.3, 642.1, 668.8])


def test_within_tolerance_the_rest_is_poured_by_the_sheet_on_top_of_what_is_in_the_cup():
    # 540 / 525 is 2.9 % over, below the 3 % of a base; the scale goes on from 540.0, not from 525.0
    (sheet,) = pour(PLAN, "ground", {"base": "540"}, {})
    assert sheet.decision == "leave"
    assert [step.running_g for step in sheet.steps] == pytest.approx([540, 567.5, 617, 642])


def test_too_much_hardener_needs_more_base_and_never_goes_back_into_a_tin():
    # 30 / 27.5 = 1.090909; base 525 * 1.090909 = 572.7, so 47.7 g more; reducer 54.0, water 27.3
    (sheet,) = pour(PLAN, "ground", {"base": "525", "hardener": "30 g"}, {})
    assert [step.step_g for step in sheet.steps] == pytest.approx([47.7, 0, 54.0, 27.3], abs=0.11)
    assert sheet.steps[0].running_g == pytest.approx(602.7)
    assert "nothing goes back into any tin" in english(sheet.text)


def test_less_base_on_the_shelf_makes_a_smaller_batch_and_says_what_is_missing():
    # 430 / 525 of 600 mL = 491.4 mL, still more than the 480 mL that the coats need
    (enough,) = pour(PLAN, "ground", {}, {"base": "430"})
    assert enough.steps[0].step_g == 430.0
    assert "missing" not in english(enough.text)
    # 262.5 / 525 of 600 mL = 300 mL: 180 mL are missing
    (short,) = pour(PLAN, "ground", {}, {"base": "262.5"})
    assert "180 mL are missing" in english(short.text)


def test_more_than_is_needed_on_the_shelf_changes_nothing():
    (sheet,) = pour(PLAN, "ground", {}, {"base": "2 kg"})
    assert sheet.factor == 1
    assert sheet.steps[-1].running_g == 627.0


def test_a_batch_too_small_to_weigh_is_said():
    (sheet,) = pour(PLAN, "ground", {}, {"base": "50"})
    assert "Below 114 g" in english(sheet.text)


@pytest.mark.parametrize(
    ("layer", "poured", "have", "words"),
    [
        (None, {"base": "540"}, {}, "--layer"),
        ("ground", {"base": "540"}, {"base": "430"}, "does not go with"),
        ("ground", {"bse": "540"}, {}, "no line 'bse'"),
        ("ground", {"base": "lots"}, {}, "cannot read"),
        ("ground", {"base": "-3"}, {}, "outside"),
        ("ground", {}, {"base": "nan"}, "not a finite number"),
    ],
)
def test_what_cannot_be_meant_is_told(layer, poured, have, words):
    with pytest.raises(InputError) as caught:
        pour(PLAN, layer, poured, have)
    assert words in " ".join(f"{item.where} {english(item.what)}" for item in caught.value.problems)
    assert caught.value.file == ""
