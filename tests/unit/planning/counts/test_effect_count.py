"""From the let-down panel to the planned count: verdicts, zones, films, the user's own choice."""

from dataclasses import replace

import numpy as np
import pytest

from cases.panel import readings
from cases.planning import MILD, request_of
from cases.spectral_panel import ground
from cases.speech import english
from laydown.planning.counts.effect_count import ColourTask, count_colour
from laydown.planning.setup.paint import paint_of
from laydown.planning.setup.spraying import full_pass
from laydown.schema.choices import Choices, Sample
from laydown.schema.figure import Figure

REQUEST = request_of(MILD)
EFFECT = paint_of(REQUEST.products.effect)
GUN = REQUEST.job.gun
CHECKED = Sample(ground_check="match")


def count(sample=CHECKED, read=None, choices=None, paint=EFFECT):
    full = full_pass(GUN, GUN.nozzle_mm)
    return count_colour(ColourTask(sample, choices or Choices(), GUN, read, paint, full))


def codes(found):
    return {one.code for one in found.findings}


def test_no_let_down_panel_leaves_the_effect_count_provisional():
    found = count(Sample())
    verdict = found.verdict
    assert (verdict.verdict, verdict.effect_coats, verdict.provisional) == ("no_panel", 2.0, True)
    assert (verdict.low, verdict.high) == (2.0, 4.0)
    assert "let-down panel" in english(verdict.next_step)
    assert "coats-provisional" in codes(found)


def test_a_ground_that_is_off_is_not_put_right_by_more_effect():
    found = count(Sample(ground_check="off"))
    assert found.verdict.verdict == "ground_wrong"
    assert ("stop", "ground-wrong") in {(one.level, one.code) for one in found.findings}


def test_fields_without_a_ground_check_ask_for_field_0_first():
    verdict = count(Sample(ground_check="not done", face=("few", "match"))).verdict
    assert verdict.verdict == "ground_unchecked"
    assert "field 0" in english(verdict.next_step)
    assert verdict.zones[0].coats is None


def test_a_check_on_another_batch_does_not_count():
    sample = replace(
        CHECKED, ground_check_batch="17", ground_batch="18", face=("few", "few", "match", "many")
    )
    assert count(sample).verdict.verdict == "ground_unchecked"
    assert count(replace(sample, ground_batch="17")).verdict.verdict in {"clear", "undecided"}


def test_a_fixed_effect_count_is_not_provisional_and_judged_by_the_sheet():
    found = count(Sample(), choices=Choices(effect_coats=2.5))
    verdict = found.verdict
    assert (verdict.effect_coats, verdict.low, verdict.high, verdict.provisional) == (2.5, 2.5, 2.5, False)
    assert not found.findings
    assert codes(count(Sample(), choices=Choices(effect_coats=4.5))) == {"effect-beyond-sheet"}


def test_a_sheet_with_its_own_range_of_coats_is_followed():
    few = paint_of(replace(REQUEST.products.effect, coats_min=1.0, coats_max=2.0))
    assert count(Sample(), paint=few).verdict.effect_coats == 1.0
    assert "effect-beyond-sheet" in codes(count(Sample(), choices=Choices(effect_coats=2.5), paint=few))


@pytest.mark.parametrize("true", [1.5, 2.0, 2.5, 3.0])
def test_an_instrument_finds_the_true_half_coat_or_the_one_below(true):
    found = [count(read=readings({"side": true}, seed=seed)).verdict for seed in range(8)]
    assert all(one.effect_coats in {true, true - 0.5} for one in found)
    assert sum(one.effect_coats == true for one in found) >= 7
    assert sum(one.low <= true <= one.high for one in found) >= 6
    assert {one.verdict for one in found} <= {"clear", "undecided"}


@pytest.mark.parametrize("brightness", [0.75, 0.85, 1.25])
def test_another_ground_never_yields_a_count(brightness):
    read = readings({"side": 2.5}, below=ground(brightness))
    verdict = count(Sample(), read).verdict
    assert verdict.verdict == "ground_wrong"
    assert all(zone.coats is None for zone in verdict.zones)
    assert verdict.provisional


def test_an_eye_that_calls_the_ground_off_is_believed_before_an_instrument():
    assert count(Sample(ground_check="off"), readings({"side": 2.5})).verdict.verdict == "ground_wrong"


