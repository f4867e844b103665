"""What observations teach: found again from times the model made, and by hand."""

from dataclasses import replace

import pytest

from laydown.physics.film import calibration as fit
from laydown.physics.film.course import matt_time_s, open_time_s
from laydown.physics.film.wet_film import Surroundings, Wet, dry

STANDARD = Wet(0.70, 0.10, 0.20, 100.0, 52.0e3, 0.20, 0.55)
MILD = Surroundings(20.0, 0.5, 0.3, 20.0, 2952.0, 4.0)


@pytest.mark.parametrize("factor", [0.3, 0.74, 1.0, 1.26, 3.0])
def test_the_transfer_that_made_a_matt_time_is_found_again(factor):
    time_s = matt_time_s(dry(30.0, STANDARD, replace(MILD, transfer_factor=factor)))[0]
    assert fit.transfer_factor_from_matt(time_s, time_s, 30.0, STANDARD, MILD) == pytest.approx(
        factor, rel=2e-3
    )


def test_a_range_on_a_sheet_counts_by_its_geometric_mean():
    wide = fit.transfer_factor_from_matt(300.0, 1200.0, 30.0, STANDARD, MILD)
    assert wide == pytest.approx(fit.transfer_factor_from_matt(600.0, 600.0, 30.0, STANDARD, MILD), rel=1e-6)


def test_a_slower_flash_means_less_transfer():
    slow = fit.transfer_factor_from_matt(900.0, 900.0, 30.0, STANDARD, MILD)
    assert slow < fit.transfer_factor_from_matt(600.0, 600.0, 30.0, STANDARD, MILD)


@pytest.mark.parametrize(("least_s", "most_s"), [(0.0, 60.0), (120.0, 60.0), (1.0, 1.0), (90000.0, 90000.0)])
def test_times_that_no_booth_can_show_are_refused(least_s, most_s):
    with pytest.raises(ValueError, match="least_s"):
        fit.transfer_factor_from_matt(least_s, most_s, 30.0, STANDARD, MILD)


def test_the_open_fraction_that_made_an_open_time_is_found_again():
    time_s = open_time_s(dry(30.0, replace(STANDARD, open_fraction=0.26), MILD))[0]
    found = fit.open_fraction_from_strokes(time_s - 15.0, time_s + 15.0, 30.0, STANDARD, MILD)
    assert found == pytest.approx(0.26, rel=2e-3)


def test_strokes_in_the_wrong_order_are_refused():
    with pytest.raises(ValueError, match="smooth_s"):
        fit.open_fraction_from_strokes(120.0, 90.0, 30.0, STANDARD, MILD)


def test_two_equally_trusted_values_meet_in_their_geometric_middle():
    value, spread = fit.weighed(1.0, 0.3, 4.0, 0.3)
    assert value == pytest.approx(2.0)
    assert spread == pytest.approx(0.3 / 2.0**0.5)


def test_a_tap_far_from_the_prediction_is_asked_about():
    assert fit.is_plausible(600.0, 700.0)
    assert not fit.is_plausible(200.0, 700.0)
    assert not fit.is_plausible(2000.0, 700.0)


def test_every_observation_narrows_the_spread():
    assert fit.TRANSFER_LN_SD_FROM_MATT < fit.TRANSFER_LN_SD_FROM_SHEET < fit.TRANSFER_LN_SD_BEFORE
    assert fit.OPEN_LN_SD_FROM_STROKES < fit.OPEN_LN_SD_BEFORE
