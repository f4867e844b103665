"""First and last touch and ages of edges against loops stroke by stroke and against numbers worked by hand."""

import numpy as np
import pytest

from cases.made_strokes import random_strokes, strokes
from laydown.physics.spray.edge_age import WET_G_M2, final_touch, first_wet_s, join_age_s, last_wet_s, lay
from laydown.physics.spray.strokes import SkinGrid, film_factors

WHOLE = SkinGrid(0.0, 0.0, 0.02, 50, 100)
"""2.0 by 1.0 m: holds every fan of ``random_strokes``."""


def touches(made, skin):
    """For each stroke: its film and the time it passes each column, worked out by itself."""
    middle = skin.x0_m + skin.cell_m * (np.arange(skin.columns) + 0.5)
    for index in range(len(made.begin_s)):
        up, along = film_factors(made.only(np.arange(len(made.begin_s)) == index), skin)
        times = []
        for x in middle:
            inside = min(max(x, made.left_m[index]), made.right_m[index])
            start = made.left_m[index] if made.ahead[index] > 0 else made.right_m[index]
            way = abs(inside - start) * made.stretch[index]
            times.append(made.begin_s[index] + way / made.speed_m_s[index])
        yield up @ along, np.array(times)


@pytest.mark.parametrize("seed", [5, 6])
def test_last_and_first_touch_are_those_of_a_loop(seed):
    made = random_strokes(seed, 30)
    last = np.full((WHOLE.rows, WHOLE.columns), -np.inf)
    first = np.full((WHOLE.rows, WHOLE.columns), np.inf)
    for film, times in touches(made, WHOLE):
        for row, column in np.argwhere(film > WET_G_M2):
            last[row, column] = max(last[row, column], times[column])
            first[row, column] = min(first[row, column], times[column])
    np.testing.assert_allclose(last_wet_s(lay(made, WHOLE)), last, atol=1e-9)
    np.testing.assert_allclose(first_wet_s(lay(made, WHOLE)), first, atol=1e-9)


def test_a_window_knows_the_touches_of_the_whole_sheet():
    made = random_strokes(7, 30)
    window = SkinGrid(0.6, 0.0, 0.02, 50, 12)
    np.testing.assert_allclose(
        last_wet_s(lay(made, window)), last_wet_s(lay(made, WHOLE))[:, 30:42], atol=1e-9
    )
    np.testing.assert_allclose(
        first_wet_s(lay(made, window)), first_wet_s(lay(made, WHOLE))[:, 30:42], atol=1e-9
    )


def test_nothing_touches_where_no_stroke_goes():
    made = strokes(1, begin_s=0.0, left_m=0.5, right_m=0.9, centre_m=0.5)
    away = SkinGrid(1.2, 0.0, 0.02, 50, 20)
    assert np.isneginf(last_wet_s(lay(made, away))).all()
    assert np.isposinf(first_wet_s(lay(made, away))).all()
    assert np.isnan(join_age_s(lay(made, away), lay(made, away))).all()


def test_a_mist_thinner_than_a_wet_touch_does_not_count():
    # A tenth of 28.1 g/m2 on the centre line stays below 5 g/m2.
    made = strokes(1, begin_s=0.0, left_m=0.5, right_m=0.9, centre_m=0.5, flow_g_s=0.3)
    assert np.isneginf(last_wet_s(lay(made, WHOLE))).all()


def test_the_edge_of_one_section_is_as_old_as_worked_by_hand():
    # First section: along 0 to 1.00 m at 0.5 m/s, at 0 s and once more at 10 s, both ahead.
    before = strokes(2, begin_s=[0.0, 10.0], left_m=0.0, right_m=1.00, centre_m=0.5)
    window = SkinGrid(0.90, 0.49, 0.02, 1, 8)
    # Second: from 2.00 m back to 0.96 m at 30 s, and again at 50 s, which meets film that is wet anyway.
    after = strokes(2, begin_s=[30.0, 50.0], left_m=0.96, right_m=2.0, ahead=-1.0, centre_m=0.5)
    age = join_age_s(lay(before, window), lay(after, window))[0]
    # Both wet the cells about 0.97 and 0.99 m. 0.97: left at 10 + 1.94, reached at 30 + 2.06; 0.99: 11.98 and 32.02.
    assert age[[3, 4]] == pytest.approx([20.12, 20.04])
    assert np.isnan(age[[0, 1, 2, 5, 6, 7]]).all()


def test_the_last_stroke_is_the_last_in_the_order_given():
    made = random_strokes(9, 30)
    number = np.full((WHOLE.rows, WHOLE.columns), -1)
    for index, (film, _) in enumerate(touches(made, WHOLE)):
        number[film > WET_G_M2] = index
    np.testing.assert_array_equal(final_touch(lay(made, WHOLE))[1], number)


def test_a_window_of_laid_strokes_is_that_of_strokes_laid_on_the_window():
    made = random_strokes(10, 20)
    cut = lay(made, WHOLE).window(slice(30, 42))
    fresh = lay(made, cut.skin)
    np.testing.assert_allclose(cut.along_g_m, fresh.along_g_m, atol=1e-12)
    np.testing.assert_allclose(last_wet_s(cut), last_wet_s(fresh), atol=1e-9)
    some = made.section == made.section[0]
    np.testing.assert_allclose(
        first_wet_s(cut.only(some)), first_wet_s(lay(made.only(some), cut.skin)), atol=1e-9
    )
