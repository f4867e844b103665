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
from laydown.schema.problem import InputError
from laydown.schema.product import Kind
from laydown.schema.reading import Readings
from laydown.schema.side import Side
from laydown.trade.side.extents import match_panels, propose_extents
from laydown.trade.side.reach import Extents
from laydown.trade.side.skin import Canvas, lay_canvas


@dataclass(frozen=True, slots=True)
class Setup:
    """What every part of the planner starts from.

    Attributes
    ----------
    job, side, canvas
        The job and the developed side.
    works
        Work on each panel by id.
    extents
        How far each layer reaches, with reasons and findings.
    paints
        The three products with their defaults.
    fields, places
        Where each layer goes and where its sections may meet; a layer that is nowhere wanted is missing.
    crew
        Who sprays.
    readings
        Colours read on let-down panel and car, if any.
    """

    job: Job
    side: Side
    canvas: Canvas
    works: Mapping[str, PanelWork]
    extents: Extents
    paints: Mapping[Kind, Paint]
    fields: Mapping[Kind, Field]
    places: Mapping[Kind, tuple[Place, ...]]
    crew: Crew
    readings: Readings | None = None


def crew_of(job: Job) -> Crew:
    """Return who sprays.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    The crew with the time a refill takes.

    Sources
    -------
    The job.
    """
    hand = SKILLED if job.painter.skill == "skilled" else TRAINEE
    refill = job.job.spare_cup_s if job.job.spare_cup else job.job.refill_s
    return Crew(job.job.painters, hand, refill, job.gun.cup_ml)


def with_job(setup: Setup, job: Job) -> Setup:
    """Return the setup of a changed job on the same panels.

    Parameters
    ----------
    setup
        What the planner works with.
    job
        The job with other air, gun, crew, choices or painter; its body and panels must be those of the setup.

    Returns
    -------
    The setup with the job's crew; side, extents, fields and places are kept.

    Sources
    -------
    Definition.
    """
    return replace(setup, job=job, crew=crew_of(job))


def _fields(canvas: Canvas, side: Side, extents: Extents) -> dict[Kind, Field]:
    """Where each layer goes."""
    found: dict[Kind, Field] = {}
    layers: tuple[Kind, ...] = ("ground", "effect", "clear")
    for layer in layers:
        field = field_of(canvas, side, extents.of(layer), extents.fades_of(layer))
        if field is not None:
            found[layer] = field
    if "ground" in found and "effect" in found:
        found["effect"] = kept_inside(found["effect"], found["ground"])
    return {layer: field for layer, field in found.items() if field.mask.any()}


def setup_of(request: Request) -> Setup:
    """Return what the planner works with.

    Parameters
    ----------
    request
        Job, side and products.

    Returns
    -------
    The setup.

    Raises
    ------
    InputError
        If the job names panels the side does not have, or no panel gets any paint.

    Sources
    -------
    ``laydown.trade.side.extents``.
    """
    job, side = request.job, request.side
    works = match_panels(side, job.panel)
    if isinstance(works, tuple):
        raise InputError("job", works)
    extents = propose_extents(side, works)
    canvas = lay_canvas(side)
    fields = _fields(canvas, side, extents)
    products = request.products
    marks = marks_of(side)
    paints: dict[Kind, Paint] = {
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
