"""Writes the tables of docs/files.md from the nouns, that of the planner's weights, and the lists of the reference.

Run ``python docs/tables.py`` after a change of a noun, a weight or a module; a test tells when it was forgotten.
"""

import re
from dataclasses import MISSING, Field, fields, is_dataclass
from inspect import getdoc
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import laydown
from laydown.planning.setup.weights import WEIGHTS
from laydown.reader.structure import field_types, unwrap
from laydown.schema.figure import TextLength, Within
from laydown.schema.job import Job
from laydown.schema.message import Message
from laydown.schema.plan import Plan
from laydown.schema.product import Product
from laydown.schema.reading import ReadingMap
from laydown.schema.side import Side
from laydown.unit_table import UNITS as READ

PAGES = (Path(__file__).with_name("files.md"), Path(__file__).parent / "models" / "planner.md")
"""Pages with marked tables."""

FLOORS = {
    "physics": ("Laws", "Laws on floats and arrays; no nouns."),
    "trade": ("Rules of the trade", "Rules of craft, law and till."),
    "planning": ("Planning", "What decides."),
    "booth": ("The booth", "What has happened today, and what to do now."),
    "schema": ("Nouns", "What things are."),
}
"""Title and first line of each page of the reference."""

UNITS = {
    "_g_m2": "g/m²",
    "_m_s": "m/s",
    "_g_s": "g/s",
    "_g_ml": "g/mL",
    "_g_l": "g/L",
    "_per_um": "1/µm",
    "_um_per_coat": "µm",
    "_per_l": "money/L",
    "_per_h": "money/h",
    "_deg": "°",
    "_pa": "Pa",
    "_bar": "bar",
    "_mm": "mm",
    "_um": "µm",
    "_m2": "m²",
    "_ml": "mL",
    "_mg": "mg",
    "_c": "°C",
    "_s": "s",
    "_g": "g",
    "_m": "m",
}
"""Unit by ending, longer endings first."""

_MARK = re.compile(r"(<!-- table: (\w+) -->\n).*?(<!-- end -->)", re.DOTALL)


_UNIT_MARK = re.compile(r"(<!-- units -->\n).*?(<!-- end -->)", re.DOTALL)


_WEIGHT_MARK = re.compile(r"(<!-- weights -->\n).*?(<!-- end -->)", re.DOTALL)


def with_tables(text: str) -> str:
    """Return a page with every marked table made anew."""
    text = _UNIT_MARK.sub(lambda found: found[1] + "\n" + table_of_units() + "\n" + found[2], text)
    text = _WEIGHT_MARK.sub(lambda found: found[1] + "\n" + table_of_weights() + "\n" + found[2], text)
    return _MARK.sub(lambda found: found[1] + "\n" + table(NOUNS[found[2]]) + "\n" + found[3], text)


def reference_page(floor: str) -> str:
    """Return the page that lists every module of a floor, for the generator of the reference."""
    title, words = FLOORS[floor]
    folder = Path(laydown.__file__).parent / floor
    paths = [path.relative_to(folder) for path in folder.rglob("*.py") if path.stem != "__init__"]
    names = sorted(".".join(path.with_suffix("").parts) for path in paths)
    return f"# {title}\n\n{words}\n" + "".join(f"\n::: laydown.{floor}.{name}\n" for name in names)


def table_of_units() -> str:
    """Return the table of the units that a text may carry."""
    rows = ["| key ends in | units that are read, the house unit first |", "|---|---|"]
    rows += [f"| `{ending}` | {', '.join(f'`{unit}`' for unit in read)} |" for ending, read in READ.items()]
    return "\n".join(rows) + "\n"


def table_of_weights() -> str:
    """Return the weights of the planner as they are in use."""
    meanings = meaning_of_fields(type(WEIGHTS))
    rows = ["| weight | minutes of work | of what |", "|---|---|---|"]
    rows += [
        f"| `{item.name}` | {getattr(WEIGHTS, item.name):g} | {meanings.get(item.name, '').replace('``', '`')} |"
        for item in fields(WEIGHTS)
    ]
    return "\n".join(rows) + "\n"


