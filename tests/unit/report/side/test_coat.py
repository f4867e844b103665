import re
from dataclasses import replace
from itertools import pairwise

import pytest

from cases.drawing import ids, marked, overlapping, references, root_of, size_of, texts
from cases.speech import english
from laydown.report.kit.coat_scene import panels_of
from laydown.report.kit.vehicle_frame import across_at, crossings
from laydown.report.side.coat import all_coats, make_scene, side_svg
from laydown.report.side.fades import fade_weights
from laydown.report.side.joins import join_line, zigzag
from laydown.report.side.plates import leader, plate_edge, plate_places, step_places
from laydown.report.side.ruler import margin_lines
from laydown.report.side.sections import fewer_strokes, kept_on, section_ways, start_place, way_points, ways
from laydown.schema.figure import Spread


def every_picture(plan):
    for layer, coat in all_coats(plan):
        for grey in (False, True):
            yield layer, coat, side_svg(plan, layer.name, coat.number, grey=grey)


def test_every_picture_has_title_description_and_role(plan):
    for layer, coat, svg in every_picture(plan):
        root = root_of(svg)
        assert root.get("role") == "img"
        assert root[0].tag.endswith("title")
        assert layer.name in root[0].text.lower()
        assert root[1].tag.endswith("desc")
        assert all(join.id in root[1].text for join in coat.joins)


def test_ids_are_unique_and_every_reference_leads_somewhere(plan):
    together = []
    for _, _, svg in every_picture(plan):
        own = ids(svg)
        assert references(svg) <= set(own)
        together += own
    assert len(together) == len(set(together)), "pictures of one plan must fit on one page"


def test_every_join_section_coat_and_layer_is_on_the_picture(plan):
    for layer, coat, svg in every_picture(plan):
        assert sorted(marked(svg, "join")) == sorted(join.id for join in coat.joins)
        assert marked(svg, "order") == [str(section.order) for section in coat.sections]
        assert marked(svg, "ruler") == [f"{layer.name}.{row.number}" for row in layer.coats]
        assert marked(svg, "layer") == [row.name for row in plan.layers]


def swings(data):
    """How often a line turns from left to right or back."""
    xs = [float(pair.split(",")[0]) for pair in data[1:].split("L")]
    runs = [b - a for a, b in pairwise(xs) if b != a]
    return sum(a * b < 0 for a, b in pairwise(runs))


def test_the_state_of_a_join_shows_in_its_shape_without_colour(van):
    root = root_of(side_svg(van, "clear", 1, grey=True))
    shapes = {}
    for group in root.iter():
        if group.get("data-join"):
            bar = group[1]
            shapes[bar.get("data-state")] = (
                bar.get("stroke-dasharray") is not None,
                swings(bar.get("d")) > 10,
            )
    assert shapes == {"wet": (False, False), "tight": (True, False), "dry": (False, True)}


def test_no_text_is_small_leaves_the_picture_or_covers_another(plan):
    for _, _, svg in every_picture(plan):
        width, height = size_of(svg)
        assert overlapping(svg) == []
        for words in texts(svg, 1.2):
            assert words.size >= 14
            assert words.left >= 0
            assert words.right <= width
            assert words.bottom <= height


def test_a_narrow_picture_keeps_the_size_of_its_words_and_covers_none(plan):
    for layer, coat in all_coats(plan):
        svg = side_svg(plan, layer.name, coat.number, width_px=800.0)
        assert size_of(svg)[0] == 800.0
        assert overlapping(svg) == []
        assert all(text.size >= 14 for text in texts(svg))
    with pytest.raises(ValueError, match="width_px"):
        side_svg(plan, layer.name, coat.number, width_px=700.0)


def test_a_right_side_is_mirrored_but_its_text_is_not(van):
    left = replace(van, side=replace(van.side, side="left"))
    right_scene, left_scene = (make_scene(p, "clear", 1, grey=False).frame for p in (van, left))
    front, rear = (0.0, 0.5), (3.0, 0.5)
    assert right_scene.at(front)[0] > right_scene.at(rear)[0]
    assert left_scene.at(front)[0] < left_scene.at(rear)[0]
    svg = side_svg(van, "clear", 1)
    assert "scale(-1" not in svg
    assert "matrix(" not in svg
    assert [words.text for words in texts(svg) if words.text.startswith("coat")] == ["coat 1", "coat 2"]


def test_a_join_in_a_gap_follows_the_gap(hatch):
    coat = hatch.layers[2].coats[0]
    join = next(row for row in coat.joins if row.id == "c1.3")
    line = join_line(hatch.side, coat, join)
    cut = next(c for c in hatch.side.outline.cuts if set(c.panels) == {"front_wing", "front_door"})
    for x, y in line:
        assert x == pytest.approx(across_at(tuple(sorted(cut.points, key=lambda p: p[1])), y), abs=0.01)


