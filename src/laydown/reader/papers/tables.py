"""Read the table of spectral weights that ships with laydown."""

import tomllib
from importlib.resources import files
from typing import Any

from laydown.schema.limits import VocLimit
from laydown.schema.message import Message, Range, Said, message
from laydown.schema.reading import SpectralWeights
from laydown.schema.rescue import Defect, HandWork, Price, RescueTable, Stage, Way


def read_voc_limits() -> tuple[VocLimit, ...]:
    """Return every row of the shipped table; none of them is confirmed, so none may be shown yet."""
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
    """Return the shipped table of defects and ways out."""
    raw: dict[str, list[dict[str, Any]]] = tomllib.loads(
        (files("laydown.data") / "rescue.toml").read_text(encoding="utf-8")
    )
    return RescueTable(
        {row["key"]: _defect(row) for row in raw["defect"]},
        {row["key"]: _way(row) for row in raw["way"]},
        {row["key"]: Price(**row) for row in raw["price"]},
        {row["key"]: HandWork(**row) for row in raw["work"]},
    )


def _defect(row: dict[str, Any]) -> Defect:
    """One defect with its ways at every stage."""
    key = row["key"]
    return Defect(
        key,
        message(f"defect.{key}.title"),
        message(f"defect.{key}.sign"),
        message(f"defect.{key}.causes", **_figures(row.get("causes", {}))),
        {stage: tuple(row[stage]) for stage in STAGES},
    )


def _way(row: dict[str, Any]) -> Way:
    """One way, its lists frozen."""
    code = row["key"].replace(": ", "-").replace(" ", "-")
    said: dict[str, Any] = {
        "text": message(f"way.{code}", **_figures(row.get("text", {}))),
        "consequence": message(f"way.{code}.then"),
        "work": tuple(row.get("work", ())),
        "needs": tuple(_need(one) for one in row.get("needs", ())),
    }
    return Way(**{**row, **said})


def _need(given: str | dict[str, Any]) -> Message:
    """What a way needs: a word, or a word and its figures."""
    if isinstance(given, str):
        return message(f"need.{given}")
    return message(f"need.{given['need']}", **_figures({k: v for k, v in given.items() if k != "need"}))


def _figures(given: dict[str, Any]) -> dict[str, Said]:
    """Figures of a sentence; two of them are limits."""
    return {name: Range(*value) if isinstance(value, list) else value for name, value in given.items()}


def read_spectral_weights() -> tuple[SpectralWeights, ...]:
    """Return every row of the shipped table: an illuminant with an observer each."""
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
