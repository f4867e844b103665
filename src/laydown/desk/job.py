"""A job file becomes a request: job, side and products, read and checked against each other."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from laydown.desk.readings import readings_of
from laydown.planning.request import Products, Request
from laydown.reader.files import read_bytes, read_table
from laydown.reader.job_file import read_job
from laydown.reader.shelf import read_products
from laydown.reader.side_file import read_side
from laydown.reader.side_svg import read_side_svg
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product
from laydown.schema.reading import Readings
from laydown.schema.recipe import RecipeLine
from laydown.schema.side import Side
from laydown.trade.percent import in_house_convention
from laydown.trade.recipe_check import RecipeError, recipe_faults
from laydown.trade.side import build_side, check_side, find_panel
from laydown.version import VERSION

LARGEST_DRAWING = 8_000_000
"""Bytes of a drawing read at most; its reader says what is too much below that; assumption."""


def open_job(path: Path, made_at: str | None = None, *, with_readings: bool = True) -> Request:
    """Read a job with everything it names.

    Parameters
    ----------
    path
        The job file.
    made_at
        Time of making as ISO 8601 text, or None so that the same job gives the same plan.
    with_readings
        Whether the readings of the let-down panel are read too.

    Returns
    -------
    What the planner is asked.

    Raises
    ------
    InputError
        Everything that is wrong with the job, its side and its products.
    """
    try:
        job = read_job(path)
    except InputError as error:
        named = {problem.where for problem in error.problems}
        more = (problem for problem in _side_problems(path) if problem.where not in named)
        raise InputError(error.file, tuple(dict.fromkeys((*error.problems, *more)))) from None
    problems: list[Problem] = []
    side: Side | None = None
    try:
        side = side_of(job, path)
        problems += _panel_problems([work.name for work in job.panel], side)
    except InputError as error:
        problems += error.problems
    products, faults = read_products(job, path)
    problems += faults
    readings: Readings | None = None
    if with_readings:
        readings, unread = readings_of(job.sample, path.parent)
        problems += unread
    for product in products.values():
        problems += recipe_problems(product, f"{product.key}: ")
    if side is None or problems:
        raise InputError(str(path), tuple(dict.fromkeys(problems)))
    return Request(job, side, Products(**products), VERSION, made_at, readings)


def side_of(job: Job, path: Path) -> Side:
    """Build the side of a job from its shape, or read it from its file.

    Parameters
    ----------
    job
        The job.
    path
        Its file; a side file lies beside it.

    Returns
    -------
    The side, checked.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    if job.body.file is not None:
        return open_side(path.parent / job.body.file)
    built = build_side(job.body.shape or "", job.body.measures)
    if isinstance(built, tuple):
        raise InputError(str(path), built)
    return built


def open_side(path: Path) -> Side:
    """Read a side file or a drawing and check that it can be painted.

    Parameters
    ----------
    path
        JSON, TOML or SVG.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    drawing = path.suffix.lower() == ".svg"
    side = read_side_svg(read_bytes(path, LARGEST_DRAWING), path.stem) if drawing else read_side(path)
    problems = side if isinstance(side, tuple) else check_side(side)
    if isinstance(side, tuple) or problems:
        raise InputError(str(path), problems)
    return side


def _panel_problems(names: Sequence[str], side: Side) -> Iterator[Problem]:
    """List the panels of the job that the side does not have, or that are meant twice."""
    seen: dict[str, int] = {}
    for number, name in enumerate(names, start=1):
        found = find_panel(side, name)
        if isinstance(found, Problem):
            yield Problem(f"panel[{number}].name", found.what, found.hint)
            continue
        if found.id in seen:
            what = f"'{name}' is the same panel as panel[{seen[found.id]}]"
            yield Problem(f"panel[{number}].name", what, "keep one of the two")
        seen.setdefault(found.id, number)


def _side_problems(path: Path) -> Iterator[Problem]:
    """List what is wrong with shape and panel names of a job that has other faults too, so that all come at once."""
    try:
        raw = read_table(path)
    except InputError:
        return
    body, panels = raw.get("body"), raw.get("panel")
    shape = body.get("shape") if isinstance(body, dict) else None
    if not isinstance(shape, str):
        return
    built = build_side(shape, {})
    if isinstance(built, tuple):
        yield from built
        return
    names = (
        [entry.get("name") for entry in panels if isinstance(entry, dict)] if isinstance(panels, list) else []
    )
    if all(isinstance(name, str) for name in names):
        yield from _panel_problems([str(name) for name in names], built)


def recipe_problems(product: Product, before: str = "") -> Iterator[Problem]:
    """List what keeps the recipe of a product from becoming grams.

    Parameters
    ----------
    product
        The product.
    before
        Text in front of each place.

    Returns
    -------
    Problems with the place in the product file.
    """
    lines: tuple[RecipeLine, ...] = product.recipe
    try:
        lines = in_house_convention(lines)
        faults = recipe_faults(lines)
    except RecipeError as error:
        faults = error.faults
    for fault in faults:
        place = f"{before}recipe[{fault.line}].{fault.field}" if fault.line else f"{before}recipe"
        yield Problem(place, fault.what, fault.hint)
