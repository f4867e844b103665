"""Sides drawn as SVG."""

import math

import pytest

from cases.problems import answer_or_problems, problems_of
from cases.speech import english
from laydown.physics.geometry.rings import ring_area
from laydown.reader.papers.side_svg import MOST_BYTES, read_side_svg
from laydown.reader.papers.svg_shapes import flatten_path, read_transform
from laydown.schema.side import Side
from laydown.trade.side.build import check_side

MARKS = """
<line id="scale" data-length-m="2" x1="100" y1="500" x2="300" y2="500"/>
<circle id="axle" cx="100" cy="470" r="4"/>
<line id="ground" x1="0" y1="500" x2="400" y2="500"/>
"""
DOORS = """
<path id="front door" d="M100 380 h100 v100 h-100 Z"/>
<polygon data-panel="rear-door" data-label="rear door" points="200,380 300,380 300,480 200,480"/>
"""


def drawing(body, root=""):
    return f'<svg xmlns="http://www.w3.org/2000/svg" {root}>{body}</svg>'


def read(body, root=""):
    return answer_or_problems(read_side_svg, drawing(body, root), "drawn")


def places(result):
    assert not isinstance(result, Side)
    return {problem.where: problem for problem in result}


def test_a_drawing_becomes_panels_in_metres_with_the_ground_below():
    side = read(MARKS + DOORS, 'data-girth="1.1" data-edge-m="0.02"')
    assert isinstance(side, Side)
    assert [panel.id for panel in side.panels] == ["front_door", "rear_door"]
    assert side.panels[0].rings[0] == ((0.0, 1.2), (1.0, 1.2), (1.0, 0.2), (0.0, 0.2))
    assert (side.girth, side.edge_m, side.status) == (1.1, 0.02, "measured")
    assert check_side(side) == ()


def test_masked_parts_cuts_lines_and_backdrop_are_told_by_their_kind():
    side = read(
        MARKS
        + DOORS
        + """
        <rect id="handle 1" data-kind="masked" x="180" y="400" width="10" height="3"/>
        <path id="gap.middle" data-kind="gap" data-panels="front_door rear-door" d="M200 380 V480"/>
        <polyline id="track" data-kind="moulding" points="300,420 210,420"/>
        <polyline id="shoulder" data-kind="line" points="100,400 300,400"/>
        <circle id="w1" data-kind="wheel" cx="100" cy="470" r="30"/>
        <rect data-kind="silhouette" x="50" y="360" width="300" height="130"/>
        <path d="M0 0 L 9 9"/>
        """
    )
    assert [part.id for part in side.masked] == ["handle_1"]
    (cut,) = side.cuts
    assert (cut.kind, cut.panels, cut.points) == (
        "gap",
        ("front_door", "rear_door"),
        ((1.0, 0.2), (1.0, 1.2)),
    )
    assert [(line.id, line.kind) for line in side.lines] == [("track", "moulding"), ("shoulder", "body_line")]
    assert side.lines[0].points[0][0] < side.lines[0].points[1][0]
    assert side.backdrop.wheels[0] == pytest.approx((0.0, 0.3, 0.3))
    assert len(side.backdrop.silhouette) >= 4
    assert check_side(side) == ()


def test_a_panel_may_have_a_hole():
    side = read(MARKS + '<path id="door" d="M100 380 h100 v100 h-100 Z M120 400 h40 v30 h-40 Z"/>')
    assert len(side.panels[0].rings) == 2
    assert check_side(side) == ()


def test_a_circle_is_flattened_to_a_millimetre():
    side = read(MARKS + '<circle id="lid" cx="200" cy="400" r="50"/>')
    ring = side.panels[0].rings[0]
    assert ring_area(ring) == pytest.approx(math.pi * 0.25, rel=0.01)
    assert all(abs(math.dist(point, (1.0, 1.0)) - 0.5) < 0.0011 for point in ring)


def test_transforms_of_groups_and_elements_are_applied():
    moved = DOORS.replace('id="front door"', 'id="front door" transform="translate(-10 5)"').replace(
        'data-panel="rear-door"', 'data-panel="rear-door" transform="translate(-10 5)"'
    )
    side = read(MARKS + f'<g transform="translate(10 -5)"><g>{moved}</g></g>')
    assert side.panels == read(MARKS + DOORS).panels


def test_a_drawing_of_the_right_side_is_stored_as_its_mirror_image():
    side = read(MARKS.replace('cx="100"', 'cx="300"') + DOORS, 'data-side="right"')
    assert side.side == "right"
    door = next(panel for panel in side.panels if panel.id == "rear_door")
    assert {point[0] for point in door.rings[0]} == {0.0, 1.0}


def test_everything_that_is_missing_is_reported_at_once():
    found = places(
        read(
            '<path id="door" d="M0 0 h9 v9"/><path id="gap" data-kind="gap" d="M0 0 v9"/><rect id="x" data-kind="panell"/>'
            '<path id="broken" d="M0 0 L 5"/><g transform="warp(3)"><rect id="in group" width="2" height="2"/></g>',
            'data-girth="3"',
        )
    )
    assert {"scale", "axle", "ground", "door", "gap", "x", "broken", "data-girth", "panels"} <= set(found)
    assert "not closed" in english(found["door"].what)
    assert "did you mean 'panel'?" in english(found["x"].hint)
    assert any("warp" in english(problem.what) for problem in found.values())


