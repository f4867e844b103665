"""What the fields of a noun are: their types, bounds and names, read from the dataclasses themselves."""

import types
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from laydown.schema.figure import Within, Words


@dataclass(frozen=True, slots=True)
class Kind:
    """A type without its wrapping.

    Attributes
    ----------
    type
        The bare type, such as ``float``, ``tuple[str, ...]`` or a dataclass.
    bound
        Range or length written beside it.
    optional
        Whether the value may be missing (``None``).
    """

    type: Any
    bound: Within | Words | None = None
    optional: bool = False


def unwrap(annotation: Any) -> Kind:
    """Return the bare type of an annotation with its bound.

    Parameters
    ----------
    annotation
        As written in a noun.

    Returns
    -------
    The kind; of several bounds the outermost counts.
    """
    if get_origin(annotation) is Annotated:
        inner = unwrap(get_args(annotation)[0])
        bound = next(
            (item for item in annotation.__metadata__ if isinstance(item, Within | Words)), inner.bound
        )
        return Kind(inner.type, bound, inner.optional)
    if get_origin(annotation) in {Union, types.UnionType}:
        members = [item for item in get_args(annotation) if item is not types.NoneType]
        optional = len(members) < len(get_args(annotation))
        if len(members) == 1:
            inner = unwrap(members[0])
            return Kind(inner.type, inner.bound, optional or inner.optional)
        return Kind(Union[tuple(members)], None, optional)  # noqa: UP007 - made at run time
    return Kind(annotation)


@cache
def field_types(noun: type) -> dict[str, Any]:
    """Return the annotations of a noun's fields, in order.

    Parameters
    ----------
    noun
        A dataclass of the schema.

    Returns
    -------
    Name and annotation of each field.
    """
    hints = get_type_hints(noun, include_extras=True)
    return {item.name: hints[item.name] for item in fields(noun)}


def noun_at(noun: type, place: tuple[str | int, ...]) -> type | None:
    """Return the noun that stands at a place of a document.

    Parameters
    ----------
    noun
        Noun of the whole document.
    place
        Keys and list indices from the top.

    Returns
    -------
    The dataclass there, or None where a plain value stands.
    """
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
