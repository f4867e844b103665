"""Areas of the shipped sides against an estimate.

Geometric estimate, no source: visible outer skin with curvature, without glass, shuts and insides, +-15 %. The factors of
the shapes are fitted to it, so this says that the fit holds, not that the estimate is right.
"""

import pytest

from laydown.trade.side.build import build_side, panel_areas

ESTIMATE_M2 = {
    "small hatch": (0.48, 0.80, 0.70, 0.72, 0.20, 2.9),
    "medium hatch": (0.58, 0.90, 0.80, 0.92, 0.25, 3.45),
    "large saloon": (0.72, 1.02, 0.95, 1.10, 0.30, 4.1),
    "medium van": (0.55, 1.00, 1.90, 2.60, 0.35, 6.4),
    "large van": (0.60, 1.05, 2.50, 5.20, 0.45, 9.8),
}


def areas(shape, kind):
    found = {name: getattr(area, kind) for name, area in panel_areas(build_side(shape, {})).items()}
    if "high_side" in found:
        found["rear_side"] += found.pop("high_side")
    return list(found.values())


@pytest.mark.parametrize("shape", ESTIMATE_M2)
def test_planned_areas_meet_the_estimate(shape):
    *panels, whole = ESTIMATE_M2[shape]
    planned = areas(shape, "planned_m2")
    assert sum(planned) == pytest.approx(whole, rel=0.02)
    assert planned == pytest.approx(panels, rel=0.10)


@pytest.mark.parametrize("shape", ESTIMATE_M2)
def test_the_outlines_alone_lie_within_the_spread_of_the_estimate(shape):
    drawn = sum(areas(shape, "skin_m2")) + sum(areas(shape, "edge_m2"))
    assert drawn == pytest.approx(ESTIMATE_M2[shape][-1], rel=0.15)


@pytest.mark.parametrize("shape", ESTIMATE_M2)
def test_one_side_is_a_quarter_to_a_third_of_what_is_painted_outside(shape):
    # Same estimate: whole outside skin of a vehicle of each class.
    outside = dict(zip(ESTIMATE_M2, (10.3, 12.5, 15.0, 22.0, 33.0), strict=True))[shape]
    assert 0.24 < sum(areas(shape, "planned_m2")) / outside < 0.34