def nouns(*tops: type) -> dict[str, type]:
    """Return some nouns and all that stand inside them, by name."""
    found: dict[str, type] = {}
    waiting: list[Any] = list(tops)
    while waiting:
        one = unwrap(waiting.pop()).type
        if one is Message:  # its form in a file is told in words
            continue
        waiting += [part for part in get_args(one) if part is not Ellipsis and not isinstance(part, str)]
        if isinstance(one, type) and is_dataclass(one) and one.__name__ not in found:
            found[one.__name__] = one
            waiting += field_types(one).values()
    return found


NOUNS = nouns(Job, Product, Side, Plan, ReadingMap)
"""Every noun of the files, by name."""


def table(of: type) -> str:
    """Return the table of a noun's fields."""
    meanings = meaning_of_fields(of)
    rows = ["| key | value | unit | range | left out | meaning |", "|---|---|---|---|---|---|"]
    types = field_types(of)
    for item in fields(of):
        kind = unwrap(types[item.name])
        row = (
            f"`{item.name}`",
            words_for(types[item.name]),
            unit_of(item.name, types[item.name]),
            range_of(kind.bound),
            left_out(item),
            meanings.get(item.name, ""),
        )
        rows.append("| " + " | ".join(row) + " |")
    return "\n".join(rows) + "\n"


def meaning_of_fields(of: type) -> dict[str, str]:
    """Read the meaning of each field out of the section Attributes of the docstring."""
    lines = (getdoc(of) or "").split("Attributes\n----------\n")[-1].splitlines()
    found: dict[str, str] = {}
    names: list[str] = []
    for line in lines:
        if line and not line.startswith(" "):
            names = [name.strip() for name in line.split(",")]
        elif line.strip():
            for name in names:
                found[name] = f"{found.get(name, '')} {line.strip()}".strip()
    return found


def words_for(annotation: Any) -> str:
    """Say in words what may stand in a field."""
    bare = unwrap(annotation).type
    origin, inner = get_origin(bare), get_args(bare)
    if origin is Literal:
        return " / ".join(f"`{word}`" for word in inner)
    if origin is tuple:
        listed = words_for(inner[0])
        return f"list of {listed}" if inner[-1] is Ellipsis else f"{len(inner)} × {listed}"
    if origin is dict:
        return "table by name"
    if origin is not None:
        return " or ".join(words_for(one) for one in inner)
    if isinstance(bare, type) and is_dataclass(bare):
        return {"Figure": "figure", "Spread": "value, low, high", "Message": "sentence"}.get(
            bare.__name__, f"table {bare.__name__}"
        )
    plain = {float: "number", int: "whole number", str: "text", bool: "true / false"}
    return plain.get(bare, str(bare))


def unit_of(name: str, annotation: Any) -> str:
    """Return the unit that the name of a field states."""
    if not any(word in words_for(annotation) for word in ("number", "figure", "value")):
        return ""
    return next((unit for ending, unit in UNITS.items() if name.endswith(ending)), "")


def range_of(bound: Within | TextLength | None) -> str:
    """Return the range of a field."""
    if isinstance(bound, Within):
        return f"{bound.low:g} to {bound.high:g}"
    return f"{bound.longest} characters" if isinstance(bound, TextLength) else ""


def left_out(item: "Field[Any]") -> str:
    """Say what holds when the field is left out."""
    value = item.default if item.default is not MISSING else MISSING
    if value is MISSING and item.default_factory is not MISSING:
        value = item.default_factory()
    if value is MISSING:
        return "must be there"
    if is_dataclass(value):
        figure = getattr(value, "value", None)
        return f"{figure:g}" if isinstance(figure, float) else "defaults of its keys"
    if value is None or value in ((), {}, ""):
        return "none"
    if isinstance(value, tuple):
        return ", ".join(value)
    return (
        str(value).lower()
        if isinstance(value, bool)
        else f"{value:g}"
        if isinstance(value, float)
        else f"{value}"
    )


if __name__ == "__main__":
    for page in PAGES:
        page.write_text(with_tables(page.read_text(encoding="utf-8")), encoding="utf-8")
    for name in FLOORS:
        target = Path(__file__).parent / "reference" / f"{name}.md"
        target.write_text(reference_page(name), encoding="utf-8")