def test_a_ground_that_is_slightly_lighter_is_carried_through_the_count():
    read = readings({"side": 2.5}, below=ground(1.03), seed=3)
    found = count(Sample(), read)
    assert found.verdict.verdict in {"clear", "undecided"}
    assert found.verdict.low <= 2.5 <= found.verdict.high
    assert "carried through" in english(found.verdict.reason)


def test_without_a_ground_that_can_be_reached_a_count_stays_provisional_and_undecided():
    read = readings({"side": 2.5}, ground_ref=False)
    found = count(Sample(ground_check="not accessible"), read).verdict
    sure = count(CHECKED, read).verdict
    assert (found.verdict, found.provisional) == ("undecided", True)
    assert found.high - found.low > sure.high - sure.low


def test_a_car_beyond_the_last_field_asks_for_more_fields():
    found = count(read=readings({"side": 3.6}, fields=(0, 1, 2)))
    assert found.verdict.verdict == "beyond_panel"
    assert "further fields" in english(found.verdict.next_step)
    assert found.verdict.zones[0].coats is None


def test_a_car_that_is_redder_at_every_angle_fits_nowhere_and_its_tint_is_named():
    found = count(read=readings({"side": 2.5}, shift=(0.0, 3.0, 0.0)))
    assert found.verdict.verdict == "no_fit"
    assert "tint" in english(found.verdict.next_step)


def test_a_panel_whose_fields_are_alike_counts_nothing():
    found = count(read=readings({"side": 0.0}, strength=0.001))
    assert found.verdict.verdict == "no_panel"
    assert "readings-unusable" in codes(found)


def test_zones_that_differ_get_a_count_each_and_the_change_lies_at_a_gap():
    found = count(replace(CHECKED, zone="left side"), readings({"left side": 3.0, "roof": 2.0}))
    assert [zone.zone for zone in found.verdict.zones] == ["left side", "roof"]
    assert found.verdict.zones[0].coats > found.verdict.zones[1].coats
    assert found.verdict.zones[0].joins_with == ()
    assert any(
        "gap" in english(way) for one in found.findings if one.code == "zones-differ" for way in one.do
    )


def test_like_zones_share_a_count_but_plastic_never_does_by_itself():
    zones = count(
        replace(CHECKED, zone="side"), readings({"side": 2.5, "door": 2.5, "bumper": 2.5})
    ).verdict.zones
    assert zones[0].joins_with == ("door",)
    assert zones[2].joins_with == ()


def test_the_zone_of_the_job_decides():
    read = readings({"left side": 3.0, "roof": 2.0})
    assert count(replace(CHECKED, zone="Roof"), read).verdict.effect_coats == 2.0
    assert count(CHECKED, read).verdict.zone == "left side"


def test_a_thinner_coat_on_the_car_needs_more_coats_and_the_factor_is_said():
    read = readings({"side": 2.0})
    film = full_pass(GUN, GUN.nozzle_mm).film_g_m2()
    like = count(replace(CHECKED, coat_g_m2=Figure(film)), read)
    thick = count(replace(CHECKED, coat_g_m2=Figure(film * 1.5)), read)
    assert like.verdict.film_factor == pytest.approx(1.0)
    assert "film-per-coat" not in codes(like)
    assert thick.verdict.film_factor == pytest.approx(1 / 1.5, abs=1e-3)
    assert thick.verdict.effect_coats == 3.0  # 2 coats of 1.5 times the film; definition
    assert thick.verdict.provisional
    assert any("0.67" in english(one.text) for one in thick.findings if one.code == "film-per-coat")


def test_a_panel_sprayed_with_more_overlap_had_more_film():
    # Film goes with 1 / (1 - overlap); mass balance of parallel strokes.
    sample = replace(CHECKED, overlap=Figure(0.85))
    found = count(sample, readings({"side": 2.0})).verdict
    assert found.film_factor == pytest.approx(0.15 / (1.0 - GUN.overlap.value), abs=1e-3)


def test_a_panel_of_other_settings_is_less_sure_and_it_is_said():
    read = readings({"side": 2.5})
    same, other = count(CHECKED, read), count(replace(CHECKED, same_settings=False), read)
    assert other.verdict.high - other.verdict.low > 1.5 * (same.verdict.high - same.verdict.low)
    assert "panel-settings" in codes(other)


def test_a_fixed_count_is_kept_and_judged_by_the_panel():
    read = readings({"side": 2.0})
    many, right = (count(CHECKED, read, Choices(effect_coats=coats)) for coats in (3.5, 2.0))
    assert many.verdict.effect_coats == 3.5
    assert any("too many" in english(one.text) for one in many.findings if one.code == "fixed-against-panel")
    assert "fixed-against-panel" not in codes(right)


