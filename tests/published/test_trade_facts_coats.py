"""Counts, extents and drying of plans against facts of the trade; common practice, no source, unless one stands beside it."""

from dataclasses import replace

import numpy as np

from cases.planning import (
    DRY,
    MILD,
    SEVERE,
    VAN,
    WING_ONLY,
    coats_of,
    codes,
    film_of,
    process_for,
    quick,
    request_of,
    setup_for,
)
from cases.speech import english
from laydown.physics.spray.overspray import dry_fog_g_m2, fog_of_coat
from laydown.planning.setup.field import FULL_WEIGHT
from laydown.planning.setup.paint import CLOSED_G_M2
from laydown.planning.setup.weights import WET_CHANCE

COLOUR = ("ground", "effect")


def first_coat(case, layer):
    return process_for(case).layers[layer].coats[0]


# --- counts and hiding ------------------------------------------------------------------------------------------------


def test_white_undercoat_under_a_white_ground_hides_in_fewer_coats_than_dark_grey():
    # common practice, no source
    white, grey = (quick(replace(MILD, undercoat=shade)).plan.hiding for shade in (90.0, 45.0))
    assert white.ground_coats < grey.ground_coats


def test_white_on_white_is_sprayed_blind_from_coat_2():
    # common practice, no source
    plan = quick(MILD).plan
    assert plan.hiding.blind_from_coat == 2
    assert "blind" in codes(plan)


def test_the_closed_film_is_checked_for_every_closed_coat():
    # common practice, no source: where nobody sees the coat, the closed film is all there is
    for layer, coat in coats_of(quick(MILD).plan)[:2]:
        assert coat.passes[0].name == "full", layer.name
        assert film_of(coat.passes[0]) > CLOSED_G_M2
        assert coat.thin_fraction < 0.05
    fast = quick(replace(MILD, hand_m_s=0.85, nozzle_mm=1.2)).plan
    thin = {finding.where for finding in fast.findings if finding.code == "film-not-closed"}
    full = {
        f"{layer.name}.{coat.number}"
        for layer, coat in coats_of(fast)
        if layer.name in COLOUR and coat.part in {"full_light", "full"}
    }
    assert thin == full


def test_pearl_starts_at_two_coats_and_two_to_four_are_usual():
    # published by two paint makers: two to four coats of pearl; the shipped sheet says the same
    plan = quick(replace(MILD, effect_coats=None)).plan
    assert plan.colour.effect_coats == 2.0
    assert (plan.colour.low, plan.colour.high) == (2.0, 4.0)
    assert plan.colour.provisional
    assert "effect-beyond-sheet" in codes(quick(replace(MILD, effect_coats=5.0)).plan)


def test_further_effect_coats_go_on_wet_while_the_film_stays_thin():
    # common practice, no source
    thin = process_for(DRY).layers["effect"]
    assert thin.coats[0].wet_next
    assert thin.coats[0].flash_s < thin.offer.wetting.flash_s[thin.choice.index]
    thick = process_for(replace(MILD, effect_coats=3.0)).layers["effect"]
    assert not thick.coats[0].wet_next


# --- extents ----------------------------------------------------------------------------------------------------------


def test_a_new_wing_beside_a_sound_door_gets_ground_on_the_wing_and_a_long_fade_in_the_door():
    # 61 cm (24 in) for three-stage colours: published by a paint maker, from memory; extents: common practice, no source
    wing, door = quick(replace(MILD, works=WING_ONLY)).plan.side.panels
    assert (wing.ground, wing.effect, wing.clear) == ("full", "full", "full")
    assert (door.ground, door.effect, door.clear) == ("none", "fade", "full")
    assert door.fade_m >= 0.61


def test_the_effect_coat_ends_inside_the_ground_coat_or_in_the_next_panel():
    # common practice, no source: a ground coat is never left bare of effect where it ends at a gap
    for case in (MILD, replace(MILD, works=WING_ONLY)):
        fields = setup_for(case).fields
        ground, effect = fields["ground"], fields["effect"]
        assert (effect.weight[ground.weight >= FULL_WEIGHT] > 0.0).all()


