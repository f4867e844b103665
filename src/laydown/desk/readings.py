"""Instrument readings that a job names: read, confirmed, all turned into CIELAB."""

from collections.abc import Callable, Mapping
from difflib import get_close_matches
from pathlib import Path

from laydown.planning.panel_spectra import with_lab
from laydown.reader.files import read_bytes, table_of, text_of
from laydown.reader.raw_reading import LARGEST_READINGS
from laydown.reader.reading_map import USUAL_MAP, decode_reading_map
from laydown.reader.readings import decode_readings
from laydown.reader.spectral_weights import read_spectral_weights
from laydown.schema.choices import Sample
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap, Readings

Fetch = Callable[[str], bytes]
"""Gives the content of a file that a job names; raises `InputError` where there is none."""


def readings_of(sample: Sample, folder: Path) -> tuple[Readings | None, tuple[Problem, ...]]:
    """Read the instrument readings of a let-down panel.

    Parameters
    ----------
    sample
        What the job says of the panel.
    folder
        Folder of the job file; names are taken from there.

    Returns
    -------
    The readings in CIELAB, None where the job names none or they cannot be used; and everything that is wrong. What
    was understood from names alone counts only once the user has confirmed it.
    """
    return _settled(sample, lambda name: read_bytes(folder / name, LARGEST_READINGS))


def readings_among(sample: Sample, files: Mapping[str, bytes]) -> tuple[Readings | None, tuple[Problem, ...]]:
    """Read the instrument readings of a let-down panel from files that lie beside a job in the book.

    Parameters
    ----------
    sample
        What the job says of the panel.
    files
        Contents by the names the job gives them.

    Returns
    -------
    As `readings_of`; but a file of readings that did not come with its job is no problem: the plan says that it was
    not at hand.
    """
    if sample.readings is not None and sample.readings not in files:
        return None, ()

    return _settled(sample, lambda name: fetched(files, name))


def fetched(files: Mapping[str, bytes], name: str) -> bytes:
    """Return a file that lies beside a job.

    Parameters
    ----------
    files
        Contents by name.
    name
        As the job names it.

    Returns
    -------
    Its content.

    Raises
    ------
    InputError
        It is not there.
    """
    if name not in files:
        hint = "bring the job in together with its files, or enter the readings anew"
        raise InputError(name, (Problem("file", "does not lie beside the job", hint),))
    return files[name]


def zone_problem(sample: Sample, readings: Readings) -> tuple[Problem, ...]:
    """Return what is wrong with the zone whose count is planned.

    Parameters
    ----------
    sample
        What the job says of the panel.
    readings
        What was read.

    Returns
    -------
    A problem if no car was read under the name of the zone.
    """
    zones = list(dict.fromkeys(one.zone for one in readings.readings if one.role == "car"))
    wanted = (sample.zone or "").strip().casefold()
    if not wanted or not zones or wanted in {zone.strip().casefold() for zone in zones}:
        return ()
    close = get_close_matches(sample.zone or "", zones, n=1, cutoff=0.5)
    near = f"did you mean '{close[0]}'? " if close else ""
    hint = f"{near}{sample.readings} has {', '.join(zone or 'a car without zone' for zone in zones)}"
    return (Problem("sample.zone", f"'{sample.zone}' was not read", hint),)


def map_in(content: bytes, name: str) -> ReadingMap:
    """Return the mapping in the content of a file.

    Parameters
    ----------
    content
        TOML or JSON.
    name
        Its name; the ending tells which.

    Returns
    -------
    The mapping.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    path = Path(name)
    return decode_reading_map(table_of(text_of(content, path), path), path)


def _settled(sample: Sample, fetch: Fetch) -> tuple[Readings | None, tuple[Problem, ...]]:
    """Read, ask and turn into CIELAB."""
    if sample.readings is None and sample.readings_map is not None:
        return None, (
            Problem("sample.readings_map", "has no readings beside it", "name the file as sample.readings"),
        )
    if sample.readings is None:
        return None, ()
    found = _read(sample.readings, sample.readings_map, fetch)
    if not isinstance(found, Readings):
        return None, found
    made = with_lab(found, read_spectral_weights(), sample.readings)
    if not isinstance(made, Readings):
        return None, made
    unknown = zone_problem(sample, made)
    return (None, unknown) if unknown else (made, ())


def _read(name: str, mapping_name: str | None, fetch: Fetch) -> Readings | tuple[Problem, ...]:
    """Read a file as its mapping says; what is only guessed is asked."""
    try:
        mapping = USUAL_MAP if mapping_name is None else map_in(fetch(mapping_name), mapping_name)
    except InputError as error:
        return _placed(mapping_name or "", error.problems)
    try:
        found = decode_readings(fetch(name), Path(name).name, mapping)
    except InputError as error:
        return _placed(name, error.problems)
    if not isinstance(found, Readings):
        return _placed(name, found)
    hint = "if that is right, write confirmed = true in the mapping and name it as sample.readings_map"
    asked = tuple(
        Problem(f"{name}: {one.where}", f"was understood as: {one.what}", hint)
        for one in found.understood
        if not one.confirmed
    )
    return asked or found


def _placed(name: str, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Problems of a file that the job names, each with the file in front."""
    return tuple(Problem(f"{name}: {one.where}", one.what, one.hint) for one in problems)
