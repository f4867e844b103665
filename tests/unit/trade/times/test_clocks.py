"""Pot life, windows and waits."""

import pytest

from cases.speech import english
from laydown.trade.mixing.pot_life import pot_life, pot_state
from laydown.trade.times.clocks import RECOAT_MAX_S, read_wait, read_window


@pytest.mark.parametrize(
    ("cup_c", "minutes"),
    # By hand: halves per 10 K made exact with E = 51.2 kJ/mol, 60 min at 20 °C.
    [(15.0, 86.4), (20.0, 60.0), (25.0, 42.2), (30.0, 30.0), (35.0, 21.6)],
)
def test_an_hour_at_twenty_degrees_is_shorter_in_a_warm_cup(cup_c, minutes):
    assert pot_life(3600.0, 20.0, cup_c).life_s / 60 == pytest.approx(minutes, abs=0.06)


def test_outside_ten_to_forty_degrees_the_law_is_not_trusted():
    assert [pot_life(3600, 20, at).trusted for at in (9.9, 10.0, 40.0, 40.1)] == [False, True, True, False]
    with pytest.raises(ValueError, match="sheet_s"):
        pot_life(0.0, 20.0, 20.0)


def test_a_mix_ends_by_the_clock():
    states = [pot_state(share * 7200, 7200.0) for share in (0.0, 0.499, 0.5, 0.799, 0.8, 0.999, 1.0)]
    assert states == ["ok", "ok", "finish this coat", "finish this coat", "last coat", "last coat", "dead"]


def test_a_dead_mix_goes_to_waste_even_if_thin():
    reading = read_window("pot_life", 7300.0, 7200.0)
    assert (reading.state, reading.left_s) == ("over", -100.0)
    assert "thin" in english(reading.text)


@pytest.mark.parametrize(
    ("hours", "state"), [(11, "ok"), (12, "finish this coat"), (20, "last coat"), (24, "over")]
)
def test_the_window_of_an_effect_coat_closes_after_a_day(hours, state):
    # Printed mid-coat sheets: at most 24 h, then scuff and one more effect coat.
    assert read_window("recoat_max", hours * 3600.0, RECOAT_MAX_S).state == state


def test_past_the_window_means_sanding():
    assert "sand" in english(read_window("recoat_max", 90_000.0, RECOAT_MAX_S).text)


def test_a_limit_nobody_stated_is_unknown_and_never_over():
    assert read_window("pot_life", 1e9, None).state == "unknown"
    assert english(read_wait("clearance", 1e9, None).text) == "unknown: stay air-fed"


@pytest.mark.parametrize("kind", ["recoat_min", "flash_min", "bake_hold", "clearance", "polish_from"])
def test_a_wait_ends_at_its_limit(kind):
    assert all(english(read_wait(kind, 59.0, limit_s).text) for limit_s in (60.0, 59.0, None))
    assert read_wait(kind, 59.0, 60.0).state == "wait"
    assert read_wait(kind, 60.0, 60.0).state == "open"
    assert read_wait(kind, 0.0, None).state == "unknown"
