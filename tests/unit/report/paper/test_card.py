import io
from dataclasses import replace
from importlib.resources import files

import pytest
from pypdf import PdfReader

from cases.speech import US, english
from laydown.report.kit.typeset import png
from laydown.report.paper.card import CardTooLongError, card_pdf
from laydown.report.paper.card_rows import lost_letters
from laydown.report.paper.card_sections import join_cells, section_blocks
from laydown.report.side.coat import side_svg
from laydown.schema.figure import Spread

MM = 72 / 25.4


def read(pdf):
    reader = PdfReader(io.BytesIO(pdf))
    return reader, " ".join(page.extract_text() for page in reader.pages).replace("\n", " ")


@pytest.fixture(scope="module")
def card(plan):
    return read(card_pdf(plan))


def test_the_card_is_one_a4_page(card):
    reader, _ = card
    assert len(reader.pages) == 1
    # ISO 216: A4 is 210 mm by 297 mm.
    assert float(reader.pages[0].mediabox.width) == pytest.approx(210 * MM, abs=0.5)
    assert float(reader.pages[0].mediabox.height) == pytest.approx(297 * MM, abs=0.5)


def test_every_number_a_painter_needs_is_on_the_card(card, plan):
    _, text = card
    for layer in plan.layers:
        assert layer.product in text
        for coat in layer.coats:
            assert (
                f"{coat.flash_s.value / 60:.0f} ({coat.flash_s.low / 60:.0f} to {coat.flash_s.high / 60:.0f})"
                in text
            )
            for section in coat.sections:
                assert f"{section.spray_s:.0f} {section.sprayed_g:.0f} {section.cup_g_after:.0f}" in text
            for join in coat.joins:
                assert f"{join.margin_s.value:.0f} s".replace("-", "−") in text
            for refill in coat.refills:
                assert f"fill {refill.fill_g:.0f} g" in text
    for part in ("slow reducer", "5 % water", "10 % water", "nozzle 1.3 mm", "18 cm", "75 %", "1.8 bar"):
        assert part in text


def test_plan_id_watermark_and_deference_are_on_the_page(card, plan):
    _, text = card
    assert plan.id in text
    assert text.count("INVENTED DATA") == 2
    assert "the paint sheet and your eye come first" in text


def test_gates_limits_remedies_clocks_and_protection_are_on_the_card(card):
    _, text = card
    for part in (
        "GROUND RELEASED",
        "card hidden",
        "EFFECT RELEASED",
        "Plan again if",
        "under 17 °C or over 25 °C",
        "Rough join",
        "Ran low",
        "pot life 2 h",
        "metal 60 °C for 30 min",
        "Breathe fed air",
        "Visor stays down",
        "No electronics inside",
        "Airflow first",
        "ready when",
        "seen in daylight",
    ):
        assert part in text


def test_no_text_on_the_card_is_smaller_than_eight_points(plan):
    reader, _ = read(card_pdf(plan))
    sizes = []

    def visit(text, _cm, tm, _font, size):
        if text.strip():
            sizes.append(abs(size * tm[3]) if tm[3] else size)

    reader.pages[0].extract_text(visitor_text=visit)
    assert sizes
    assert min(sizes) >= 7.99


def test_pictures_on_the_card_are_described_for_those_who_do_not_see_them(card):
    reader, _ = card
    root = reader.trailer["/Root"]
    assert bool(root["/MarkInfo"]["/Marked"])
    assert root["/Lang"] == "en"
    assert "/StructTreeRoot" in root


def test_the_same_plan_gives_the_same_bytes(hatch):
    assert card_pdf(hatch) == card_pdf(hatch)


def test_coats_that_are_worked_alike_share_one_table(hatch, van):
    assert len(section_blocks(hatch.layers, english, 8)) == 3
    assert len(section_blocks(van.layers, english, 8)) == 7


def test_a_shared_table_tells_the_tightest_coat(hatch):
    first = hatch.layers[1].coats[0]
    margin = Spread(-9.0, -12.0, 3.0)
    late = replace(first.joins[0], state="dry", margin_s=margin)
    twin = replace(first, number=2, joins=(late, *first.joins[1:]))
    layer = replace(hatch.layers[1], coats=(first, twin))
    (block,) = section_blocks((layer,), english, 8)
    assert block["least"]
    assert block["rows"][0][5:] == ["DRY gap", "−9 s", "(−12 to 3)"]


