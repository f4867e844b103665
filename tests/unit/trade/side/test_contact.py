"""Gaps found from panels."""

import numpy as np
import pytest

from laydown.physics.geometry.rings import polyline_length
from laydown.schema.side import Side, SidePanel
from laydown.trade.side.build import build_side
from laydown.trade.side.contact import derive_cuts, distance_to_lines


def box(name, x0, x1, y0=0.2, y1=1.0):
    return SidePanel(name, name, (((x0, y0), (x1, y0), (x1, y1), (x0, y1)),))


def drawn(*panels):
    return Side(format="laydown-side/1", name="drawn", panels=panels)


def test_the_distance_to_a_line_is_square_to_it_or_to_its_end():
    line = [np.array([(0.0, 0.0), (1.0, 0.0)])]
    points = np.array([(0.5, 0.3), (2.0, 0.0), (-0.3, 0.4)])
    assert distance_to_lines(points, line) == pytest.approx((0.3, 1.0, 0.5))


def test_a_gap_is_found_between_panels_that_touch():
    (cut,) = derive_cuts(drawn(box("a", 0.0, 1.0), box("b", 1.0, 2.0)))
    assert (cut.id, cut.kind, cut.panels) == ("gap.a.b", "gap", ("a", "b"))
    assert cut.points[0] == pytest.approx((1.0, 0.2))
    assert polyline_length(np.array(cut.points)) == pytest.approx(0.8, abs=0.02)


def test_a_gap_is_found_across_five_millimetres_but_not_across_twelve():
    assert len(derive_cuts(drawn(box("a", 0.0, 1.0), box("b", 1.005, 2.0)))) == 1
    assert derive_cuts(drawn(box("a", 0.0, 1.0), box("b", 1.012, 2.0))) == ()


def test_a_corner_is_no_gap():
    assert derive_cuts(drawn(box("a", 0.0, 1.0, 0.2, 1.0), box("b", 1.0, 2.0, 0.9, 1.7))) == ()


def test_the_front_panel_comes_first_whatever_the_order_of_the_file():
    (cut,) = derive_cuts(drawn(box("b", 1.0, 2.0), box("a", 0.0, 1.0)))
    assert cut.panels == ("a", "b")


@pytest.mark.parametrize("shape", ["medium hatch", "large van"])
def test_the_drawn_upright_gaps_of_a_shape_are_found_again(shape):
    side = build_side(shape, {})
    found = {frozenset(cut.panels): polyline_length(np.array(cut.points)) for cut in derive_cuts(side)}
    upright = [
        c for c in side.cuts if c.kind == "gap" and "sill" not in c.panels and "high_side" not in c.panels
    ]
    assert len(upright) == 3
    for cut in upright:
        assert found[frozenset(cut.panels)] == pytest.approx(polyline_length(np.array(cut.points)), abs=0.03)
