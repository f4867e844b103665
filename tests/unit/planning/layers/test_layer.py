"""Coat after coat: wet on wet, staggered, and what a fade does to the figures of a coat."""

from dataclasses import replace

import numpy as np
import pytest

from cases.planning import DRY, FADE, MILD, SPOT_IN_DOOR, VAN, codes, process_for, quick, setup_for
from laydown.planning.layers.coat_wetness import layer_wetting
from laydown.planning.layers.layer import joins_of
from laydown.planning.setup.field import FULL_WEIGHT
from laydown.planning.setup.paint import CLOSED_G_M2


def test_later_coats_keep_adjustment_and_direction_of_the_first():
    for layer in process_for(MILD).layers.values():
        assert {coat.planned.task.backwards for coat in layer.coats} == {layer.start.backwards}
        assert {coat.planned.task.full for coat in layer.coats} == {layer.coats[0].planned.task.full}


def test_every_coat_knows_the_joins_of_the_one_below():
    process = process_for(DRY)
    below = ()
    for layer in process.layers.values():
        for coat in layer.coats:
            assert coat.planned.task.before == below
            below = coat.planned.joins()
        assert joins_of(layer) == below
    assert joins_of(None) == ()


def test_what_stands_below_the_effect_coat_is_the_solids_of_every_ground_coat():
    # wet film over density times the share of solids by volume: 0.20 of 1.15 g/mL
    layers = process_for(MILD).layers
    wet = sum(coat.planned.filmed.mean_g_m2 for coat in layers["ground"].coats)
    assert layers["effect"].task.base_um == pytest.approx(wet / 1.15 * 0.20, rel=0.03)


def test_a_ground_coat_waits_for_matt_and_never_goes_on_wet():
    for case in (MILD, DRY, FADE):
        layer = process_for(case).layers["ground"]
        assert not any(coat.wet_next for coat in layer.coats)
    first = process_for(DRY).layers["ground"].coats[0]
    layer = process_for(DRY).layers["ground"]
    assert first.flash_s == pytest.approx(layer.offer.wetting.flash_s[layer.choice.index], rel=1e-3)


def test_the_edge_of_a_coat_on_wet_paint_stays_open_while_that_is_wet():
    # in still air, by hand: what is left of the open time once the coat was sprayed and has waited
    first, second = process_for(replace(MILD, blower_m_s=0.0)).layers["effect"].coats
    assert first.wet_next
    left_s = first.planned.task.coat_open_s - first.planned.made.total_s
    assert left_s - first.flash_s - 1e-6 <= second.open_s < left_s


def test_wet_on_wet_waits_for_less_than_half_the_open_time_and_far_from_matt():
    for case in (MILD, DRY, replace(MILD, rh=0.7), replace(MILD, blower_m_s=0.0)):
        layer = process_for(case).layers["effect"]
        first = layer.coats[0]
        assert first.wet_next
        assert first.flash_s <= 0.6 * first.planned.task.coat_open_s, "half, and a little for thick places"
        assert first.flash_s < 0.5 * float(layer.offer.wetting.flash_s[layer.choice.index])


def test_a_coat_that_takes_longer_than_it_stays_open_is_waited_for_until_matt():
    # a large van: what was sprayed first has closed before the last section is done, so nothing is wet on wet
    layer = process_for(VAN).layers["effect"]
    first, second = layer.coats
    assert first.planned.made.total_s > first.planned.task.coat_open_s
    assert not first.wet_next
    assert first.flash_s == pytest.approx(layer.offer.wetting.flash_s[layer.choice.index], rel=1e-3)
    # the second lies on a film that has dried and drinks, so its edge closes sooner than on bare metal
    bare = layer_wetting(
        layer.task.paint,
        layer.conditions,
        0.0,
        layer.task.coats[1:],
        ((layer.option, second.planned.task.full),),
    )
    assert second.open_s < float(bare[0].open_s[0])


def test_blowers_shorten_the_wait_wet_on_wet():
    blown, still = (
        process_for(case).layers["effect"].coats[0].flash_s for case in (DRY, replace(DRY, blower_m_s=0.0))
    )
    assert blown < still


def test_a_film_that_is_matt_keeps_no_edge_open():
    first, second = process_for(MILD).layers["effect"].coats
    layer = process_for(MILD).layers["effect"]
    matt_s = float(layer.offer.wetting.flash_s[layer.choice.index])
    assert first.flash_s < 0.99 * matt_s or second.open_s < first.open_s + 1.0


def test_a_fade_is_no_thin_spot():
    plan = quick(replace(MILD, works=SPOT_IN_DOOR)).plan
    assert plan.layers[1].coats[0].thin_fraction < 0.06
    assert not any(one.code == "film-not-closed" and one.where == "effect.1" for one in plan.findings)


def test_the_film_of_a_coat_is_that_where_it_is_full():
    case = replace(MILD, works=SPOT_IN_DOOR)
    coat = process_for(case).layers["effect"].coats[0].planned
    full = setup_for(case).fields["effect"].weight >= FULL_WEIGHT
    assert coat.filmed.mean_g_m2 == pytest.approx(float(np.mean(coat.filmed.film_g_m2[full])), rel=0.03)


def test_a_whole_side_has_few_thin_spots():
    for layer in process_for(MILD).layers.values():
        for coat in layer.coats:
            assert coat.planned.filmed.thin_fraction < 0.05
            if coat.plan.part != "light":
                assert coat.planned.work.passes[0][0].film_g_m2() > CLOSED_G_M2
    assert "film-not-closed" not in codes(quick(MILD).plan)


def test_a_walked_coat_is_one_section_without_a_join_and_only_where_it_pays():
    layers = process_for(replace(MILD, can_walk=True)).layers
    for coat in layers["ground"].coats:
        assert coat.planned.task.walk
        assert coat.planned.joins() == ()
        assert len(coat.planned.made.begin_s) == 1
    assert not any(
        coat.planned.task.walk for layer in process_for(MILD).layers.values() for coat in layer.coats
    )


def test_a_coat_too_big_for_one_cup_is_not_walked():
    van = replace(MILD, shape="large van", can_walk=True)
    first = process_for(van).layers["ground"].coats[0].planned
    density = setup_for(van).paints["ground"].density_g_ml
    assert first.outcome.balance.sprayed_g > 550.0 * density
    assert not first.task.walk
