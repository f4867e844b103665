"""Looking through files without planning anything."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from laydown.planning.counts.spectra import with_lab
from laydown.planning.setup.request import Products, Request
from laydown.reader.files import (
    KINDS,
    LARGEST_PLAN,
    kind_of,
    read_bytes,
    read_table,
    refused,
    table_of,
    text_of,
)
from laydown.reader.instrument.mapping import USUAL_MAP, decode_reading_map
from laydown.reader.instrument.raw import LARGEST_READINGS
from laydown.reader.instrument.readings import decode_readings
from laydown.reader.papers.job_file import read_job
from laydown.reader.papers.other_files import read_plan, read_product, read_side
from laydown.reader.papers.shelf import read_products
from laydown.reader.papers.side_svg import read_side_svg
from laydown.reader.papers.tables import read_spectral_weights
from laydown.schema.choices import Sample
from laydown.schema.job import Job
from laydown.schema.problem import InputError, Problem
from laydown.schema.product import Product, RecipeLine
from laydown.schema.reading import ReadingMap, Readings
from laydown.schema.side import Side
from laydown.trade.mixing.recipe import RecipeError, recipe_faults
from laydown.trade.mixing.water_percent import in_house_convention
from laydown.trade.side.build import build_side, check_side, find_panel
from laydown.version import VERSION

Fetch = Callable[[str], bytes]
"""Gives the content of a file that a job names; raises `InputError` where there is none."""


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
    return _settled(sample, lambda name: read_bytes(folder / name, LARGEST_READINGS))


def readings_among(sample: Sample, files: Mapping[str, bytes]) -> tuple[Readings | None, tuple[Problem, ...]]:
    """Read the instrument readings of a let-down panel from files that lie beside a job in the book.

    Parameters
    ----------
    sample
        What the job says of the panel.
    files
        Contents by the names the job gives them.

    Returns
    -------
    As `readings_of`; but a file of readings that did not come with its job is no problem: the plan says that it was
    not at hand.
    """
    if sample.readings is not None and sample.readings not in files:
        return None, ()

    return _settled(sample, lambda name: fetched(files, name))


def fetched(files: Mapping[str, bytes], name: str) -> bytes:
    """Return a file that lies beside a job.

    Parameters
    ----------
    files
        Contents by name.
    name
        As the job names it.

    Returns
    -------
    Its content.

    Raises
    ------
    InputError
        It is not there.
    """
    if name not in files:
        hint = "bring the job in together with its files, or enter the readings anew"
        raise InputError(name, (Problem("file", "does not lie beside the job", hint),))
    return files[name]


def zone_problem(sample: Sample, readings: Readings) -> tuple[Problem, ...]:
    """Return what is wrong with the zone whose count is planned.

    Parameters
    ----------
    sample
        What the job says of the panel.
    readings
        What was read.

    Returns
    -------
    A problem if no car was read under the name of the zone.
    """
    zones = list(dict.fromkeys(one.zone for one in readings.readings if one.role == "car"))
    wanted = (sample.zone or "").strip().casefold()
    if not wanted or not zones or wanted in {zone.strip().casefold() for zone in zones}:
        return ()
    close = get_close_matches(sample.zone or "", zones, n=1, cutoff=0.5)
    near = f"did you mean '{close[0]}'? " if close else ""
    hint = f"{near}{sample.readings} has {', '.join(zone or 'a car without zone' for zone in zones)}"
    return (Problem("sample.zone", f"'{sample.zone}' was not read", hint),)


def map_in(content: bytes, name: str) -> ReadingMap:
    """Return the mapping in the content of a file.

    Parameters
    ----------
    content
        TOML or JSON.
    name
        Its name; the ending tells which.

    Returns
    -------
    The mapping.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    path = Path(name)
    return decode_reading_map(table_of(text_of(content, path), path), path)


def _settled(sample: Sample, fetch: Fetch) -> tuple[Readings | None, tuple[Problem, ...]]:
    """Read, ask and turn into CIELAB."""
    if sample.readings is None and sample.readings_map is not None:
        return None, (
            Problem("sample.readings_map", "has no readings beside it", "name the file as sample.readings"),
        )
    if sample.readings is None:
        return None, ()
    found = _read(sample.readings, sample.readings_map, fetch)
    if not isinstance(found, Readings):
        return None, found
    made = with_lab(found, read_spectral_weights(), sample.readings)
    if not isinstance(made, Readings):
        return None, made
    unknown = zone_problem(sample, made)
    return (None, unknown) if unknown else (made, ())


def _read(name: str, mapping_name: str | None, fetch: Fetch) -> Readings | tuple[Problem, ...]:
    """Read a file as its mapping says; what is only guessed is asked."""
    try:
        mapping = USUAL_MAP if mapping_name is None else map_in(fetch(mapping_name), mapping_name)
    except InputError as error:
        return _placed(mapping_name or "", error.problems)
    try:
        found = decode_readings(fetch(name), Path(name).name, mapping)
    except InputError as error:
        return _placed(name, error.problems)
    if not isinstance(found, Readings):
        return _placed(name, found)
    hint = "if that is right, write confirmed = true in the mapping and name it as sample.readings_map"
    asked = tuple(
        Problem(f"{name}: {one.where}", f"was understood as: {one.what}", hint)
        for one in found.understood
        if not one.confirmed
    )
    return asked or found


def _placed(name: str, problems: tuple[Problem, ...]) -> tuple[Problem, ...]:
    """Problems of a file that the job names, each with the file in front."""
    return tuple(Problem(f"{name}: {one.where}", one.what, one.hint) for one in problems)


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
        _read_check(path, kind)
    except InputError as error:
        return Checked(str(path), kind, error.problems)
    return Checked(str(path), kind, ())


def _read_check(path: Path, kind: str) -> None:
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
