from dataclasses import replace

from cases.drawing import ids, marked, overlapping, references, size_of, texts
from laydown.report.charts.day import day_svg
from laydown.report.charts.day_rows import bars
from laydown.report.charts.margins import join_rows, margin_svg
from laydown.report.kit.signs import spread


def check_texts(svg):
    width, height = size_of(svg)
    assert overlapping(svg) == []
    for words in texts(svg, 1.2):
        assert words.size >= 14
        assert words.left >= 0
        assert words.right <= width
        assert words.bottom <= height
    assert references(svg) <= set(ids(svg))


def test_no_text_of_the_day_is_clipped_or_covered(plan):
    check_texts(day_svg(plan))


def test_every_step_has_its_bar(plan):
    assert sorted(marked(day_svg(plan), "step")) == sorted(step.id for step in plan.timeline)


def test_narrow_bars_carry_their_number_above(hatch):
    shown = [words for words in texts(day_svg(hatch)) if words.text in {"1", "2", "3", "D"}]
    assert len(shown) == sum(len(layer.coats) for layer in hatch.layers)


def test_the_end_is_told_with_its_range(hatch):
    head = next(words.text for words in texts(day_svg(hatch)) if "unmasked after" in words.text)
    assert "(2:38 to 2:57)" in head


def test_every_gate_is_named_under_its_line(plan):
    shown = {words.text for words in texts(day_svg(plan))}
    assert {gate.id for gate in plan.gates} <= shown


def test_steps_that_overlap_lie_in_lanes(hatch):
    mixing = replace(hatch.timeline[0], id="mix.ground", kind="mix", end_s=600.0)
    rows = [bar for bar in bars(replace(hatch, timeline=(*hatch.timeline, mixing))) if bar.row == 0]
    assert {bar.lane for bar in rows} == {0, 1}


def test_a_plan_without_steps_still_draws(hatch):
    assert "no steps" in day_svg(replace(hatch, timeline=(), gates=()))


def test_margins_show_every_join_of_the_plan(plan):
    drawn = set(marked(margin_svg(plan), "join"))
    assert drawn == {join.id for _, join in join_rows(plan)}
    names = " ".join(name for name, _ in join_rows(plan))
    assert all(layer.name in names for layer in plan.layers if any(coat.joins for coat in layer.coats))
    check_texts(margin_svg(plan))


def test_margins_of_a_plan_without_joins_says_so(hatch):
    bare = tuple(
        replace(layer, coats=tuple(replace(coat, joins=()) for coat in layer.coats)) for layer in hatch.layers
    )
    assert "no joins" in margin_svg(replace(hatch, layers=bare))


def test_labels_are_pushed_apart_and_stay_in_the_room():
    middles = spread([10.0, 12.0, 95.0], [20.0, 20.0, 20.0], (0.0, 100.0))
    assert middles == [10.0, 30.0, 90.0]


def test_labels_with_room_stay_where_they_belong():
    assert spread([20.0, 60.0], [10.0, 10.0], (0.0, 100.0)) == [20.0, 60.0]