def test_names_of_panels_take_two_lines_before_they_are_counted(hatch):
    first = hatch.layers[1].coats[0]
    section = replace(first.sections[0], panels=("quarter", "rear door"))
    many = replace(section, panels=("quarter", "rear door", "front door", "front wing"))
    for row, lines, told in ((section, 2, "quarter, rear door"), (section, 1, "quarter +1"), (many, 2, "+")):
        layer = replace(hatch.layers[1], coats=(replace(first, sections=(row, *first.sections[1:])),))
        (block,) = section_blocks((layer,), english, 9.8, lines)
        assert told in block["rows"][0][1]


def test_a_long_name_is_set_smaller_before_it_is_cut(hatch):
    def printed(name):
        return read(card_pdf(replace(hatch, inputs=replace(hatch.inputs, job=name))))[1]

    whole = "left side of the grey delivery van"
    assert whole in printed(whole)
    longer = printed("left side of the grey delivery van of the bakery by the old harbour")
    assert "left side of the grey delivery" in longer
    assert "…" in longer


def test_letters_the_typeface_lacks_are_replaced_and_said(hatch):
    odd = replace(hatch, inputs=replace(hatch.inputs, job="漢 Дверь \x07"))
    _, text = read(card_pdf(odd))
    assert "? Дверь ?" in text
    assert "U+0007, U+6F22" in text
    assert lost_letters(["plain"]) == []


def test_markup_in_a_name_stays_text(hatch):
    named = replace(hatch, inputs=replace(hatch.inputs, job="#panic() *x* $y$ [z]"))
    _, text = read(card_pdf(named))
    assert "#panic() *x* $y$ [z]" in text


def test_a_card_for_one_layer_shows_only_that_layer(hatch):
    _, text = read(card_pdf(hatch, layer="effect"))
    assert "effect-a" in text
    assert "clear-a" not in text


def test_american_units_change_what_is_not_grams(hatch):
    _, text = read(card_pdf(hatch, words=US))
    assert "air 68 °F" in text  # 20 °C; definition of the degree Fahrenheit
    assert "7.1 in" in text  # 0.18 m / 25.4 mm
    assert "26.1 psi" in text  # 1.8 bar x 14.504 psi/bar, NIST SP 811


def test_a_plan_with_more_rows_than_a_page_holds_is_refused_and_not_cut(van):
    layer = van.layers[2]
    coats = tuple(
        replace(coat, number=n, sections=tuple(replace(s, spray_s=s.spray_s + n) for s in coat.sections))
        for n, coat in enumerate(layer.coats * 9, 1)
    )
    with pytest.raises(CardTooLongError, match="one layer at a time"):
        card_pdf(replace(van, layers=(replace(layer, coats=coats),)))


def test_a_van_with_every_coat_different_still_fits_one_page(van):
    layers = []
    for layer, count in zip(van.layers, (4, 5, 2), strict=True):
        coats = [
            replace(
                layer.coats[n % len(layer.coats)],
                number=n + 1,
                sections=tuple(replace(s, spray_s=s.spray_s + n) for s in layer.coats[0].sections),
                direction=("rear to front", "front to rear")[n % 2],
            )
            for n in range(count)
        ]
        layers.append(replace(layer, coats=tuple(coats)))
    reader, text = read(card_pdf(replace(van, layers=tuple(layers))))
    assert len(reader.pages) == 1
    assert "effect 5" in text
    assert "(others: see table)" in text


def test_an_unknown_layer_is_refused(hatch):
    with pytest.raises(ValueError, match="layer must be"):
        card_pdf(hatch, layer="primer")


def test_a_picture_becomes_a_png_of_the_wished_width(hatch):
    data = png(side_svg(hatch, "effect", 1), 640)
    assert data[:8] == b"\x89PNG\r\n\x1a\n"  # PNG, third edition, section 5.2
    assert int.from_bytes(data[16:20], "big") == 640


@pytest.mark.parametrize(("svg", "width"), [("<svg/>", 100), ("", 100), ("<svg width='1'/>", 0)])
def test_what_is_no_picture_is_refused(svg, width):
    with pytest.raises(ValueError, match=r"svg must|width_px must"):
        png(svg, width)


def test_the_template_asks_for_nothing_from_outside():
    template = files("laydown.report").joinpath("templates", "card.typ").read_text()
    assert "@preview" not in template
    assert "#import" not in template
    assert "read(" not in template


def test_a_margin_just_under_zero_is_not_printed_as_minus_nought(hatch):
    join = hatch.layers[1].coats[0].joins[0]
    cells = join_cells(replace(join, margin_s=Spread(0.2, -0.4, 12.0)), english)
    assert cells[1:] == ("0 s", "(0 to 12)")
