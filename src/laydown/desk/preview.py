"""Screen colours of car and prediction, for the picture that cannot compute them itself."""

import numpy as np
from numpy.typing import NDArray

from laydown.physics.colour_parts import ColourParts, colour_parts
from laydown.physics.preview import TIMES, WHITES, exaggerated, preview
from laydown.physics.values import Floats
from laydown.report.preview_picture import AngleScreen, ScreenPreview
from laydown.schema.colour import AngleColour, AngleCurve, ColourVerdict
from laydown.trade.colour_words import colour_words

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
