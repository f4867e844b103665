"""Sides: list the shipped ones, build one from tape measures, draw, import and mirror."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from laydown.desk.papers.files import open_side
from laydown.reader.encode import to_json
from laydown.reader.write import write_file
from laydown.report.side.body import outline_svg
from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem, gathered
from laydown.schema.side import Side
from laydown.trade.side.build import build_side, panel_areas
from laydown.trade.side.measures import SHAPES
from laydown.units import UnitError, parse


@dataclass(frozen=True, slots=True)
class ListedSide:
    """A side as it is listed."""

    side: Side
    areas_m2: dict[str, float]


def shapes() -> tuple[ListedSide, ...]:
    """Return the shipped shapes with the areas of their panels."""
    return tuple(_shown(build_side(name, {})) for name in SHAPES)


def measured(shape: str, typed: Mapping[str, str]) -> ListedSide:
    """Build a side from a shipped shape and own measures."""
    return _shown(_built(shape, typed, "--measure "))


def built_side(shape: str, typed: Mapping[str, str]) -> Side:
    """Build a side from own measures, with every problem at the place of its field."""
    return _built(shape, typed, "body.measures.")


def _built(shape: str, typed: Mapping[str, str], place: str) -> Side:
    """Build a side from measures as they were typed."""
    problems: list[Problem] = []
    measures: dict[str, float] = {}
    side: Side | None = None
    for name, text in typed.items():
        try:
            measures[name] = parse(text, name)
        except UnitError as error:
            problems.append(Problem(f"{place}{name}", error.what, error.hint))
    with gathered(problems):
        side = build_side(shape, measures)
    if side is None or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return side


LONGEST_NAME = 60
"""Letters of a side's name at most; assumption, it stands on cards and in lists."""


def named_side(side: Side, name: str) -> Side:
    """Return a side under another name."""
    if not 0 < len(name.strip()) <= LONGEST_NAME:
        hint = message("side-name.hint", most=LONGEST_NAME)
        raise InputError("", (Problem("name", message("name-missing-or-long"), hint),))
    return replace(side, name=name.strip())


def default_measures(shape: str) -> dict[str, float]:
    """Return the tape measures of a shipped shape."""
    return dict(SHAPES[shape].measures) if shape in SHAPES else {}


def panel_rows(side: Side) -> tuple[tuple[str, float], ...]:
    """Return label and planned area of each panel."""
    return tuple(_shown(side).areas_m2.items())


def opened(path: Path) -> ListedSide:
    """Read a side from a side file or from a drawing."""
    return _shown(open_side(path))


def mirrored(shown: ListedSide) -> ListedSide:
    """Return the other side of the same vehicle."""
    other: Literal["left", "right"] = "left" if shown.side.side == "right" else "right"
    return replace(shown, side=replace(shown.side, side=other))


def write_side(shown: ListedSide, path: Path) -> None:
    """Write a side as a side file."""
    write_file(path, to_json(shown.side).encode())


def draw_side(shown: ListedSide, path: Path) -> None:
    """Write a picture of a side."""
    write_file(path, outline_svg(shown.side).encode())


def _shown(side: Side) -> ListedSide:
    areas = panel_areas(side)
    return ListedSide(side, {panel.label: areas[panel.id].planned_m2 for panel in side.panels})
