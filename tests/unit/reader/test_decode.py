"""From raw tables to nouns: every problem at once, each with place and hint."""

import math
import tomllib

import pytest

from cases.speech import english
from laydown.reader.decode import decode
from laydown.schema.choices import Choices
from laydown.schema.figure import Figure
from laydown.schema.job import Air, Gun, Job, Task
from laydown.schema.plan import Assumption
from laydown.schema.side import Side

GOOD = """
format = "laydown-job/1"
[job]
name = "4711"
side = "left"
[body]
shape = "medium hatch"
[[panel]]
name = "front wing"
[air]
temperature_c = 20
rh = "20 %"
[products]
ground = "ground-a"
effect = "effect-a"
clear = "clear-a"
"""


def read(text, noun=Job):
    return decode(noun, tomllib.loads(text), "job file")


def said(decoded):
    return {
        problem.where: f"{english(problem.what)} | {english(problem.hint)}" for problem in decoded.problems
    }


def test_a_sound_job_is_read_and_what_is_left_out_keeps_its_default():
    job = read(GOOD).noun
    assert job.air.temperature_c == Figure(20.0, None, None, "job file")
    assert job.air.rh.value == 0.2
    assert job.gun == Gun()


def test_ten_faults_are_told_at_once_in_the_order_of_the_file():
    decoded = read("""
format = "laydown-job/1"
[job]
name = "4711"
side = "lft"
painters = 3
can_wlak = true
[body]
shape = "medium hatch"
measures = { roof_m = nan }
[[panel]]
name = "front wing"
state = "newish"
undercoat_lightness = { value = 90, low = 95 }
[air]
temperature_c = "200 °F"
rh = 55
speed_m_s = true
[gun]
flow_g_s = "3 gallons"
[products]
ground = "ground-a"
effect = "effect-a"
""")
    assert [problem.where for problem in decoded.problems] == [
        "job.side",
        "job.painters",
        "job.can_wlak",
        "body.measures.roof_m",
        "panel[1].state",
        "panel[1].undercoat_lightness",
        "air.temperature_c",
        "air.rh",
        "air.speed_m_s",
        "gun.flow_g_s",
        "products.clear",
    ]
    assert all(problem.hint for problem in decoded.problems)


@pytest.mark.parametrize(
    ("line", "place", "words"),
    [
        ('side = "lft"', "job.side", "did you mean 'left'"),
        ("painterz = 1", "job.painterz", "did you mean painters?"),
        ("temperature_c = 20", "job.temperature_c", "it belongs under [air]"),
        ("wholly_strange = 1", "job.wholly_strange", "known here: name, side"),
        ("painters = 1.5", "job.painters", "not a whole number"),
        ("painters = true", "job.painters", "true is not a number"),
        ("can_walk = 1", "job.can_walk", "neither true nor false"),
        ('can_walk = "yes"', "job.can_walk", "neither true nor false"),
        ("refill_s = inf", "job.refill_s", "not a finite number"),
        ("refill_s = nan", "job.refill_s", "not a finite number"),
        ('refill_s = "nan"', "job.refill_s", "not a finite number"),
        (f"refill_s = {'9' * 400}", "job.refill_s", "not a finite number"),
        ("refill_s = 1e300", "job.refill_s", "outside 5 to 900 s"),
        ('refill_s = "90 sek"', "job.refill_s", "1.5 min"),
        ("refill_s = [90]", "job.refill_s", "a list is not a number"),
        (f'start = "{"x" * 61}"', "job.start", "61 characters, 60 are allowed"),
        ('start = "a\\u001b[31mb"', "job.start", "U+001B"),
        ("start = 3", "job.start", "between quotes"),
    ],
)
def test_a_fault_is_told_with_its_place_and_how_to_mend_it(line, place, words):
    text = GOOD.replace('side = "left"', line if line.startswith("side") else f'side = "left"\n{line}')
    found = said(read(text))
    assert list(found) == [place]
    assert words in found[place]


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        ("20", Figure(20, None, None, "job file")),
        ('"68 °F"', Figure(20, None, None, "job file")),
        ("{ value = 20, low = 19, high = 21 }", Figure(20, 19, 21, "job file")),
        ('{ value = "68 °F", source = "display" }', Figure(20, None, None, "display")),
    ],
)
def test_a_figure_is_a_number_a_text_or_a_table(value, expected):
    assert (
        read(GOOD.replace("temperature_c = 20", f"temperature_c = {value}")).noun.air.temperature_c
        == expected
    )


