from dataclasses import replace

import pytest

from cases import sample_plan
from cases.drawing import ids, marked, overlapping, references, root_of, size_of, texts
from laydown.report.charts.map_cells import blocks, classes_of, contour_data
from laydown.report.charts.map_scale import blend, round_up, scale_of
from laydown.report.charts.maps import maps_svg, worst_text
from laydown.report.kit.vehicle_frame import DrawnBox, VehicleFrame
from laydown.schema.coat import CoatMap, Maps


@pytest.fixture(scope="module")
def drawn(plan):
    return maps_svg(plan, sample_plan.maps_of(plan), "effect", 1)


def field(values, kind="age", target=0.0):
    return CoatMap("effect", 1, kind, 0.1, 0.1, 0.0, 0.0, values, target, 1.0, (0.0, 0.0), "", "g/m²")


def test_each_field_is_drawn_once_in_one_frame(drawn):
    assert marked(drawn, "map") == ["film", "age", "dry spray"]
    assert references(drawn) <= set(ids(drawn))
    assert len(ids(drawn)) == len(set(ids(drawn)))
    assert root_of(drawn).get("role") == "img"


def test_no_text_leaves_the_picture_or_covers_another(drawn):
    width, height = size_of(drawn)
    assert overlapping(drawn) == []
    for words in texts(drawn, 1.2):
        assert words.size >= 14
        assert words.left >= 0
        assert words.right <= width
        assert words.bottom <= height


def test_the_worst_place_is_named_in_words_above_the_side(drawn):
    named = [
        words for words in texts(drawn) if words.text.startswith(("thinnest", "thickest", "oldest", "most"))
    ]
    assert len(named) == 3
    assert all("at the wing gap" in words.text for words in named)


def test_units_and_ends_of_the_scales_are_printed(drawn):
    shown = {words.text for words in texts(drawn)}
    assert {"25", "target 36", "50", "g/m²", "70 %", "tight", "100 %", "closed", "of the open time"} <= shown


def test_thin_and_thick_film_carry_patterns_for_print_in_grey(drawn):
    assert "-under)" in drawn
    assert "-over)" in drawn


def test_merged_rectangles_cover_each_chosen_cell_once():
    classes = ((0, 0, 1, None), (0, 0, 1, 1), (2, 0, 0, 1))
    for number in (0, 1, 2):
        covered = [
            (row, column)
            for block in blocks(classes, number.__eq__)
            for row in range(block.row, block.row + block.rows)
            for column in range(block.column, block.column + block.columns)
        ]
        wanted = [(r, c) for r, line in enumerate(classes) for c, v in enumerate(line) if v == number]
        assert sorted(covered) == wanted


def test_equal_rows_become_one_rectangle():
    assert len(blocks(((1, 1, 1), (1, 1, 1)), (1).__eq__)) == 1


def test_a_contour_runs_between_cells_under_and_over_the_limit_and_not_along_the_rim():
    frame = VehicleFrame(DrawnBox(0, 1, 0, 1), 100, 0, 0, mirrored=False)
    data = contour_data(field(((0.5, 1.5, None),)), frame, 1.0)
    assert data == "M10,100L10,90"


def test_a_mirrored_contour_lies_at_the_mirrored_place():
    frame = VehicleFrame(DrawnBox(0, 1, 0, 1), 100, 0, 0, mirrored=True)
    assert contour_data(field(((0.5, 1.5, None),)), frame, 1.0) == "M90,100L90,90"


def test_film_limits_are_symmetric_in_ratio_about_the_target():
    edges = scale_of(field(((36.0,),), "film", 36.0)).edges
    for low, high in zip(edges, reversed(edges), strict=True):
        assert low * high == pytest.approx(36.0**2, rel=0.03)


def test_age_changes_class_at_the_limits_of_the_verdicts():
    scale = scale_of(field(((0.699, 0.701, 0.999, 1.001),)))
    a, b, c, d = classes_of(field(((0.699, 0.701, 0.999, 1.001),)), scale.edges)[0]
    assert a < b < c < d or (a < b <= c < d)
    assert scale.contours == (0.7, 1.0)


@pytest.mark.parametrize(("value", "up"), [(0.9, 1), (1, 1), (1.1, 2), (3, 5), (7, 10), (0.03, 0.05)])
def test_a_scale_ends_at_a_round_figure(value, up):
    assert round_up(value) == pytest.approx(up)


def test_half_way_between_black_and_white_is_grey():
    assert blend("#000000", "#FFFFFF", 0.5) == "#808080"


def test_a_coat_without_fields_is_refused(hatch):
    with pytest.raises(ValueError, match="hold none"):
        maps_svg(hatch, Maps(()), "effect", 1)


def test_a_field_without_any_spray_is_said_in_words_and_takes_no_map(hatch):
    maps = sample_plan.maps_of(hatch)
    none = replace(maps.coats[2], values=((0.0, 0.0),), worst=0.0)
    svg = maps_svg(hatch, Maps((*maps.coats[:2], none)), "effect", 1)
    assert marked(svg, "map") == ["film", "age"]
    assert any("none anywhere" in words.text for words in texts(svg))
    assert overlapping(svg) == []


@pytest.mark.parametrize(
    ("kind", "worst", "told"),
    [
        ("film", 18.0, "thinnest 18 g/m², 50 % of the target"),
        ("film", 54.0, "thickest 54 g/m², 150 % of the target"),
        ("age", 0.58, "oldest 58 % of the open time, wet"),
        ("age", 0.8, "oldest 80 % of the open time, tight"),
        ("age", 2.4, "oldest 240 % of the open time, closed"),
        ("appearance", 2.2, "worst 2.2 dE00, visible"),
    ],
)
def test_the_worst_value_is_said_with_what_it_means(kind, worst, told):
    unit = "dE00" if kind == "appearance" else "g/m²"
    worst_field = replace(field(((1.0,),), kind, 36.0), worst=worst, unit=unit)
    assert worst_text(worst_field) == told
