"""The booth card: one A4 page in black and white that can be read alone, without a screen."""

import json
from importlib.resources import files

import typst

from laydown.report.card_rows import (
    IF_THEN,
    adjustment_rows,
    clock_rows,
    coat_rows,
    limits_text,
    lost_letters,
)
from laydown.report.card_sections import distinct_orders, section_blocks, sketch_head
from laydown.report.measure_text import readable, shorten
from laydown.report.side_picture import INVENTED
from laydown.report.sketch_picture import sketch_svg
from laydown.report.typeface import FAMILY
from laydown.report.typeset import typeset_pdf
from laydown.schema.plan import Layer, Plan
from laydown.units import System, show

_PX_PER_MM = 4.6
_FULL_MM = 190.0
_SKETCH_MM = {"full": 160.0, "main": 128.0, "small": 56.0}
_LEAST_SKETCH = 0.76
_HEAD_PT = 26.0
_MM_PER_PT = 0.3528
_ROOM = (2.0, 1.5, 1.0, 0.8, 0.6, 0.4, 0.2, 0.0)
_TOO_LONG = "the card must be one page"
_FIRST_CAUTIONS = ("S01", "S02", "S06", "S07")


class CardTooLongError(RuntimeError):
    """The plan has so many rows that one page cannot hold them at 8 pt."""


def card_pdf(plan: Plan, *, layer: str = "all", system: System = "metric") -> bytes:
    """Set the booth card.

    Parameters
    ----------
    plan
        The plan.
    layer
        "all", or one of "ground", "effect" and "clear" for a card with larger type.
    system
        How figures are shown.

    Returns
    -------
    A PDF file of exactly one page; the same plan gives the same bytes.

    Raises
    ------
    CardTooLongError
        When not even the tightest setting fits.
    ValueError
        When there is no such layer.
    """
    layers = tuple(row for row in plan.layers if layer in ("all", row.name))
    if not layers:
        raise ValueError(f"layer must be all, ground, effect or clear; got {layer!r}")
    data = card_data(plan, layers, system)
    for room in _ROOM:
        try:
            return _compile(data | {"room": room, "sketches": _sketches(plan, layers, room)})
        except typst.TypstError as error:
            if _TOO_LONG not in str(error):
                raise
    raise CardTooLongError("the card does not fit on one page; print one layer at a time")


def _compile(data: dict[str, object]) -> bytes:
    """Set the card once."""
    template = files("laydown.report").joinpath("templates", "card.typ").read_bytes()
    return typeset_pdf(template, {"data": json.dumps(data)})


def card_data(plan: Plan, layers: tuple[Layer, ...], system: System) -> dict[str, object]:
    """Put everything on the card into words.

    Parameters
    ----------
    plan
        The plan.
    layers
        Layers on the card.
    system
        How figures are shown.

    Returns
    -------
    Plain values for the template; every text can be shown by the typeface.
    """
    name = f"{plan.inputs.job}"
    hand = f"{plan.side.shape} {plan.side.side.upper()}"
    air = ", ".join(
        show(plan.inputs.air[key].value, key, system)
        for key in ("temperature_c", "rh")
        if key in plan.inputs.air
    )
    coats = plan.colour.effect_coats
    sample = "not known" if coats is None else f"{coats:g} ({plan.colour.low:g} to {plan.colour.high:g})"
    data = {
        "family": FAMILY,
        "job": shorten(readable(name), _FULL_MM * 0.62 / _MM_PER_PT, _HEAD_PT, bold=True),
        "hand": hand,
        "verdict": [plan.verdict.state, plan.verdict.text],
        "line": [
            f"air {air}",
            f"painter {plan.inputs.painter}",
            f"let-down: effect coats {sample}{', provisional' if plan.colour.provisional else ''}",
            f"ground coats {plan.hiding.ground_coats:g} ({plan.hiding.low:g} to {plan.hiding.high:g})",
        ],
        "plan": plan.id,
        "mark": INVENTED.upper() if plan.inputs.invented else "",
        "adjustment": adjustment_rows(plan, layers, system),
        "sections": section_blocks(layers, system),
        "coats": coat_rows(plan, layers, system),
        "limits": limits_text(plan, system),
        "ifthen": [list(pair) for pair in IF_THEN],
        "clocks": clock_rows(plan, layers, system),
        "cautions": [[row.title, row.text] for row in plan.safety if row.key in _FIRST_CAUTIONS],
    }
    lost = lost_letters([name, hand, plan.inputs.painter, *(layer.product for layer in layers)])
    data["lost"] = f"not in the typeface, printed as ?: {', '.join(lost)}" if lost else ""
    return _printable(data)


def _printable(value: object) -> dict[str, object]:
    """Replace what the typeface cannot show, everywhere but in pictures."""
    cleaned = _clean(value)
    if not isinstance(cleaned, dict):
        raise TypeError("the card's data is a table")
    return cleaned


def _clean(value: object) -> object:
    """Clean one value and all within it."""
    if isinstance(value, str):
        return value if value.startswith("<svg") else readable(value)
    if isinstance(value, list):
        return [_clean(item) for item in value]
    if isinstance(value, dict):
        return {key: _clean(item) for key, item in value.items()}
    return value


def _stretch(room: float, *, alone: bool) -> float:
    """How wide a sketch is drawn; several side by side never grow past their share."""
    return _LEAST_SKETCH + (1 - _LEAST_SKETCH) * min(room, 1.6 if alone else 1.0)


def _sketches(plan: Plan, layers: tuple[Layer, ...], room: float) -> list[dict[str, str]]:
    """One sketch for each way a layer is worked; the effect coat first and largest."""
    groups = distinct_orders(layers)
    groups.sort(key=lambda group: (group[0].name != "effect", plan.layers.index(group[0])))
    alone = len(groups) == 1
    made = []
    for index, (layer, coats) in enumerate(groups):
        kind = "full" if alone else "main" if index == 0 and len(groups) <= 3 else "small"
        wide = round(_SKETCH_MM[kind] * _stretch(room, alone=alone), 1)
        made.append(
            {
                "head": sketch_head(layer, coats),
                "svg": sketch_svg(plan, layer.name, coats[0].number, wide * _PX_PER_MM),
                "mm": f"{wide:g}",
                "alt": f"{sketch_head(layer, coats)}: sections, joins and start; the tables repeat them in words",
            }
        )
    return made
