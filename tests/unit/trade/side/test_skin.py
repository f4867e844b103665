"""The developed sheet as cells."""

import numpy as np
import pytest

from laydown.schema.side import Masked, Side, SidePanel
from laydown.trade.side.build import build_side, panel_areas
from laydown.trade.side.measures import SHAPES
from laydown.trade.side.reach import Fade
from laydown.trade.side.skin import cell_centres, lay_canvas, layer_mask

BOXES = Side(
    format="laydown-side/1",
    name="boxes",
    girth=1.25,
    panels=(
        SidePanel("a", "a", (((0.0, 0.4), (1.0, 0.4), (1.0, 1.2), (0.0, 1.2)),), 1.1),
        SidePanel("b", "b", (((1.0, 0.4), (2.0, 0.4), (2.0, 1.2), (1.0, 1.2)),)),
    ),
    masked=(Masked("handle", (((0.2, 0.8), (0.4, 0.8), (0.4, 0.88), (0.2, 0.88)),)),),
)


def test_heights_are_stretched_before_the_cells_are_filled():
    canvas = lay_canvas(BOXES)
    assert canvas.panel_id.shape == (100, 200)
    assert canvas.s0_m == pytest.approx(0.5)
    assert (canvas.panel_id == 1).sum() == (canvas.panel_id == 2).sum() == 10_000


def test_masked_parts_are_no_skin():
    canvas = lay_canvas(BOXES)
    assert (canvas.panel_id > 0).sum() - canvas.skin.sum() == 20 * 10


def test_seconds_are_stretched_by_planned_over_skin_area():
    assert lay_canvas(BOXES).stretch == pytest.approx((1.1, 1.0))


@pytest.mark.parametrize("shape", SHAPES)
def test_cells_have_the_area_of_the_outlines(shape):
    side = build_side(shape, {})
    canvas = lay_canvas(side)
    skin = [area.skin_m2 for area in panel_areas(side).values()]
    cells = [(canvas.panel_id == number).sum() * 1e-4 for number in range(1, len(skin) + 1)]
    assert sum(cells) == pytest.approx(sum(skin), rel=0.002)
    assert cells == pytest.approx(skin, rel=0.035)


def test_a_full_panel_weighs_one_and_an_untouched_one_nothing():
    canvas = lay_canvas(BOXES)
    weight = layer_mask(canvas, BOXES, {"a": "full"}, {})
    assert (weight == (canvas.skin & (canvas.panel_id == 1))).all()


def test_a_fade_falls_smoothly_from_the_neighbour_to_nothing():
    canvas = lay_canvas(BOXES)
    weight = layer_mask(canvas, BOXES, {"a": "full", "b": "fade"}, {"b": (Fade("a", 0.8),)})
    x, _ = cell_centres(canvas)
    row = weight[50, x > 1.0]
    assert (np.diff(row) <= 0).all()
    assert row[0] > 0.999
    # Smoothstep is one half at half the way; definition.
    assert np.interp(0.4, x[x > 1.0] - 1.0, row) == pytest.approx(0.5, abs=1e-6)
    assert (row[x[x > 1.0] > 1.8] == 0).all()


def test_a_fade_without_a_full_neighbour_is_planned_as_full():
    canvas = lay_canvas(BOXES)
    assert layer_mask(canvas, BOXES, {"b": "fade"}, {}).sum() == 10_000


def test_a_coarse_canvas_covers_the_same_sheet():
    fine, coarse = lay_canvas(BOXES), lay_canvas(BOXES, 0.05)
    assert coarse.panel_id.shape == (20, 40)
    assert coarse.skin.sum() * 0.05**2 == pytest.approx(fine.skin.sum() * 0.01**2, rel=0.02)
