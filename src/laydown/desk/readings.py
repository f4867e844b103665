"""Instrument readings that a job names: read, confirmed, all turned into CIELAB."""

from difflib import get_close_matches
from pathlib import Path

from laydown.planning.panel_spectra import with_lab
from laydown.reader.readings import USUAL_MAP, read_reading_map, read_readings
from laydown.reader.spectral_weights import read_spectral_weights
from laydown.schema.choices import Sample
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import Readings


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
    if sample.readings is None and sample.readings_map is not None:
        return None, (
            Problem("sample.readings_map", "has no readings beside it", "name the file as sample.readings"),
        )
    if sample.readings is None:
        return None, ()
    found = _read(sample.readings, sample.readings_map, folder)
    if not isinstance(found, Readings):
        return None, found
    made = with_lab(found, read_spectral_weights(), sample.readings)
    if not isinstance(made, Readings):
        return None, made
    unknown = _zone_problem(sample, made)
    return (None, unknown) if unknown else (made, ())


def _read(name: str, mapping_name: str | None, folder: Path) -> Readings | tuple[Problem, ...]:
    """Read a file as its mapping says; what is only guessed is asked."""
    try:
        mapping = USUAL_MAP if mapping_name is None else read_reading_map(folder / mapping_name)
    except InputError as error:
        return _placed(mapping_name or "", error)
    try:
        found = read_readings(folder / name, mapping)
    except InputError as error:
        return _placed(name, error)
    hint = "if that is right, write confirmed = true in the mapping and name it as sample.readings_map"
    asked = tuple(
        Problem(f"{name}: {one.where}", f"was understood as: {one.what}", hint)
        for one in found.understood
        if not one.confirmed
    )
    return asked or found


def _zone_problem(sample: Sample, readings: Readings) -> tuple[Problem, ...]:
    """A zone that was not read."""
    zones = list(dict.fromkeys(one.zone for one in readings.readings if one.role == "car"))
    wanted = (sample.zone or "").strip().casefold()
    if not wanted or not zones or wanted in {zone.strip().casefold() for zone in zones}:
        return ()
    close = get_close_matches(sample.zone or "", zones, n=1, cutoff=0.5)
    near = f"did you mean '{close[0]}'? " if close else ""
    hint = f"{near}{sample.readings} has {', '.join(zone or 'a car without zone' for zone in zones)}"
    return (Problem("sample.zone", f"'{sample.zone}' was not read", hint),)


def _placed(name: str, error: InputError) -> tuple[Problem, ...]:
    """Problems of a file that the job names, each with the file in front."""
    return tuple(Problem(f"{name}: {one.where}", one.what, one.hint) for one in error.problems)
