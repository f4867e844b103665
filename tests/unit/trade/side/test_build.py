"""Sides from tape measures, and the faults of drawn ones."""

from dataclasses import replace

import numpy as np
import pytest

from cases.problems import problems_of
from cases.speech import english
from laydown.physics.geometry.rings import ring_area
from laydown.schema.side import Cut, Masked, Side, SidePanel
from laydown.trade.side.build import build_side, check_side, find_panel, panel_area
from laydown.trade.side.measures import SHAPES

CARS = ("small hatch", "medium hatch", "large saloon")
SQUARE = ((0.0, 0.2), (1.0, 0.2), (1.0, 1.2), (0.0, 1.2))
NEXT = tuple((x + 1.0, y) for x, y in SQUARE)


def drawn(*panels, **more):
    return Side(format="laydown-side/1", name="drawn", panels=panels, **more)


@pytest.mark.parametrize("shape", SHAPES)
def test_every_shipped_shape_builds_without_a_fault(shape):
    side = build_side(shape, {})
    assert check_side(side) == ()
    assert side.status == "generic_fitted"


@pytest.mark.parametrize("shape", SHAPES)
def test_panels_are_called_what_the_trade_calls_them(shape):
    labels = {panel.label for panel in build_side(shape, {}).panels}
    car = {"front wing", "front door", "rear door", "quarter", "sill"}
    van = {"front wing", "front door", "sliding door", "rear side", "high side", "sill"}
    assert labels == (car if shape in CARS else van)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_side_has_a_picture_behind_it(shape):
    backdrop = build_side(shape, {}).backdrop
    assert len(backdrop.wheels) == 2
    assert len(backdrop.handles) == 2
    assert len(backdrop.bumpers) == 2
    assert len(backdrop.glass) >= 2
    assert ring_area(np.array(backdrop.silhouette)) > 2.5


@pytest.mark.parametrize("shape", SHAPES)
def test_every_panel_lies_within_the_outline_of_the_vehicle(shape):
    side = build_side(shape, {})
    outline = np.array(side.backdrop.silhouette)
    for panel in side.panels:
        ring = np.array(panel.rings[0])
        assert ring[:, 0].min() > outline[:, 0].min()
        assert ring[:, 0].max() < outline[:, 0].max()
        assert ring[:, 1].max() < outline[:, 1].max()


def test_an_unknown_shape_gets_the_nearest_name():
    (problem,) = problems_of(build_side, "medium hatc", {})
    assert problem.where == "body.shape"
    assert "did you mean 'medium hatch'?" in english(problem.hint)


def test_bad_measures_are_all_reported_together_with_their_ranges():
    problems = problems_of(build_side, "medium hatch", {"wheelbase_m": 5.2, "sill_low_m": 0.05, "girth": 1.6})
    places = {problem.where for problem in problems}
    assert {"body.measures.wheelbase_m", "body.measures.sill_low_m", "body.measures.girth"} <= places
    assert all("measure again from the ground" in english(problem.hint) for problem in problems)
    wheelbase = next(p for p in problems if p.where.endswith("wheelbase_m"))
    assert "2.000 to 4.800" in english(wheelbase.what)


def test_nothing_is_clipped_when_doors_do_not_follow_each_other():
    problems = problems_of(build_side, "medium hatch", {"door_mid_m": 0.6})
    assert [p.where for p in problems] == ["body.measures.door_mid_m"]


def test_a_measure_that_was_only_carried_along_is_asked_for():
    (problem,) = problems_of(build_side, "large van", {"arch_radius_m": 0.45})
    assert problem.where == "body.measures.door_front_m"
    assert "give this measure too" in english(problem.hint)


def test_measures_that_each_are_possible_but_make_no_side_together_are_refused():
    own = {"door_mid_m": 1.0, "door_rear_m": 1.5}
    (problem,) = problems_of(build_side, "medium hatch", own)
    assert problem.where == "body.measures"
    assert "measure again from the ground" in english(problem.hint)


def test_a_measure_of_another_kind_of_vehicle_is_refused():
    (problem,) = problems_of(build_side, "medium hatch", {"glass_top_m": 1.8})
    assert problem.where == "body.measures.glass_top_m"


def test_own_wheelbase_and_roof_carry_the_other_measures_along():
    default = SHAPES["medium hatch"].measures
    side = build_side("medium hatch", {"wheelbase_m": 2.63 * 1.04, "roof_m": 1.48 * 1.02})
    assert side.measures["door_mid_m"] == pytest.approx(default["door_mid_m"] * 1.04)
    assert side.measures["waist_front_m"] == pytest.approx(default["waist_front_m"] * 1.02)
    assert side.measures["arch_radius_m"] == default["arch_radius_m"]


