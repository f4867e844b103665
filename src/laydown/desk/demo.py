"""The demonstration: an invented job with its shelf, written out and planned."""

from dataclasses import dataclass
from pathlib import Path

from laydown.desk.plans.outputs import write_outputs
from laydown.desk.plans.plan import Answer, plan_job
from laydown.planning.plan import OnProgress
from laydown.reader.files import read_bytes
from laydown.reader.papers.shelf import shipped_folder
from laydown.reader.write import write_folder
from laydown.words.show import Words

JOB = "white-pearl-left.toml"
"""The job that the demonstration plans."""


@dataclass(frozen=True, slots=True)
class Demonstration:
    """What the demonstration wrote."""

    job: Path
    answer: Answer
    files: tuple[Path, ...]


def demonstrate(folder: Path, words: Words, progress: OnProgress | None = None) -> Demonstration:
    """Write the invented jobs and shelf, plan the first and write its plan, pictures and card."""
    shipped = shipped_folder()
    jobs = sorted(path for path in (shipped / "jobs").iterdir() if path.suffix in {".toml", ".csv"})
    contents = {path.name: read_bytes(path) for path in jobs}
    contents |= {
        f"shelf/{path.name}": read_bytes(path) for path in sorted((shipped / "shelf").glob("*.toml"))
    }
    sources = write_folder(folder, contents)
    answer = plan_job(folder / JOB, progress)
    drawn = write_outputs(answer.planned, folder, words, progress)
    return Demonstration(folder / JOB, answer, (*sources, *drawn))
