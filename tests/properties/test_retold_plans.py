"""Every sentence of every plan in US units: nothing metric is left, no figure is lost, and the document is untouched."""

import ast
import tomllib
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from types import UnionType
from typing import Any, Literal, get_args, get_origin, get_type_hints

import pytest

import laydown
from laydown.desk.plans.plan import plan_job
from laydown.desk.plans.why import reasons
from laydown.reader.encode import to_json
from laydown.reader.papers.shelf import shipped_folder
from laydown.schema.plan import Explanation, Plan
from laydown.schema.rescue import WayOut
from laydown.schema.session import Screen
from laydown.words.show import SENTENCES, names_of, retell, told, told_plan
from metric_left import metric_left
from planning_cases import (
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

NAMES = {
    *("code", "currency", "direction", "feature", "figure", "id"),
    *(
        "illuminant",
        "item",
        "job",
        "joins_with",
        "key",
        "label",
        "layer",
        "made_at",
        "missing",
        "name",
        "painter",
    ),
    *("panels", "product", "reading", "ready_by", "role", "says", "shape", "slowest_part", "source"),
    *(
        "sources",
        "start",
        "starts",
        "status",
        "step",
        "target",
        "undo",
        "value",
        "version",
        "where",
        "worst_join",
    ),
    *("worst_panel", "zone", "air", "gun", "surface", "measures", "cautions", "because", "before", "join"),
}
"""Fields of text that name, quote or place something and hold no sentence with figures."""

KEPT = {
    "trade/cups.py": "names of standard cups hold their width in mm",
    "trade/paint_class.py": "sources quoted as they are",
}
"""Modules whose strings stay metric, and why."""


def plans() -> Iterator[tuple[str, Plan]]:
    for name in SHIPPED:
        yield name, plan_job(shipped_folder() / "jobs" / name, drawn=False).planned.plan
    for name, case in HARD.items():
        yield name, quick(case).plan
    yield "mild", planned(MILD).plan


@pytest.fixture(scope="module")
def every() -> dict[str, Plan]:
    return dict(plans())


def sentences(noun: Any) -> Iterator[str]:
    """Every sentence within a noun."""
    if isinstance(noun, tuple):
        for one in noun:
            yield from sentences(one)
    elif is_dataclass(noun):
        for field in fields(noun):
            value = getattr(noun, field.name)
            if field.name in SENTENCES and isinstance(value, str):
                yield value
            elif (
                field.name in SENTENCES
                and isinstance(value, tuple)
                and all(isinstance(one, str) for one in value)
            ):
                yield from value
            else:
                yield from sentences(value)


def test_no_metric_figure_is_left_in_any_sentence(every):
    metric, left = 0, {}
    for name, plan in every.items():
        explained = told(tuple(reasons(plan).values()), "us", names_of(plan))
        metric += sum(bool(metric_left(text)) for text in sentences(plan))
        for text in (
            *sentences(told_plan(plan, "us")),
            *(one for row in explained for one in sentences(row)),
        ):
            if metric_left(text):
                left[name] = text
    assert metric > 50
    assert not left


def test_retelling_a_plan_twice_changes_nothing_more(every):
    for plan in every.values():
        once = told_plan(plan, "us")
        assert told_plan(once, "us") is once


def test_only_sentences_are_retold_and_the_document_stays_as_it_was(every):
    for plan in every.values():
        before = to_json(plan)
        shown = told_plan(plan, "us")
        assert to_json(plan) == before
        assert told_plan(plan, "metric") is plan
        changed = [
            old
            for old, new in zip(before.splitlines(), to_json(shown).splitlines(), strict=True)
            if old != new
        ]
        assert changed
        for old in changed:
            assert metric_left(old)


def text_fields(noun: type, seen: set[type]) -> Iterator[str]:
    """Names of all free texts reachable from a noun."""
    if noun in seen:
        return
    seen.add(noun)
    for name, hint in get_type_hints(noun).items():
        for one in _leaves(hint):
            if one is str:
                yield name
            elif is_dataclass(one):
                yield from text_fields(one, seen)


def _leaves(hint: Any) -> Iterator[Any]:
    if get_origin(hint) is Literal:
        return
    if get_args(hint) and (
        get_origin(hint) in {tuple, dict} or isinstance(hint, UnionType) or get_origin(hint)
    ):
        for one in get_args(hint):
            yield from _leaves(one)
    else:
        yield hint


@pytest.mark.parametrize("noun", [Plan, Explanation, Screen, WayOut])
def test_every_text_of_a_noun_is_known_as_a_sentence_or_as_a_name(noun):
    assert set(text_fields(noun, set())) <= SENTENCES | NAMES


def strings_of(path: Path) -> Iterator[str]:
    """Strings of a module as they read with a figure in every hole; docstrings are left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    apart = {id(one.value) for one in ast.walk(tree) if isinstance(one, ast.Expr)}
    apart |= {id(part) for one in ast.walk(tree) if isinstance(one, ast.JoinedStr) for part in one.values}
    for one in ast.walk(tree):
        if isinstance(one, ast.JoinedStr):
            yield "".join(part.value if isinstance(part, ast.Constant) else "7" for part in one.values)
        elif isinstance(one, ast.Constant) and isinstance(one.value, str) and id(one) not in apart:
            yield one.value


@pytest.mark.parametrize("room", ["planning", "trade", "booth"])
def test_every_sentence_in_the_source_is_written_so_that_it_can_be_retold(room):
    root = Path(laydown.__file__).parent
    left = [
        (path.name, text)
        for path in sorted((root / room).rglob("*.py"))
        if path.relative_to(root).as_posix() not in KEPT
        for text in strings_of(path)
        if " " in text and metric_left(retell(text, "us")) and not text.startswith("W/(")
    ]
    assert not left


def test_the_ways_out_of_a_fault_can_be_retold():
    path = Path(laydown.__file__).parent / "data" / "rescue.toml"
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    assert metric_left(str(raw))
    assert not metric_left(retell(str(raw), "us"))


def test_names_that_look_like_figures_stay_in_a_plan():
    works = tuple(
        replace(panel, name={"front wing": "2 m van", "front door": "door 2"}.get(panel.name, panel.name))
        for panel in quick(FADE).plan.side.panels
    )
    plan = quick(FADE).plan
    finding = replace(plan.findings[0], text="The fade on the 2 m van has only 30 cm, on door 2 and 3 m.")
    named = replace(plan, side=replace(plan.side, panels=works), findings=(finding, *plan.findings[1:]))
    shown = told_plan(named, "us")
    assert shown.findings[0].text == "The fade on the 2 m van has only 11.8 in, on door 2 and 10 ft."
    assert [panel.name for panel in shown.side.panels] == [panel.name for panel in works]
