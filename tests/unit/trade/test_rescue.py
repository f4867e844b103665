"""Every cell of defects and stages, and the figures of the ways out, worked by hand."""

import math
from dataclasses import replace
from typing import get_args

import pytest

from cases.rescue import CELLS, EFFECT, JOB, TABLE, keys, way, ways
from cases.speech import US, english
from laydown.reader.papers.tables import STAGES
from laydown.schema.rescue import DefectKey, Stage
from laydown.trade.rescue import is_late

RANK = {"sound": 0, "risky": 1, "not possible": 2}


def test_the_table_has_all_faults_and_stages_and_nothing_that_is_not_used():
    assert tuple(TABLE.defects) == get_args(DefectKey)
    assert get_args(Stage) == STAGES
    assert len(CELLS) == 19 * 6
    used = {key for defect in TABLE.defects.values() for row in defect.ways.values() for key in row}
    assert used == set(TABLE.ways)
    assert {one.price for one in TABLE.ways.values()} <= set(TABLE.prices)


@pytest.mark.parametrize(("defect", "stage"), CELLS)
def test_every_cell_has_a_sound_way_that_is_not_carrying_on(defect, stage):
    assert any(one.soundness == "sound" and not one.carry_on for one in ways(defect, stage))


@pytest.mark.parametrize(("defect", "stage"), CELLS)
def test_every_cell_lists_carrying_on_once_with_what_it_leads_to(defect, stage):
    on = [one for one in ways(defect, stage) if one.carry_on]
    assert len(on) == 1
    assert len(english(on[0].consequence)) > 20


@pytest.mark.parametrize(("defect", "stage"), CELLS)
def test_every_cell_is_ranked_sound_first_then_by_price(defect, stage):
    found = ways(defect, stage)
    order = [(RANK[one.soundness], one.carry_on, sum(one.price_factor)) for one in found]
    assert order == sorted(order)
    assert found[0].soundness == "sound"


@pytest.mark.parametrize(("defect", "stage"), CELLS)
def test_every_way_has_finite_figures_a_text_and_a_source(defect, stage):
    for one in ways(defect, stage):
        assert 0.0 <= one.minutes.low <= one.minutes.value <= one.minutes.high < math.inf
        assert one.sprayed_g >= 0.0
        assert english(one.text)
        assert english(one.consequence)
        assert all(map(english, one.needs))
        assert one.source


@pytest.mark.parametrize(("defect", "stage"), CELLS)
def test_a_way_that_sprays_takes_grams_and_one_that_adds_a_coat_sprays(defect, stage):
    for one in ways(defect, stage):
        if one.ground_coats + one.effect_coats > 0.0:
            assert one.sprayed_g > 0.0


def test_minutes_and_grams_of_one_more_ground_coat_by_hand():
    # dry already: 160 s x 0.25 to spray and 300 s of flash; 320 g x 0.25
    found = way("clouds", "ground_dry", "next ground coat")
    assert found.minutes.value == pytest.approx((40.0 + 300.0) / 60.0)
    assert found.sprayed_g == pytest.approx(80.0)
    # +- 15 % of 40 s and -100 / +150 s of flash, in squares
    assert found.minutes.low == pytest.approx((340.0 - math.hypot(6.0, 100.0)) / 60.0)
    assert found.minutes.high == pytest.approx((340.0 + math.hypot(6.0, 150.0)) / 60.0)


def test_a_wet_film_flashes_first_and_a_dry_one_does_not():
    wet = way("clouds", "ground_wet", "next ground coat")
    assert wet.minutes.value == pytest.approx((300.0 + 40.0 + 300.0) / 60.0)


def test_minutes_and_grams_of_two_coats_over_a_nib_by_hand():
    # 180 s de-nib, 60 s tack, twice (120 x 0.25 + 240) s; 2 x 240 x 0.25 g
    found = way("dirt", "effect_dry", "effect de-nib")
    assert found.minutes.value == pytest.approx((180.0 + 60.0 + 2.0 * 270.0) / 60.0)
    assert found.sprayed_g == pytest.approx(120.0)


def test_half_a_coat_flashes_once_and_takes_half_the_grams():
    found = way("clouds", "effect_dry", "drop coat dry")
    assert found.minutes.value == pytest.approx((0.5 * 30.0 + 240.0) / 60.0)
    assert found.sprayed_g == pytest.approx(30.0)


def test_washing_off_sprays_all_effect_coats_again():
    # 900 s wash off, 900 s dry, two coats of (30 + 240) s
    found = way("dirt", "effect_dry", "wash off")
    assert found.minutes.value == pytest.approx((900.0 + 900.0 + 2.0 * 270.0) / 60.0)
    assert found.sprayed_g == pytest.approx(2.0 * EFFECT.coat_g * 0.25)
    assert found.effect_coats == 0.0


def test_a_larger_region_takes_more_paint_and_time():
    small, large = (way("not_hidden", "baked", "redo", replace(JOB, region_share=one)) for one in (0.1, 0.5))
    assert large.sprayed_g == pytest.approx(5.0 * small.sprayed_g)
    assert large.minutes.value > small.minutes.value


def test_carrying_on_costs_no_minutes_now():
    assert all(one.minutes.value == 0.0 for one in ways("sag", "effect_dry") if one.carry_on)


def test_several_nibs_make_spots_of_other_counts_and_that_is_risky():
    many = replace(JOB, spot_count=4)
    assert way("dirt", "effect_dry", "effect de-nib", many).soundness == "risky"
    assert way("dirt", "effect_dry", "effect de-nib").soundness == "sound"
    assert way("dirt", "ground_dry", "ground de-nib", many).soundness == "sound"
    assert "whole panel" in english(way("dirt", "ground_dry", "ground de-nib", many).needs[-1])


def test_the_sheets_own_longest_time_wins_over_a_day():
    assert not is_late(replace(JOB, effect_age_s=80_000.0))
    assert is_late(replace(JOB, effect_age_s=80_000.0, recoat_max_s=28_800.0))
    assert not is_late(replace(JOB, effect_age_s=100_000.0, recoat_max_s=172_800.0))


def test_past_the_longest_time_only_what_begins_below_or_scuffs_is_left():
    late = replace(JOB, effect_age_s=90_000.0)
    assert keys("clouds", "effect_dry", late, "sound") == [
        "scuff and one more",
        "ground and effect again",
        "wash off",
    ]
    assert way("clouds", "effect_dry", "on: stays", late).soundness == "not possible"
    assert "longest time" in english(way("clouds", "effect_dry", "drop coat dry", late).consequence)


def test_what_is_wrong_is_said_with_its_figures_in_the_units_of_the_reader():
    for defect in TABLE.defects.values():
        assert all(US(one) for one in (defect.title, defect.sign, defect.causes))
    text = way("clouds", "effect_dry", "drop coat dry").text
    assert english(text) == "One drop coat at 1.3 to 1.5 bar over the whole section"
    assert US(text) == "One drop coat at 19 to 22 psi over the whole section"


def test_a_fault_nobody_knows_is_refused():
    with pytest.raises(KeyError):
        ways("rust", "baked")