EYES = {
    ("few", "few", "match", "many", "many", "many"): 2.0,
    ("few", "few", "few", "many", "many", "many"): 2.5,
    ("few", "few", "match", "match", "many", "many"): 2.5,
}


@pytest.mark.parametrize("words", EYES)
def test_the_eye_alone_is_right_to_half_a_coat_and_never_clear(words):
    verdict = count(replace(CHECKED, face=words, flop=words)).verdict
    assert verdict.verdict == "undecided"
    assert verdict.low <= EYES[words] <= verdict.high
    assert 0.8 < verdict.high - verdict.low < 1.6
    assert verdict.effect_coats <= EYES[words]
    assert verdict.read_by == "eye"


@pytest.mark.parametrize(
    ("face", "flop", "word"),
    [
        (("few",) * 6, ("few",) * 6, "beyond_panel"),
        (("many",) * 6, ("many",) * 6, "ground_wrong"),
        (("match",) * 6, ("match",) * 6, "no_fit"),
        (
            ("few", "few", "match", "many", "many", "many"),
            ("few", "few", "few", "few", "match", "many"),
            "no_fit",
        ),
        (("many", "few", "match", "many", "many", "many"), (), "ground_wrong"),
    ],
)
def test_what_the_eye_cannot_count_is_refused(face, flop, word):
    verdict = count(replace(CHECKED, face=face, flop=flop)).verdict
    assert verdict.verdict == word
    assert verdict.zones[0].coats is None


def test_eye_and_instrument_together_are_surer_and_a_contradiction_is_refused():
    read = readings({"side": 2.0})
    near = ("few", "few", "match", "many", "many", "many")
    far = ("few", "few", "few", "few", "few", "match")
    alone = count(CHECKED, read).verdict
    both = count(replace(CHECKED, face=near, flop=near), read).verdict
    against = count(replace(CHECKED, face=far, flop=far), read).verdict
    assert both.high - both.low <= alone.high - alone.low
    assert both.read_by == "instrument and eye"
    assert against.verdict == "no_fit"
    assert "contradict" in english(against.reason)


def test_half_strength_paint_makes_half_a_coat_of_a_whole_pass():
    found = count(Sample(), choices=Choices(effect_coats=2.5, half_coat="half strength"))
    assert [(one.part, one.counts, one.strength) for one in found.coats] == [
        ("full", 1.0, 1.0),
        ("full", 1.0, 1.0),
        ("full", 0.5, 0.5),
    ]


def test_a_drop_coat_takes_the_place_of_half_a_coat():
    # a control coat counts for 0.3 to 0.5 coats; common practice, no source
    found = count(Sample(), choices=Choices(effect_coats=2.0, drop_coat=True))
    assert [one.part for one in found.coats] == ["full_light", "drop"]
    assert 0.3 <= found.coats[-1].counts <= 0.5


def test_the_evidence_shows_fields_curves_and_the_car():
    evidence = count(CHECKED, readings({"side": 2.5, "roof": 2.0})).verdict.evidence
    assert [field.coats for field in evidence.fields] == [0.0, 1.0, 2.0, 3.0, 4.0, 5.0]
    assert [one.angle_deg for one in evidence.curves] == [15.0, 25.0, 45.0, 75.0, 110.0]
    assert (evidence.illuminant, evidence.observer) == ("D65", 10)
    flop = evidence.curves[-1]
    lightness = [point.lab[0] for point in flop.curve]
    assert np.all(
        np.diff(lightness) < 0.0
    )  # a pearl darkens at the flop with coats; common practice, no source
    assert {one.zone for one in flop.car} == {"side", "roof"}


def test_spots_that_lack_an_angle_are_compared_at_the_others_and_it_is_said():
    read = readings({"side": 2.5})
    kept = tuple(one for one in read.readings if one.role != "car" or one.angle_deg != 15.0)
    found = count(CHECKED, replace(read, readings=kept))
    assert [one.angle_deg for one in found.verdict.evidence.curves] == [25.0, 45.0, 75.0, 110.0]
    assert "angles-left-out" in codes(found)


def test_a_panel_without_a_car_counts_nothing_and_says_what_is_missing():
    read = readings({})
    found = count(CHECKED, read)
    assert found.verdict.verdict == "no_panel"
    assert any("the car was not" in english(one.text) for one in found.findings)
