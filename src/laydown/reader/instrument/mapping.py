"""Writes down how the files of a measuring program are to be understood."""

from dataclasses import fields
from pathlib import Path
from typing import Any

import tomlkit

from laydown.reader.decode import decode
from laydown.reader.encode import encode
from laydown.reader.files import refused
from laydown.reader.instrument.raw import Faults, illuminant, quoted
from laydown.reader.values import short
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError
from laydown.schema.reading import OBSERVERS, ReadingMap

USUAL_MAP = ReadingMap()
"""A mapping in which the user has said nothing."""


def decode_reading_map(raw: dict[str, Any], path: Path) -> ReadingMap:
    """Return the mapping in a raw table."""
    if raw.get("format", USUAL_MAP.format) != USUAL_MAP.format:
        what = message("readings.no-mapping", format=Name(short(raw["format"])))
        raise refused(path, what, message("readings.no-mapping.mend", format=Name(USUAL_MAP.format)))
    decoded = decode(ReadingMap, {"format": USUAL_MAP.format, **raw})
    if decoded.noun is None:
        raise InputError(str(path), decoded.problems)
    found = decoded.noun
    faults = Faults()
    if found.illuminant is not None and illuminant(found.illuminant) != found.illuminant:
        what = message("readings.answer-unknown", text=quoted(found.illuminant))
        faults.add("illuminant", what, message("readings.mend.write-illuminant"))
    if found.observer is not None and found.observer not in OBSERVERS:
        what = message("readings.answer-unknown", text=Name(found.observer))
        faults.add("observer", what, message("readings.mend.write-observer"))
    for number, sample in enumerate(found.sample, start=1):
        if sample.role == "field" and sample.coats is None:
            hint = message("readings.field-without-coats.add")
            faults.add(f"sample[{number}]", message("readings.field-without-coats"), hint)
        elif sample.role != "field" and sample.coats is not None:
            what = message("readings.role-without-coats", role=Name(sample.role))
            faults.add(f"sample[{number}].coats", what, message("readings.role-without-coats.mend"))
    if faults.found:
        raise InputError(str(path), faults.listed())
    return found


def reading_map_text(mapping: ReadingMap) -> str:
    """Return a mapping as TOML."""
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
