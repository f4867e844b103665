"""Changing a table of a job file that a person wrote, so that comments and order stay as they were."""

import json
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from laydown.reader.files import read_text, refused, table_of
from laydown.reader.write import write_file


def save_table(path: Path, name: str, values: Mapping[str, Any]) -> None:
    """Write values into a table of a job file; the file is replaced whole or not at all.

    Parameters
    ----------
    path
        TOML, or JSON if its name ends in .json.
    name
        Name of the table, such as "sample"; made at the end of the file where it is missing.
    values
        Plain values by key; other keys of the table stay.

    Raises
    ------
    InputError
        The file cannot be read or written, or the name stands for something that is no table.
    """
    text = read_text(path)
    raw = table_of(text, path)
    if not isinstance(raw.get(name, {}), dict):
        raise refused(path, f"holds '{name}' as a single value", f"write it as a table [{name}]")
    wanted = raw | {name: {**raw.get(name, {}), **values}}
    if path.suffix.lower() == ".json":
        write_file(path, (json.dumps(wanted, ensure_ascii=False, indent=2) + "\n").encode())
        return
    written = _edited(text, name, values)
    if written is None or tomllib.loads(written) != wanted:
        hint = f"write [{name}] once, as a table of its own"
        raise refused(path, f"is written so that '{name}' cannot be changed and the rest kept", hint)
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
