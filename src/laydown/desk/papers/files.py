"""Looking through files without planning anything."""

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

from laydown.planning.counts.spectra import with_lab
from laydown.planning.setup.request import Products, Request
from laydown.reader.faults import first_line
from laydown.reader.files import (
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
from laydown.reader.papers.shelf import LAYERS, read_named_product
from laydown.reader.papers.side_svg import read_side_svg
from laydown.reader.papers.tables import read_spectral_weights
from laydown.schema.choices import Sample
from laydown.schema.job import Job
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError, Problem, gathered
from laydown.schema.product import Product
from laydown.schema.reading import ReadingMap, Readings
from laydown.schema.side import Side
from laydown.trade.mixing.recipe import recipe_problems
from laydown.trade.mixing.water_percent import in_house_convention
from laydown.trade.side.build import build_side, check_side, panel_problems
from laydown.version import VERSION

Fetch = Callable[[str], bytes]
"""Gives the content of a file that a job names; raises `InputError` where there is none."""


def readings_of(sample: Sample, folder: Path) -> Readings | None:
    """Read the instrument readings of a let-down panel."""
    return _settled(sample, lambda name: read_bytes(folder / name, LARGEST_READINGS))


def readings_among(sample: Sample, files: Mapping[str, bytes]) -> Readings | None:
    """Read the instrument readings of a let-down panel from files that lie beside a job in the book."""
    if sample.readings is not None and sample.readings not in files:
        return None
    return _settled(sample, lambda name: fetched(files, name))


def fetched(files: Mapping[str, bytes], name: str) -> bytes:
    """Return a file that lies beside a job."""
    if name not in files:
        hint = message("not-beside-job.hint")
        raise InputError(name, (Problem("file", message("not-beside-job"), hint),))
    return files[name]


def zone_problem(sample: Sample, readings: Readings) -> tuple[Problem, ...]:
    """Return what is wrong with the zone whose count is planned."""
    zones = list(dict.fromkeys(one.zone for one in readings.readings if one.role == "car"))
    wanted = (sample.zone or "").strip().casefold()
    if not wanted or not zones or wanted in {zone.strip().casefold() for zone in zones}:
        return ()
    close = get_close_matches(sample.zone or "", zones, n=1, cutoff=0.5)
    file = Name(sample.readings or "")
    read = tuple(Name(zone) if zone else message("car-without-zone") for zone in zones)
    hint = message("zone-unread.hint", file=file, zones=read)
    if close:
        hint = message("zone-unread.near", near=Name(close[0]), file=file, zones=read)
    return (Problem("sample.zone", message("zone-unread", zone=Name(sample.zone or "")), hint),)


def map_in(content: bytes, name: str) -> ReadingMap:
    """Return the mapping in the content of a file."""
    path = Path(name)
    return decode_reading_map(table_of(text_of(content, path), path), path)


def _settled(sample: Sample, fetch: Fetch) -> Readings | None:
    """Read, ask and turn into CIELAB."""
    if sample.readings is None and sample.readings_map is not None:
        what, hint = message("map-without-readings"), message("map-without-readings.hint")
        raise InputError("", (Problem("sample.readings_map", what, hint),))
    if sample.readings is None:
        return None
    found = with_lab(
        _read(sample.readings, sample.readings_map, fetch), read_spectral_weights(), sample.readings
    )
    unknown = zone_problem(sample, found)
    if unknown:
        raise InputError("", unknown)
    return found


def _read(name: str, mapping_name: str | None, fetch: Fetch) -> Readings:
    """Read a file as its mapping says; what is only guessed is asked."""
    with placed(mapping_name or ""):
        mapping = USUAL_MAP if mapping_name is None else map_in(fetch(mapping_name), mapping_name)
    with placed(name):
        found = decode_readings(fetch(name), Path(name).name, mapping)
    hint = message("readings.understood-as.mend")
    asked = tuple(
        Problem(f"{name}: {one.where}", message("readings.understood-as", what=one.what), hint)
        for one in found.understood
        if not one.confirmed
    )
    if asked:
        raise InputError(name, asked)
    return found


@contextmanager
def placed(name: str) -> Iterator[None]:
    """Put the file that a job names in front of each problem of it."""
    try:
        yield
    except InputError as error:
        placed = (Problem(f"{name}: {one.where}", one.what, one.hint) for one in error.problems)
        raise InputError(name, tuple(placed)) from None


LARGEST_DRAWING = 8_000_000
"""Bytes of a drawing read at most; its reader says what is too much below that; assumption."""


def open_job(path: Path, made_at: str | None = None, *, with_readings: bool = True) -> Request:
    """Read a job with everything it names."""
    try:
        job = read_job(path)
    except InputError as error:
        named = {problem.where for problem in error.problems}
        more = (problem for problem in _side_problems(path) if problem.where not in named)
        raise InputError(error.file, tuple(dict.fromkeys((*error.problems, *more)))) from None
    return request_of(job, path, made_at, with_readings=with_readings)


def request_of(job: Job, path: Path, made_at: str | None = None, *, with_readings: bool = True) -> Request:
    """Read everything that a job names; its files lie beside the path."""
    problems: list[Problem] = []
    side: Side | None = None
    readings: Readings | None = None
    products: dict[str, Product] = {}
    with gathered(problems):
        side = side_of(job, path)
        problems += panel_problems(side, [work.name for work in job.panel])
    for layer in LAYERS:
        with gathered(problems):
            products[layer] = read_named_product(layer, job, path)
    if with_readings:
        with gathered(problems):
            readings = readings_of(job.sample, path.parent)
    for product in products.values():
        problems += product_problems(product, f"{product.key}: ")
    if side is None or problems:
        raise InputError(str(path), tuple(dict.fromkeys(problems)))
    return Request(job, side, Products(**products), VERSION, made_at, readings)


def side_of(job: Job, path: Path) -> Side:
    """Build the side of a job from its shape, or read it from its file."""
    if job.body.file is not None:
        return open_side(path.parent / job.body.file)
    return build_side(job.body.shape or "", job.body.measures)


def open_side(path: Path) -> Side:
    """Read a side file or a drawing and check that it can be painted."""
    drawing = path.suffix.lower() == ".svg"
    try:
        side = read_side_svg(read_bytes(path, LARGEST_DRAWING), path.stem) if drawing else read_side(path)
    except InputError as error:
        raise InputError(str(path), error.problems) from None
    problems = check_side(side)
    if problems:
        raise InputError(str(path), problems)
    return side


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
    try:
        built = build_side(shape, {})
    except InputError as error:
        yield from error.problems
        return
    names = (
        [entry.get("name") for entry in panels if isinstance(entry, dict)] if isinstance(panels, list) else []
    )
    if all(isinstance(name, str) for name in names):
        yield from panel_problems(built, [str(name) for name in names])


def product_problems(product: Product, before: str = "") -> tuple[Problem, ...]:
    """List what keeps the recipe of a product from becoming grams."""
    problems: list[Problem] = []
    with gathered(problems):
        problems += recipe_problems(in_house_convention(product.recipe))
    return tuple(Problem(f"{before}{one.where}", one.what, one.hint) for one in problems)


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found in one file."""

    file: str
    kind: str
    problems: tuple[Problem, ...]


def check_files(paths: tuple[Path, ...]) -> tuple[Checked, ...]:
    """Check files of any kind."""
    return tuple(_check_file(path) for path in paths)


def _check_file(path: Path) -> Checked:
    """Read one file by what it says it is."""
    kind = ""
    try:
        raw = read_table(path, LARGEST_PLAN)
        kind = kind_of(raw)
        if not kind:
            raise kind_unsaid(path)
        _read_any(path, kind)
    except InputError as error:
        return Checked(str(path), kind, error.problems)
    return Checked(str(path), kind, ())


def kind_unsaid(path: Path) -> InputError:
    """Return the error for a file that does not tell which noun it holds."""
    formats = tuple(Name(f'format = "{first_line(noun)}"') for noun in (Job, Product, Side, Plan))
    return refused(path, message("kind-unsaid"), message("kind-unsaid.hint", formats=formats))


def _read_any(path: Path, kind: str) -> None:
    """Read a file of a known kind with everything that belongs to it."""
    if kind == "job":
        open_job(path)
    elif kind == "product":
        problems = product_problems(read_product(path))
        if problems:
            raise InputError(str(path), problems)
    elif kind == "side":
        open_side(path)
    else:
        read_plan(path)
