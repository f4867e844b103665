"""JSON Schema of the files, from the same definitions that read them."""

import inspect
from collections.abc import Iterator
from typing import Any

from laydown.reader.decode import model_of
from laydown.reader.faults import first_line
from laydown.reader.structure import field_types, noun_at
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.product import Product
from laydown.schema.side import Side

NOUNS: dict[str, type] = {"job": Job, "product": Product, "side": Side, "plan": Plan}
"""Files that have a schema."""

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""Dialect of the schemas; JSON Schema 2020-12, section 8.1.1."""


def json_schema(kind: str) -> dict[str, Any]:
    """Return the JSON Schema of a kind of file."""
    noun = NOUNS[kind]
    schema = model_of(noun).model_json_schema()
    inside = {one.__name__: one for one in _nouns(noun)}
    for name, described in (("", schema), *schema.get("$defs", {}).items()):
        said = _attributes(inside.get(name, noun))
        for field, form in described.get("properties", {}).items():
            form.pop("title", None)
            form.pop("default", None)
            if field in said:
                form["description"] = said[field]
    return {"$schema": DIALECT, "$id": f"urn:{first_line(noun).replace('/', ':')}", **schema}


def _nouns(noun: type) -> Iterator[type]:
    """Yield a noun and every noun inside it."""
    yield noun
    for name in field_types(noun):
        inner = noun_at(noun, (name,)) or noun_at(noun, (name, 0))
        if inner is not None and inner is not noun:
            yield from _nouns(inner)


def _attributes(noun: type) -> dict[str, str]:
    """Read what the docstring of a noun says of its fields; one entry may describe several."""
    section = inspect.cleandoc(noun.__doc__ or "").partition("Attributes\n----------\n")[2]
    said: dict[str, str] = {}
    names: list[str] = []
    for line in section.splitlines():
        if line and not line.startswith(" "):
            names = [name.strip() for name in line.split(",")]
        elif line.strip():
            said |= {name: f"{said.get(name, '')} {line.strip()}".strip() for name in names}
    return said
