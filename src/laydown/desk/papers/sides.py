"""Sides: list the shipped ones, build one from tape measures, draw, import and mirror."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from laydown.desk.papers.files import open_side
from laydown.reader.encode import to_json
from laydown.reader.write import write_file
from laydown.report.side.body import outline_svg
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Side
from laydown.trade.side.build import build_side, panel_areas
from laydown.trade.side.measures import SHAPES
from laydown.units import UnitError, parse


@dataclass(frozen=True, slots=True)
class Shown:
    """A side as it is listed.

    Attributes
    ----------
    side
        The side.
    areas_m2
        Planned area of each panel, by label [m²].
    """

    side: Side
    areas_m2: dict[str, float]


def shapes() -> tuple[Shown, ...]:
    """Return the shipped shapes with the areas of their panels.

    Returns
    -------
    One for each, in the order small to large.
    """
    built = [build_side(name, {}) for name in SHAPES]
    return tuple(_shown(side) for side in built if isinstance(side, Side))


def measured(shape: str, typed: Mapping[str, str]) -> Shown:
    """Build a side from a shipped shape and own measures.

    Parameters
    ----------
    shape
        Name of a shipped shape.
    typed
        Own measures as typed, by name.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Everything that is wrong with the shape and the measures.
    """
    problems: list[Problem] = []
    measures: dict[str, float] = {}
    for name, text in typed.items():
        try:
            measures[name] = parse(text, name)
        except UnitError as error:
            problems.append(Problem(f"--measure {name}", error.what, error.hint))
    built = build_side(shape, measures)
    if isinstance(built, tuple):
        problems += built
    if isinstance(built, tuple) or problems:
        raise InputError("", tuple(problems))
    return _shown(built)


def built_side(shape: str, typed: Mapping[str, str]) -> Side:
    """Build a side from own measures, with every problem at the place of its field.

    Parameters
    ----------
    shape
        Name of a shipped shape.
    typed
        Own measures as typed, by name.

    Returns
    -------
    The side, marked as measured where any measure was given.

    Raises
    ------
    InputError
        Everything that is wrong; places are ``body.measures.`` with the name of the measure.
    """
    problems: list[Problem] = []
    measures: dict[str, float] = {}
    for name, text in typed.items():
        try:
            measures[name] = parse(text, name)
        except UnitError as error:
            problems.append(Problem(f"body.measures.{name}", error.what, error.hint))
    built = build_side(shape, measures)
    if isinstance(built, tuple):
        problems += built
    if isinstance(built, tuple) or problems:
        raise InputError("", tuple(dict.fromkeys(problems)))
    return built


def named_side(side: Side, name: str) -> Side:
    """Return a side under another name.

    Parameters
    ----------
    side
        The side.
    name
        Its new name.

    Returns
    -------
    The same side.

    Raises
    ------
    InputError
        The name is empty or longer than 60 characters.
    """
    if not 0 < len(name.strip()) <= 60:
        hint = "name the vehicle and the side in up to 60 characters"
        raise InputError("", (Problem("name", "is missing or too long", hint),))
    return replace(side, name=name.strip())


def default_measures(shape: str) -> dict[str, float]:
    """Return the tape measures of a shipped shape.

    Parameters
    ----------
    shape
        Its name.

    Returns
    -------
    Measures by name; empty for an unknown shape.
    """
    return dict(SHAPES[shape].measures) if shape in SHAPES else {}


def panel_rows(side: Side) -> tuple[tuple[str, float], ...]:
    """Return label and planned area of each panel.

    Parameters
    ----------
    side
        The side.

    Returns
    -------
    Label and area [m²], in the order of the side.
    """
    return tuple(_shown(side).areas_m2.items())


def opened(path: Path) -> Shown:
    """Read a side from a side file or from a drawing.

    Parameters
    ----------
    path
        JSON, TOML or SVG.

    Returns
    -------
    The side, checked.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    return _shown(open_side(path))


def mirrored(shown: Shown) -> Shown:
    """Return the other side of the same vehicle.

    Parameters
    ----------
    shown
        A side.

    Returns
    -------
    The same geometry, marked as the other side: it is stored as the left one and only shown mirrored.
    """
    other: Literal["left", "right"] = "left" if shown.side.side == "right" else "right"
    return replace(shown, side=replace(shown.side, side=other))


def write_side(shown: Shown, path: Path) -> None:
    """Write a side as a side file.

    Parameters
    ----------
    shown
        A side.
    path
        The JSON file to write.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    write_file(path, to_json(shown.side).encode())


def draw_side(shown: Shown, path: Path) -> None:
    """Write a picture of a side.

    Parameters
    ----------
    shown
        A side.
    path
        The SVG file to write.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    write_file(path, outline_svg(shown.side).encode())


def _shown(side: Side) -> Shown:
    areas = panel_areas(side)
    return Shown(side, {panel.label: areas[panel.id].planned_m2 for panel in side.panels})
