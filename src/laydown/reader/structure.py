"""What the fields of a noun are: their types, bounds and names, read from the dataclasses themselves."""

import types
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from laydown.schema.figure import TextLength, Within


@dataclass(frozen=True, slots=True)
class FieldType:
    """A type without its wrapping."""

    type: Any
    bound: Within | TextLength | None = None
    optional: bool = False


def unwrap(annotation: Any) -> FieldType:
    """Return the bare type of an annotation with its bound."""
    if get_origin(annotation) is Annotated:
        inner = unwrap(get_args(annotation)[0])
        bound = next(
            (item for item in annotation.__metadata__ if isinstance(item, Within | TextLength)), inner.bound
        )
        return FieldType(inner.type, bound, inner.optional)
    if get_origin(annotation) in {Union, types.UnionType}:
        members = [item for item in get_args(annotation) if item is not types.NoneType]
        optional = len(members) < len(get_args(annotation))
        if len(members) == 1:
            inner = unwrap(members[0])
            return FieldType(inner.type, inner.bound, optional or inner.optional)
        return FieldType(Union[tuple(members)], None, optional)  # noqa: UP007 - made at run time
    return FieldType(annotation)


@cache
def field_types(noun: type) -> dict[str, Any]:
    """Return the annotations of a noun's fields, in order."""
    hints = get_type_hints(noun, include_extras=True)
    return {item.name: hints[item.name] for item in fields(noun)}


def noun_at(noun: type, place: tuple[str | int, ...]) -> type | None:
    """Return the noun that stands at a place of a document."""
    annotation: Any = noun
    for part in place:
        bare = unwrap(annotation).type
        if isinstance(part, int):
            inner = get_args(bare)
            annotation = inner[0] if inner else None
        elif isinstance(bare, type) and is_dataclass(bare):
            annotation = field_types(bare).get(part)
        else:
            return None
    bare = unwrap(annotation).type
    return bare if isinstance(bare, type) and is_dataclass(bare) else None
