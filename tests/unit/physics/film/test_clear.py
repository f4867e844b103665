"""The clear's flash time moved from the sheet's air."""

import pytest

from laydown.physics.film.clear import clear_flash_s


def test_at_the_sheet_s_own_air_the_sheet_is_repeated():
    assert clear_flash_s(480.0, 20.0, 0.3, 20.0, 0.3) == pytest.approx(480.0)


def test_one_doubling_of_vapour_pressure_halves_the_time():
    assert clear_flash_s(480.0, 20.0, 0.3, 32.5, 0.3) == pytest.approx(240.0)


def test_air_speed_counts_by_the_handbook_line():
    # (0.089 + 0.0782 * 0.3) / (0.089 + 0.0782 * 2) = 0.11246 / 0.2454.
    assert clear_flash_s(480.0, 20.0, 0.3, 20.0, 2.0) == pytest.approx(480.0 * 0.11246 / 0.2454, rel=1e-4)


def test_a_film_hotter_than_the_law_is_refused():
    with pytest.raises(ValueError, match="film_c"):
        clear_flash_s(480.0, 20.0, 0.3, 60.0, 0.3)
