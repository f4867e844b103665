"""A job from the answers of the new-job pages, and the answers that a last job suggests."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal, get_args

from laydown.desk.papers.files import side_of
from laydown.desk.papers.jobs import OF_PLAN, open_kept_job
from laydown.desk.papers.sheets import products_of, side_for
from laydown.reader.encode import encode
from laydown.reader.papers.job_file import decode_job
from laydown.reader.papers.job_text import job_text
from laydown.reader.papers.shelf import LAYERS, known_products
from laydown.reader.write import write_file
from laydown.report.side.choose_panels import Chosen
from laydown.schema.choices import Extent, PanelState, PanelWork
from laydown.schema.job import Body, Job
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem
from laydown.schema.side import Side
from laydown.store.book import Book
from laydown.trade.side.build import panel_problems
from laydown.trade.side.extents import propose_extents
from laydown.trade.side.measures import SHAPES
from laydown.trade.side.reach import Extents, PanelReach
from laydown.units import System, figures
from laydown.words.show import ENGLISH

PanelTap = Literal["suggest", "repaired", "new", "blend", "clear", "leave"]
"""What a person says of a panel; suggest leaves it to laydown."""

TAPS: tuple[PanelTap, ...] = get_args(PanelTap)
"""All of them, in the order in which a tap goes through them."""


@dataclass(frozen=True, slots=True)
class Suggestion:
    """How far the layers would reach."""

    extents: Extents
    chosen: dict[str, Chosen]


def works_of(side: Side, taps: Mapping[str, str]) -> tuple[PanelWork, ...]:
    """Turn taps into work on panels."""
    problems = [
        Problem(
            f"work.{name}",
            message("no-panel-choice", tap=Name(tap[:20])),
            message("no-panel-choice.hint", taps=tuple(map(Name, TAPS))),
        )
        for name, tap in taps.items()
        if tap not in TAPS
    ]
    if problems:
        raise InputError("", tuple(problems))
    said = [(panel.label, taps.get(panel.id, "suggest")) for panel in side.panels]
    return tuple(_work(label, tap) for label, tap in said if tap != "suggest")


def _work(label: str, tap: str) -> PanelWork:
    """Work on one panel."""
    states: dict[str, PanelState] = {"repaired": "repaired", "new": "new"}
    if tap in states:
        return PanelWork(label, states[tap])
    reach: dict[str, tuple[Extent, Extent, Extent]] = {
        "blend": ("none", "fade", "full"),
        "clear": ("none", "none", "full"),
        "leave": ("none", "none", "none"),
    }
    ground, effect, clear = reach[tap]
    return PanelWork(label, ground=ground, effect=effect, clear=clear)


def suggest(side: Side, taps: Mapping[str, str]) -> Suggestion:
    """Say how far the layers would reach."""
    ids = {panel.label: panel.id for panel in side.panels}
    extents = propose_extents(side, {ids[work.name]: work for work in works_of(side, taps)})
    return Suggestion(extents, {reach.panel: _chosen(reach) for reach in extents.panels})


def _chosen(reach: PanelReach) -> Chosen:
    """Lowest layer of a panel, and whether it is damaged."""
    lowest = next((layer for layer in ("ground", "effect", "clear") if reach.of(layer) != "none"), "")
    return Chosen(lowest, damaged=reach.state != "sound")


NEEDED = {
    name: message(f"ask-for.{name}") for name in ("name", "side", "shape", "panels", "temperature_c", "rh")
}
"""Answers a job cannot do without, and how to ask for them."""


def new_job(answers: Mapping[str, str], path: Path, *, replace: bool = False) -> Job:
    """Write a new job file."""
    if path.exists() and not replace:
        what, hint = message("job-file-there"), message("job-file-there.hint")
        raise InputError(str(path), (Problem("file", what, hint),))
    try:
        job = decode_job(_raw(answers, path.parent), path)
        side = side_of(job, path)
    except InputError as error:
        raise InputError("", error.problems) from None
    problems = panel_problems(side, [work.name for work in job.panel])
    if problems:
        raise InputError("", problems)
    write_file(path, job_text(job, ENGLISH).encode())
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
    """Return the names of the shipped shapes."""
    return tuple(SHAPES)


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
    """What the last job suggests."""

    body: str
    answers: dict[str, str]
    name: str
    saved_at: str
    job: Job | None


def last_answers(book: Book, system: System) -> Last:
    """Return what the last job of the book suggests."""
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
    """Return the body that was chosen."""
    prefix, _, name = choice.partition(":")
    return Body(file=name) if prefix == "file" and name else Body(shape=choice)


def raw_job(book: Book, answers: Mapping[str, str], system: System) -> dict[str, Any]:
    """Arrange the answers as a raw job; what is not asked is taken from the last job."""
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
    """Give a bare number of a page the unit that stands beside its field."""
    bare = value.replace(",", ".").replace(".", "", 1).replace("-", "", 1).isdigit()
    return f"{value} {unit}" if bare else value
