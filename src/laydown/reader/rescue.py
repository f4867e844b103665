"""Read the table of faults and ways out that ships with laydown."""

import tomllib
from importlib.resources import files
from typing import Any

from laydown.schema.rescue import Fault, HandWork, Price, RescueTable, Stage, Way

STAGES: tuple[Stage, ...] = (
    "ground_wet",
    "ground_dry",
    "effect_wet",
    "effect_dry",
    "clear_wet",
    "baked",
)
"""Stages in the order of work; definition."""


def read_rescue() -> RescueTable:
    """Return the shipped table of faults and ways out.

    Returns
    -------
    Faults, ways, prices and hand work, each by its key.

    Raises
    ------
    KeyError
        If a fault misses a stage.
    """
    raw: dict[str, list[dict[str, Any]]] = tomllib.loads(
        (files("laydown.data") / "rescue.toml").read_text(encoding="utf-8")
    )
    return RescueTable(
        {row["key"]: _fault(row) for row in raw["fault"]},
        {row["key"]: _way(row) for row in raw["way"]},
        {row["key"]: Price(**row) for row in raw["price"]},
        {row["key"]: HandWork(**row) for row in raw["work"]},
    )


def _fault(row: dict[str, Any]) -> Fault:
    """One fault with its ways at every stage."""
    return Fault(
        row["key"],
        row["title"],
        row["sign"],
        row["causes"],
        {stage: tuple(row[stage]) for stage in STAGES},
    )


def _way(row: dict[str, Any]) -> Way:
    """One way, its lists frozen."""
    frozen: dict[str, Any] = {name: tuple(row[name]) for name in ("work", "needs") if name in row}
    return Way(**{**row, **frozen})
