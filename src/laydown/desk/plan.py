"""Planning a job and writing what a plan consists of."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from laydown.desk.job import open_job
from laydown.planning.plan import make_plan
from laydown.planning.request import Planned, Request
from laydown.reader.encode import to_json
from laydown.reader.plan_file import NAME
from laydown.reader.write import write_folder
from laydown.report.card import card_pdf
from laydown.report.day_picture import day_svg
from laydown.report.map_picture import maps_svg
from laydown.report.raster import png
from laydown.report.side_picture import side_svg
from laydown.schema.plan import Plan
from laydown.units import System

Progress = Callable[[str, float], None]
"""Told what is being done and how far it is, 0 to 1."""

Standing = Literal["good", "outside the sheet", "no good plan"]
"""How a plan stands: within every limit, outside a limit of a product sheet, or without a good way."""

PICTURE_PX = 1600
"""Width of the pictures as PNG [px]; assumption, sharp on paper at half a page."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan as a door needs it.

    Attributes
    ----------
    planned
        The plan with its maps.
    standing
        How it stands.
    """

    planned: Planned
    standing: Standing


def plan_job(path: Path, progress: Progress | None = None, made_at: str | None = None) -> Answer:
    """Plan a job file.

    Parameters
    ----------
    path
        The job file.
    progress
        Told how far the planner is.
    made_at
        Time of making, or None.

    Returns
    -------
    The plan and how it stands.

    Raises
    ------
    InputError
        Everything that is wrong with the job and what it names.
    """
    request = open_job(path, made_at)
    planned = make_plan(request, progress=progress)
    return Answer(planned, standing(request, planned.plan))


def standing(request: Request, plan: Plan) -> Standing:
    """Tell how a plan stands.

    Parameters
    ----------
    request
        What was asked, with the limits of the sheets.
    plan
        The plan.

    Returns
    -------
    Air or fixed water outside a sheet comes first, then a verdict of stop.
    """
    air, products = request.job.air, request.products
    for product in (products.ground, products.effect, products.clear):
        allowed = product.allowed
        if not allowed.temperature_low_c <= air.temperature_c.value <= allowed.temperature_high_c:
            return "outside the sheet"
        if not allowed.rh_low <= air.rh.value <= allowed.rh_high:
            return "outside the sheet"
    water = request.job.choices.water
    if water is not None and any(
        water > (product.water_max or 0) for product in (products.ground, products.effect)
    ):
        return "outside the sheet"
    return "no good plan" if plan.verdict.state == "stop" else "good"


def write_outputs(
    planned: Planned, folder: Path, system: System, progress: Progress | None = None
) -> list[Path]:
    """Write plan document, card and pictures into a folder; all of them or none.

    Parameters
    ----------
    planned
        The plan with its maps.
    folder
        Where to; made if needed.
    system
        Units of the card.
    progress
        Told what is being drawn.

    Returns
    -------
    Paths written.

    Raises
    ------
    InputError
        The folder or a file cannot be written.
    """
    plan = planned.plan
    drawn: dict[str, str] = {}
    for layer in plan.layers:
        for coat in layer.coats:
            drawn[f"side-{layer.name}-{coat.number}"] = side_svg(plan, layer.name, coat.number)
            if any(item.layer == layer.name and item.coat == coat.number for item in planned.maps.coats):
                drawn[f"maps-{layer.name}-{coat.number}"] = maps_svg(
                    plan, planned.maps, layer.name, coat.number
                )
    drawn["day"] = day_svg(plan)
    contents: dict[str, bytes] = {NAME: to_json(plan).encode(), "card.pdf": card_pdf(plan, system=system)}
    for done, (name, svg) in enumerate(drawn.items()):
        if progress is not None:
            progress(f"drawing {name}", done / len(drawn))
        contents[f"{name}.svg"] = svg.encode()
        contents[f"{name}.png"] = png(svg, PICTURE_PX)
    return write_folder(folder, contents)
