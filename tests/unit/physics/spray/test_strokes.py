"""Film and times of strokes against quadrature and against numbers worked by hand."""

import numpy as np
import pytest
from scipy import special

from cases.made_strokes import random_strokes, strokes
from laydown.physics.spray.fan import ALONG_EXPONENT, PROFILE_EXPONENT
from laydown.physics.spray.strokes import (
    SkinGrid,
    film_factors,
    passing_s,
)

WHOLE = SkinGrid(0.0, 0.0, 0.02, 50, 100)
"""2.0 by 1.0 m: holds every fan of ``random_strokes``."""


def share(u, exponent):
    """Share of the profile (1 - t^2)^exponent below u."""
    return special.betainc(exponent + 1.0, exponent + 1.0, np.clip((1.0 + u) / 2.0, 0.0, 1.0))


def film_at(made, index, s, x):
    """Film of one stroke at places, from its definition."""
    half = made.fan_m[index] / 2.0
    u = (s - made.centre_m[index]) / half
    profile = np.clip(1.0 - u * u, 0.0, None) ** PROFILE_EXPONENT
    across = profile / (half * special.beta(0.5, PROFILE_EXPONENT + 1.0))
    height = made.half_m[index]
    along = share((x - made.left_m[index]) / height, ALONG_EXPONENT) - share(
        (x - made.right_m[index]) / height, ALONG_EXPONENT
    )
    rate = made.flow_g_s[index] * made.transfer[index] / made.speed_m_s[index]
    return rate * across[:, None] * along[None, :]


def means(made, index, skin, parts=16):
    """Cell means of the film of one stroke by sampling each cell in parts times parts places."""
    fine = (np.arange(parts) + 0.5) / parts
    s = (skin.s0_m + skin.cell_m * (np.arange(skin.rows)[:, None] + fine[None, :])).ravel()
    x = (skin.x0_m + skin.cell_m * (np.arange(skin.columns)[:, None] + fine[None, :])).ravel()
    film = film_at(made, index, s, x)
    return film.reshape(skin.rows, parts, skin.columns, parts).mean(axis=(1, 3))


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_film_on_a_sheet_that_holds_every_fan_is_what_landed(seed):
    made = random_strokes(seed, 40)
    up, along = film_factors(made, WHOLE)
    landed = (made.sprayed_g() * made.transfer).sum()
    weighed = (up @ (along * made.stretch[:, None])).sum() * WHOLE.cell_m**2
    assert weighed == pytest.approx(landed, rel=1e-9)


def test_film_is_the_sum_stroke_by_stroke_of_its_definition():
    made = random_strokes(4, 12)
    up, along = film_factors(made, WHOLE)
    film = up @ along
    summed = sum(means(made, index, WHOLE) for index in range(12))
    assert np.abs(film - summed).max() < 2e-3 * film.max()


def test_film_stops_at_the_edge_of_the_fan_and_past_the_end_of_the_stroke():
    made = strokes(1, begin_s=0.0, left_m=0.5, right_m=1.5, centre_m=0.5)
    up, along = film_factors(made, WHOLE)
    film = up @ along
    # Fan 0.25 about 0.5: rows from 0.375 to 0.625; footprint of 0.02 about each end: columns from 0.48 to 1.52.
    assert not film[:18].any()
    assert not film[32:].any()
    assert film[:, :24].max() < 1e-9
    assert film[:, 76:].max() < 1e-9
    assert (film[19:31, 24:76] > 0.0).all()


def test_middle_of_a_stroke_carries_the_peak_of_its_profile():
    # 3 g/s, 0.6, 0.5 m/s: 3.6 g/m over 0.125 m times B(1/2, 2.7) = 1.0264 gives 28.1 g/m2 on the centre line.
    made = strokes(1, begin_s=0.0, left_m=0.5, right_m=1.5, centre_m=0.501)
    narrow = SkinGrid(1.0, 0.5, 0.002, 1, 1)
    up, along = film_factors(made, narrow)
    peak = 3.6 / (0.125 * special.beta(0.5, 2.7))
    assert float((up @ along)[0, 0]) == pytest.approx(peak, rel=1e-4)


def test_gun_passes_places_in_the_direction_it_moves():
    made = strokes(
        2, begin_s=[10.0, 20.0], left_m=0.5, right_m=1.5, ahead=[1.0, -1.0], centre_m=0.5, stretch=[1.0, 1.2]
    )
    # Ahead: 0.25 m at 0.5 m/s is 0.5 s. Back from 1.5: 0.75 m stretched by 1.2 to 0.9 m is 1.8 s. Ends are held.
    times = passing_s(made, np.array([0.0, 0.75, 3.0]))
    assert times == pytest.approx(np.array([[10.0, 10.5, 12.0], [22.4, 21.8, 20.0]]))
    assert made.duration_s() == pytest.approx([2.0, 2.4])
    assert made.sprayed_g() == pytest.approx([6.0, 7.2])


def test_strokes_are_chosen_in_their_order():
    made = random_strokes(8, 10)
    late = made.only(made.begin_s > 30.0)
    assert (late.begin_s > 30.0).all()
    assert (np.diff(late.begin_s) >= 0.0).all()
    assert len(late.section) == int((made.begin_s > 30.0).sum())
