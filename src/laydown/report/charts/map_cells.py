"""From a field over the side to few shapes: classes of values, merged rectangles and contour lines."""

from collections.abc import Callable
from dataclasses import dataclass

from laydown.report.kit.svg import number
from laydown.report.kit.vehicle_frame import VehicleFrame
from laydown.schema.coat import CoatMap

Classes = tuple[tuple[int | None, ...], ...]
"""Class of each cell, rows from the bottom; None where nothing is painted."""


@dataclass(frozen=True, slots=True)
class Block:
    """A rectangle of cells of one class."""

    row: int
    rows: int
    column: int
    columns: int


def classes_of(field: CoatMap, edges: tuple[float, ...]) -> Classes:
    """Sort the cells into classes."""
    return tuple(
        tuple(None if value is None else sum(value >= edge for edge in edges) for value in row)
        for row in field.values
    )


def blocks(classes: Classes, chosen: Callable[[int], bool]) -> tuple[Block, ...]:
    """Merge chosen cells into rectangles: along a row first, then equal runs of rows on top of each other."""
    done: list[Block] = []
    open_runs: dict[tuple[int, int], Block] = {}
    for row, line in enumerate(classes):
        runs = _runs(line, chosen)
        grown: dict[tuple[int, int], Block] = {}
        for start, count in runs:
            below = open_runs.pop((start, count), None)
            grown[start, count] = (
                Block(row, 1, start, count)
                if below is None
                else Block(below.row, below.rows + 1, start, count)
            )
        done += open_runs.values()
        open_runs = grown
    return (*done, *open_runs.values())


def _runs(line: tuple[int | None, ...], chosen: Callable[[int], bool]) -> list[tuple[int, int]]:
    """Runs of chosen cells in one row: start and count."""
    runs: list[tuple[int, int]] = []
    start: int | None = None
    for column, value in enumerate((*line, None)):
        taken = value is not None and chosen(value)
        if taken and start is None:
            start = column
        elif not taken and start is not None:
            runs.append((start, column - start))
            start = None
    return runs


def block_data(field: CoatMap, frame: VehicleFrame, found: tuple[Block, ...]) -> str:
    """Path data of rectangles on the picture."""
    wide, high = field.cell_m * frame.scale, field.cell_height_m * frame.scale
    parts = []
    for block in found:
        column = block.column + block.columns if frame.mirrored else block.column
        x, y = frame.at(
            (field.x0_m + column * field.cell_m, field.y0_m + (block.row + block.rows) * field.cell_height_m)
        )
        run, rise = number(wide * block.columns), number(high * block.rows)
        parts.append(f"M{number(x)},{number(y)}h{run}v{rise}h-{run}z")
    return "".join(parts)


def contour_data(field: CoatMap, frame: VehicleFrame, limit: float) -> str:
    """Path data of the line between cells under and over a limit."""
    sides = classes_of(field, (limit,))
    parts = []
    for row, line in enumerate(sides):
        for column, here in enumerate(line):
            right = line[column + 1] if column + 1 < len(line) else None
            above = sides[row + 1][column] if row + 1 < len(sides) else None
            if here is not None and right is not None and here != right:
                parts.append(_edge(field, frame, (column + 1, row), (column + 1, row + 1)))
            if here is not None and above is not None and here != above:
                parts.append(_edge(field, frame, (column, row + 1), (column + 1, row + 1)))
    return "".join(parts)


def _edge(field: CoatMap, frame: VehicleFrame, a: tuple[int, int], b: tuple[int, int]) -> str:
    """One edge between two corners of cells."""
    ends = (
        frame.at((field.x0_m + column * field.cell_m, field.y0_m + row * field.cell_height_m))
        for column, row in (a, b)
    )
    (x_a, y_a), (x_b, y_b) = ends
    return f"M{number(x_a)},{number(y_a)}L{number(x_b)},{number(y_b)}"
