import io
import json
import re

import pytest
from pypdf import PdfReader

from laydown.cli.letdown import coats
from laydown.report.paper.letdown_sheet import (
    MOST_FIELDS,
    READINGS_HEADER,
    PanelSheet,
    panel_sheet_pdf,
    sheet_data,
)

SETTINGS = (("flow", "3.5 g/s"), ("speed", "0.6 m/s"))


def sheet(fields=(0.0, 1.0, 2.0, 3.0, 4.0, 5.0), job="0417 left side", *, invented=True):
    return PanelSheet(job, "medium hatch LEFT", "R.", "air 20 °C", "job.toml", fields, SETTINGS, invented)


def words_of(pdf):
    pages = PdfReader(io.BytesIO(pdf)).pages
    return [" ".join(page.extract_text().split()) for page in pages]


def test_the_sheet_is_one_leaf_of_a4_with_every_field_and_both_geometries():
    pages = PdfReader(io.BytesIO(panel_sheet_pdf(sheet()))).pages
    front, back = (" ".join(page.extract_text().split()) for page in pages)
    # A4 is 210 mm x 297 mm, ISO 216; a point is 1/72 in
    assert float(pages[0].mediabox.width) == pytest.approx(210 / 25.4 * 72, abs=0.5)
    assert float(pages[0].mediabox.height) == pytest.approx(297 / 25.4 * 72, abs=0.5)
    assert front.count("few") >= 12
    assert front.count("match") >= 12
    assert {"face", "flop"} <= set(front.split())
    assert "INVENTED DATA" in front
    assert READINGS_HEADER in back
    # ISO 3668: the range of light for the visual comparison of colours, as summed up in secondary sources
    assert "1000 to 4000 lx" in back


def test_the_safety_line_stands_on_the_front_and_defers_to_the_data_sheet():
    front, _ = words_of(panel_sheet_pdf(sheet()))
    assert "respirator" in front
    assert "as the data sheet of each product says" in front


def test_the_commands_on_the_back_are_commands_that_there_are():
    # A printed command is typed days later, by somebody who cannot look up what it is called now.
    options = {name for option in coats.params for name in option.opts}
    typed = [tail for _, tail in sheet_data(sheet())["commands"]]
    assert all(line.startswith("laydown coats job.toml --") for line in typed)
    assert {word for line in typed for word in line.split() if word.startswith("--")} <= options


def test_the_same_sheet_gives_the_same_bytes():
    assert panel_sheet_pdf(sheet()) == panel_sheet_pdf(sheet())


@pytest.mark.parametrize("count", [1, 3, MOST_FIELDS])
def test_any_number_of_fields_that_may_be_asked_for_fits_one_leaf(count):
    assert len(words_of(panel_sheet_pdf(sheet(tuple(float(n) for n in range(count)))))) == 2


@pytest.mark.parametrize("count", [0, MOST_FIELDS + 1])
def test_too_few_or_too_many_fields_are_refused(count):
    with pytest.raises(ValueError, match="fields must be"):
        panel_sheet_pdf(sheet(tuple(float(n) for n in range(count))))


def test_a_job_without_invented_data_is_not_marked_so():
    assert "INVENTED" not in "".join(words_of(panel_sheet_pdf(sheet(invented=False))))


def test_a_long_name_in_a_foreign_script_is_cut_and_said():
    data = sheet_data(sheet(job="日本 " * 60))
    assert "not in the typeface" in data["lost"]
    assert len(words_of(panel_sheet_pdf(sheet(job="日本 " * 60)))) == 2


def test_the_example_on_the_back_has_one_word_for_each_field():
    rows = json.loads(json.dumps(sheet_data(sheet())))["commands"]
    typed = next(row[1] for row in rows if row[0] == "field by field")
    assert len(re.search(r'--face "([^"]+)"', typed)[1].split()) == 6
