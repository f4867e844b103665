"""Safety words are shown where they belong."""

import pytest

from cases.speech import english
from laydown.trade.safety import CAUTION_KEYS, FIRST_SCREEN, Occasion, caution_keys, cautions


def test_there_are_fourteen_cautions_in_order():
    assert tuple(f"S{number:02d}" for number in range(1, 15)) == CAUTION_KEYS
    assert set(FIRST_SCREEN) <= set(CAUTION_KEYS)


@pytest.mark.parametrize(
    "occasion", [Occasion(True, False, False, False), Occasion(False, True, False, False)]
)
def test_hardener_or_clear_calls_for_fed_air(occasion):
    assert {"S01", "S02", "S03", "S05"} <= set(caution_keys(occasion))


def test_a_plain_waterborne_coat_keeps_the_cautions_of_every_job():
    keys = caution_keys(Occasion(False, False, False, False))
    assert keys == ("S04", "S06", "S07", "S08", "S09", "S12", "S13", "S14")


def test_blowers_and_bake_bring_their_own():
    assert "S10" in caution_keys(Occasion(False, False, False, True))
    assert "S11" in caution_keys(Occasion(False, False, True, False))


def test_a_trainee_sees_all():
    assert caution_keys(Occasion(False, False, False, False, trainee=True)) == CAUTION_KEYS


def test_the_words_name_breathing_protection_by_region_and_no_exposure_limit():
    plain, european = cautions(("S01",))[0], cautions(("S01",), "eu")[0]
    assert "air-fed breathing apparatus with a visor" in english(plain.text)
    assert "EN 14594" in english(european.text)
    texts = [english(one.text) for one in cautions(CAUTION_KEYS, "us")]
    assert all(english(one.title) for one in cautions(CAUTION_KEYS, "us"))
    assert all("{" not in one for one in texts)
    assert all(word not in one for one in texts for word in ("mg/m", "ppm", "ppb"))
