"""What a JSON text gives: a file leaves out what is not given, where a document says null."""

import json
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from laydown.schema.message import Message, Name, Quantity, Range, Said

FIGURES = 6
"""Figures of a number in a written document; assumption, finer than any scale, clock or tape."""

Say = Callable[[Message], str]
"""Makes a sentence of a code and figures."""


_NUMBERS = re.compile(r"\[\n(?:\s*[-+.\deE]+,?\n)+\s*\]")
"""A list that holds only numbers; it goes on one line. Text cannot match: its line breaks are written as \\n."""


def encode(noun: object, digits: int | None = None, say: Say | None = None) -> Any:
    """Turn a noun into tables, lists and plain values; sentences go by code and figures, and as text where one can say them."""
    if isinstance(noun, Message):
        return _sentence(noun, say)
    if is_dataclass(noun) and not isinstance(noun, type):
        return {item.name: encode(getattr(noun, item.name), digits, say) for item in fields(noun)}
    if isinstance(noun, Mapping):
        return {str(key): encode(item, digits, say) for key, item in noun.items()}
    if isinstance(noun, list | tuple):
        return [encode(item, digits, say) for item in noun]
    if isinstance(noun, float):
        return _number(noun, digits)
    return noun


def _sentence(said: Message, say: Say | None) -> dict[str, Any]:
    """A sentence as a table."""
    table: dict[str, Any] = {"code": said.code}
    if said.figures:
        table["figures"] = {name: _figure(value) for name, value in said.figures}
    return table if say is None else table | {"text": say(said)}


def _figure(value: Said) -> Any:
    """What stands in a sentence; its kind can be told from its form."""
    if isinstance(value, Name):
        return {"name": str(value)}
    if isinstance(value, Message):
        return _sentence(value, None)
    if isinstance(value, tuple):
        return [_figure(one) for one in value]
    if isinstance(value, Quantity | Range):
        plain = {item.name: getattr(value, item.name) for item in fields(value)}
        return plain if plain["unit"] else {"low": plain["low"], "high": plain["high"]}
    return _number(value, FIGURES) if isinstance(value, float) else value


def _number(value: float, digits: int | None) -> float | int:
    """Round to significant figures; whole numbers lose their empty decimals."""
    if not math.isfinite(value):
        raise ValueError("a document holds a number that is not finite")
    rounded = value if digits is None else float(f"{value:.{digits}g}")
    return int(rounded) if digits is not None and rounded.is_integer() and abs(rounded) < 1e15 else rounded


def to_json(document: object, say: Say | None = None) -> str:
    """Return a document as JSON text."""
    plain = encode(document, FIGURES, say)
    text = json.dumps(plain, ensure_ascii=False, allow_nan=False, indent=1)
    return (
        _NUMBERS.sub(lambda found: " ".join(found[0].split()).replace("[ ", "[").replace(" ]", "]"), text)
        + "\n"
    )


def given(raw: Any) -> Any:
    """Drop what is not given."""
    if isinstance(raw, dict):
        return {key: given(value) for key, value in raw.items() if value is not None}
    return [given(value) for value in raw] if isinstance(raw, list) else raw
