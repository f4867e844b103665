"""Instrument readings that a job names: read, confirmed, all turned into CIELAB."""

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
    if sample.readings is None:
        if sample.readings_map is None:
            return None, ()
        return None, (
            Problem("sample.readings_map", "has no readings beside it", "name the file as sample.readings"),
        )
    try:
        mapping = USUAL_MAP if sample.readings_map is None else read_reading_map(folder / sample.readings_map)
    except InputError as error:
        return None, _placed(sample.readings_map or "", error)
    try:
        found = read_readings(folder / sample.readings, mapping)
    except InputError as error:
        return None, _placed(sample.readings, error)
    open_questions = [one for one in found.understood if not one.confirmed]
    if open_questions:
        hint = "if that is right, write confirmed = true in the mapping and name it as sample.readings_map"
        return None, tuple(
            Problem(f"{sample.readings}: {one.where}", f"was understood as: {one.what}", hint)
            for one in open_questions
        )
    made = with_lab(found, read_spectral_weights(), sample.readings)
    return (made, ()) if isinstance(made, Readings) else (None, made)


def _placed(name: str, error: InputError) -> tuple[Problem, ...]:
    """Problems of a file that the job names, each with the file in front."""
    return tuple(Problem(f"{name}: {one.where}", one.what, one.hint) for one in error.problems)
