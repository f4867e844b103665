"""The picture of a bare side: every panel bears its own name."""

from dataclasses import replace

import numpy as np
import pytest
from defusedxml.ElementTree import fromstring

from cases.drawing import overlapping, size_of, texts
from laydown.physics.geometry.grid import inside
from laydown.report.kit.vehicle_frame import side_bounds
from laydown.report.side.body import outline_svg, roomiest
from laydown.trade.side.build import build_side
from laydown.trade.side.measures import SHAPES


@pytest.mark.parametrize("shape", SHAPES)
def test_the_name_of_a_panel_stands_inside_it(shape):
    for panel in build_side(shape, {}).panels:
        place = np.array([roomiest(panel)])
        assert inside(place, [np.array(ring) for ring in panel.rings]).all(), panel.id


@pytest.mark.parametrize("shape", SHAPES)
def test_the_picture_is_a_drawing_with_title_and_every_panel(shape):
    side = build_side(shape, {})
    root = fromstring(outline_svg(side))
    assert {node.get("data-panel") for node in root.iter()} >= {panel.id for panel in side.panels}
    assert side.name in "".join(root.itertext())


def test_a_long_name_breaks_into_lines_inside_a_narrow_panel():
    side = build_side("medium hatch", {})
    wing = replace(side.panels[1], label="front cab door with an extended opening towards the rear")
    svg = outline_svg(replace(side, panels=(side.panels[0], wing, *side.panels[2:])))
    shown = [words for words in texts(svg) if words.text in wing.label]
    assert " ".join(words.text for words in shown) == wing.label
    assert len(shown) > 1
    assert overlapping(svg) == []
    left, right = min(x for x, _ in wing.rings[0]), max(x for x, _ in wing.rings[0])
    bounds = side_bounds(side)
    scale = (size_of(svg)[0] - 40) / (bounds.right_m - bounds.left_m)
    assert max(words.right - words.left for words in shown) < (right - left) * scale
