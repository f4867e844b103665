"""Writing a job as a job file that a person can read and go on with."""

import json
import re
import tomllib
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import InlineTable, Table

from laydown.reader.encode import Say, encode
from laydown.reader.files import read_text, refused, table_of
from laydown.reader.papers.job_file import SOURCE
from laydown.reader.write import write_file
from laydown.schema.figure import Figure
from laydown.schema.job import Job
from laydown.schema.message import Message, Name, message


def save_table(path: Path, name: str, values: Mapping[str, Any]) -> None:
    """Write values into a table of a job file; the file is replaced whole or not at all."""
    text = read_text(path)
    raw = table_of(text, path)
    if not isinstance(raw.get(name, {}), dict):
        what = message("holds-a-single-value", name=Name(name))
        raise refused(path, what, message("write-it-as-a-table", name=Name(name)))
    wanted = raw | {name: {**raw.get(name, {}), **values}}
    if path.suffix.lower() == ".json":
        write_file(path, (json.dumps(wanted, ensure_ascii=False, indent=2) + "\n").encode())
        return
    written = _edited(text, name, values)
    if written is None or tomllib.loads(written) != wanted:
        hint = message("write-it-once", name=Name(name))
        raise refused(path, message("cannot-change-and-keep", name=Name(name)), hint)
    write_file(path, written.encode())


def _edited(text: str, name: str, values: Mapping[str, Any]) -> str | None:
    """Return the text with the values in their table; None where the writer cannot do it."""
    try:
        document = tomlkit.parse(text)
        if name not in document:
            document.add(tomlkit.nl())
            document.add(name, tomlkit.table())
        table: Any = document[name]
        for key, value in values.items():
            table[key] = list(value) if isinstance(value, tuple) else value
        return tomlkit.dumps(document)
    except (TOMLKitError, tomllib.TOMLDecodeError, TypeError, ValueError):
        return None


_SAYS = {
    "job.name",
    "job.side",
    "job.painters",
    "job.can_walk",
    "job.start",
    "job.spare_cup",
    "body.shape",
    "panel.state",
    "panel.undercoat_lightness",
    "panel.ground",
    "air.temperature_c",
    "air.rh",
    "air.speed_m_s",
    "air.blower_speed_m_s",
    "surface.material",
    "gun.nozzles_owned_mm",
    "gun.flow_g_s",
    "gun.speed_m_s",
    "gun.cup_ml",
    "painter.skill",
    "sample.ground_check",
    "limits.electric_vehicle",
}
"""Fields of which the file says something behind their line."""

_BESIDE = {"panel", "products", "choices", "sample", "surface"}
"""Tables of which the file says something behind their head."""

_EXAMPLES = {
    "choices.reducer": '"slow"',
    "choices.water": '"5 %"',
    "choices.hardener": "true",
    "choices.nozzle_mm": "1.3",
    "choices.ground_coats": "2",
    "choices.effect_coats": "2.5",
    "surface.temperature_c": "20",
    "limits.ready_by": "2026-11-25T16:00:00",
}
_ALWAYS = {"job", "body", "panel", "air", "gun", "painter", "products", "choices", "sample"}


_BEFORE_TABLE = re.compile(r"(?<!\n)\n+\[(?=[\[a-z])")
"""The line break before the head of a table; no text can match, because its line breaks are written as escapes."""


def job_text(job: Job, say: Say) -> str:
    """Return a job as TOML with comments."""
    document = tomlkit.document()
    document.add("format", tomlkit.item(job.format))
    if job.invented:
        document.add("invented", tomlkit.item(True))  # noqa: FBT003 - a value, not a flag
    for item in fields(job):
        value = getattr(job, item.name)
        if item.name == "panel":
            blocks = tomlkit.aot()
            for number, panel in enumerate(value):
                block = _table("panel", panel, say)
                if number == 0:
                    block.comment(say(_about("panel")))
                blocks.append(block)
            document.add("panel", blocks)
        elif is_dataclass(value) and (item.name in _ALWAYS or value != _default(item)):
            table = _table(item.name, value, say)
            if item.name in _BESIDE:
                table.comment(say(_about(item.name)))
            document.add(item.name, table)
    return _BEFORE_TABLE.sub("\n\n[", tomlkit.dumps(document))


def _about(key: str) -> Message:
    """What the file says of a table or a field."""
    return message(f"job-file.{key}")


def _table(name: str, noun: Any, say: Say) -> Table:
    """Write the fields of a table; defaults as comments."""
    table = tomlkit.table()
    for item in fields(noun):
        value = getattr(noun, item.name)
        key = f"{name}.{item.name}"
        said = say(_about(key)) if key in _SAYS else ""
        if value != _default(item):
            written = tomlkit.item(_value(value))
            if said:
                written.comment(said)
            table.add(item.name, written)
        elif value is not None and value not in ((), {}, ""):
            shown = value.value if isinstance(value, Figure) else value
            line = f"{item.name} = {tomlkit.item(_value(shown)).as_string()}"
            table.add(tomlkit.comment(f"{line}   # {said}" if said else line))
        elif key in _EXAMPLES:
            table.add(tomlkit.comment(f"{item.name} = {_EXAMPLES[key]}"))
    return table


def _default(item: Any) -> object:
    """Return the default of a field, or something nothing equals."""
    if item.default_factory is not MISSING:
        return item.default_factory()
    return object() if item.default is MISSING else item.default


def _value(value: Any) -> Any:
    """Write a figure as a bare number where it says no more than that; drop empty decimals."""
    if isinstance(value, Figure):
        if value.low is None and value.high is None and value.source == SOURCE:
            return _short(value.value)
        given = {"value": value.value, "low": value.low, "high": value.high}
        return _inline(
            {key: _short(number) for key, number in given.items() if number is not None}
            | {"source": value.source}
        )
    if isinstance(value, dict):
        return _inline({key: _short(number) for key, number in value.items()})
    if isinstance(value, tuple):
        return [_short(member) for member in value]
    return _short(encode(value))


def _inline(content: dict[str, Any]) -> InlineTable:
    table = tomlkit.inline_table()
    table.update(content)
    return table


def _short(value: Any) -> Any:
    """Turn a whole float into an integer."""
    return int(value) if isinstance(value, float) and value.is_integer() and abs(value) < 1e15 else value
