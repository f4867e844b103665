"""Sides from any tape measures within the rules."""

from itertools import combinations

import pytest
import shapely
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from cases.problems import answer_or_problems
from cases.thorough import examples
from laydown.schema.side import Side
from laydown.trade.side.build import build_side, panel_areas
from laydown.trade.side.measures import SHAPES

OUTSIDE_M2 = 1e-6


def polygon(panel):
    return shapely.Polygon(panel.rings[0], panel.rings[1:])


@st.composite
def own_measures(draw, shape):
    measures = SHAPES[shape].measures
    return {
        name: value * draw(st.floats(0.94, 1.06))
        for name, value in measures.items()
        if name.endswith("_m") and name != "edge_m"
    }


@pytest.mark.parametrize("shape", SHAPES)
@settings(
    max_examples=examples(60),
    suppress_health_check=[
        HealthCheck.filter_too_much,
        HealthCheck.function_scoped_fixture,
    ],
)
@given(data=st.data())
def test_every_side_within_the_rules_is_whole_and_free_of_overlaps(shape, data):
    side = answer_or_problems(build_side, shape, data.draw(own_measures(shape)))
    if not isinstance(side, Side):
        # Refused by a range rule, never by a construction that failed.
        assert all(problem.where.startswith("body.measures.") for problem in side)
    assume(isinstance(side, Side))
    polygons = {panel.id: polygon(panel) for panel in side.panels}
    assert all(area.is_valid for area in polygons.values()), [
        k for k, p in polygons.items() if not p.is_valid
    ]
    for first, second in combinations(polygons.values(), 2):
        assert first.intersection(second).area < OUTSIDE_M2
    areas = panel_areas(side)
    for name, drawn in polygons.items():
        assert areas[name].skin_m2 == pytest.approx(side.girth * drawn.area, rel=1e-9)
    for part in side.masked:
        handle = shapely.Polygon(part.rings[0])
        assert sum(drawn.contains(handle) for drawn in polygons.values()) == 1


def test_a_rim_that_meets_the_gap_above_the_door_at_one_of_its_own_points_leaves_no_spike():
    own = {"waist_front_m": 1.16164, "glass_top_m": 1.641862284928849, "roof_m": 2.014948516219925}
    side = build_side("medium van", {**own, "door_front_m": 0.4265625})
    assert all(polygon(panel).is_valid for panel in side.panels)


@pytest.mark.parametrize("shape", SHAPES)
def test_neighbours_share_their_border_without_a_crack(shape):
    side = build_side(shape, {})
    whole = shapely.union_all([polygon(panel) for panel in side.panels])
    assert whole.geom_type == "Polygon"
    # A crack between neighbours would show as a long thin hole; windows, handles and arches are wide.
    for hole in whole.interiors:
        assert shapely.Polygon(hole).buffer(-0.02).area > 0
