"""Rows over a field against rows counted by hand."""

import numpy as np
import pytest

from cases.rectangle import BOTTOM_M, CELL_M, field
from laydown.planning.setup.field import rows_of


def painted_m(rows):
    return rows.on.sum(axis=1) * CELL_M


def test_ends_and_area_of_a_rectangle_are_those_drawn():
    where = field(3.0, 0.6)
    assert (where.x_from_m(), where.x_to_m()) == (pytest.approx(0.0), pytest.approx(3.0))
    assert where.area_m2() == pytest.approx(1.8)
    assert field(3.0, 0.6, stretch=1.1).area_m2() == pytest.approx(1.98)


def test_rows_of_a_light_pass_end_at_the_edge():
    # 60 cm at a pitch of 25 cm * (1 - 0.75) = 6.25 cm: 9.6, so 10 rows of 6 cm; the first is centred 3 cm up
    rows = rows_of(field(), 0.25, 0.75, past_edge=False)
    assert rows.centre_m == pytest.approx(BOTTOM_M + 0.03 + 0.06 * np.arange(10))
    assert painted_m(rows) == pytest.approx(np.full(10, 3.0))


def test_rows_of_a_closed_pass_go_past_the_edge_by_an_eighth_of_the_fan():
    # 24 cm fan: 3 cm past each edge, 66 cm at 6 cm = 11 rows, the first centred on the edge itself
    rows = rows_of(field(), 0.24, 0.75)
    assert rows.centre_m == pytest.approx(BOTTOM_M + 0.06 * np.arange(11))
    assert painted_m(rows) == pytest.approx(np.full(11, 3.0))


def test_the_pitch_is_only_ever_drawn_together():
    for fan_m in (0.20, 0.25, 0.31):
        for overlap in (0.5, 0.65, 0.75):
            rows = rows_of(field(), fan_m, overlap)
            pitch = np.diff(rows.centre_m)
            assert (pitch <= fan_m * (1.0 - overlap) + 1e-9).all()
            assert np.ptp(pitch) < 1e-9


@pytest.mark.parametrize(("hole_m", "bridged"), [(0.10, True), (0.14, True), (0.20, False), (0.40, False)])
def test_a_hole_narrower_than_15_cm_is_sprayed_across(hole_m, bridged):
    # a masked handle: over the whole height, so that every row meets it
    hole = (1.5 - hole_m / 2.0, 1.5 + hole_m / 2.0, 0.0, 2.0)
    rows = rows_of(field(holes=(hole,)), 0.24, 0.75)
    assert painted_m(rows) == pytest.approx(np.full(11, 3.0 if bridged else 3.0 - hole_m), abs=CELL_M)


def test_a_window_parts_the_rows_at_its_height_only():
    # window from 0.8 m up: rows centred at 0.5 to 0.74 m do not see it, those from 0.86 m on do
    rows = rows_of(field(holes=((1.0, 2.0, 0.80, 2.0),)), 0.24, 0.75)
    low, high = rows.centre_m < 0.76, rows.centre_m > 0.85
    assert painted_m(rows)[low] == pytest.approx(np.full(low.sum(), 3.0))
    assert painted_m(rows)[high] == pytest.approx(np.full(high.sum(), 2.0))


def test_rows_of_a_fade_end_so_that_their_mean_follows_the_weight():
    # weight 1 up to 1 m, then straight down to 0 at 3 m: at 2 m half of the rows are still painted
    where = field(weight=lambda x: 1.0 - (x - 1.0) / 2.0)
    rows = rows_of(where, 0.24, 0.75, past_edge=False)
    share = rows.on.mean(axis=0)
    x = where.skin.x0_m + (np.arange(where.skin.columns) + 0.5) * CELL_M
    for at, wanted in ((0.5, 1.0), (1.5, 0.75), (2.0, 0.5), (2.5, 0.25)):
        near = share[np.abs(x - at) < 0.10].mean()
        assert near == pytest.approx(wanted, abs=1.0 / len(rows.centre_m) + 0.05)
    assert len(set(painted_m(rows))) > 5, "every row ends at another place"


def test_a_field_too_low_for_one_pitch_gets_one_row():
    rows = rows_of(field(height_m=0.04), 0.25, 0.5, past_edge=False)
    assert len(rows.centre_m) == 1


def test_stretch_of_the_rows_is_that_of_the_panel_below_them():
    assert (rows_of(field(stretch=1.07), 0.24, 0.75).stretch == 1.07).all()
