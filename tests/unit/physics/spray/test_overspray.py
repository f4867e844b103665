"""Overspray: nothing is lost, wet paint takes it in, set paint keeps it dry."""

import math

import numpy as np
import pytest

from cases.made_strokes import random_strokes, strokes
from laydown.physics.spray.edge_age import WET_G_M2
from laydown.physics.spray.overspray import DRIFT_M, REACH_M, SHARE_LANDED, dry_fog_g_m2, fog_of_coat
from laydown.physics.spray.strokes import SkinGrid, film_factors, passing_s

ROOMY = SkinGrid(-2.0, -2.0, 0.05, 100, 120)
"""6 by 5 m about every stroke of ``random_strokes``: more than five times the fog's reach on all sides."""

PANEL = SkinGrid(0.0, 0.0, 0.05, 24, 40)


def fog_stroke_by_stroke(made, skin):
    """Fog of each stroke on each cell, by the normal distribution of its landing place."""
    middle_s = skin.s0_m + skin.cell_m * (np.arange(skin.rows) + 0.5)
    middle_x = skin.x0_m + skin.cell_m * (np.arange(skin.columns) + 0.5)
    for index in range(len(made.begin_s)):
        away = (middle_s - made.centre_m[index] - DRIFT_M) / REACH_M
        up = np.exp(-0.5 * away**2) / (REACH_M * math.sqrt(2.0 * math.pi))
        along = [
            0.5 * math.erf((x - made.left_m[index]) / (REACH_M * math.sqrt(2.0)))
            - 0.5 * math.erf((x - made.right_m[index]) / (REACH_M * math.sqrt(2.0)))
            for x in middle_x
        ]
        missed = made.flow_g_s[index] * (1.0 - made.transfer[index]) * SHARE_LANDED / made.speed_m_s[index]
        yield missed * up[:, None] * np.array(along)[None, :]


def looped(made, skin, open_s):
    """Dry and bare fog by a loop over strokes and over the touches of each cell."""
    middle_x = skin.x0_m + skin.cell_m * (np.arange(skin.columns) + 0.5)
    up, along = film_factors(made, skin)
    times = passing_s(made, middle_x)
    count = len(made.begin_s)
    wets = [np.outer(up[:, index], along[index]) > WET_G_M2 for index in range(count)]
    ever = np.any(wets, axis=0)
    dry, bare = np.zeros((skin.rows, skin.columns)), np.zeros((skin.rows, skin.columns))
    for index, fog in enumerate(fog_stroke_by_stroke(made, skin)):
        for row in range(skin.rows):
            for column in range(skin.columns):
                if not ever[row, column]:
                    bare[row, column] += fog[row, column]
                    continue
                earlier = [times[i, column] for i in range(index + 1) if wets[i][row, column]]
                later = any(wets[i][row, column] for i in range(index, count))
                set_by_then = not earlier or times[index, column] - max(earlier) > open_s
                if set_by_then and not later:
                    dry[row, column] += fog[row, column]
    return dry, bare


def test_fog_that_lands_is_its_share_of_what_misses():
    made = random_strokes(1, 25)
    missed = made.sprayed_g() * (1.0 - made.transfer)
    fog = fog_of_coat(made, ROOMY)
    assert fog.landed_g == pytest.approx(SHARE_LANDED * missed.sum(), rel=1e-6)


def test_fog_on_painted_and_bare_places_is_never_more_than_what_landed():
    made = random_strokes(2, 25)
    fog = fog_of_coat(made, ROOMY)
    dry = dry_fog_g_m2(fog, 5.0)
    found = float((dry + fog.bare_g_m2).sum()) * ROOMY.cell_m**2
    assert 0.0 < found <= fog.landed_g
    assert (dry >= 0.0).all()
    assert not (dry * fog.bare_g_m2).any()


@pytest.mark.parametrize("open_s", [2.0, 10.0, 1e6])
def test_fog_is_that_of_a_loop_over_strokes_and_cells(open_s):
    made = random_strokes(3, 18)
    skin = SkinGrid(0.0, 0.0, 0.1, 10, 20)
    dry, bare = looped(made, skin, open_s)
    fog = fog_of_coat(made, skin)
    np.testing.assert_allclose(dry_fog_g_m2(fog, open_s), dry, atol=2e-6)
    np.testing.assert_allclose(fog.bare_g_m2, bare, atol=2e-6)


def two_rows(**values):
    """A stroke 0.4 m up at 0 s and one 0.8 m up at 100 s, which do not reach each other's row."""
    both = {"begin_s": [0.0, 100.0], "left_m": 0.2, "right_m": 1.8, "centre_m": [0.425, 0.825]}
    return strokes(2, **(both | values))


def test_fog_on_wet_paint_is_absorbed():
    # The first row is at most 103.2 s old when the second is done.
    assert not dry_fog_g_m2(fog_of_coat(two_rows(), PANEL), 110.0).any()


def test_fog_on_set_paint_stays_dry():
    fog = fog_of_coat(two_rows(), PANEL)
    dry = dry_fog_g_m2(fog, 60.0)
    assert (dry[8, 8:32] > 0.0).all()  # the first row, 0.40 to 0.45 m
    assert not dry[16].any()  # the second row is fresh
    # Fog of the second stroke alone, by hand at (0.425, 1.0): 0.4 - drift 0.05 is 0.35 m = 1.4 sigma below it.
    missed = 3.0 * 0.4 * SHARE_LANDED / 0.5
    across = math.exp(-0.5 * 1.4**2) / (REACH_M * math.sqrt(2.0 * math.pi))
    along = math.erf(0.8 / (REACH_M * math.sqrt(2.0)))
    assert dry[8, 19:21].mean() == pytest.approx(missed * across * along, rel=1e-3)


def test_a_later_stroke_of_the_coat_takes_the_fog_in():
    made = strokes(3, begin_s=[0.0, 100.0, 200.0], left_m=0.2, right_m=1.8, centre_m=[0.425, 0.825, 0.425])
    fog = fog_of_coat(made, PANEL)
    dry = dry_fog_g_m2(fog, 60.0)
    assert not dry[8].any()
    assert (dry[16, 8:32] > 0.0).all()  # now the second row is 100 s old when the third stroke passes


def test_fog_beyond_the_painted_rows_lies_on_unpainted_paint():
    fog = fog_of_coat(two_rows(), PANEL)
    dry = dry_fog_g_m2(fog, 60.0)
    assert (fog.bare_g_m2[0] > 0.0).all()
    assert not dry[0].any()
    assert not fog.bare_g_m2[8, 8:32].any()
    # Down-draught: more comes down 0.3 m below the lower row than 0.3 m above the upper row.
    assert fog.bare_g_m2[2, 20] > fog.bare_g_m2[22, 20]


def test_paint_that_all_lands_makes_no_fog():
    fog = fog_of_coat(two_rows(transfer=1.0), PANEL)
    dry = dry_fog_g_m2(fog, 60.0)
    assert fog.landed_g == 0.0
    assert not dry.any()