def test_a_measure_follows_its_given_partner_first():
    side = build_side("medium hatch", {"arch_radius_m": 0.36, "roof_m": 1.50, "waist_front_m": 1.0})
    default = SHAPES["medium hatch"].measures
    assert side.measures["wheel_radius_m"] == pytest.approx(default["wheel_radius_m"] * 0.36 / 0.35)
    assert side.measures["waist_rear_m"] == pytest.approx(default["waist_rear_m"] * 1.0 / 0.985)


def test_a_longer_wheelbase_makes_a_larger_side():
    small, large = (build_side("medium hatch", {"wheelbase_m": w}) for w in (2.60, 2.70))
    assert sum(panel_area(large, p).planned_m2 for p in large.panels) > sum(
        panel_area(small, p).planned_m2 for p in small.panels
    )


def test_the_mirrored_side_keeps_its_areas():
    side = build_side("large van", {})
    for panel in side.panels:
        turned = replace(panel, rings=tuple(tuple((-x, y) for x, y in ring) for ring in panel.rings))
        assert panel_area(side, turned) == panel_area(side, panel)


def test_skin_is_girth_times_the_area_seen_and_edges_follow_the_gaps():
    gap = Cut("gap.a.b", "gap", ("a", "b"), ((1.0, 0.2), (1.0, 1.2)))
    side = drawn(
        SidePanel("a", "a", (SQUARE,), 1.1), SidePanel("b", "b", (NEXT,)), girth=1.2, edge_m=0.02, cuts=(gap,)
    )
    area = panel_area(side, side.panels[0])
    assert area.skin_m2 == pytest.approx(1.2)
    assert area.edge_m2 == pytest.approx(0.02)
    assert area.planned_m2 == pytest.approx(1.22 * 1.1)


def test_panels_are_found_by_label_or_id_whatever_the_spelling():
    side = build_side("medium hatch", {})
    assert find_panel(side, "Front-Wing") is side.panels[0]
    assert find_panel(side, "front_wing") is side.panels[0]


def test_an_unknown_panel_gets_the_nearest_label():
    (problem,) = problems_of(find_panel, build_side("medium hatch", {}), "front wng")
    assert "did you mean 'front wing'?" in english(problem.hint)


def test_all_faults_of_a_drawn_side_are_listed_at_once():
    bow_tie = (SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3])
    far = tuple((x + 9, y) for x, y in SQUARE)
    tiny = tuple((x * 0.1 + 5, y * 0.1) for x, y in SQUARE)
    side = drawn(
        SidePanel("tie", "tie", (bow_tie,)),
        SidePanel("holed", "holed", (NEXT, far)),
        SidePanel("tiny", "tiny", (tiny,)),
        SidePanel("tiny", "tiny", (tuple((x + 1, y) for x, y in far),)),
        cuts=(Cut("gap.x", "gap", ("nobody", "tie"), ((0.0, 0.0), (0.0, 1.0))),),
        masked=(Masked("handle", (SQUARE[:2],)),),
    )
    text = " ".join(f"{problem.where} {english(problem.what)}" for problem in check_side(side))
    for part in (
        "panels.tie its outline crosses itself",
        "panels.holed a hole lies outside",
        "panels.tiny 0.01 m²",
        "panels.tiny this id stands twice",
        "cuts.gap.x names no panel",
        "masked.handle needs a closed outline",
    ):
        assert part in text


def test_panels_that_overlap_by_more_than_a_square_centimetre_are_refused():
    lapping = tuple((x - 0.01, y) for x, y in NEXT)
    (problem,) = check_side(drawn(SidePanel("a", "a", (SQUARE,)), SidePanel("b", "b", (lapping,))))
    assert "overlaps a by 100 cm²" in english(problem.what)
    nearly = tuple((x - 0.00005, y) for x, y in NEXT)
    assert check_side(drawn(SidePanel("a", "a", (SQUARE,)), SidePanel("b", "b", (nearly,)))) == ()


def test_a_side_without_panels_or_with_too_many_points_is_refused():
    assert english(check_side(drawn())[0].what) == "no panel"
    turns = np.linspace(0, 2 * np.pi, 5002)[:-1]
    ring = tuple((float(np.cos(a)), float(np.sin(a)) + 1.2) for a in turns)
    assert "5001 points" in english(check_side(drawn(SidePanel("a", "a", (ring,))))[0].what)
