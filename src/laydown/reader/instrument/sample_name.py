"""What a sample name says: angle, reading number, and whether it is a field, the ground or the car."""

import re
from dataclasses import dataclass
from functools import lru_cache

from laydown.reader.instrument.raw import RawSpot, decimal
from laydown.schema.reading import ReadingMap, SampleMeaning

LONGEST_NAME = 200
"""Letters of a sample name read at most; assumption, nobody names a field longer."""

_AS = re.compile(r"\bas ?((?:m(?:inus)? ?|-)?\d{1,3}(?:[.,]\d+)?)\b")
_DEG = re.compile(r"(?<![\w.,])(-?\d{1,3}(?:[.,]\d+)?) ?(?:deg(?:rees?)?\b|°)")
_READING = re.compile(r"(?:\b(?:reading|r) ?|#)(\d{1,3})\b")
_FIELD = re.compile(r"\bfield[ -]?(\d{1,2}(?:[.,]\d{1,2})?)(?![\w.,])")
_GROUND = re.compile(r"\bground(?: ref(?:erence)?)?\b")
_CAR = re.compile(r"\b(?:car|vehicle)\b")


@dataclass(frozen=True, slots=True)
class NameParts:
    """A sample name taken apart."""

    rest: str
    angle_deg: float | None
    angles_count: int
    number: int | None


@lru_cache(maxsize=4096)
def parts_of(name: str) -> NameParts:
    """Return a sample name taken apart."""
    rest = " ".join(name.casefold().replace("_", " ").replace("−", "-").split())
    angles = [found[1] for found in _AS.finditer(rest)]
    rest = _AS.sub(" ", rest)
    angles += [found[1] for found in _DEG.finditer(rest)]
    rest = _DEG.sub(" ", rest)
    numbers = [int(found[1]) for found in _READING.finditer(rest)]
    rest = _READING.sub(" ", rest)
    only = re.sub(r"m(?:inus)? ?", "-", angles[0]) if len(angles) == 1 else ""
    return NameParts(
        " ".join(rest.split()).strip(" -,;:/"),
        decimal(only),
        len(angles),
        numbers[0] if len(numbers) == 1 and numbers[0] > 0 else None,
    )


def spot_of(name: str, mapping: ReadingMap) -> tuple[RawSpot, bool] | None:
    """Return what a sample name stands for."""
    parts = parts_of(name)
    for sample in mapping.sample:
        if _same(sample.name, name, parts):
            return _told(sample, mapping, parts.number), True
    said = [bool(pattern.search(parts.rest)) for pattern in (_FIELD, _GROUND, _CAR)]
    if sum(said) != 1:
        return None
    pattern = (_FIELD, _GROUND, _CAR)[said.index(True)]
    if len(pattern.findall(parts.rest)) > 1:
        return None
    zone = " ".join(pattern.sub(" ", parts.rest).split()).strip(" -,;:/")[:60]
    found = _FIELD.search(parts.rest)
    if found:
        return RawSpot(mapping.panel, "field", decimal(found[1]), zone, parts.number), False
    if said[1]:
        return RawSpot(mapping.panel, "ground_ref", 0.0, zone, parts.number), False
    return RawSpot(mapping.panel, "car", None, zone, parts.number), False


def is_ignored(name: str, mapping: ReadingMap) -> bool:
    """Whether the user wants a sample left out."""
    if len(name) > LONGEST_NAME or not mapping.ignore:
        return False
    parts = parts_of(name)
    return any(_same(left_out, name, parts) for left_out in mapping.ignore)


def _same(told: str, name: str, parts: NameParts) -> bool:
    """Whether a name of the mapping means a sample, with or without angle and number."""
    plain = " ".join(told.casefold().replace("_", " ").split())
    whole = " ".join(name.casefold().replace("_", " ").split())
    return plain in {whole, parts.rest}


def _told(sample: SampleMeaning, mapping: ReadingMap, number: int | None) -> RawSpot:
    """What the user said about a sample."""
    coats = {"field": sample.coats, "ground_ref": 0.0, "car": None}[sample.role]
    return RawSpot(sample.panel or mapping.panel, sample.role, coats, sample.zone, number)