def test_a_join_in_the_open_panel_runs_from_bottom_to_top_of_its_panel(van):
    coat = van.layers[1].coats[0]
    (_, low), (_, high) = join_line(van.side, coat, coat.joins[0])
    assert high - low > 1.5


def test_a_zigzag_swings_to_both_sides_and_keeps_its_ends():
    points = zigzag(((0.0, 0.0), (0.0, 90.0)))
    assert {round(x) for x, _ in points} == {-5, 5}
    assert points[0][1] == 0
    assert points[-1][1] == pytest.approx(90)


def test_no_plate_covers_a_stroke_or_another_plate(plan):
    for layer, coat in all_coats(plan):
        scene = make_scene(plan, layer.name, coat.number, grey=False)
        half = plate_edge(scene) / 2
        places = plate_places(scene)
        for x, y in places.values():
            assert not [p for p in way_points(scene) if abs(p[0] - x) < half and abs(p[1] - y) < half]
        spots = list(places.values())
        for index, a in enumerate(spots):
            for b in spots[index + 1 :]:
                assert max(abs(a[0] - b[0]), abs(a[1] - b[1])) > 2 * half


def test_close_strokes_are_thinned_but_the_first_and_the_last_stay():
    strokes = tuple(
        (x, 10.0 * row) for row in range(12) for x in ((0.0, 100.0) if row % 2 == 0 else (100.0, 0.0))
    )
    fewer = fewer_strokes(strokes, 54.0)
    assert fewer[:2] == strokes[:2]
    assert fewer[-2:] == strokes[-2:]
    assert len(fewer) < len(strokes)
    for row in range(2, len(fewer) - 1, 2):
        assert fewer[row][0] == fewer[row - 1][0], "a turn stays on its side"


def test_a_way_that_is_not_to_and_fro_stays_as_it_is():
    way = ((0.0, 0.0), (5.0, 1.0), (9.0, 1.0))
    assert fewer_strokes(way, 54.0) == way


def test_joins_of_successive_coats_that_lie_close_are_tied_with_their_distance(van):
    assert "0.18 m" in [words.text for words in texts(side_svg(van, "effect", 1))]


def test_a_gap_that_repeats_is_not_tied(hatch):
    above = size_of(side_svg(hatch, "ground", 1))[1] / 3
    shown = [words for words in texts(side_svg(hatch, "ground", 1)) if words.bottom < above]
    assert shown
    assert not [words for words in shown if words.text.endswith(" m")]


def test_a_margin_stands_at_each_join_with_its_interval(hatch):
    shown = [words.text for words in texts(side_svg(hatch, "effect", 1))]
    assert "9 s margin" in shown
    assert "3 to 16 s" in shown


def test_invented_data_are_marked_and_real_data_are_not(hatch):
    real = replace(hatch, inputs=replace(hatch.inputs, invented=False))
    assert "invented data" in side_svg(hatch, "effect", 1)
    assert "invented data" not in side_svg(real, "effect", 1)


def test_markup_in_a_name_stays_text(hatch):
    named = replace(hatch, inputs=replace(hatch.inputs, job='<script>&"x" \x07漢'))
    shown = [words.text for words in texts(side_svg(named, "effect", 1))]
    assert any('<script>&"x" ??' in text for text in shown)


def test_an_unknown_coat_or_layer_is_refused(hatch):
    with pytest.raises(ValueError, match="coat must be one of"):
        side_svg(hatch, "effect", 9)
    with pytest.raises(ValueError, match="layer must be one of"):
        side_svg(hatch, "primer", 1)


def test_a_picture_stays_small(plan):
    for _, _, svg in every_picture(plan):
        assert len(svg) < 60_000


def test_the_way_of_the_gun_stays_on_the_paint(plan):
    for layer, coat in all_coats(plan):
        scene = make_scene(plan, layer.name, coat.number, grey=False)
        for section in coat.sections:
            rings = [ring for panel in panels_of(scene, section) for ring in panel.rings]
            for way in section.path:
                for x, y in kept_on(way, rings):
                    gaps = [max(low - y, y - high, 0.0) for low, high in crossings(rings, x)]
                    assert not gaps or min(gaps) == 0.0 or min(gaps) >= 0.12


def test_a_stroke_over_the_edge_is_drawn_along_it():
    panel = ((0.0, 0.4), (1.0, 0.4), (1.0, 1.0), (0.0, 0.9))
    moved = kept_on(((0.1, 1.0), (0.9, 1.0)), [panel])
    heights = [y for _, y in moved]
    assert heights == sorted(heights)
    assert heights[0] == pytest.approx(0.91 - 0.03)
    assert kept_on(((0.1, 0.6), (0.9, 0.6)), [panel]) == ((0.1, 0.6), (0.9, 0.6))