@pytest.mark.parametrize(
    ("value", "places"),
    [
        ("{ value = 20, low = 21 }", ["air.temperature_c"]),
        ("{ value = 20, high = 19 }", ["air.temperature_c"]),
        ("{ low = 19, high = 21 }", ["air.temperature_c.value"]),
        ("{ value = 20, hihg = 21, low = inf }", ["air.temperature_c.hihg", "air.temperature_c.low"]),
        ("{ value = 99, source = 3 }", ["air.temperature_c.value", "air.temperature_c.source"]),
    ],
)
def test_everything_that_is_wrong_with_a_figure_is_told(value, places):
    decoded = read(GOOD.replace("temperature_c = 20", f"temperature_c = {value}"))
    assert [problem.where for problem in decoded.problems] == places


def test_the_middle_figure_may_equal_both_ends():
    decoded = read(GOOD.replace("temperature_c = 20", "temperature_c = { value = 20, low = 20, high = 20 }"))
    assert decoded.noun.air.temperature_c.low == 20


def test_a_value_where_a_table_belongs_is_told():
    assert "table belongs" in said(decode(Job, {"air": 3}))["air"]


def test_a_table_that_is_no_table_at_all_is_told():
    assert said(decode(Job, [])) == {
        "file": "a list stands where a table belongs | write [] above its lines"
    } or said(decode(Job, []))["file"].startswith("a list stands where a table belongs")


def test_sound_tables_are_handed_on_although_others_are_faulty():
    decoded = read(GOOD.replace('side = "left"', 'side = "up"'))
    assert decoded.noun is None
    assert isinstance(decoded.parts["air"], Air)
    assert "job" not in decoded.parts


def test_a_date_becomes_iso_text():
    decoded = read(GOOD + "[limits]\nready_by = 2026-11-25T16:00:00\n")
    assert decoded.noun.limits.ready_by == "2026-11-25T16:00:00"


def test_a_null_stands_for_left_out_where_that_is_allowed():
    assert decode(Choices, {"water": None}).noun == Choices()
    assert decode(Task, {"name": None, "side": "left"}).noun is None


def test_a_field_that_is_number_or_word_takes_both():
    assert decode(Assumption, {"figure": "a", "value": 1, "source": "x"}).noun.value == 1
    assert decode(Assumption, {"figure": "a", "value": "word", "source": "x"}).noun.value == "word"
    assert decode(Assumption, {"figure": "a", "value": math.nan, "source": "x"}).noun is None


def test_places_in_lists_within_lists_are_counted_from_one():
    raw = {
        "format": "laydown-side/1",
        "name": "a",
        "panels": [{"id": "p", "label": "p", "rings": [[[0, 0], [1, "x"], [1]]]}],
    }
    assert list(said(decode(Side, raw))) == ["panels[1].rings[1][2][2]", "panels[1].rings[1][3][2]"]


def test_more_problems_than_anybody_mends_are_counted_but_not_listed():
    decoded = decode(Job, {f"k{number}": 1 for number in range(500)})
    assert len(decoded.problems) == 201
    assert "further problems" in english(decoded.problems[-1].what)


def test_unprintable_names_are_shown_escaped():
    places = [problem.where for problem in decode(Job, {"a\x1b[2J": 1, "x" * 500: 1}).problems]
    assert all(place.isprintable() and len(place) < 80 for place in places)
