"""Two people saved the same paper: what the other changed, what one changed oneself, and both where that is possible.

A paper is taken apart into its fields; a field that is not given is the same as one that says nothing.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

Path = tuple[str, ...]
"""Where a field stands: its tables from the outside in, and its own name."""

BY_NAME = ("panel",)
"""Lists whose entries bear a name, so that an entry is the same one wherever it stands."""

BY_NUMBER = ("recipe",)
"""Lists whose order matters: an entry is what stands at its place."""


@dataclass(frozen=True, slots=True)
class Differs:
    """A field in which two papers differ.

    Attributes
    ----------
    path
        Where it stands.
    was, theirs, mine
        Before both, as the other saved it, and as one would save it oneself; None where it is not given.
    both_changed
        Whether both changed it, so that one of the two has to give way.
    theirs_changed
        Whether the other changed it.
    """

    path: Path
    was: Any
    theirs: Any
    mine: Any
    both_changed: bool
    theirs_changed: bool


@dataclass(frozen=True, slots=True)
class Compared:
    """How two papers differ.

    Attributes
    ----------
    fields
        Where they differ: what both changed first.
    both
        The paper with what either changed; None where both changed the same, or where nobody knows what was before.
    """

    fields: tuple[Differs, ...]
    both: dict[str, Any] | None


def fields_of_paper(raw: Mapping[str, Any]) -> dict[Path, Any]:
    """Take a paper apart.

    Parameters
    ----------
    raw
        A job, product or side as a plain table.

    Returns
    -------
    Value by path; a figure with its spread and source is one value. What is not given is left out.
    """
    return {path: value for key, item in raw.items() for path, value in _leaves((key,), item)}


def _leaves(path: Path, value: Any) -> Iterator[tuple[Path, Any]]:
    """Give the fields at and below a path."""
    if path[0] in BY_NAME and len(path) == 1:
        value = {item["name"]: item for item in value}
    elif path[0] in BY_NUMBER and len(path) == 1:
        value = {str(number): item for number, item in enumerate(value, 1)}
    if isinstance(value, Mapping) and "value" not in value:
        for key, item in value.items():
            yield from _leaves((*path, str(key)), item)
    elif value is not None:
        yield path, value


def paper_of_fields(found: Mapping[Path, Any]) -> dict[str, Any]:
    """Put a paper together again.

    Parameters
    ----------
    found
        Value by path.

    Returns
    -------
    The paper as a plain table.
    """
    raw: dict[str, Any] = {}
    for path, value in found.items():
        table = raw
        for key in path[:-1]:
            table = table.setdefault(key, {})
        table[path[-1]] = value
    for key in BY_NAME:
        if key in raw:
            raw[key] = list(raw[key].values())
    for key in BY_NUMBER:
        if key in raw:
            raw[key] = [line for _, line in sorted(raw[key].items(), key=lambda pair: int(pair[0]))]
    return raw


def compare(
    before: Mapping[Path, Any] | None, theirs: Mapping[Path, Any], mine: Mapping[Path, Any]
) -> Compared:
    """Compare what another saved with what one would save oneself.

    Parameters
    ----------
    before
        What both began with; None where nobody knows.
    theirs, mine
        Value by path.

    Returns
    -------
    Where they differ, and the paper with both changes.
    """
    known = before or {}
    paths = [path for path in dict.fromkeys((*theirs, *mine)) if theirs.get(path) != mine.get(path)]
    fields = tuple(_differs(path, before, theirs, mine) for path in paths)
    fields = tuple(sorted(fields, key=lambda one: (not one.both_changed, not one.theirs_changed)))
    if before is None or any(one.both_changed for one in fields):
        return Compared(fields, None)
    merged = dict(theirs)
    for one in fields:
        if one.mine == known.get(one.path):
            continue
        if one.mine is None:
            del merged[one.path]
        else:
            merged[one.path] = one.mine
    return Compared(fields, paper_of_fields(merged) if _is_whole(merged) else None)


def _differs(
    path: Path, before: Mapping[Path, Any] | None, theirs: Mapping[Path, Any], mine: Mapping[Path, Any]
) -> Differs:
    """Compare one field."""
    other, own = theirs.get(path), mine.get(path)
    if before is None:
        return Differs(path, None, other, own, both_changed=True, theirs_changed=True)
    was = before.get(path)
    theirs_changed, mine_changed = other != was, own != was
    return Differs(path, was, other, own, theirs_changed and mine_changed, theirs_changed)


def _is_whole(found: Mapping[Path, Any]) -> bool:
    """Whether every entry of a list still has its name: one took it away where the other changed it."""
    entries = {path[:2] for path in found if path[0] in BY_NAME}
    return all((*entry, "name") in found for entry in entries)