def test_a_medium_car_side_is_about_3_5_m2_and_a_coat_takes_200_to_300_ml():
    # 3.2 to 3.7 m2 and 200 to 300 mL: derived from panel areas, 35 to 50 g/m2 and 55 to 60 % transfer; to 10 mL
    plan = quick(MILD).plan
    assert 3.2 <= plan.side.area_m2 <= 3.7
    coat = next(coat for coat in plan.layers[0].coats if coat.part == "full")
    density = request_of(MILD).products.ground.density_g_ml.value
    assert 200 <= round(coat.sprayed_g / density, -1) <= 300


def test_every_layer_is_one_batch_that_lasts_for_all_its_coats():
    # common practice, no source: one batch; two batches differ
    for case in (MILD, VAN):
        plan = quick(case).plan
        assert sorted(mix.layer for mix in plan.mixes) == ["clear", "effect", "ground"]
        assert all(mix.mix_ml > mix.need_ml for mix in plan.mixes)


# --- drying -----------------------------------------------------------------------------------------------------------


def test_overspray_on_set_paint_stays_as_dry_spray_and_wet_paint_takes_it_in():
    # a vehicle maker's painting standard, from memory
    coat = first_coat(MILD, "ground").planned
    fog = fog_of_coat(coat.made.strokes, coat.outcome.fog_sheet)
    dry = [float(dry_fog_g_m2(fog, open_s).sum()) for open_s in (20.0, 120.0, 1e5)]
    assert dry[0] > dry[1] > dry[2] == 0.0


def test_after_drying_the_panel_cools_before_the_effect_coat():
    # common practice, no source
    plan = quick(DRY).plan
    steps = {step.id: step for step in plan.timeline}
    assert steps["ground.2.flash"].end_s <= steps["ground.cool"].start_s
    assert steps["ground.cool"].end_s <= steps["effect.1.spray"].start_s
    assert steps["ground.cool"].end_s > steps["ground.cool"].start_s


def test_a_panel_that_is_still_warm_shortens_the_wet_edge():
    # common practice, no source
    warm, cool = (
        process_for(replace(DRY, effect_panel_c=panel_c)).layers["effect"].offer for panel_c in (35.0, 22.0)
    )
    assert warm.options == cool.options
    assert (warm.wetting.open_s < 0.7 * cool.wetting.open_s).all()
    assert {"panel-not-ready", "panel-warm"} & codes(quick(replace(DRY, effect_panel_c=35.0)).plan)


def test_before_the_clear_warm_air_or_venturis_blow_until_water_and_cosolvent_are_out():
    # common practice, no source: 35 to 40 °C or venturis, 8 to 15 min and longer in damp air
    lengths = []
    for rh in (0.2, 0.5, 0.7):
        plan = quick(replace(MILD, rh=rh)).plan
        step = next(step for step in plan.timeline if step.kind == "dehydrate")
        assert "35 to 40 °C or with venturis" in english(step.text)
        assert step.end_s <= next(one.start_s for one in plan.timeline if one.id == "clear.1.spray")
        lengths.append(process_for(replace(MILD, rh=rh)).dehydrate_s)
    assert lengths == sorted(lengths)
    assert lengths[0] < lengths[-1]


def test_severe_dry_air_leaves_less_chance_than_mild_air():
    # common practice, no source: difficult colours wait for the cooler hour
    tight = {
        case: min(
            join.wet_chance
            for layer, coat in coats_of(quick(case).plan)
            if layer.name in COLOUR
            for join in coat.joins
        )
        for case in (MILD, SEVERE)
    }
    assert tight[SEVERE] < WET_CHANCE <= tight[MILD]


def test_two_painters_meet_younger_edges_than_one():
    # common practice, no source
    ages = [
        max(join.age_s.value for join in quick(case).plan.layers[0].coats[0].joins)
        for case in (SEVERE, replace(SEVERE, painters=2))
    ]
    assert ages[1] < ages[0]
    assert np.isfinite(ages).all()
