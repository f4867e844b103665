"""Writing what a plan consists of: document, card and pictures."""

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from laydown.desk.plans.plan import Progress
from laydown.physics.colour.difference import ColourParts, colour_parts
from laydown.physics.colour.screen import TIMES, WHITES, exaggerated, preview
from laydown.physics.values import Floats
from laydown.planning.counts.zone_message import colour_words
from laydown.planning.setup.request import Planned
from laydown.reader.encode import to_json
from laydown.reader.papers.other_files import NAME
from laydown.reader.write import write_file, write_folder
from laydown.report.charts.day import day_svg
from laydown.report.charts.hiding import hiding_svg
from laydown.report.charts.letdown_curves import curve_svg
from laydown.report.charts.letdown_panel import panel_svg
from laydown.report.charts.maps import maps_svg
from laydown.report.charts.screen_colours import AngleScreen, ScreenPreview, preview_svg
from laydown.report.charts.spare_time import spare_svg
from laydown.report.kit.typeset import png
from laydown.report.paper.card import card_pdf
from laydown.report.side.coat import side_svg
from laydown.schema.colour import AngleColour, AngleCurve, ColourVerdict
from laydown.schema.plan import Plan
from laydown.units import System
from laydown.words.show import told_plan


def write_card(plan: Plan, path: Path, system: System) -> None:
    """Write the booth card of a plan.

    Parameters
    ----------
    plan
        The plan.
    path
        The PDF to write.
    system
        Units of the card.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    write_file(path, card_pdf(plan, system=system))


WHITE_L, WHITE_CHROMA = 70.0, 8.0
"""From this mean lightness, and up to this chroma, a colour counts as a white whose differences a screen hides;
assumption."""


def screen_preview(colour: ColourVerdict) -> ScreenPreview | None:
    """Return car and prediction as screen colours, all with one exposure.

    Parameters
    ----------
    colour
        The verdict with its curves.

    Returns
    -------
    One pair for each angle, whites also with their difference enlarged; None without an instrument, without a count,
    or for a light that the screen's model does not know.
    """
    evidence = colour.evidence
    if evidence is None or (evidence.illuminant, evidence.observer) not in WHITES:
        return None
    rows = [
        (curve, curve.ordered, found)
        for curve in evidence.curves
        if curve.ordered is not None and (found := _car_of(curve, colour.zone)) is not None
    ]
    if not rows:
        return None
    car = np.array([row[2].lab for row in rows], float)
    plan = np.array([row[1].lab for row in rows], float)
    white = _is_white(car)
    shown = exaggerated(plan, car) if white else plan
    made = preview(np.stack([car, plan, shown]), evidence.illuminant, evidence.observer)
    parts = colour_parts(car, plan)
    codes = [[_hex(code) for code in line] for line in made.rgb]
    angles = tuple(
        AngleScreen(
            curve.angle_deg,
            codes[0][index],
            codes[1][index],
            codes[2][index] if white else None,
            curve.difference or 0.0,
            colour_words(_one(parts, index)),
        )
        for index, (curve, _, _) in enumerate(rows)
    )
    coats = colour.effect_coats if colour.effect_coats is not None else rows[0][1].coats or 0.0
    return ScreenPreview(
        angles, rows[0][2].zone, coats, made.exposure_stops, bool(made.is_muted.any()), TIMES
    )


def _car_of(curve: AngleCurve, zone: str) -> AngleColour | None:
    """Find the car's colour in the planned zone, or its first one."""
    named = [car for car in curve.car if car.zone == zone]
    return next(iter((*named, *curve.car)), None)


def _is_white(lab: Floats) -> bool:
    """Tell whether a colour is a white."""
    chroma = np.hypot(lab[:, 1], lab[:, 2])
    return bool(lab[:, 0].mean() >= WHITE_L and chroma.mean() <= WHITE_CHROMA)


def _hex(code: NDArray[np.uint8]) -> str:
    """Write a screen colour as the pictures want it."""
    return "#" + "".join(f"{int(part):02X}" for part in code)


def _one(parts: ColourParts, index: int) -> ColourParts:
    """Take one pair out of many."""
    return ColourParts(
        parts.lightness[index],
        parts.redness[index],
        parts.yellowness[index],
        parts.chroma[index],
        parts.hue[index],
    )


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
