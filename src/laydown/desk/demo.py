"""The demonstration: an invented job with its shelf, written out and planned."""

from dataclasses import dataclass
from pathlib import Path

from laydown.desk.plans.outputs import write_outputs
from laydown.desk.plans.plan import Answer, Progress, plan_job
from laydown.reader.files import read_bytes
from laydown.reader.papers.shelf import shipped_folder
from laydown.reader.write import write_folder
from laydown.units import System

JOB = "white-pearl-left.toml"
"""The job that the demonstration plans."""


@dataclass(frozen=True, slots=True)
class Demonstration:
    """What the demonstration wrote.

    Attributes
    ----------
    job
        The job file.
    answer
        The plan.
    files
        Everything written.
    """

    job: Path
    answer: Answer
    files: tuple[Path, ...]


def demonstrate(folder: Path, system: System, progress: Progress | None = None) -> Demonstration:
    """Write the invented jobs and shelf, plan the first and write its plan, pictures and card.

    Parameters
    ----------
    folder
        Where to; made if needed.
    system
        Units of the card.
    progress
        Told how far it is.

    Returns
    -------
    What was written.

    Raises
    ------
    InputError
        The folder cannot be written.
    """
    shipped = shipped_folder()
    jobs = sorted(path for path in (shipped / "jobs").iterdir() if path.suffix in {".toml", ".csv"})
    contents = {path.name: read_bytes(path) for path in jobs}
    contents |= {
        f"shelf/{path.name}": read_bytes(path) for path in sorted((shipped / "shelf").glob("*.toml"))
    }
    sources = write_folder(folder, contents)
    answer = plan_job(folder / JOB, progress)
    drawn = write_outputs(answer.planned, folder, system, progress)
    return Demonstration(folder / JOB, answer, (*sources, *drawn))
