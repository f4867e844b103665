from dataclasses import replace

import pytest

from cases import sample_panel, sample_plan
from cases.drawing import ids, marked, overlapping, references, root_of, size_of, texts
from laydown.report.charts.hiding import hiding_svg
from laydown.report.charts.letdown_curves import curve_svg
from laydown.report.charts.letdown_panel import panel_svg
from laydown.report.charts.maps import maps_svg
from laydown.report.charts.screen_colours import AngleScreen, ScreenPreview, preview_svg
from laydown.schema.colour import PanelEvidence, PanelField
from laydown.words.letdown import seen_words, zone_words

SCREEN = ScreenPreview(
    tuple(
        AngleScreen(angle, "#E8E8E4", "#E4E4E0", "#D8D8D0", 0.7, ("darker", "yellower"))
        for angle in (15.0, 25.0, 45.0, 75.0, 110.0)
    ),
    "side",
    2.5,
    -0.08,
    muted=True,
    times=5.0,
)


def fields(verdict, coats):
    """The same verdict over a panel with other fields."""
    judged = tuple(PanelField(n, "few" if n < 2 else "match" if n == 2 else "many", "few") for n in coats)
    return replace(verdict, evidence=PanelEvidence(judged))


@pytest.fixture(scope="module")
def read(hatch):
    return sample_panel.with_panel(hatch)


@pytest.fixture(scope="module")
def judged(van):
    return sample_panel.with_panel(van, sample_panel.eye_verdict())


@pytest.fixture(scope="module")
def pictures(read, judged):
    short = replace(judged, colour=fields(judged.colour, (0.0, 2.0, 4.0)))
    many = replace(judged, colour=fields(judged.colour, tuple(float(n) for n in range(9))))
    maps = sample_panel.maps_with_appearance(sample_plan.maps_of(read))
    return {
        "panel read": panel_svg(read),
        "panel judged": panel_svg(judged),
        "short panel": panel_svg(short),
        "long panel": panel_svg(many),
        "curves": curve_svg(read),
        "hiding": hiding_svg(read),
        "hiding without table": hiding_svg(
            replace(read, hiding=replace(read.hiding, undercoats=(), rest_de=(), islands_de=()))
        ),
        "preview": preview_svg(read, SCREEN),
        "maps": maps_svg(read, maps, "effect", 1),
    }


NAMES = (
    "panel read",
    "panel judged",
    "short panel",
    "long panel",
    "curves",
    "hiding",
    "hiding without table",
    "preview",
    "maps",
)


@pytest.mark.parametrize("name", NAMES)
def test_no_text_leaves_the_picture_or_covers_another(pictures, name):
    drawn = pictures[name]
    width, height = size_of(drawn)
    assert overlapping(drawn) == []
    for words in texts(drawn):
        assert words.size >= 14
        assert words.left >= 0
        assert words.right <= width, words.text
        assert words.bottom <= height, words.text


@pytest.mark.parametrize("name", NAMES)
def test_ids_are_unique_and_found_and_the_picture_has_a_role(pictures, name):
    drawn = pictures[name]
    assert len(ids(drawn)) == len(set(ids(drawn)))
    assert references(drawn) <= set(ids(drawn))
    assert root_of(drawn).get("role") == "img"
    assert len(drawn) < 250_000


def test_every_judgement_is_a_shape_and_a_word(pictures):
    shown = [words.text for words in texts(pictures["panel judged"])]
    assert shown.count("few") == 4
    assert shown.count("match") == 3
    assert shown.count("many") == 5
    assert marked(pictures["panel judged"], "judged") == ["face", "flop"]


def test_the_panel_shows_fields_chances_and_every_zone(pictures):
    drawn = pictures["panel read"]
    assert marked(drawn, "field") == ["0", "1", "2", "3", "4", "5"]
    assert marked(drawn, "zone") == ["side", "roof", "bumper"]
    assert "84 %" in {words.text for words in texts(drawn)}


def test_a_zone_without_a_count_says_so_and_why(read):
    assert zone_words(read.colour.zones[2], read.colour) == "no count fits the car"


def test_one_chart_for_each_angle_and_value(pictures):
    assert len(marked(pictures["curves"], "curve")) == 10


def test_the_car_is_named_beside_its_line(pictures):
    shown = {words.text for words in texts(pictures["curves"])}
    assert {"car, side (planned)", "car, roof"} <= shown


def test_blind_coats_and_the_undercoat_to_lay_are_marked(pictures):
    shown = {words.text for words in texts(pictures["hiding"])}
    assert {"blind from coat 3", "over 8", "repaired spots show"} <= shown
    assert marked(pictures["hiding"], "line") == ["this coat changes", "still missing", "repaired spots show"]


def test_a_screen_colour_is_for_orientation_only_and_a_larger_difference_is_marked(pictures):
    shown = [words.text for words in texts(pictures["preview"])]
    assert "Screen colour. For orientation, not for matching." in shown
    assert "difference x5" in shown
    assert "not the paint!" in shown


def test_without_enlarged_differences_there_is_no_second_row(read):
    plain = replace(SCREEN, angles=tuple(replace(angle, magnified=None) for angle in SCREEN.angles))
    assert "difference x5" not in [words.text for words in texts(preview_svg(read, plain))]


def test_the_colour_map_says_that_it_knows_the_film_only(pictures):
    shown = {words.text for words in texts(pictures["maps"])}
    assert {"Colour of all coats of the layer, from the film only", "good", "visible", "dE00"} <= shown


@pytest.mark.parametrize(
    ("difference", "angle", "word"),
    [
        (0.5, 45, "not seen"),
        (0.51, 45, "good"),
        (2.1, 45, "visible"),
        (0.74, 110, "not seen"),
        (2.9, 15, "to blend"),
    ],
)
def test_limits_are_wider_where_the_light_is_steep(difference, angle, word):
    assert seen_words(difference, angle) == word


@pytest.mark.parametrize("draw", [panel_svg, curve_svg])
def test_a_plan_without_a_panel_is_refused(hatch, draw):
    with pytest.raises(ValueError, match="has none"):
        draw(hatch)


def test_a_panel_judged_by_eye_has_no_curves(judged):
    with pytest.raises(ValueError, match="has none"):
        curve_svg(judged)


def test_hiding_without_steps_is_refused(hatch):
    with pytest.raises(ValueError, match="each ground coat"):
        hiding_svg(replace(hatch, hiding=replace(hatch.hiding, steps_de=())))
