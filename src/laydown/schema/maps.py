"""Maps of one coat over the developed side, for pictures."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class CoatMap:
    """One field over the side.

    Attributes
    ----------
    layer, coat, kind
        What is shown: "film" [g/m²], "age" (age over open time), "dry spray" [g/m²], or "appearance" (CIEDE2000 from
        the wanted colour at the most sensitive angle, all coats of the layer together).
    cell_m
        Size of a cell on the developed sheet [m].
    x0_m, y0_m
        Lower left corner; y is height above ground as seen [m], one cell is cell_m / girth high.
    cell_height_m
        Height of a cell as seen [m].
    values
        Rows from the bottom, None where nothing is painted.
    target
        The value aimed at; 0 for age and dry spray.
    worst, worst_at
        Worst value and its place (x_m, y_m).
    unit
        Unit as printed.
    """

    layer: str
    coat: int
    kind: Literal["film", "age", "dry spray", "appearance"]
    cell_m: float
    cell_height_m: float
    x0_m: float
    y0_m: float
    values: tuple[tuple[float | None, ...], ...]
    target: float
    worst: float
    worst_at: tuple[float, float]
    worst_where: str
    unit: str


@dataclass(frozen=True, slots=True)
class Maps:
    """All maps of a plan."""

    coats: tuple[CoatMap, ...]