def test_the_flag_stands_where_the_first_drawn_stroke_begins(plan):
    for layer, coat in all_coats(plan):
        scene = make_scene(plan, layer.name, coat.number, grey=False)
        first = section_ways(scene, coat.sections[0])
        assert start_place(scene) == first[0][0]


def test_a_fade_on_both_sides_runs_out_away_from_the_full_panels(hatch):
    wide = {"front wing": "fade", "front door": "full", "rear door": "full", "quarter": "fade"}
    panels = tuple(
        replace(row, effect=wide.get(row.name, "none"), fade_m=0.6 if wide.get(row.name) == "fade" else None)
        for row in hatch.side.panels
    )
    scene = make_scene(replace(hatch, side=replace(hatch.side, panels=panels)), "effect", 1, grey=False)
    rows = {row.name: row for row in panels}
    for outline in scene.plan.side.outline.panels:
        if wide.get(outline.label) != "fade":
            continue
        dots = fade_weights(scene, outline, rows[outline.label])
        doors = (scene.frame.across(0.47), scene.frame.across(2.43))
        far = [
            weight
            for (x, _), weight in dots
            if min(abs(x - door) for door in doors) > 0.7 * scene.frame.scale
        ]
        near = [weight for (x, y), weight in dots if min(abs(x - door) for door in doors) < 12]
        assert max(near) > 0.9
        assert all(weight < 0.2 for weight in far if weight) or outline.label == "quarter"
        assert min(far) == pytest.approx(0.0, abs=1e-9)


def test_a_plate_beside_its_section_is_led_into_it(van):
    for layer, coat in all_coats(van):
        scene = make_scene(van, layer.name, coat.number, grey=False)
        for section in coat.sections:
            place = plate_places(scene)[section.order]
            line = leader(scene, section, place)
            rings = [ring for panel in panels_of(scene, section) for ring in panel.rings]
            end = line[-1] if line else place
            frame = scene.frame
            run = (end[0] - frame.left_px) / frame.scale
            x = frame.bounds.right_m - run if frame.mirrored else frame.bounds.left_m + run
            y = frame.bounds.top_m - (end[1] - frame.top_px) / frame.scale
            assert any(low <= y <= high for low, high in crossings(rings, x))


def test_steps_stand_beside_wheels_and_each_other(van):
    layer = van.layers[2]
    coat = replace(
        layer.coats[0], sections=tuple(replace(s, needs_step=True) for s in layer.coats[0].sections)
    )
    scene = replace(make_scene(van, layer.name, 1, grey=False), coat=coat)
    steps = sorted(x for x, _ in step_places(scene, plate_places(scene)).values())
    assert len(steps) == len(coat.sections)
    assert all(b - a >= 30 for a, b in pairwise(steps))
    for x, _, radius in van.side.outline.backdrop.wheels:
        assert all(abs(step - scene.frame.across(x)) > radius * scene.frame.scale for step in steps)


def test_the_scale_counts_metres_from_the_middle_of_the_front_wheel(van):
    scene = make_scene(van, "clear", 1, grey=False)
    shown = {words.text: (words.left + words.right) / 2 for words in texts(side_svg(van, "clear", 1))}
    assert shown["0 m, middle of the front wheel"] == pytest.approx(scene.frame.across(0.0), abs=1)
    assert shown["2 m"] == pytest.approx(scene.frame.across(2.0), abs=1)


@pytest.mark.parametrize(
    ("margin", "told"),
    [
        (Spread(9.0, 3.0, 16.0), ("9 s margin", "3 to 16 s")),
        (Spread(4.0, -8.0, 20.0), ("4 s margin", "−8 to 20 s")),
        (Spread(-180.0, -245.0, -81.0), ("180 s too late", "81 to 245 s late")),
    ],
)
def test_a_margin_is_said_in_seconds_and_lateness_without_a_minus(hatch, margin, told):
    assert margin_lines(replace(hatch.layers[1].coats[0].joins[0], margin_s=margin), english) == told


def test_the_arrow_stands_at_the_end_of_the_highest_stroke(hatch):
    coat = hatch.layers[1].coats[0]
    section = coat.sections[0]
    low = ((2.6, 0.5), (3.2, 0.5))
    both = replace(section, path=(*section.path, low))
    scene = replace(
        make_scene(hatch, "effect", 1, grey=False), coat=replace(coat, sections=(both, *coat.sections[1:]))
    )
    alone = replace(scene, coat=coat)
    tip = re.findall(r'<path d="M([^L]+)L[^"]*Z" fill="#55636E"', ways(scene))[0]
    assert tip == re.findall(r'<path d="M([^L]+)L[^"]*Z" fill="#55636E"', ways(alone))[0]
