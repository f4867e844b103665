"""Ways out against facts of the trade; every fact is common practice, no source, unless a source stands beside it."""

from dataclasses import replace

import pytest

from cases.rescue import CELLS, JOB, TABLE, keys, way, ways
from cases.speech import english
from laydown.reader.papers.tables import STAGES

SOFT = replace(JOB, ground_hardened=False)


def first(defect, stage, context=JOB):
    return ways(defect, stage, context)[0]


def said(one):
    return " ".join(map(english, (one.text, *one.needs)))


def test_dirt_in_the_hardened_ground_coat_is_spotted_in_with_hardened_base_once_dry_and_cool():
    found = first("dirt", "ground_dry")
    assert "dry and cool" in english(found.text)
    assert "hardener" in english(found.text)
    assert (found.ground_coats, found.effect_coats) == (1.0, 0.0)
    assert found.price_factor == (1.0, 1.0)


def test_waterborne_base_is_de_nibbed_dry_with_p600_to_p800_and_never_wiped_with_cleaner():
    # a paint maker's printed procedure sheet, medium weight; another guide allows wet P1000, dry is the default
    for defect, stage, key in (
        ("dirt", "ground_dry", "ground de-nib"),
        ("dirt", "ground_wet", "ground leave and de-nib"),
        ("dirt", "effect_dry", "effect de-nib"),
        ("dirt", "effect_wet", "effect leave and de-nib"),
    ):
        found = way(defect, stage, key)
        assert "P600 to P800 dry, never wet" in map(english, found.needs)
        assert "no cleaner on waterborne base" in map(english, found.needs)


def test_no_way_wipes_waterborne_base_with_cleaner_except_to_wash_a_whole_layer_off():
    # a paint maker's printed procedure sheet
    for one in TABLE.ways.values():
        words = said(one)
        if "clean" in words and one.key != "wash off":
            assert "no cleaner" in words


def test_after_de_nibbing_an_effect_coat_two_colour_coats_go_over_the_spot_and_its_count_changes():
    # a paint maker's printed procedure sheet
    for stage, key in (("effect_wet", "effect leave and de-nib"), ("effect_dry", "effect de-nib")):
        found = way("dirt", stage, key)
        assert "two effect coats over the spot" in english(found.text)
        assert found.effect_coats == 2.0
        assert "count" in english(found.consequence)


def test_dirt_in_the_effect_coat_the_layer_can_be_washed_off_a_hardened_ground_coat():
    for stage in ("effect_wet", "effect_dry"):
        found = way("dirt", stage, "wash off")
        assert found.soundness == "sound"
        assert "dry and not harmed" in english(found.consequence)
        assert found.effect_coats == 0.0


def test_without_hardener_the_effect_coat_is_not_washed_off_and_it_says_why():
    for defect, stage in CELLS:
        for found in ways(defect, stage, SOFT):
            if found.key == "wash off":
                assert found.soundness == "not possible"
                assert "no hardener" in english(found.consequence)


def test_remedies_go_from_gap_to_gap_or_fade_over_at_least_61_cm():
    # printed procedure sheets: 24 in for three- and four-stage colours
    for one in TABLE.ways.values():
        if one.effect_coats >= 1.0 and one.soundness == "sound":
            assert one.reach in {"gap to gap", "fade", "spot"}
        if one.reach == "fade":
            assert "61 cm" in said(one)
    assert any("61 cm" in english(need) for need in first("dirt", "effect_dry").needs)


def test_an_effect_coat_older_than_a_day_is_scuffed_and_gets_one_more_before_the_clear():
    # printed mid-coat sheets
    late = replace(JOB, effect_age_s=86_401.0)
    for defect in TABLE.defects:
        found = way(defect, "effect_dry", "scuff and one more", late)
        assert found.soundness == "sound"
        assert found.effect_coats == 1.0
    assert first("clouds", "effect_dry", late).key == "scuff and one more"
    assert "scuff and one more" not in keys("clouds", "effect_dry")


