"""Blowing before the clear: longer for more, damper and stiller; and its steps against fine ones."""

import math
from dataclasses import replace

import pytest

from cases.planning import DRY, MILD, process_for, setup_for
from laydown.planning.process import drying as dehydration
from laydown.planning.process.drying import dehydration_s


def test_dehydration_takes_longer_after_more_coats_and_in_damp_air():
    plain = process_for(MILD).dehydrate_s
    assert process_for(replace(MILD, rh=0.7)).dehydrate_s > plain
    assert process_for(replace(MILD, effect_coats=3.0)).dehydrate_s > plain


def test_dehydration_takes_longer_without_blowers():
    assert process_for(replace(MILD, blower_m_s=0.0)).dehydrate_s > process_for(MILD).dehydrate_s


def test_dehydration_is_that_of_its_own_function():
    process = process_for(DRY)
    effect = process.layers["effect"]
    assert dehydration_s(setup_for(DRY), effect, effect.conditions) == process.dehydrate_s
    assert math.isfinite(process.dehydrate_s)


@pytest.mark.parametrize("case", [MILD, DRY, replace(MILD, rh=0.7), replace(MILD, blower_m_s=0.0)])
def test_its_steps_are_within_3_percent_of_steps_ten_times_as_fine(case, monkeypatch):
    setup, effect = setup_for(case), process_for(case).layers["effect"]
    coarse = dehydration_s(setup, effect, effect.conditions)
    for name, value in (("FIRST_STEP_S", 0.1), ("STEP_GROWTH", 0.02), ("LONGEST_STEP_S", 15.0)):
        monkeypatch.setattr(dehydration, name, value)
    assert coarse == pytest.approx(dehydration_s(setup, effect, effect.conditions), rel=0.03)


@pytest.mark.parametrize("case", [MILD, replace(MILD, rh=0.7)])
def test_looking_for_it_in_two_spans_changes_nothing(case, monkeypatch):
    setup, effect = setup_for(case), process_for(case).layers["effect"]
    found = dehydration_s(setup, effect, effect.conditions)
    monkeypatch.setattr(dehydration, "USUAL_S", dehydration.LONGEST_S)
    assert dehydration_s(setup, effect, effect.conditions) == pytest.approx(found, rel=0.01)
