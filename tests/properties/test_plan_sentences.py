"""Every sentence of every plan: said by code, and in US units nothing metric is left."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest

from cases.metric_left import metric_left
from cases.planning import (
    DRY,
    FADE,
    MILD,
    SEVERE,
    SPOT_IN_DOOR,
    VAN,
    VAN_REAR,
    WING_ONLY,
    planned,
    quick,
)
from cases.speech import US, english
from laydown.desk.plans.plan import plan_job
from laydown.desk.plans.why import reasons
from laydown.reader.papers.shelf import shipped_folder
from laydown.reader.structure import field_types, unwrap
from laydown.schema.message import Message, Name, Saying
from laydown.schema.plan import Plan

HARD = {
    "severe": SEVERE,
    "fade": FADE,
    "wing": replace(MILD, works=WING_ONLY),
    "spot": replace(MILD, works=SPOT_IN_DOOR),
    "van-rear": VAN_REAR,
    "cold-and-damp": replace(MILD, temperature_c=15.0, rh=0.85, blower_m_s=0.0),
    "off-the-sheet": replace(MILD, temperature_c=45.0, rh=0.05),
    "hot-panel": replace(MILD, panel_c=60.0),
    "hot-before-effect": replace(MILD, effect_panel_c=65.0),
    "slow-hand": replace(MILD, hand_m_s=0.15, overlap=0.85),
    "thick": replace(MILD, ground_coats=6.0, effect_coats=8.0, hand_m_s=0.25, overlap=0.85),
    "two-painters": replace(DRY, shape="large saloon", painters=2),
    "trainee": replace(VAN, skill="trainee", spare_cup=True),
    "black": replace(MILD, undercoat=5.0, effect_coats=None, hardener=False),
}
SHIPPED = sorted(path.name for path in (shipped_folder() / "jobs").glob("*.toml"))


@pytest.fixture(scope="module")
def every() -> dict[str, Plan]:
    shipped = {name: plan_job(shipped_folder() / "jobs" / name, drawn=False).planned.plan for name in SHIPPED}
    return shipped | {name: quick(case).plan for name, case in HARD.items()} | {"mild": planned(MILD).plan}


def sayings(noun: Any) -> Iterator[tuple[str, Saying]]:
    """Everything within a noun that is said to people, with where it stands."""
    if isinstance(noun, tuple):
        for one in noun:
            yield from sayings(one)
    elif is_dataclass(noun) and not isinstance(noun, Message):
        for field in fields(noun):
            value, kind = getattr(noun, field.name), unwrap(field_types(type(noun))[field.name]).type
            where = f"{type(noun).__name__}.{field.name}"
            if kind == Saying or kind is Message:
                yield where, value
            elif kind == tuple[Saying, ...]:
                yield from ((where, one) for one in value)
            else:
                yield from sayings(value)


def test_every_sentence_of_a_plan_has_a_code(every):
    bare = {
        (where, said)
        for plan in every.values()
        for where, said in sayings(plan)
        if isinstance(said, str) and said and not isinstance(said, Name)
    }
    assert not bare


def test_no_metric_figure_is_left_in_any_sentence(every):
    metric, left = 0, {}
    for name, plan in every.items():
        for where, said in (*sayings(plan), *sayings(tuple(reasons(plan).values()))):
            if where.endswith(".source"):  # a source is quoted as it was given
                continue
            metric += bool(metric_left(english(said)))
            if metric_left(US(said)):
                left[name] = US(said)
    assert metric > 50
    assert not left
