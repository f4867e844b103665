"""Writing what a plan consists of: document, card and pictures."""

from pathlib import Path

from laydown.desk.plan import Progress
from laydown.desk.preview import screen_preview
from laydown.planning.request import Planned
from laydown.reader.encode import to_json
from laydown.reader.plan_file import NAME
from laydown.reader.write import write_folder
from laydown.report.card import card_pdf
from laydown.report.curve_picture import curve_svg
from laydown.report.day_picture import day_svg
from laydown.report.hiding_picture import hiding_svg
from laydown.report.map_picture import maps_svg
from laydown.report.panel_picture import panel_svg
from laydown.report.preview_picture import preview_svg
from laydown.report.raster import png
from laydown.report.side_picture import side_svg
from laydown.report.spare_picture import spare_svg
from laydown.report.told import told_plan
from laydown.schema.plan import Plan
from laydown.units import System

PICTURE_PX = 1600
"""Width of the pictures as PNG [px]; assumption, sharp on paper at half a page."""


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
        How figures are shown on card and pictures; the plan document stays in house units.
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
    plan = told_plan(planned.plan, system)
    drawn: dict[str, str] = {}
    for layer in plan.layers:
        for coat in layer.coats:
            drawn[f"side-{layer.name}-{coat.number}"] = side_svg(plan, layer.name, coat.number, system=system)
            if any(item.layer == layer.name and item.coat == coat.number for item in planned.maps.coats):
                drawn[f"maps-{layer.name}-{coat.number}"] = maps_svg(
                    plan, planned.maps, layer.name, coat.number, system
                )
    drawn["day"] = day_svg(plan)
    drawn["spare"] = spare_svg(plan, system)
    drawn |= _colour_pictures(plan)
    contents: dict[str, bytes] = {
        NAME: to_json(planned.plan).encode(),
        "card.pdf": card_pdf(plan, system=system),
    }
    for done, (name, svg) in enumerate(drawn.items()):
        if progress is not None:
            progress(f"drawing {name}", done / len(drawn))
        contents[f"{name}.svg"] = svg.encode()
        contents[f"{name}.png"] = png(svg, PICTURE_PX)
    return write_folder(folder, contents)


def _colour_pictures(plan: Plan) -> dict[str, str]:
    """Pictures of let-down panel and hiding, each only where there is something behind it."""
    drawn: dict[str, str] = {}
    evidence = plan.colour.evidence
    if evidence is not None and evidence.fields:
        drawn["panel"] = panel_svg(plan)
    if evidence is not None and evidence.curves:
        drawn["curves"] = curve_svg(plan)
    if plan.hiding.steps_de:
        drawn["hiding"] = hiding_svg(plan)
    shown = screen_preview(plan.colour)
    if shown is not None:
        drawn["preview"] = preview_svg(plan, shown)
    return drawn
