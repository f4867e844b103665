"""Writing what a plan consists of: document, card and pictures."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from laydown.desk.papers.document import plan_json
from laydown.physics.colour.difference import ColourParts, colour_parts
from laydown.physics.colour.screen import TIMES, WHITES, exaggerated, preview
from laydown.physics.values import Floats
from laydown.planning.counts.zone_message import looks_of
from laydown.planning.plan import OnProgress
from laydown.planning.setup.request import Planned
from laydown.reader.papers.other_files import NAME
from laydown.reader.write import write_file, write_folder
from laydown.report.charts.day import day_svg
from laydown.report.charts.hiding import hiding_svg
from laydown.report.charts.letdown_curves import curve_svg
from laydown.report.charts.letdown_panel import panel_svg
from laydown.report.charts.maps import maps_svg
from laydown.report.charts.margins import margin_svg
from laydown.report.charts.screen_colours import AngleScreen, ScreenPreview, preview_svg
from laydown.report.kit.typeset import png
from laydown.report.paper.card import card_pdf
from laydown.report.side.coat import side_svg
from laydown.schema.colour import AngleColour, AngleCurve, ColourVerdict
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.words.show import ENGLISH, Words


def write_card(plan: Plan, path: Path, words: Words) -> None:
    """Write the booth card of a plan."""
    write_file(path, card_pdf(plan, words=words))


WHITE_L, WHITE_CHROMA = 70.0, 8.0
"""From this mean lightness, and up to this chroma, a colour counts as a white whose differences a screen hides;
assumption."""


def screen_preview(colour: ColourVerdict, words: Words = ENGLISH) -> ScreenPreview | None:
    """Return car and prediction as screen colours, all with one exposure."""
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
            tuple(words.word("looks", one) for one in looks_of(_one(parts, index))),
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


Drawing = Callable[[], str]
"""Draws a picture as SVG when it is called."""


def write_outputs(
    planned: Planned, folder: Path, words: Words, progress: OnProgress | None = None
) -> list[Path]:
    """Write plan document, card and all pictures into a folder; all of them or none."""
    drawn = drawings(planned.plan, words) | _map_drawings(planned, words)
    return _write(planned.plan, drawn, folder, words, progress)


def write_plan(plan: Plan, folder: Path, words: Words) -> list[Path]:
    """Write plan document, card and the pictures of a plan without its maps into a folder; all of them or none."""
    return _write(plan, drawings(plan, words), folder, words, None)


def _write(
    plan: Plan, drawn: dict[str, Drawing], folder: Path, words: Words, progress: OnProgress | None
) -> list[Path]:
    """Write a plan with these pictures."""
    contents: dict[str, bytes] = {
        NAME: plan_json(plan).encode(),
        "card.pdf": card_pdf(plan, words=words),
    }
    for done, (name, draw) in enumerate(drawn.items()):
        if progress is not None:
            progress(message("progress.drawing", picture=Name(name)), done / len(drawn))
        svg = draw()
        contents[f"{name}.svg"] = svg.encode()
        contents[f"{name}.png"] = png(svg, PICTURE_PX)
    return write_folder(folder, contents)


def drawings(plan: Plan, words: Words) -> dict[str, Drawing]:
    """Return the pictures of a plan by name, each only where there is something behind it."""
    drawn: dict[str, Drawing] = {
        f"side-{layer.name}-{coat.number}": partial(side_svg, plan, layer.name, coat.number, words=words)
        for layer in plan.layers
        for coat in layer.coats
    }
    drawn["day"] = partial(day_svg, plan, words)
    drawn["margin"] = partial(margin_svg, plan, words)
    evidence = plan.colour.evidence
    if evidence is not None and evidence.fields:
        drawn["panel"] = partial(panel_svg, plan, words)
    if evidence is not None and evidence.curves:
        drawn["curves"] = partial(curve_svg, plan, words)
    if plan.hiding.steps_de:
        drawn["hiding"] = partial(hiding_svg, plan, words)
    colours = screen_preview(plan.colour, words)
    if colours is not None:
        drawn["preview"] = partial(preview_svg, plan, colours, words)
    return drawn


def _map_drawings(planned: Planned, words: Words) -> dict[str, Drawing]:
    """Maps of the film of each coat."""
    return {
        f"maps-{item.layer}-{item.coat}": partial(
            maps_svg, planned.plan, planned.maps, item.layer, item.coat, words
        )
        for item in planned.maps.coats
    }
