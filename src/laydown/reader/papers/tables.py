"""Read the table of spectral weights that ships with laydown."""

import tomllib
from importlib.resources import files
from typing import Any

from laydown.schema.limits import VocLimit
from laydown.schema.reading import SpectralWeights
from laydown.schema.rescue import Fault, HandWork, Price, RescueTable, Stage, Way


def read_voc_limits() -> tuple[VocLimit, ...]:
    """Return every row of the shipped table; none of them is confirmed, so none may be shown yet.

    Returns
    -------
    Rows in the order of the file. A shop confirms one by giving it a date.
    """
    text = (files("laydown.data") / "voc_limits.toml").read_text(encoding="utf-8")
    return tuple(VocLimit(**row) for row in tomllib.loads(text)["limit"])


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


def read_spectral_weights() -> tuple[SpectralWeights, ...]:
    """Return every row of the shipped table: an illuminant with an observer each.

    Returns
    -------
    Rows in the order of the file.
    """
    raw = tomllib.loads((files("laydown.data") / "spectral_weights.toml").read_text(encoding="utf-8"))
    return tuple(
        SpectralWeights(
            illuminant=row["illuminant"],
            observer_deg=row["observer_deg"],
            from_nm=raw["from_nm"],
            step_nm=raw["step_nm"],
            x=tuple(row["x"]),
            y=tuple(row["y"]),
            z=tuple(row["z"]),
        )
        for row in raw["weights"]
    )
