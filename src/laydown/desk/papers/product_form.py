"""A product from the fields of its form; the name of each field is the place in the product file."""

import re
from collections.abc import Mapping
from typing import Any

from laydown.reader.encode import encode
from laydown.schema.product import Product
from laydown.units import figures

EMPTY_LINES = 2
"""Empty lines of the recipe that a form offers."""

_LINE = re.compile(r"recipe\[(\d{1,2})\]\.([a-z_]+)")

WHOLE = {"hardener", "flash", "bake", "allowed"}
"""Tables of a product that a form shows field by field."""

SECONDS = {"hardener.pot_life_s", "flash.min_s", "flash.max_s", "bake.time_s", "pot_life_s", "recoat_max_s"}
"""Times that are typed in minutes."""


def raw_product(answers: Mapping[str, str], before: Product | None = None) -> dict[str, Any]:
    """Arrange the fields of the form as a raw product."""
    raw: dict[str, Any] = {"format": "laydown-product/1"}
    lines: dict[int, dict[str, str]] = {}
    for place, text in answers.items():
        value = text.strip()
        if not value:
            continue
        found = _LINE.fullmatch(place)
        if found:
            lines.setdefault(int(found[1]), {})[found[2]] = value
            continue
        if place.startswith("reducers."):
            raw.setdefault("reducers", []).append(place.partition(".")[2])
            continue
        table, dot, key = place.partition(".")
        inside = raw.setdefault(table, {}) if dot else raw
        inside[key or table] = _united(place, value)
    if before is not None:
        _stay(raw, answers, before)
    raw["recipe"] = [line for _, line in sorted(lines.items()) if line.get("name") or line.get("amount")]
    return raw


def _stay(raw: dict[str, Any], answers: Mapping[str, str], before: Product) -> None:
    """Keep hiding figures, and the spread of every figure that was not changed."""
    shown, whole = answers_of_product(before), encode(before)
    for name in ("volume_solids", "dry_um_per_coat", "density_g_ml"):
        if name in raw and answers.get(name) == shown.get(name) and isinstance(whole[name], dict):
            raw[name] = {key: value for key, value in whole[name].items() if value is not None}
    if whole["hiding"] is not None:
        raw["hiding"] = whole["hiding"]


def _united(place: str, value: str) -> str:
    """Give a bare number of the form its unit."""
    bare = value.replace(",", ".").replace(".", "", 1).isdigit()
    if bare and place in SECONDS:
        return f"{value} min"
    percent = place in {"volume_solids", "water_max", "allowed.rh_low", "allowed.rh_high", "flash.rh"}
    return f"{value} %" if bare and percent else value


def answers_of_product(product: Product) -> dict[str, str]:
    """Return the fields that show a product."""
    raw = encode(product)
    answers: dict[str, str] = {}
    for name, value in raw.items():
        if name == "recipe":
            for number, line in enumerate(value, start=1):
                answers |= {
                    f"recipe[{number}].{key}": _text(f"recipe.{key}", item) for key, item in line.items()
                }
        elif name == "reducers":
            answers |= {f"reducers.{word}": "yes" for word in value}
        elif name in WHOLE:
            answers |= {f"{name}.{key}": _text(f"{name}.{key}", item) for key, item in (value or {}).items()}
        elif name != "hiding":
            answers[name] = _text(name, value)
    return {name: text for name, text in answers.items() if text}


def _text(place: str, value: Any) -> str:
    """Write a value as it is typed."""
    number = value.get("value") if isinstance(value, dict) else value
    if number is None or isinstance(number, bool | str):
        return "" if number is None else str(number)
    if place in SECONDS:
        return figures(number / 60)
    percent = place in {"volume_solids", "water_max", "allowed.rh_low", "allowed.rh_high", "flash.rh"}
    return figures(100 * number) if percent else figures(number)
