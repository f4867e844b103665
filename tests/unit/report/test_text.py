from dataclasses import replace

import pytest

from laydown.report.lines import columns, fit, paragraph
from laydown.report.pour_text import pour_text
from laydown.report.text import plan_text
from laydown.report.why_text import why_text
from laydown.schema.explanation import Because, Explanation


@pytest.mark.parametrize("width", [72, 80, 120])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_no_line_is_wider_than_the_terminal(plan, width, system):
    for text in (plan_text(plan, system, width), pour_text(plan, None, system, width)):
        assert max(len(line) for line in text.splitlines()) <= width
        assert text.endswith("\n")
        assert not [line for line in text.splitlines() if line != line.rstrip()]


def test_the_verdict_is_the_third_line_and_findings_come_last_gravest_first(hatch):
    lines = plan_text(hatch).splitlines()
    assert lines[2].startswith("VERDICT  - care")
    levels = [line.split()[1] for line in lines if line[:2] in ("Z ", "! ", "i ")]
    assert levels == ["care", "note"]
    assert "why: same nozzle" in lines[-1]


def test_each_join_carries_mark_word_place_and_interval(hatch):
    text = plan_text(hatch)
    assert "- hurry 0.47 m gap   9 s (3-16)" in text
    assert "= wet   1.53 m gap   28 s (19-40)" in text


def test_a_negative_interval_is_not_mistaken_for_a_dash(van):
    assert "-14 s (-30 to 2)" in plan_text(van)


def test_numbers_stand_to_the_right(hatch):
    rows = [
        line
        for line in plan_text(hatch).splitlines()
        if line.lstrip().startswith(("1 ", "2 ", "3 ")) and " gap" in line
    ]
    assert len({line.index("  = ") if "  = " in line else line.index("  - ") for line in rows}) == 1


def test_no_line_drawing_characters_stand_in_the_text(plan):
    # Unicode block Box Drawing, U+2500 to U+257F.
    for text in (plan_text(plan), pour_text(plan)):
        assert not [letter for letter in text if 0x2500 <= ord(letter) <= 0x257F]


def test_every_section_of_every_coat_is_in_the_text(plan):
    text = plan_text(plan)
    for layer in plan.layers:
        for coat in layer.coats:
            for section in coat.sections:
                assert any(
                    f"{section.spray_s:.0f}" in line and f"{section.cup_g_after:.0f}" in line
                    for line in text.splitlines()
                )
    assert "INVENTED DATA" in text
    assert "1 figure nobody gave" in text


def test_cautions_are_printed_in_full(hatch):
    text = " ".join(plan_text(hatch).split())
    for caution in hatch.safety:
        assert (caution.text in text) == (caution.key in hatch.cautions)
    assert "also in the plan file: Skin and eyes" in text


def test_us_units_show_fahrenheit_inch_and_fluid_ounces_but_grams_stay(hatch):
    text = plan_text(hatch, "us")
    assert "air 68 °F" in text  # 20 °C; definition
    assert "19.4 fl oz" in text  # 575 mL / 29.5735 mL, US fluid ounce
    assert "661 g" in text


def test_a_control_character_in_a_name_cannot_move_the_cursor(hatch):
    named = replace(hatch, inputs=replace(hatch.inputs, job="\x1b[2Jgone\r\nVERDICT  = go"))
    lines = plan_text(named).splitlines()
    assert lines[0].startswith("?[2Jgone??VERDICT")
    assert lines[2].startswith("VERDICT  - care")


def test_a_number_is_never_parted_from_its_unit():
    lines = paragraph("", "the wing gap stays open for 115 s more than needed", 33)
    assert lines == ["the wing gap stays open for 115 s", "more than needed"]
    assert paragraph("", "the wing gap stays open for 115 s", 32)[0] == "the wing gap stays open for"


def test_a_cut_text_ends_in_two_dots_and_keeps_its_width():
    assert (
        fit("sliding door, high side", 10) == "sliding.. "[:10]
        or len(fit("sliding door, high side", 10)) == 10
    )
    assert fit("sill", 6) == "sill  "
    assert columns((("sill", 6), ("41", -4))) == "sill      41"


def test_the_pour_sheet_shows_running_totals_readings_and_protection(hatch):
    text = pour_text(hatch, "effect")
    assert "[ ]  slow reducer" in text
    assert "+50.3 g" in text
    assert "553.4 g" in text
    assert "of the mix: 33.1 g" in " ".join(text.split())
    assert "S01  Breathe fed air" in text
    assert "ground-a" not in text


def test_a_layer_without_a_mix_and_a_narrow_terminal_are_refused(hatch):
    with pytest.raises(ValueError, match="layer must be one of"):
        pour_text(hatch, "primer")
    for write in (plan_text, lambda p, s, w: pour_text(p, None, s, w)):
        with pytest.raises(ValueError, match="72 columns"):
            write(hatch, "metric", 40)


def test_an_explanation_names_decision_reason_figures_with_source_and_runner_up():
    told = why_text(
        Explanation(
            item="e1.2",
            decision="sections 2 and 3 meet in the wing gap",
            reason="no film bridges a gap",
            figures=(Because("open_s", 60.0, "air 20 °C, 22 %"), Because("kind", "gap", "the side")),
            runner_up="0.87 m, open panel: it would show",
            sources=("common practice, no source",),
        )
    )
    lines = told.splitlines()
    assert lines[0] == "e1.2: sections 2 and 3 meet in the wing gap"
    assert any("open_s" in line and "1 min" in line and "air 20 °C" in line for line in lines)
    assert lines[-1] == "source   common practice, no source"
    with pytest.raises(ValueError, match="72 columns"):
        why_text(Explanation("a", "b", "c", (), "", ()), width=10)
