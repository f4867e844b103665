"""Writes down how the files of a measuring program are to be understood."""

from dataclasses import fields
from typing import Any

import tomlkit

from laydown.reader.encode import encode
from laydown.reader.reading_map import USUAL_MAP
from laydown.schema.reading import ReadingMap


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
