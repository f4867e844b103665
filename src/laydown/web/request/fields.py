"""What the pages call a field of a job, product or side, and how they tell its value."""

from collections.abc import Iterable, Mapping
from typing import Any

from laydown.desk.papers.second_save import Path
from laydown.schema.message import Name, message
from laydown.units import suffix
from laydown.web.request.door import Call
from laydown.web.request.forms import words_of
from laydown.words.show import Words


def measure_names(call: Call, names: Iterable[str]) -> dict[str, str]:
    """Return what the pages call tape measures of a side."""
    words = words_of(call)
    return {name: words.word("measure", name) for name in names}


def field_words(path: Path, words: Words) -> str:
    """Return what the pages call a field."""
    if path[0] == "panel" and len(path) == 3:
        return words.say("field-of", thing=Name(path[1]), field=Name(_plain(path[2])))
    if path[0] == "panels":
        return words.say("planned-area-of", panel=Name(path[1]))
    if path[0] == "recipe":
        known = words.knows("recipe_field", path[2])
        field = words.word("recipe_field", path[2]) if known else _plain(path[2])
        return words.say("recipe-line", line=Name(path[1]), field=Name(field))
    if path[0] == "measures":
        return words.word("measure", path[1]) if words.knows("measure", path[1]) else _plain(path[1])
    return _known(".".join(path), words) or ": ".join(_plain(part) for part in path)


def _known(place: str, words: Words) -> str:
    """Return what the forms of jobs and products call a place, empty if they ask for nothing there."""
    if words.knows("job_field", place):
        return words.word("job_field", place)
    if words.knows("field", place):
        return words.word("field", place)
    return words.word("product_field", place) if words.knows("product_field", place) else ""


def _plain(name: str) -> str:
    """Write a name of a file as words, without its unit."""
    return name.removesuffix(suffix(name)).replace("_", " ")


def told_values(path: Path, values: tuple[Any, ...], words: Words) -> tuple[str, ...]:
    """Tell values of one field, so that different ones read differently."""
    told = tuple(_told(path[-1], value, words) for value in values)
    different = [value for number, value in enumerate(values) if value not in values[:number]]
    if len(set(told)) == len(different):
        return told
    return tuple(_finer(text, value, words) for text, value in zip(told, values, strict=True))


def _told(name: str, value: Any, words: Words) -> str:
    """Tell one value."""
    if value is None:
        return words.say("value.not-given")
    if isinstance(value, int | float):
        return _told_number(name, value, words)
    if isinstance(value, list):
        return ", ".join(_told(name, item, words) for item in value) or words.say("value.none")
    if isinstance(value, Mapping) and "value" in value:
        told = _told(name, value["value"], words)
        ends = [value[end] for end in ("low", "high") if value.get(end) is not None]
        if len(ends) < 2:
            return told
        low, high = (Name(_told(name, end, words)) for end in ends)
        return words.say("value.spread", told=Name(told), low=low, high=high)
    return str(value)


def _told_number(name: str, value: float, words: Words) -> str:
    """Tell a number or a truth value."""
    if isinstance(value, bool):
        return words.say("value.yes" if value else "value.no")
    if name == "volume_solids":
        return words.amount(value, "solids_share")
    return words.amount(value, name)


def _finer(told: str, value: Any, words: Words) -> str:
    """Tell figures apart that read alike."""
    if isinstance(value, Mapping) and "value" in value:
        source = Name(value["source"]) if "source" in value else message("value.not-given")
        return words.say("value.with-source", told=Name(told), number=float(value["value"]), source=source)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return words.say("value.exact", told=Name(told), number=float(value))
    return told
