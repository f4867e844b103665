"""From a request to what the planner works with: extents, fields, paints, crew."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from laydown.physics.spray.hand import SKILLED, TRAINEE
from laydown.planning.setup.field import Field, field_of, kept_inside
from laydown.planning.setup.paint import Paint, paint_of
from laydown.planning.setup.places import Place, marks_of, places
from laydown.planning.setup.request import Request
from laydown.planning.setup.spraying import Crew
from laydown.schema.choices import PanelWork
from laydown.schema.job import Job
from laydown.schema.product import LayerName
from laydown.schema.reading import Readings
from laydown.schema.side import Side
from laydown.trade.side.extents import match_panels, propose_extents
from laydown.trade.side.reach import Extents
from laydown.trade.side.skin import Canvas, lay_canvas


@dataclass(frozen=True, slots=True)
class Setup:
    """What every part of the planner starts from."""

    job: Job
    side: Side
    canvas: Canvas
    works: Mapping[str, PanelWork]
    extents: Extents
    paints: Mapping[LayerName, Paint]
    fields: Mapping[LayerName, Field]
    places: Mapping[LayerName, tuple[Place, ...]]
    crew: Crew
    readings: Readings | None = None


def crew_of(job: Job) -> Crew:
    """Return who sprays."""
    hand = SKILLED if job.painter.skill == "skilled" else TRAINEE
    refill = job.job.spare_cup_s if job.job.spare_cup else job.job.refill_s
    return Crew(job.job.painters, hand, refill, job.gun.cup_ml)


def with_job(setup: Setup, job: Job) -> Setup:
    """Return the setup of a changed job on the same panels."""
    return replace(setup, job=job, crew=crew_of(job))


def _fields(canvas: Canvas, side: Side, extents: Extents) -> dict[LayerName, Field]:
    """Where each layer goes."""
    found: dict[LayerName, Field] = {}
    layers: tuple[LayerName, ...] = ("ground", "effect", "clear")
    for layer in layers:
        field = field_of(canvas, side, extents.of(layer), extents.fades_of(layer))
        if field is not None:
            found[layer] = field
    if "ground" in found and "effect" in found:
        found["effect"] = kept_inside(found["effect"], found["ground"])
    return {layer: field for layer, field in found.items() if field.mask.any()}


def setup_of(request: Request) -> Setup:
    """Return what the planner works with."""
    job, side = request.job, request.side
    works = match_panels(side, job.panel)
    extents = propose_extents(side, works)
    canvas = lay_canvas(side)
    fields = _fields(canvas, side, extents)
    products = request.products
    marks = marks_of(side)
    paints: dict[LayerName, Paint] = {
        "ground": paint_of(products.ground),
        "effect": paint_of(products.effect),
        "clear": paint_of(products.clear),
    }
    return Setup(
        job,
        side,
        canvas,
        works,
        extents,
        paints,
        fields,
        {layer: places(side, field, marks) for layer, field in fields.items()},
        crew_of(job),
        request.readings,
    )
