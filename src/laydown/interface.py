"""laydown for Python programs: everything that ``import laydown`` offers."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from laydown.desk.papers.files import open_job, request_of
from laydown.desk.plans.outputs import drawings, write_plan
from laydown.desk.plans.plan import changed_job
from laydown.planning.plan import make_plan
from laydown.reader.papers.job_file import checked_job
from laydown.reader.papers.job_file import read_job as read_job_file
from laydown.reader.papers.shelf import shipped_folder
from laydown.report.text.plan import plan_text
from laydown.schema.job import Job
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError
from laydown.units import System
from laydown.words.show import Words

EXAMPLE = shipped_folder() / "jobs" / "wing-and-door.toml"
"""An invented job that ships with laydown."""

JobOrPath = Job | str | os.PathLike[str]
"""A job, or the file it stands in."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """A job planned as it is and with something changed.

    Attributes
    ----------
    before, after
        The two plans.
    """

    before: Plan
    after: Plan


def read_job(path: str | os.PathLike[str]) -> Job:
    """Read a job file.

    Parameters
    ----------
    path
        The file, TOML or JSON.

    Returns
    -------
    Job
        What stands in the file, in house units; `dataclasses.replace` changes it.

    Raises
    ------
    InputError
        The file has faults; `problems` lists all of them, each with its place and how to mend it.

    Examples
    --------
    >>> import laydown
    >>> job = laydown.read_job(laydown.EXAMPLE)
    >>> job.body.shape
    'medium hatch'
    """
    with _explained():
        return read_job_file(Path(path))


@contextmanager
def _explained() -> Iterator[None]:
    """Say what is wrong below the traceback of a refusal."""
    try:
        yield
    except InputError as error:
        words = Words()
        for problem in error.problems:
            hint = f"; {words(problem.hint)}" if problem.hint else ""
            error.add_note(f"{problem.where}: {words(problem.what)}{hint}")
        raise


def plan(job: JobOrPath, *, folder: str | os.PathLike[str] | None = None, made_at: str | None = None) -> Plan:
    """Plan a job.

    Parameters
    ----------
    job
        A job, or its file. A job is checked as its file would be.
    folder
        Where the products, readings and drawings lie that a job names that was read; None: the current folder. What a
        job file names lies beside it. The invented products that ship with laydown are always at hand.
    made_at
        Time as ISO 8601 text that the plan carries; None leaves it out, so that the same job gives the same plan bit for bit.

    Returns
    -------
    Plan
        The plan in house units: lengths in metres, film in micrometres, times in seconds; shares 0 to 1.

    Raises
    ------
    InputError
        The job or a file that it names has faults. A job that cannot be sprayed well has none: its plan says stop.
    ValueError
        A folder is given for a job file.

    Examples
    --------
    >>> import laydown
    >>> plan = laydown.plan(laydown.EXAMPLE)
    >>> [layer.name for layer in plan.layers]
    ['ground', 'effect', 'clear']
    """
    with _explained():
        if isinstance(job, Job):
            place = Path(folder or ".") / "job.toml"
            request = request_of(checked_job(job, place), place, made_at)
        else:
            _own_folder(folder)
            request = open_job(Path(job), made_at)
    return make_plan(request, drawn=False).plan


def _own_folder(folder: str | os.PathLike[str] | None) -> None:
    """Refuse a folder for the files of a job that is a file itself."""
    if folder is not None:
        raise ValueError("folder is for a job that was read; what a job file names lies beside it")


def what_if(
    job: JobOrPath, *, folder: str | os.PathLike[str] | None = None, **changes: float | str | bool
) -> Comparison:
    """Plan a job as it is and with something changed.

    Parameters
    ----------
    job, folder
        As for `plan`.
    **changes
        What to change: temperature_c, rh, reducer, water, hardener, nozzle_mm, ground_coats, effect_coats, painters,
        can_walk, spare_cup, refill_s, speed_m_s. Numbers in house units, or text with a unit such as ``"59 °F"``.

    Returns
    -------
    Comparison
        Both plans, whole.

    Raises
    ------
    InputError
        The job has faults, or a change is unknown or out of its range.
    ValueError
        A folder is given for a job file.

    Examples
    --------
    >>> import laydown
    >>> found = laydown.what_if(laydown.EXAMPLE, temperature_c=15.0)
    >>> found.after.inputs.air["temperature_c"].value
    15.0
    """
    if not isinstance(job, Job):
        _own_folder(folder)
    now, place = (job, folder) if isinstance(job, Job) else (read_job(job), Path(job).parent)
    with _explained():
        new = changed_job(now, changes)
    return Comparison(plan(job, folder=folder), plan(new, folder=place))


def text(plan: Plan, *, system: System = "metric", language: str = "en", width: int = 80) -> str:
    """Return a plan as it is printed.

    Parameters
    ----------
    plan
        A plan.
    system
        "metric" or "us".
    language
        Language of the sentences.
    width
        Columns of a line, at least 72.

    Returns
    -------
    str
        Lines of plain text.

    Raises
    ------
    ValueError
        There is no such language, or the lines are too narrow.

    Examples
    --------
    >>> import laydown
    >>> lines = laydown.text(laydown.plan(laydown.EXAMPLE), system="us").splitlines()
    >>> max(len(line) for line in lines) <= 80
    True
    """
    return plan_text(plan, Words(language, system), width)


def pictures(plan: Plan) -> tuple[str, ...]:
    """Return the names of the pictures of a plan.

    Parameters
    ----------
    plan
        A plan.

    Returns
    -------
    tuple of str
        Names for `picture`.

    Examples
    --------
    >>> import laydown
    >>> "day" in laydown.pictures(laydown.plan(laydown.EXAMPLE))
    True
    """
    return tuple(drawings(plan, Words()))


def picture(plan: Plan, name: str, *, system: System = "metric", language: str = "en") -> str:
    """Draw a picture of a plan.

    Parameters
    ----------
    plan
        A plan.
    name
        One of `pictures`.
    system, language
        As for `text`.

    Returns
    -------
    str
        The picture as SVG.

    Raises
    ------
    ValueError
        The plan has no such picture, or there is no such language.

    Examples
    --------
    >>> import laydown
    >>> laydown.picture(laydown.plan(laydown.EXAMPLE), "day").startswith("<svg")
    True
    """
    drawn = drawings(plan, Words(language, system))
    if name not in drawn:
        raise ValueError(f"the plan has no picture {name!r}; it has {', '.join(drawn)}")
    return drawn[name]()


def write(
    plan: Plan, folder: str | os.PathLike[str], *, system: System = "metric", language: str = "en"
) -> tuple[Path, ...]:
    """Write a plan into a folder: its document, the booth card and its pictures, all of them or none.

    Parameters
    ----------
    plan
        A plan.
    folder
        Where to write; made if it is missing.
    system, language
        As for `text`; the document is always metric.

    Returns
    -------
    tuple of Path
        The files.

    Raises
    ------
    InputError
        The folder cannot be written.
    ValueError
        There is no such language.

    Notes
    -----
    Maps of the film need more than the plan holds; the command ``laydown plan -o`` draws them as well.

    Examples
    --------
    >>> import laydown, tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     files = laydown.write(laydown.plan(laydown.EXAMPLE), folder)
    >>> "card.pdf" in [file.name for file in files]
    True
    """
    with _explained():
        return tuple(write_plan(plan, Path(folder), Words(language, system)))
