"""Reads a sentence of a document: its code and figures count, its text is for people."""

from typing import Any

from laydown.reader import values as leaf
from laydown.schema.message import Message, Name, Quantity, Range, Said, message

DESCRIBED = {
    "type": "object",
    "properties": {"code": {"type": "string"}, "figures": {"type": "object"}, "text": {"type": "string"}},
    "required": ["code"],
    "additionalProperties": False,
}
"""A sentence as JSON Schema."""


def read_sentence(value: object) -> Message:
    """Turn a table with code and figures into what is said."""
    if not isinstance(value, dict) or not isinstance(value.get("code"), str):
        raise leaf.faulty(
            ("", message("no-sentence", given=leaf.shown(value)), message("a-sentence-has-a-code"))
        )
    figures = value.get("figures", {})
    if not isinstance(figures, dict):
        what = message("no-table-of-figures", given=leaf.shown(figures))
        raise leaf.faulty((".figures", what, message("figures-have-names")))
    return Message(value["code"], tuple((str(name), _figure(one)) for name, one in figures.items()))


def _figure(value: Any) -> Said:
    """Read what stands in a sentence; its form tells its kind."""
    if isinstance(value, list):
        return tuple(_figure(one) for one in value)
    if isinstance(value, dict):
        if "code" in value:
            return read_sentence(value)
        if value.keys() == {"name"}:
            return Name(value["name"])
        if value.keys() == {"value", "unit"}:
            return Quantity(float(value["value"]), str(value["unit"]))
        if value.keys() - {"unit"} == {"low", "high"}:
            return Range(float(value["low"]), float(value["high"]), str(value.get("unit", "")))
    if isinstance(value, str | int | float) and not isinstance(value, bool):
        return value
    what = message("no-figure-of-a-sentence", given=leaf.shown(value))
    raise leaf.faulty((".figures", what, message("leave-as-written")))
