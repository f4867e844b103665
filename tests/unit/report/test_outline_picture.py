"""The picture of a bare side: every panel bears its own name."""

import numpy as np
import pytest
from defusedxml.ElementTree import fromstring

from laydown.physics.raster import inside
from laydown.report.outline_picture import outline_svg, roomiest
from laydown.trade.side import build_side
from laydown.trade.side_measures import SHAPES


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
