"""JSON Schema of the files, from the same definitions that read them."""

from typing import Any

from laydown.reader.decode import model_of
from laydown.reader.message import first_line
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.product import Product
from laydown.schema.side import Side

NOUNS: dict[str, type] = {"job": Job, "product": Product, "side": Side, "plan": Plan}
"""Files that have a schema."""

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""Dialect of the schemas; JSON Schema 2020-12, section 8.1.1."""


def json_schema(kind: str) -> dict[str, Any]:
    """Return the JSON Schema of a kind of file.

    Parameters
    ----------
    kind
        ``job``, ``product``, ``side`` or ``plan``.

    Returns
    -------
    Schema as plain tables, dialect 2020-12.

    Raises
    ------
    KeyError
        Another kind.
    """
    noun = NOUNS[kind]
    schema = model_of(noun).model_json_schema()
    for described in (schema, *schema.get("$defs", {}).values()):
        for field in described.get("properties", {}).values():
            field.pop("title", None)
    return {"$schema": DIALECT, "$id": f"urn:{first_line(noun).replace('/', ':')}", **schema}