def test_too_many_effect_coats_cannot_be_taken_off():
    for stage in ("effect_wet", "effect_dry"):
        assert way("too_many_effect_coats", stage, "take coat off").soundness == "not possible"
        assert "wash off" not in keys("too_many_effect_coats", stage)
    assert first("too_many_effect_coats", "effect_dry").key == "ground and right count"


def test_too_few_effect_coats_is_the_cheapest_fault_of_the_dry_effect_coat():
    cheapest = {
        defect: first(defect, "effect_dry").price_factor[0]
        for defect in TABLE.defects
        if first(defect, "effect_dry").effect_coats > 0.0
    }
    assert min(cheapest, key=cheapest.__getitem__) == "too_few_effect_coats"


def test_polished_into_the_effect_coat_clear_alone_does_not_mend_it():
    # trade press, one article
    found = ways("cut_through", "baked")
    assert way("cut_through", "baked", "clear over cut").soundness == "not possible"
    assert found[0].effect_coats == 1.0


def test_an_effect_coat_never_hides_what_the_ground_coat_left():
    # paint makers' printed sheets: the effect coat is not for coverage
    for stage in ("effect_wet", "effect_dry"):
        assert first("not_hidden", stage).ground_coats == 1.0
        assert all(one.effect_coats == 0.0 for one in ways("not_hidden", stage) if one.soundness == "sound")


def test_a_coat_that_reads_too_dark_is_dried_out_before_the_count_is_touched():
    # trade press and a paint maker's sheet: a damp ground coat reads too dark
    for stage in ("ground_wet", "ground_dry"):
        found = first("ground_damp", stage)
        assert found.sprayed_g == 0.0
        assert "wait until it is matt" in english(found.text)


def test_nobody_stops_in_open_panel_when_the_cup_is_empty():
    for stage in ("ground_wet", "effect_wet", "clear_wet"):
        on = next(one for one in ways("ran_out", stage) if one.carry_on)
        assert on.soundness == "not possible"
        assert "gap" in english(first("ran_out", stage).text)


def test_in_wet_clear_only_a_hair_or_an_insect_is_lifted_out_and_all_else_is_polished():
    assert set(keys("dirt", "clear_wet", soundness="sound")) >= {"needle out", "leave and polish"}


def test_dirt_in_the_clear_is_flatted_with_p1500_to_p3000_and_polished():
    assert "P1500 to P3000" in english(first("dirt", "baked").text)


@pytest.mark.parametrize(
    ("cheap", "dear", "least"),
    [
        # relative prices: dry ground 1, wet effect 1.5, dry effect 4 to 6, polish 2 to 4, redo 25 to 40
        (("clouds", "ground_dry"), ("clouds", "effect_wet"), 1.5),
        (("clouds", "ground_dry"), ("clouds", "effect_dry"), 4.0),
        (("clouds", "ground_dry"), ("clouds", "baked"), 25.0),
        (("dirt", "ground_dry"), ("dirt", "baked"), 2.0),
    ],
)
def test_the_price_of_a_fault_rises_by_the_ladder(cheap, dear, least):
    assert first(*cheap).price_factor[0] == 1.0
    assert first(*dear).price_factor[0] == least


def test_a_fault_of_the_colour_never_gets_cheaper_by_waiting_for_the_clear():
    for defect in ("clouds", "stripes", "dry_spray", "not_hidden", "dark_edges", "flop_off", "dark_ring"):
        dry, baked = (sum(first(defect, stage).price_factor) for stage in ("effect_dry", "baked"))
        assert baked > 4.0 * dry
    assert STAGES[-1] == "baked"


def test_washing_wet_clear_off_is_named_only_so_that_nobody_tries_it():
    for defect, stage in CELLS:
        if "wipe clear off" in keys(defect, stage):
            assert way(defect, stage, "wipe clear off").soundness == "not possible"
