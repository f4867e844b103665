"""The scale under a side: where a join lies by the tape, counted from the middle of the front wheel."""

from math import ceil, floor

from laydown.report.measure_text import text_width
from laydown.report.scene import Scene
from laydown.report.style import SMALLEST_PX
from laydown.report.svg import element, label
from laydown.unit_table import FOOT_M
from laydown.units import System

METRES_PX = 36.0
"""Height of the scale with the air around it [px]."""

_TICK_PX = 7.0
_OVER_PX = 12.0
_STEPS: dict[System, tuple[float, int, str]] = {"metric": (1.0, 1, "m"), "us": (2 * float(FOOT_M), 2, "ft")}


def metres(scene: Scene) -> str:
    """Draw a tick with its metre, or every second foot, along the ground line.

    Parameters
    ----------
    scene
        What is shown.

    Returns
    -------
    Markup.
    """
    frame = scene.frame
    top = frame.bottom_px
    shapes = []
    step_m, counted, unit = _STEPS[scene.system]
    zero = f"0 {unit}, middle of the front wheel"
    zero_half = text_width(zero, SMALLEST_PX) / 2 + 8
    for step in range(ceil(frame.bounds.left_m / step_m), floor(frame.bounds.right_m / step_m) + 1):
        x = frame.across(step * step_m)
        shapes.append(
            element("path", d=f"M{x:.1f},{top:.1f}v{_TICK_PX}", stroke=scene.palette.muted, stroke_width=1.5)
        )
        text = zero if step == 0 else f"{step * counted} {unit}".replace("-", "\N{MINUS SIGN}")
        half = text_width(text, SMALLEST_PX) / 2
        clear = abs(x - frame.across(0)) > zero_half + half
        inside = frame.left_px - _OVER_PX < x - half and x + half < frame.right_px + _OVER_PX
        if inside and (step == 0 or clear):
            shapes.append(label(text, (x, top + 21), SMALLEST_PX, scene.palette.ink, text_anchor="middle"))
    return element("g", *shapes, data_kind="metres")
