"""Where a join may lie."""

from dataclasses import replace

import pytest

from laydown.trade.side.build import build_side
from laydown.trade.side.features import PLACE_COSTS, bans, features

HATCH = build_side("medium hatch", {})
VAN = build_side("large van", {})


def test_places_are_ranked_as_painters_rank_them():
    # Common practice, no source: door gap, wheel-arch edge, pillar, moulding, body line, open panel.
    order = ["gap", "arch", "pillar", "moulding", "body_line", "open"]
    costs = [PLACE_COSTS[kind] for kind in order]
    assert costs == sorted(costs)
    assert len(set(costs)) == 6


def test_a_car_has_its_three_door_gaps_from_front_to_rear():
    gaps = [f for f in features(HATCH) if f.kind == "gap" and f.s_m is None]
    assert [g.id for g in gaps] == [
        "gap.front_wing.front_door",
        "gap.front_door.rear_door",
        "gap.rear_door.quarter",
    ]
    assert gaps[1].label == "front door|rear door"
    assert gaps[1].panels == ("front_door", "rear_door")


def test_the_last_gap_of_a_car_leans_along_the_arch():
    gap = next(f for f in features(HATCH) if f.id == "gap.rear_door.quarter")
    assert gap.x_top_m - gap.x_bottom_m > 0.15
    assert gap.x_bottom_m < gap.x_m <= gap.x_top_m


def test_upright_places_come_first_and_run_rearwards():
    upright = [f.x_m for f in features(VAN) if f.s_m is None]
    assert upright == sorted(upright)
    assert len(upright) < len(features(VAN))


def test_arch_feet_lie_at_the_radius_of_the_arch():
    feet = {f.id: f for f in features(VAN) if f.kind == "arch"}
    front, rear = feet["arch.rear.front_foot"], feet["arch.rear.rear_foot"]
    assert rear.x_m - 3.66 == pytest.approx(0.40, abs=0.01)
    assert 3.66 - front.x_m == pytest.approx(0.38, abs=0.03)
    assert front.panels == ("rear_side",)


def test_a_foot_next_to_a_gap_is_the_gap():
    assert not any(f.id == "arch.rear.front_foot" for f in features(HATCH))


def test_lines_are_level_places_at_their_height_on_the_skin():
    track = next(f for f in features(VAN) if f.id == "track")
    assert track.kind == "moulding"
    assert track.s_m == pytest.approx(1.03 * 1.22)
    assert track.panels == ("rear_side",)


def test_a_side_drawn_without_cuts_has_the_same_door_gaps():
    bare = [f.x_m for f in features(replace(VAN, cuts=())) if f.kind == "gap" and f.s_m is None]
    for gap in ("gap.front_door.sliding_door", "gap.sliding_door.rear_side"):
        drawn = next(f.x_m for f in features(VAN) if f.id == gap)
        assert any(abs(x - drawn) < 0.02 for x in bare)


def test_level_joins_are_banned_on_the_shoulder_and_in_the_light_band():
    zones = {zone.id: zone for zone in bans(VAN)}
    assert zones["light_band"].low_m == pytest.approx(1.03 * 1.20 - 0.35)
    assert zones["light_band"].high_m == pytest.approx(1.03 * 1.20 - 0.15)
    shoulder = zones["shoulder.sliding_door"]
    assert shoulder.low_m < 1.03 * 1.09 < shoulder.high_m
    assert shoulder.high_m - shoulder.low_m == pytest.approx(0.16)
