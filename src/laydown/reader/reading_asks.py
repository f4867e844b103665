"""The samples of a file as a person is asked about them: each once, without angles and numbers of readings."""

from collections.abc import Iterable
from dataclasses import dataclass

from laydown.reader.raw_reading import RawReading, Spot
from laydown.reader.sample_name import LONGEST_NAME, is_ignored, parts_of, spot_of
from laydown.schema.reading import ReadingMap


@dataclass(frozen=True, slots=True)
class SampleAsked:
    """A sample of a file, and what it is taken for.

    Attributes
    ----------
    name
        Its name without angle and number of the reading, as a mapping explains it.
    where
        Where it stands first.
    count
        How many values it has.
    spot
        What it is taken for; none where its name says nothing or several things.
    told
        Whether the user said so.
    """

    name: str
    where: str
    count: int
    spot: Spot | None
    told: bool


def samples_asked(raw: Iterable[RawReading], mapping: ReadingMap) -> tuple[SampleAsked, ...]:
    """Return the samples of a file.

    Parameters
    ----------
    raw
        Everything the file holds.
    mapping
        What the user has said.

    Returns
    -------
    Each sample that is not left out, once, in the order of the file; none where the file itself says what was read.
    """
    found: dict[str, SampleAsked] = {}
    for one in raw:
        if one.spot is not None or not one.name or len(one.name) > LONGEST_NAME:
            continue
        if is_ignored(one.name, mapping):
            continue
        name = parts_of(one.name).rest or " ".join(one.name.casefold().split())
        before = found.get(name)
        if before is None:
            spot, told = spot_of(one.name, mapping) or (None, False)
            found[name] = SampleAsked(name, one.where, 1, spot, told)
        else:
            found[name] = SampleAsked(name, before.where, before.count + 1, before.spot, before.told)
    return tuple(found.values())
