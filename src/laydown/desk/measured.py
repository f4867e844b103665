"""Instrument readings of a job of the book as they stand: kept with it, or waiting to be looked at."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from laydown.desk.book_jobs import OF_PLAN, files_of
from laydown.desk.readings import fetched, map_in
from laydown.planning.panel_spectra import with_lab
from laydown.reader.reading_map import USUAL_MAP
from laydown.reader.readings import Looked, look_into
from laydown.reader.spectral_weights import read_spectral_weights
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.schema.reading import ReadingMap, Readings
from laydown.store.book import Book

WAITING = f"{OF_PLAN}new"
"""End of the id under which readings wait; no plan has it, because its id is hexadecimal."""


@dataclass(frozen=True, slots=True)
class Measured:
    """Readings of a job, kept with it or waiting to be.

    Attributes
    ----------
    name
        Name of the file.
    files
        Contents of the file and, if there is one, of its mapping, by name.
    mapping, mapping_name
        How it is understood, and the file that says so, if there is one.
    waiting
        Whether it waits to be looked at.
    looked
        What was found in it.
    readings
        All in CIELAB; none where anything is wrong.
    problems
        Everything that is wrong.
    """

    name: str
    files: Mapping[str, bytes]
    mapping: ReadingMap
    mapping_name: str | None
    waiting: bool
    looked: Looked
    readings: Readings | None
    problems: tuple[Problem, ...]

    @property
    def content(self) -> bytes:
        """Content of the file."""
        return self.files[self.name]

    @property
    def digest(self) -> str:
        """What tells this file from another."""
        return hashlib.sha256(self.content).hexdigest()[:16]


def measured_of(book: Book, job_id: str, job: Job) -> Measured | None:
    """Return the readings of a job.

    Parameters
    ----------
    book
        The book.
    job_id
        Its id.
    job
        The job.

    Returns
    -------
    Those that wait, else those that are kept; None where there are none, or where they did not come with the job.
    """
    waiting = files_of(book, job_id + WAITING)
    if waiting:
        kept = book.job(job_id + WAITING)
        sample = json.loads(kept.text)["sample"] if kept is not None else {}
        return _measured(sample["readings"], sample["readings_map"], waiting, waiting=True)
    files = files_of(book, job_id)
    if job.sample.readings is None or job.sample.readings not in files:
        return None
    return _measured(job.sample.readings, job.sample.readings_map, files, waiting=False)


def _measured(name: str, mapping_name: str | None, files: Mapping[str, bytes], *, waiting: bool) -> Measured:
    """Look into a file as its mapping says."""
    mapping = USUAL_MAP
    problems: tuple[Problem, ...] = ()
    try:
        if mapping_name is not None:
            mapping = map_in(fetched(files, mapping_name), mapping_name)
    except InputError as error:
        problems = tuple(
            Problem(f"{mapping_name}: {one.where}", one.what, one.hint) for one in error.problems
        )
    looked = look_into(files[name], Path(name).name, mapping)
    problems += looked.problems
    readings = looked.readings
    if readings is not None:
        made = with_lab(readings, read_spectral_weights(), name)
        problems += () if isinstance(made, Readings) else made
        readings = made if isinstance(made, Readings) and not problems else None
    return Measured(name, files, mapping, mapping_name, waiting, looked, readings, problems)
