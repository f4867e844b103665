"""What must hold for any text and any labels, whatever a file says."""

import xml.etree.ElementTree as ET
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from laydown.report.charts.map_cells import blocks
from laydown.report.kit.signs import spread
from laydown.report.kit.svg import element, label, words
from laydown.report.kit.text_width import readable, shorten, text_width, wrap
from laydown.report.text.lines import fit, paragraph, plain

WIDTHS = st.lists(st.floats(5, 60), min_size=1, max_size=10)


@given(st.text(max_size=80), st.integers(10, 120))
def test_a_filled_text_has_exactly_its_width_and_no_control_character(text, width):
    line = fit(text, width)
    assert len(line) == width
    assert plain(line) == line


@given(st.text(max_size=300), st.integers(72, 120))
def test_a_paragraph_never_passes_its_width_when_its_words_fit(text, width):
    assert all(len(line) <= width for line in paragraph("do:  ", text, width))


@given(st.text(max_size=60), st.floats(20, 300), st.floats(8, 40))
def test_a_shortened_text_fits_unless_not_even_the_ellipsis_does(text, width, size):
    cut = shorten(text, width, size)
    assert text_width(cut, size) <= width or cut == "…"


@given(st.text(max_size=120), st.floats(60, 300))
def test_wrapped_lines_fit(text, width):
    assert all(text_width(line, 14) <= width for line in wrap(text, width, 14))


@given(st.text(max_size=60))
def test_any_text_gives_markup_that_reads_back_as_what_is_shown(text):
    shown = readable(text)
    assert len(shown) == len(text)
    assert (ET.fromstring(words("title", text)).text or "") == shown
    assert (ET.fromstring(label(text, (0, 0), 14, "#000000")).text or "") == shown


@given(st.text(max_size=40).map(readable))
def test_any_attribute_reads_back(value):
    assert ET.fromstring(element("g", data_name=value)).get("data-name") == value


@given(WIDTHS, st.data())
def test_labels_that_fit_the_line_never_touch(widths, data):
    room = sum(widths) + 1
    places = sorted(
        data.draw(st.lists(st.floats(-50, room + 50), min_size=len(widths), max_size=len(widths)))
    )
    middles = spread(places, widths, (0.0, room))
    for (a, wide_a), (b, wide_b) in pairwise(zip(middles, widths, strict=True)):
        assert b - a >= (wide_a + wide_b) / 2 - 1e-6
    assert middles[0] >= widths[0] / 2 - 1e-6
    assert middles[-1] <= room - widths[-1] / 2 + 1e-6


@given(
    st.lists(st.lists(st.sampled_from([None, 0, 1, 2]), min_size=5, max_size=5), min_size=1, max_size=6),
    st.integers(0, 2),
)
def test_rectangles_cover_every_cell_of_a_class_once(rows, number):
    classes = tuple(tuple(row) for row in rows)
    cells = [
        (r, c)
        for block in blocks(classes, number.__eq__)
        for r in range(block.row, block.row + block.rows)
        for c in range(block.column, block.column + block.columns)
    ]
    assert sorted(cells) == [
        (r, c) for r, row in enumerate(classes) for c, v in enumerate(row) if v == number
    ]
