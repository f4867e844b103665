"""Reading a job file: its fields, and what they say together."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from laydown.reader.encode import encode, given
from laydown.reader.files import decode_file, read_table
from laydown.reader.papers.shelf import LAYERS, find_product, missing_product
from laydown.schema.choices import Choices, Sample
from laydown.schema.job import Body, Gun, Job
from laydown.schema.limits import Limits
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem

MOST_FIELDS = 9
"""Most fields of a let-down panel, 0 to 8 coats; assumption."""

_REACH = {"none": 0, "fade": 1, "full": 2}


def job_rules(parts: dict[str, Any], raw: dict[str, Any]) -> tuple[Problem, ...]:
    """Check a job as a whole."""
    found: list[Problem] = []
    body, choices, gun = parts.get("body"), parts.get("choices"), parts.get("gun")
    if isinstance(body, Body):
        found += _body(body)
    found += _panels(raw.get("panel"))
    if isinstance(choices, Choices):
        found += _choices(choices, gun if isinstance(gun, Gun) else None)
    if isinstance(parts.get("sample"), Sample):
        found += _sample(parts["sample"])
    if isinstance(parts.get("limits"), Limits):
        found += _ready_by(parts["limits"])
    return tuple(found)


def _body(body: Body) -> Iterator[Problem]:
    """A shape or a file, and measures only for a shape."""
    if body.shape is None and body.file is None:
        yield Problem("body", message("neither-shape-nor-file"), message("add-a-shape-or-a-file"))
    if body.shape is not None and body.file is not None:
        yield Problem("body", message("shape-and-file"), message("keep-one-of-the-two"))
    if body.file is not None and body.measures:
        yield Problem(
            "body.measures", message("measures-without-a-shape"), message("take-out-or-name-a-shape")
        )


def _panels(panels: object) -> Iterator[Problem]:
    """At least one panel, none twice, and layers that reach at least as far as the one below."""
    if panels == []:
        yield Problem("panel", message("lists-no-panel"), message("write-each-panel"))
    seen: dict[str, int] = {}
    for number, panel in enumerate(panels if isinstance(panels, list) else [], start=1):
        if not isinstance(panel, dict):
            continue
        name = panel.get("name")
        if isinstance(name, str):
            key = name.casefold().replace("_", " ").strip()
            if key in seen:
                what = message("panel-stands-already", panel=Name(name[:60]), number=seen[key])
                yield Problem(f"panel[{number}].name", what, message("keep-one"))
            seen.setdefault(key, number)
        if "undercoat" in panel and "undercoat_lightness" in panel:
            yield Problem(f"panel[{number}]", message("undercoat-twice"), message("keep-one-undercoat"))
        yield from _reach(panel, number)


def _reach(panel: dict[str, Any], number: int) -> Iterator[Problem]:
    """Effect coat at least as far as ground coat, clear at least as far as effect coat."""
    for lower, upper in (("ground", "effect"), ("effect", "clear")):
        below, above = _REACH.get(str(panel.get(lower))), _REACH.get(str(panel.get(upper)))
        if below is not None and above is not None and above < below:
            what = message(
                "reaches-less-far", above=Name(panel[upper]), key=Name(lower), below=Name(panel[lower])
            )
            hint = message("reach-as-far-as-below", key=Name(lower))
            yield Problem(f"panel[{number}].{upper}", what, hint)


def _choices(choices: Choices, gun: Gun | None) -> Iterator[Problem]:
    """Counts in halves, and a nozzle the shop has."""
    for name in ("ground_coats", "effect_coats"):
        count = getattr(choices, name)
        if count is not None and not (2 * count).is_integer():
            yield Problem(f"choices.{name}", message("not-in-halves", given=count), message("write-halves"))
    nozzle = choices.nozzle_mm
    if nozzle is None or gun is None:
        return
    owned = {*gun.nozzles_owned_mm, gun.nozzle_mm}
    if nozzle not in owned:
        hint = message("choose-a-nozzle", nozzles=tuple(sorted(owned)))
        yield Problem("choices.nozzle_mm", message("nozzle-not-owned", nozzle_mm=nozzle), hint)


def _sample(sample: Sample) -> Iterator[Problem]:
    """The same fields judged everywhere, each field once."""
    if sample.face and sample.flop and len(sample.face) != len(sample.flop):
        what = message("flop-and-face-differ", flop=len(sample.flop), face=len(sample.face))
        yield Problem("sample.flop", what, message("judge-the-same-fields"))
    judged = max(len(sample.face), len(sample.flop))
    if sample.coats and len(sample.coats) != judged:
        what = message("other-fields-named", named=len(sample.coats), judged=judged)
        yield Problem("sample.coats", what, message("name-each-field-judged"))
    if len(set(sample.coats)) != len(sample.coats):
        yield Problem("sample.coats", message("names-a-field-twice"), message("each-field-once"))
    if judged > MOST_FIELDS:
        what = message("judges-too-many-fields", judged=judged)
        yield Problem("sample.face", what, message("most-fields", most=MOST_FIELDS))


def _ready_by(limits: Limits) -> Iterator[Problem]:
    """A time that can be read."""
    if limits.ready_by is None:
        return
    try:
        datetime.fromisoformat(limits.ready_by)
    except ValueError:
        what = message("no-date-and-time", typed=Name(limits.ready_by))
        yield Problem("limits.ready_by", what, message("write-date-and-time"))


SOURCE = "job file"
"""Source of a figure of the job that names none."""


def read_job(path: Path) -> Job:
    """Read a job file."""
    return decode_job(read_table(path), path)


def decode_job(raw: dict[str, Any], path: Path) -> Job:
    """Turn a raw table into a job."""
    decoded = decode_file(Job, raw, path, SOURCE)
    problems = (*decoded.problems, *job_rules(decoded.parts, raw), *_files(raw, path.parent))
    if decoded.noun is None or problems:
        raise InputError(str(path), tuple(dict.fromkeys(problems)))
    return decoded.noun


def checked_job(job: Job, path: Path) -> Job:
    """Return a job that a program made, checked as a file at that path would be."""
    return decode_job(given(encode(job)), path)


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
            what = message("no-file-beside-the-job", file=Name(name[:60]))
            problems.append(Problem(f"{table}.{key}", what, message("check-the-name")))
    return problems


def _exists(path: Path) -> bool:
    try:
        return path.exists()
    except (OSError, ValueError):
        return False
