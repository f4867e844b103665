"""Looking through files without planning anything."""

from dataclasses import dataclass
from pathlib import Path

from laydown.desk.job import open_job, open_side, recipe_problems
from laydown.reader.files import LARGEST_PLAN, read_table, refused
from laydown.reader.format import KINDS, kind_of
from laydown.reader.plan_file import read_plan
from laydown.reader.product_file import read_product
from laydown.schema.problem import InputError, Problem


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found in one file.

    Attributes
    ----------
    file
        The file.
    kind
        Job, product, side or plan; empty if it could not be told.
    problems
        Everything that is wrong; empty for a sound file.
    """

    file: str
    kind: str
    problems: tuple[Problem, ...]


def check_files(paths: tuple[Path, ...]) -> tuple[Checked, ...]:
    """Check files of any kind.

    Parameters
    ----------
    paths
        Job, product, side or plan files.

    Returns
    -------
    One result for each, in order.
    """
    return tuple(_check_file(path) for path in paths)


def _check_file(path: Path) -> Checked:
    """Read one file by what it says it is."""
    kind = ""
    try:
        raw = read_table(path, LARGEST_PLAN)
        kind = kind_of(raw)
        if not kind:
            known = ", ".join(f'format = "{name}/1"' for name in KINDS)
            raise refused(path, "does not say what it is", f"begin it with one of {known}")
        _read(path, kind)
    except InputError as error:
        return Checked(str(path), kind, error.problems)
    return Checked(str(path), kind, ())


def _read(path: Path, kind: str) -> None:
    """Read a file of a known kind with everything that belongs to it."""
    if kind == "job":
        open_job(path)
    elif kind == "product":
        problems = tuple(recipe_problems(read_product(path)))
        if problems:
            raise InputError(str(path), problems)
    elif kind == "side":
        open_side(path)
    else:
        read_plan(path)
