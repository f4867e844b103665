"""Reading a job file: its fields, and what they say together."""

from pathlib import Path
from typing import Any

from laydown.reader.files import read_table
from laydown.reader.format import decode_file
from laydown.reader.job_rules import job_rules
from laydown.reader.shelf import LAYERS, find_product, missing_product
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem

SOURCE = "job file"
"""Source of a figure of the job that names none."""


def read_job(path: Path) -> Job:
    """Read a job file.

    Parameters
    ----------
    path
        TOML or JSON.

    Returns
    -------
    The job.

    Raises
    ------
    InputError
        Everything that is wrong: fields, rules about the whole file, and products that lie nowhere.
    """
    return decode_job(read_table(path), path)


def decode_job(raw: dict[str, Any], path: Path) -> Job:
    """Turn a raw table into a job.

    Parameters
    ----------
    raw
        As read from a file or a form.
    path
        Its file, for messages and for the shelf beside it.

    Returns
    -------
    The job.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    decoded = decode_file(Job, raw, path, SOURCE)
    problems = (*decoded.problems, *job_rules(decoded.parts, raw), *_files(raw, path.parent))
    if decoded.noun is None or problems:
        raise InputError(str(path), tuple(dict.fromkeys(problems)))
    return decoded.noun


def _files(raw: dict[str, Any], beside: Path) -> list[Problem]:
    """List the files a job names that do not exist."""
    problems: list[Problem] = []
    products = raw.get("products")
    for layer in LAYERS if isinstance(products, dict) else ():
        name = products.get(layer)  # type: ignore[union-attr]
        if isinstance(name, str) and name and find_product(name, beside) is None:
            problems.append(missing_product(layer, name[:60], beside))
    for table, key in (("body", "file"), ("sample", "readings")):
        inside = raw.get(table)
        name = inside.get(key) if isinstance(inside, dict) else None
        if isinstance(name, str) and not _exists(beside / name):
            problems.append(
                Problem(f"{table}.{key}", f"no file '{name[:60]}' beside the job", "check the name")
            )
    return problems


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):
        return False
