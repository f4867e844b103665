"""Writes down how the files of a measuring program are to be understood."""

from dataclasses import fields
from pathlib import Path
from typing import Any

import tomlkit

from laydown.reader.decode import decode
from laydown.reader.encode import encode
from laydown.reader.files import read_table, refused
from laydown.reader.instrument.raw import Faults, illuminant
from laydown.reader.values import short
from laydown.schema.problem import InputError
from laydown.schema.reading import OBSERVERS, ReadingMap

USUAL_MAP = ReadingMap()
"""A mapping in which the user has said nothing."""


def read_reading_map(path: Path) -> ReadingMap:
    """Return how the files of a measuring program are to be understood.

    Parameters
    ----------
    path
        TOML or JSON.

    Returns
    -------
    The mapping.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    return decode_reading_map(read_table(path), path)


def decode_reading_map(raw: dict[str, Any], path: Path) -> ReadingMap:
    """Return the mapping in a raw table.

    Parameters
    ----------
    raw
        As read from a file or a form.
    path
        Name of the file, for messages.

    Returns
    -------
    The mapping.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    if raw.get("format", USUAL_MAP.format) != USUAL_MAP.format:
        hint = f'a mapping begins with format = "{USUAL_MAP.format}"'
        raise refused(
            path, f"has the format {short(raw['format'])}, which is not a mapping of readings", hint
        )
    decoded = decode(ReadingMap, {"format": USUAL_MAP.format, **raw})
    if decoded.noun is None:
        raise InputError(str(path), decoded.problems)
    found = decoded.noun
    faults = Faults()
    if found.illuminant is not None and illuminant(found.illuminant) != found.illuminant:
        faults.add("illuminant", f"{short(found.illuminant)} is not known", "write D65, D50, A or F11")
    if found.observer is not None and found.observer not in OBSERVERS:
        faults.add("observer", f"{found.observer} is not known", "write 2 or 10")
    for number, sample in enumerate(found.sample, start=1):
        if sample.role == "field" and sample.coats is None:
            faults.add(f"sample[{number}]", "is a field without coats", "add coats = 2")
        elif sample.role != "field" and sample.coats is not None:
            faults.add(f"sample[{number}].coats", f"a {sample.role} has no counted coats", "take it out")
    if faults.found:
        raise InputError(str(path), faults.listed())
    return found


def reading_map_text(mapping: ReadingMap) -> str:
    """Return a mapping as TOML.

    Parameters
    ----------
    mapping
        The mapping.

    Returns
    -------
    Text that reads back as the same mapping; what was not said is left out.
    """
    document = tomlkit.document()
    document.add("format", tomlkit.item(mapping.format))
    for item in fields(mapping):
        value = getattr(mapping, item.name)
        if item.name not in {"format", "sample", "columns"} and value != getattr(USUAL_MAP, item.name):
            document.add(item.name, tomlkit.item(encode(value)))
    columns = _given(encode(mapping.columns))
    if columns:
        document.add("columns", tomlkit.item(columns))
    if mapping.sample:
        blocks = tomlkit.aot()
        for one in mapping.sample:
            blocks.append(tomlkit.item({k: v for k, v in _given(encode(one)).items() if v != ""}))
        document.add("sample", blocks)
    return tomlkit.dumps(document)


def _given(raw: dict[str, Any]) -> dict[str, Any]:
    """Drop what was not said."""
    return {key: value for key, value in raw.items() if value is not None}
