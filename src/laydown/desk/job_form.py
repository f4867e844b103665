"""A job from the answers of the new-job pages, and the answers that a last job suggests."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from laydown.desk.book_jobs import OF_PLAN, open_kept_job
from laydown.desk.book_sheets import products_of, side_for
from laydown.desk.suggest import works_of
from laydown.reader.encode import encode
from laydown.reader.shelf import LAYERS
from laydown.schema.job import Body, Job
from laydown.schema.problem import InputError
from laydown.store.book import Book
from laydown.trade.side_measures import SHAPES
from laydown.units import System, figures

PLAIN = (
    "job.name",
    "job.painters",
    "painter.name",
    "painter.skill",
    "gun.nozzle_mm",
    "gun.flow_g_s",
    "gun.speed_m_s",
    "gun.cup_ml",
    "products.ground",
    "products.effect",
    "products.clear",
    "air.temperature_c",
    "air.rh",
)
"""Fields of the third page; each is the place in the job where it goes, so that a problem finds its field."""

UNDERCOATS = ("white", "light grey", "dark grey", "black")
"""Choices of undercoat; the words are those of the job file."""


@dataclass(frozen=True, slots=True)
class Last:
    """What the last job suggests.

    Attributes
    ----------
    body
        Shape or side that was used last.
    answers
        Value of each field of `PLAIN`, as a person would type it.
    name, saved_at
        The last job; empty if there is none.
    job
        The job itself.
    """

    body: str
    answers: dict[str, str]
    name: str
    saved_at: str
    job: Job | None


def last_answers(book: Book, system: System) -> Last:
    """Return what the last job of the book suggests.

    Parameters
    ----------
    book
        The book.
    system
        Units of temperature.

    Returns
    -------
    Its answers without name and air's age; plain defaults in an empty book.
    """
    for kept in book.jobs():
        if OF_PLAN in kept.id:
            continue
        try:
            job = open_kept_job(book, kept.id)
        except InputError:
            continue
        if job is not None:
            body = f"file:{job.body.file}" if job.body.file else job.body.shape or ""
            return Last(body, _answers(job, system), job.job.name, kept.saved_at, job)
    first = {
        f"products.{layer}": next((one.key for one in products_of(book) if one.kind == layer), "")
        for layer in LAYERS
    }
    plain = {
        "job.painters": "1",
        "painter.skill": "skilled",
        "gun.nozzle_mm": "1.3",
        "gun.flow_g_s": "3.1",
        "gun.speed_m_s": "0.5",
        "gun.cup_ml": "550",
    }
    return Last(next(iter(SHAPES)), dict.fromkeys(PLAIN, "") | plain | first, "", "", None)


def _answers(job: Job, system: System) -> dict[str, str]:
    """Write the answers of a job as a person would type them."""
    raw = encode(job)
    found: dict[str, str] = {}
    for place in PLAIN:
        table, key = place.split(".")
        value = raw[table][key]
        number = value["value"] if isinstance(value, dict) else value
        found[place] = number if isinstance(number, str) else figures(number)
    found["air.rh"] = figures(100 * job.air.rh.value)
    if system == "us":
        found["air.temperature_c"] = figures(1.8 * job.air.temperature_c.value + 32)
    return found | {"job.name": ""}


def body_of(choice: str) -> Body:
    """Return the body that was chosen.

    Parameters
    ----------
    choice
        Name of a shape, or ``file:`` and the id of an own side.

    Returns
    -------
    The body.
    """
    prefix, _, name = choice.partition(":")
    return Body(file=name) if prefix == "file" and name else Body(shape=choice)


def raw_job(book: Book, answers: Mapping[str, str], system: System) -> dict[str, Any]:
    """Arrange the answers as a raw job; what is not asked is taken from the last job.

    Parameters
    ----------
    book
        The book.
    answers
        Fields of `PLAIN`, ``body``, ``job.side``, ``undercoat`` and ``work.`` with the id of each panel.
    system
        Units in which bare temperatures were typed.

    Returns
    -------
    A raw job, to be read with every problem at its place.

    Raises
    ------
    InputError
        The side is missing or faulty, or a panel was given an unknown choice.
    """
    body = body_of(answers.get("body", ""))
    side = side_for(book, body)
    taps = {name[5:]: tap for name, tap in answers.items() if name.startswith("work.")}
    works = [encode(work) for work in works_of(side, taps)]
    last = last_answers(book, system).job
    raw: dict[str, Any] = _kept_tables(last)
    raw |= {"format": "laydown-job/1", "body": _given(encode(body))}
    raw["panel"] = [_given(work) | _undercoat(work, answers) for work in works]
    units = {"air.rh": "%", "air.temperature_c": "°F" if system == "us" else "°C"}
    for place in PLAIN:
        table, key = place.split(".")
        value = answers.get(place, "").strip()
        raw.setdefault(table, {})
        if value:
            raw[table][key] = with_unit(value, units[place]) if place in units else value
        else:
            raw[table].pop(key, None)
    raw["job"]["side"] = answers.get("job.side", "")
    if "painters" in raw["job"] and str(raw["job"]["painters"]).isdigit():
        raw["job"]["painters"] = int(raw["job"]["painters"])
    return raw


def _kept_tables(last: Job | None) -> dict[str, Any]:
    """Tables of the last job that belong to the shop and not to the car."""
    if last is None:
        return {"job": {}}
    raw = encode(last)
    tables = {name: _given(raw[name]) for name in ("gun", "painter", "prices")}
    tables["job"] = {name: raw["job"][name] for name in ("can_walk", "spare_cup", "refill_s", "spare_cup_s")}
    tables["air"] = _given({name: raw["air"][name] for name in ("speed_m_s", "blower_speed_m_s")})
    return tables


def _given(raw: Mapping[str, Any]) -> dict[str, Any]:
    """Drop what is not given."""
    return {name: value for name, value in raw.items() if value is not None}


def _undercoat(work: Mapping[str, Any], answers: Mapping[str, str]) -> dict[str, Any]:
    """Name the undercoat of a damaged panel."""
    said = answers.get("undercoat", "")
    return {"undercoat": said} if said in UNDERCOATS and work["state"] != "sound" else {}


def with_unit(value: str, unit: str) -> str:
    """Give a bare number of a page the unit that stands beside its field.

    Parameters
    ----------
    value
        As typed, with or without a unit.
    unit
        Unit beside the field.

    Returns
    -------
    The text with its unit; as it is where it has one or is no number.
    """
    bare = value.replace(",", ".").replace(".", "", 1).replace("-", "", 1).isdigit()
    return f"{value} {unit}" if bare else value
