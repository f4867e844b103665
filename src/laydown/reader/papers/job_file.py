"""Reading a job file: its fields, and what they say together."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from laydown.reader.files import decode_file, read_table
from laydown.reader.papers.shelf import LAYERS, find_product, missing_product
from laydown.schema.choices import Choices, Sample
from laydown.schema.job import Body, Gun, Job
from laydown.schema.limits import Limits
from laydown.schema.problem import InputError, Problem
from laydown.units import figures

MOST_FIELDS = 9
"""Most fields of a let-down panel, 0 to 8 coats; assumption."""

_REACH = {"none": 0, "fade": 1, "full": 2}


def job_rules(parts: dict[str, Any], raw: dict[str, Any]) -> tuple[Problem, ...]:
    """Check a job as a whole.

    Parameters
    ----------
    parts
        Top-level fields that could be read.
    raw
        The table as written, for lists of which only one entry is faulty.

    Returns
    -------
    Problems, in the order of the file's tables.
    """
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
        yield Problem(
            "body", "says neither shape nor file", 'add shape = "medium hatch", or file = "side.json"'
        )
    if body.shape is not None and body.file is not None:
        yield Problem("body", "names a shape and a file", "keep one of the two")
    if body.file is not None and body.measures:
        yield Problem("body.measures", "can only change a shipped shape", "take them out, or name a shape")


def _panels(panels: object) -> Iterator[Problem]:
    """At least one panel, none twice, and layers that reach at least as far as the one below."""
    if panels == []:
        yield Problem("panel", "lists no panel", "write one [[panel]] for each panel that is touched")
    seen: dict[str, int] = {}
    for number, panel in enumerate(panels if isinstance(panels, list) else [], start=1):
        if not isinstance(panel, dict):
            continue
        name = panel.get("name")
        if isinstance(name, str):
            key = name.casefold().replace("_", " ").strip()
            if key in seen:
                yield Problem(
                    f"panel[{number}].name", f"'{name[:60]}' stands in panel[{seen[key]}] already", "keep one"
                )
            seen.setdefault(key, number)
        if "undercoat" in panel and "undercoat_lightness" in panel:
            yield Problem(
                f"panel[{number}]", "gives the undercoat twice", "keep undercoat_lightness or undercoat"
            )
        yield from _reach(panel, number)


def _reach(panel: dict[str, Any], number: int) -> Iterator[Problem]:
    """Effect coat at least as far as ground coat, clear at least as far as effect coat."""
    for lower, upper in (("ground", "effect"), ("effect", "clear")):
        below, above = _REACH.get(str(panel.get(lower))), _REACH.get(str(panel.get(upper)))
        if below is not None and above is not None and above < below:
            what = f"is '{panel[upper]}' over {lower} '{panel[lower]}'"
            yield Problem(
                f"panel[{number}].{upper}",
                what,
                f"each layer reaches at least as far as the {lower} below it",
            )


def _choices(choices: Choices, gun: Gun | None) -> Iterator[Problem]:
    """Counts in halves, and a nozzle the shop has."""
    for name in ("ground_coats", "effect_coats"):
        count = getattr(choices, name)
        if count is not None and not (2 * count).is_integer():
            yield Problem(f"choices.{name}", f"{figures(count)} is not a count in halves", "write 2 or 2.5")
    nozzle = choices.nozzle_mm
    if nozzle is None or gun is None:
        return
    owned = {*gun.nozzles_owned_mm, gun.nozzle_mm}
    if nozzle not in owned:
        known = ", ".join(figures(item) for item in sorted(owned))
        hint = f"choose one of {known}, or add it to gun.nozzles_owned_mm"
        yield Problem("choices.nozzle_mm", f"{figures(nozzle)} mm is not among the nozzles owned", hint)


def _sample(sample: Sample) -> Iterator[Problem]:
    """The same fields judged everywhere, each field once."""
    if sample.face and sample.flop and len(sample.face) != len(sample.flop):
        what = f"judges {len(sample.flop)} fields, face judges {len(sample.face)}"
        yield Problem("sample.flop", what, "judge the same fields in both")
    judged = max(len(sample.face), len(sample.flop))
    if sample.coats and len(sample.coats) != judged:
        what = f"names {len(sample.coats)} fields, {judged} are judged"
        yield Problem("sample.coats", what, "one number of coats for each field that face or flop judges")
    if len(set(sample.coats)) != len(sample.coats):
        yield Problem("sample.coats", "names a field twice", "each field once")
    if judged > MOST_FIELDS:
        yield Problem("sample.face", f"judges {judged} fields", f"at most {MOST_FIELDS}, from 0 coats on")


def _ready_by(limits: Limits) -> Iterator[Problem]:
    """A time that can be read."""
    if limits.ready_by is None:
        return
    try:
        datetime.fromisoformat(limits.ready_by)
    except ValueError:
        hint = "write 2026-11-25T16:00:00, without quotes"
        yield Problem("limits.ready_by", f"'{limits.ready_by}' is no date and time", hint)


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
