"""A new job file from a few answers."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from laydown.desk.job import side_of
from laydown.reader.job_file import decode_job
from laydown.reader.job_text import job_text
from laydown.reader.shelf import known_products
from laydown.reader.write import write_file
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.trade.side import find_panel
from laydown.trade.side_measures import SHAPES

NEEDED = {
    "name": "what the shop calls the job",
    "side": "left or right",
    "shape": "shape of the vehicle",
    "panels": "panels that are touched, such as 'front wing=new,front door=repaired'",
    "temperature_c": "temperature of the booth air",
    "rh": "humidity of the booth air",
}
"""Answers a job cannot do without, and how to ask for them."""


def new_job(answers: Mapping[str, str], path: Path, *, replace: bool = False) -> Job:
    """Write a new job file.

    Parameters
    ----------
    answers
        By the names of `NEEDED`; further: ``ground``, ``effect``, ``clear`` (products), ``painter``.
    path
        The job file to write.
    replace
        Whether a file that is there may be replaced.

    Returns
    -------
    The job as it was written and read back.

    Raises
    ------
    InputError
        Everything that is wrong with the answers, or the file cannot be written.
    """
    if path.exists() and not replace:
        raise InputError(
            str(path), (Problem("file", "is there already", "choose another name, or add --replace"),)
        )
    try:
        job = decode_job(_raw(answers, path.parent), path)
        side = side_of(job, path)
    except InputError as error:
        raise InputError("", error.problems) from None
    strange = [find_panel(side, work.name) for work in job.panel]
    problems = tuple(item for item in strange if isinstance(item, Problem))
    if problems:
        raise InputError("", problems)
    write_file(path, job_text(job).encode())
    return job


def _raw(answers: Mapping[str, str], beside: Path) -> dict[str, Any]:
    """Arrange the answers as a raw job."""
    panels = [part.partition("=") for part in answers["panels"].split(",") if part.strip()]
    known = known_products(beside)
    names = {layer: answers.get(layer) or _first(known, layer) for layer in ("ground", "effect", "clear")}
    raw: dict[str, Any] = {
        "format": "laydown-job/1",
        "job": {"name": answers["name"], "side": answers["side"]},
        "body": {"shape": answers["shape"]},
        "panel": [{"name": name.strip(), "state": state.strip() or "repaired"} for name, _, state in panels],
        "air": {"temperature_c": answers["temperature_c"], "rh": answers["rh"]},
        "products": names,
    }
    if answers.get("painter"):
        raw["painter"] = {"name": answers["painter"]}
    return raw


def _first(known: list[str], layer: str) -> str:
    """Return the first product on the shelf whose name begins with the layer."""
    return next((name for name in known if name.startswith(layer)), f"{layer}-a")


def shape_names() -> tuple[str, ...]:
    """Return the names of the shipped shapes.

    Returns
    -------
    Names, small to large.
    """
    return tuple(SHAPES)
