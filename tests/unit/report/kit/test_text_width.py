import pytest
import typst

from laydown.report.kit.text_width import readable, shorten, text_width, wrap
from laydown.report.kit.typeface import FAMILY, font_folder


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize(
    "text", ["stays wet", "12 s margin", "Effect coat 1 of 3", "0417 | 3.5 m²", "größer als"]
)
def test_a_text_is_as_wide_as_the_typesetter_says(text, bold):
    # Second opinion: the typesetter shapes the same text, with its kerning and ligatures switched off.
    weight = "bold" if bold else "regular"
    source = (
        f'#set text(font: "{FAMILY}", size: 100pt, weight: "{weight}", kerning: false, ligatures: false)\n'
        "#context [#metadata(measure(sys.inputs.text).width.pt()) <width>]"
    )
    found = typst.query(
        source.encode(),
        "<width>",
        field="value",
        one=True,
        font_paths=[str(font_folder())],
        ignore_system_fonts=True,
        sys_inputs={"text": text},
    )
    assert text_width(text, 100, bold=bold) == pytest.approx(float(found), rel=0.002)


def test_cyrillic_greek_and_units_are_shown():
    assert readable("Дверь µm g/m² °C ≤ −3 β") == "Дверь µm g/m² °C ≤ −3 β"


def test_a_cut_text_fits_and_ends_in_an_ellipsis():
    cut = shorten("a very long name of a very long job", 80, 14)
    assert cut.endswith("…")
    assert text_width(cut, 14) <= 80
    assert shorten("short", 80, 14) == "short"


def test_a_wrapped_text_keeps_its_words_and_fits():
    text = "go on to the next gap and stop there; never in the open panel"
    lines = wrap(text, 120, 14)
    assert " ".join(lines) == text
    assert all(text_width(line, 14) <= 120 for line in lines)