def test_a_missing_scale_is_never_guessed():
    found = places(read(DOORS + MARKS.replace('data-length-m="2"', "")))
    assert list(found) == ["scale"]
    assert "data-length-m" in english(found["scale"].hint)


def test_panels_that_cross_themselves_or_lap_over_are_read_and_then_refused():
    tie = read(MARKS + '<path id="tie" d="M100 380 L200 480 L200 380 L100 480 Z"/>')
    assert "crosses itself" in english(check_side(tie)[0].what)
    lapping = read(
        MARKS + DOORS.replace("200,380 300,380 300,480 200,480", "190,380 300,380 300,480 190,480")
    )
    assert "overlaps front_door by 1000 cm²" in english(check_side(lapping)[0].what)


def test_entities_are_refused():
    # The classic attack: entities that grow to gigabytes, and one that fetches a file.
    grow = '<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;">]>' + drawing("<text>&b;</text>")
    fetch = '<!DOCTYPE svg [<!ENTITY f SYSTEM "file:///etc/hostname">]>' + drawing("<text>&f;</text>")
    for text in (grow, fetch):
        (problem,) = problems_of(read_side_svg, text, "drawn")
        assert "entity" in english(problem.what)


def test_what_is_no_drawing_or_too_large_is_refused():
    assert "no SVG" in english(problems_of(read_side_svg, "not xml", "drawn")[0].what)
    assert "no SVG" in english(problems_of(read_side_svg, "<html/>", "drawn")[0].what)
    assert "2.0 MB" in english(problems_of(read_side_svg, " " * (MOST_BYTES + 1), "drawn")[0].what)


@pytest.mark.parametrize(
    ("absolute", "relative"),
    [
        ("M1 1 L3 2 H5 V7 Z", "m1 1 l2 1 h2 v5 z"),
        ("M0 0 C0 4 4 4 4 0 S8 -4 8 0", "m0 0 c0 4 4 4 4 0 s4 -4 4 0"),
        ("M0 0 Q2 4 4 0 T8 0", "m0 0 q2 4 4 0 t4 0"),
        ("M0 0 A2 2 0 0 1 4 0", "m0 0 a2 2 0 0 1 4 0"),
    ],
)
def test_relative_commands_draw_the_same_as_absolute_ones(absolute, relative):
    first, second = flatten_path(absolute, 0.01), flatten_path(relative, 0.01)
    assert [pytest.approx(p) for line in first for p in line] == [p for line in second for p in line]


def test_a_smooth_cubic_bulges_to_three_quarters_of_its_controls():
    # A cubic whose ends lie at 0 and controls at height 4 rises to 3/4 * 4 = 3 in its middle; definition.
    (line,) = flatten_path("M0 0 C0 4 4 4 4 0", 0.001)
    assert max(point.imag for point in line) == pytest.approx(3.0, abs=0.002)


def test_the_flags_of_an_arc_choose_the_side_and_the_longer_way():
    # Figure in W3C SVG 1.1 chapter 8.3.8: same ends, four arcs.
    heights = {}
    for large in (0, 1):
        for sweep in (0, 1):
            (line,) = flatten_path(f"M0 0 A5 5 0 {large} {sweep} 6 0", 0.0005)
            heights[large, sweep] = max((point.imag for point in line), key=abs)
    # Circle of radius 5 through two points 6 apart: the short arc is 1 high, the long one 9; y grows downwards.
    assert heights[0, 1] == pytest.approx(-1.0, abs=0.002)
    assert heights[0, 0] == pytest.approx(1.0, abs=0.002)
    assert heights[1, 1] == pytest.approx(-9.0, abs=0.002)
    assert heights[1, 0] == pytest.approx(9.0, abs=0.002)


def test_an_arc_too_small_for_its_ends_is_grown_and_a_flat_one_is_a_line():
    (grown,) = flatten_path("M0 0 A1 1 0 0 1 4 0", 0.001)
    assert min(point.imag for point in grown) == pytest.approx(-2.0, abs=0.005)
    assert flatten_path("M0 0 A0 1 0 0 1 4 0", 0.001) == [[0j, 4 + 0j]]


def test_numbers_may_touch_and_a_repeated_move_goes_on_as_lines():
    assert flatten_path("M0,0 1-1.5.5.5", 1.0) == [[0j, 1 - 1.5j, 0.5 + 0.5j]]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("translate(3)", (1, 0, 0, 1, 3, 0)),
        ("scale(2 3)", (2, 0, 0, 3, 0, 0)),
        ("translate(1,2) scale(2)", (2, 0, 0, 2, 1, 2)),
        ("rotate(90)", (0, 1, -1, 0, 0, 0)),
        ("rotate(90 1 0)", (0, 1, -1, 0, 1, -1)),
        ("skewX(45)", (1, 0, 1, 1, 0, 0)),
        ("skewY(45)", (1, 1, 0, 1, 0, 0)),
        ("matrix(1 2 3 4 5 6)", (1, 2, 3, 4, 5, 6)),
    ],
)
def test_transforms_are_those_of_the_standard(text, expected):
    # Matrices printed in W3C SVG 1.1 chapter 7.4 and 7.6.
    assert read_transform(text) == pytest.approx(expected, abs=1e-12)


@pytest.mark.parametrize("path", ["L 1 1", "5 5", "M 1", "M 0 0 C 1 1 2 2"])
def test_broken_paths_are_refused(path):
    with pytest.raises(ValueError, match=r"path|command|number"):
        flatten_path(path, 1.0)
