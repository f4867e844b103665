from dataclasses import replace

import pytest

from cases.speech import US, english
from laydown.report.text.lines import columns, fit, paragraph
from laydown.report.text.mix_sheet import mix_sheet_text
from laydown.report.text.plan import plan_text
from laydown.report.text.why import why_text
from laydown.schema.message import Finding
from laydown.schema.plan import Because, Explanation


@pytest.mark.parametrize("width", [72, 80, 120])
@pytest.mark.parametrize("words", [english, US], ids=["metric", "us"])
def test_no_line_is_wider_than_the_terminal(plan, width, words):
    for text in (plan_text(plan, words, width), mix_sheet_text(plan, None, words, width)):
        assert max(len(line) for line in text.splitlines()) <= width
        assert text.endswith("\n")
        assert not [line for line in text.splitlines() if line != line.rstrip()]


def test_the_verdict_is_the_third_line_and_findings_come_last_gravest_first(hatch):
    lines = plan_text(hatch).splitlines()
    assert lines[2].startswith("VERDICT  - caution")
    levels = [line.split()[1] for line in lines if line[:2] in ("Z ", "! ", "i ")]
    assert levels == ["caution", "note"]
    assert "why: same nozzle" in lines[-1]


def test_the_verdict_of_every_alternative_stands_whole(plan):
    text = plan_text(plan)
    for row in plan.alternatives[:6]:
        said = {"go": "= go", "caution": "- caution", "stop": "Z stop"}[row.verdict]
        assert any(english(row.change)[:20] in line and said in line for line in text.splitlines())


def test_each_join_carries_mark_word_place_and_interval(hatch):
    text = plan_text(hatch)
    assert "- tight 0.47 m gap   9 s (3-16)" in text
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
    for text in (plan_text(plan), mix_sheet_text(plan)):
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
    assert "Also in the plan file: Skin and eyes" in text


def test_us_units_show_fahrenheit_inch_and_fluid_ounces_but_grams_stay(hatch):
    text = plan_text(hatch, US)
    assert "air 68 °F" in text  # 20 °C; definition
    assert "19.4 fl oz" in text  # 575 mL / 29.5735 mL, US fluid ounce
    assert "661 g" in text


def test_a_control_character_in_a_name_cannot_move_the_cursor(hatch):
    named = replace(hatch, inputs=replace(hatch.inputs, job="\x1b[2Jgone\r\nVERDICT  = go"))
    lines = plan_text(named).splitlines()
    assert lines[0].startswith("?[2Jgone??VERDICT")
    assert lines[2].startswith("VERDICT  - caution")


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
    text = mix_sheet_text(hatch, "effect")
    assert "[ ]  slow reducer" in text
    assert "+50.3 g" in text
    assert "553.4 g" in text
    assert "of the mix 33.1 g" in " ".join(text.split())
    assert "SAFETY  Breathe fed air" in text
    assert "ground-a" not in text


def test_a_layer_without_a_mix_and_a_narrow_terminal_are_refused(hatch):
    with pytest.raises(ValueError, match="layer must be one of"):
        mix_sheet_text(hatch, "primer")
    for write in (plan_text, lambda p, s, w: mix_sheet_text(p, None, s, w)):
        with pytest.raises(ValueError, match="72 columns"):
            write(hatch, english, 40)


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
    assert any("edge stays open" in line and "60 s" in line and "air 20 °C" in line for line in lines)
    assert lines[-1] == "source   common practice, no source"
    with pytest.raises(ValueError, match="72 columns"):
        why_text(Explanation("a", "b", "c", (), "", ()), width=10)


def test_panels_that_do_not_fit_go_on_in_the_next_line_and_a_long_name_is_cut(hatch):
    coat = hatch.layers[1].coats[0]
    names = ("rear door", "sill", "quarter", "a panel with a name that no table holds in one line")
    section = replace(coat.sections[0], panels=names)
    layer = replace(hatch.layers[1], coats=(replace(coat, sections=(section, *coat.sections[1:])),))
    rows = plan_text(replace(hatch, layers=(layer,))).splitlines()
    first = next(index for index, row in enumerate(rows) if row.startswith("   1 "))
    below = " ".join(row.strip() for row in rows[first + 1 : first + 4])
    assert rows[first].split()[1] == "rear"
    assert "quarter" in rows[first] + below
    assert ".." in below
    assert not any("+" in row.split("  ")[0] for row in rows[first : first + 4])


def test_passes_are_named_and_what_counts_for_more_or_less_than_a_coat_is_said(hatch):
    coat = hatch.layers[1].coats[0]
    coats = (replace(coat, part="full_light", counts=1.5), replace(coat, number=2, part="light", counts=0.5))
    text = plan_text(replace(hatch, layers=(replace(hatch.layers[1], coats=coats),)))
    assert "EFFECT   2 coats   " in text
    assert "coat 1   full pass and light pass, counts 1.5" in text
    assert "coat 2   light pass, counts 0.5" in text
    one = plan_text(replace(hatch, layers=(replace(hatch.layers[1], coats=coats[:1]),)))
    assert "EFFECT   1 coat, counting 1.5   " in one


def test_late_joins_make_a_table_and_their_remedy_stands_once(van):
    late = [
        Finding("stop", "join-dry", f"{layer.name}.{coat.number}.{join.id}", "dry", "old", ("walk",))
        for layer in van.layers
        for coat in layer.coats
        for join in coat.joins[:1]
    ]
    text = plan_text(replace(van, findings=tuple(late)))
    assert f"Z stop join-dry: {len(late)} joins come too late." in text
    assert text.count("do:  walk") == 1
    assert text.count("walk") == 1 + sum("walk" in row.change for row in van.alternatives)
    rows = text.split("join-dry")[1].splitlines()[2 : 2 + len(late)]
    assert len({row.rindex(" s") for row in rows}) == 1


def test_every_alternative_is_named(hatch):
    many = tuple(replace(hatch.alternatives[0], change=f"change {number}") for number in range(9))
    text = " ".join(plan_text(replace(hatch, alternatives=many)).split())
    assert all(row.change in text for row in many)
    assert "more in the plan file" not in text


def test_no_machine_name_of_a_step_or_a_place_stands_in_the_text(plan):
    text = plan_text(plan)
    assert "|" not in text
    assert not [name for name in ("mix.ground", "ground.2.spray", "S01 ") if name in text]


def test_a_long_name_of_the_job_gives_way_to_shape_side_and_number(hatch):
    long = replace(
        hatch, inputs=replace(hatch.inputs, job="the grey delivery van of the bakery by the old harbour")
    )
    head = plan_text(long).splitlines()[0]
    assert ".." in head
    assert head.endswith(f"plan {hatch.id}")
    assert f"{hatch.side.shape}, {hatch.side.side}" in head
