"""A changed job differs in what was changed and in nothing else."""

from dataclasses import fields, replace

import pytest

from laydown.planning.setup.request import Changes, changed
from laydown.reader.decode import decode
from laydown.schema.choices import PanelWork
from laydown.schema.figure import Figure
from laydown.schema.job import Air, Body, Job, ProductNames, Task

JOB = Job(
    format="laydown-job/1",
    job=Task("4711", "left"),
    body=Body("medium hatch"),
    panel=(PanelWork("quarter"),),
    air=Air(Figure(20), Figure(0.2)),
    products=ProductNames("g", "e", "c"),
)


def test_no_change_gives_the_same_job():
    assert changed(JOB, Changes()) == JOB


@pytest.mark.parametrize(
    ("name", "value", "table"),
    [
        ("temperature_c", Figure(24.0), "air"),
        ("rh", Figure(0.35), "air"),
        ("reducer", "slow", "choices"),
        ("water", 0.0, "choices"),
        ("hardener", False, "choices"),
        ("nozzle_mm", 1.3, "choices"),
        ("ground_coats", 2.0, "choices"),
        ("effect_coats", 2.5, "choices"),
        ("painters", 2, "job"),
        ("can_walk", True, "job"),
        ("spare_cup", True, "job"),
        ("refill_s", 45.0, "job"),
        ("speed_m_s", Figure(0.6), "gun"),
    ],
)
def test_one_change_changes_one_field_of_one_table(name, value, table):
    new = changed(JOB, Changes(**{name: value}))
    assert getattr(getattr(new, table), name) == value
    assert replace(new, **{table: getattr(JOB, table)}) == JOB
    others = [item.name for item in fields(getattr(new, table)) if item.name != name]
    assert all(getattr(getattr(new, table), other) == getattr(getattr(JOB, table), other) for other in others)


def test_a_refill_with_a_spare_cup_is_the_time_of_changing_it():
    new = changed(JOB, Changes(spare_cup=True, refill_s=20.0))
    assert (new.job.spare_cup_s, new.job.refill_s) == (20.0, 90.0)


def test_values_as_typed_are_read_with_units_and_bounds():
    read = decode(Changes, {"temperature_c": "75.2 °F", "water": "5 %", "painters": "2"}, "asked").noun
    assert (read.temperature_c.value, read.water, read.painters) == (pytest.approx(24.0), 0.05, 2)
    bad = decode(Changes, {"water": "10", "painters": "3", "reducer": "slwo"}, "asked")
    assert [problem.where for problem in bad.problems] == ["water", "painters", "reducer"]
