"""What a JSON text gives: a file leaves out what is not given, where a document says null."""

import json
import math
import re
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

FIGURES = 6
"""Figures of a number in a written document; assumption, finer than any scale, clock or tape."""


_NUMBERS = re.compile(r"\[\n(?:\s*[-+.\deE]+,?\n)+\s*\]")
"""A list that holds only numbers; it goes on one line. Text cannot match: its line breaks are written as \\n."""


def encode(noun: object, digits: int | None = None) -> Any:
    """Turn a noun into tables, lists and plain values.

    Parameters
    ----------
    noun
        A noun of the schema, or a plain value.
    digits
        Significant figures to keep; None keeps numbers as they are.

    Returns
    -------
    Plain value with keys in the order of the fields.

    Raises
    ------
    ValueError
        A number is not finite: no document may hold one.
    """
    if is_dataclass(noun) and not isinstance(noun, type):
        return {item.name: encode(getattr(noun, item.name), digits) for item in fields(noun)}
    if isinstance(noun, Mapping):
        return {str(key): encode(item, digits) for key, item in noun.items()}
    if isinstance(noun, list | tuple):
        return [encode(item, digits) for item in noun]
    if isinstance(noun, float):
        return _number(noun, digits)
    return noun


def _number(value: float, digits: int | None) -> float | int:
    """Round to significant figures; whole numbers lose their empty decimals."""
    if not math.isfinite(value):
        raise ValueError("a document holds a number that is not finite")
    rounded = value if digits is None else float(f"{value:.{digits}g}")
    return int(rounded) if digits is not None and rounded.is_integer() and abs(rounded) < 1e15 else rounded


def to_json(document: object) -> str:
    """Return a document as JSON text.

    Parameters
    ----------
    document
        A noun, or plain tables and lists.

    Returns
    -------
    Text with a line for each key, ending in a line break; the same document gives the same bytes.

    Raises
    ------
    ValueError
        A number is not finite.
    """
    plain = encode(document, FIGURES)
    text = json.dumps(plain, ensure_ascii=False, allow_nan=False, indent=1)
    return (
        _NUMBERS.sub(lambda found: " ".join(found[0].split()).replace("[ ", "[").replace(" ]", "]"), text)
        + "\n"
    )


def given(raw: Any) -> Any:
    """Drop what is not given.

    Parameters
    ----------
    raw
        Plain tables, lists and values.

    Returns
    -------
    The same without keys that hold null.
    """
    if isinstance(raw, dict):
        return {key: given(value) for key, value in raw.items() if value is not None}
    return [given(value) for value in raw] if isinstance(raw, list) else raw
