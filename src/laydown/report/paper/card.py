"""The booth card: one A4 page in black and white that can be read alone, without a screen."""

import json
from importlib.resources import files

import typst

from laydown.report.kit.chart import invented
from laydown.report.kit.text_width import readable, shorten, text_width
from laydown.report.kit.typeface import FAMILY
from laydown.report.kit.typeset import typeset_pdf
from laydown.report.paper.card_rows import (
    adjustment_rows,
    clock_rows,
    coat_rows,
    if_then_rows,
    limits_text,
    lost_letters,
)
from laydown.report.paper.card_sections import distinct_orders, section_blocks, sketch_head, sketch_start
from laydown.report.side.sketch import key_svg, sketch_svg
from laydown.schema.coat import Coat, Layer
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.words.letdown import effect_count_words, verdict_words
from laydown.words.numbers import people_text
from laydown.words.show import ENGLISH, Words

_PX_PER_MM = 4.6
_FULL_MM = 190.0
_BETWEEN_MM = 3.0
_ONE_MM = 128.0
_LARGE_ROOM = 0.8
_FEW = -0.5
_HEAD_PT = (26.0, 22.0, 18.0)
_HAND_PT = 17.0
_MM_PER_PT = 0.3528
_SMALLEST_PT, _ROOMY_PT = 8.0, 9.8
_ROOM = (2.0, 1.5, 1.0, 0.8, 0.6, 0.4, 0.2, 0.1, 0.0, -0.1, -0.5, -1.0, -1.5, -2.0)
_TOO_LONG = "the card must be one page"
_FIRST_CAUTIONS = ("S01", "S02", "S06", "S07")
_TEXTS = (
    *(
        "estimates",
        "colour",
        "variant",
        "batch",
        "date",
        "signs",
        "seconds",
        "grams",
        "cup",
        "join",
        "margin",
    ),
    *(
        "least-margin",
        "coat",
        "passes",
        "takes",
        "fill",
        "spray",
        "flash",
        "ready-when",
        "start-at",
        "ready-at",
    ),
    *("plan-again", "now", "checked-at", "if", "clocks"),
    *("painter", "time-in", "time-out", "left", "daylight"),
)
"""What is printed on every card, under these names."""


class CardTooLongError(RuntimeError):
    """The plan has so many rows that one page cannot hold them at 8 pt."""


def card_pdf(plan: Plan, *, layer: str = "all", words: Words = ENGLISH) -> bytes:
    """Set the booth card."""
    layers = tuple(row for row in plan.layers if layer in ("all", row.name))
    if not layers:
        raise ValueError(f"layer must be all, ground, effect or clear; got {layer!r}")
    data = card_data(plan, layers, words)
    best: bytes | None = None
    low, high = 0, len(_ROOM)
    while low < high:
        middle = (low + high) // 2
        room = _ROOM[middle]
        blocks = section_blocks(layers, words, _size(room), 2 if room >= 0 else 1)
        sketches = _sketches(plan, layers, room, words)
        key = key_svg(plan, layers, _FULL_MM * _PX_PER_MM, float(sketches[0]["mm"]) * _PX_PER_MM, words)
        made = _try(data | {"room": room, "sketches": sketches, "key": key, "sections": blocks})
        if made is None:
            low = middle + 1
        else:
            best, high = made, middle
    if best is None:
        raise CardTooLongError("the card does not fit on one page; print one layer at a time")
    return best


def _size(room: float) -> float:
    """Type size of the tables, as in the template [pt]."""
    return _SMALLEST_PT + (_ROOMY_PT - _SMALLEST_PT) * max(room, 0.0)


def _try(data: dict[str, object]) -> bytes | None:
    """Set the card once; None when it needs a second page."""
    try:
        return _compile(data)
    except typst.TypstError as error:
        if _TOO_LONG in str(error):
            return None
        raise


def _compile(data: dict[str, object]) -> bytes:
    """Set the card once."""
    template = files("laydown.report").joinpath("templates", "card.typ").read_bytes()
    return typeset_pdf(template, {"data": json.dumps(data)})


def card_data(plan: Plan, layers: tuple[Layer, ...], words: Words) -> dict[str, object]:
    """Put everything on the card into words."""
    name = plan.inputs.job
    hand = f"{plan.side.shape} {words.word('side', plan.side.side).upper()}"
    title, size = _title(readable(name), readable(hand))
    hiding, said = plan.hiding, words(plan.verdict.text)
    air = ", ".join(
        words.amount(plan.inputs.air[key].value, key)
        for key in ("temperature_c", "rh")
        if key in plan.inputs.air
    )
    data = {
        "family": FAMILY,
        "job": title,
        "size": size,
        "hand": hand,
        "verdict": [words.word("verdict", plan.verdict.state), f"{said[:1].upper()}{said[1:]}"],
        "line": [
            words.say("card-air", air=Name(air)),
            people_text(plan, words),
            words.say("card-ground", coats=hiding.ground_coats, low=hiding.low, high=hiding.high),
            _let_down(plan, words),
        ],
        "degree": "°C" if words.system == "metric" else "°F",
        "texts": {name: words.say(f"card.{name}") for name in _TEXTS},
        "language": words.language,
        "title": words.say("card-title", job=Name(title), plan=Name(plan.id)),
        "about": words.say("plan-number", plan=Name(plan.id)),
        "plan": plan.id,
        "mark": invented(words).upper() if plan.inputs.invented else "",
        "adjustment": adjustment_rows(plan, layers, words),
        "coats": coat_rows(plan, layers, words),
        "limits": limits_text(plan, words),
        "ifthen": if_then_rows(words),
        "clocks": clock_rows(plan, layers, words),
        "cautions": [
            [words(row.title), words(row.text)] for row in plan.safety if row.key in _FIRST_CAUTIONS
        ],
    }
    lost = lost_letters([name, hand, plan.inputs.painter, *(layer.product for layer in layers)])
    data["lost"] = words.say("letters-lost", letters=tuple(map(Name, lost))) if lost else ""
    return _printable(data)


def _title(name: str, hand: str) -> tuple[str, float]:
    """Name of the job and its type size, smaller before it is cut [pt]."""
    room = _FULL_MM / _MM_PER_PT - text_width(hand, _HAND_PT, bold=True) - 14.0
    size = next((size for size in _HEAD_PT if text_width(name, size, bold=True) <= room), _HEAD_PT[-1])
    return shorten(name, room, size, bold=True), size


def _let_down(plan: Plan, words: Words) -> str:
    """What the panel says, in a line; zones with a count of their own are named."""
    colour = plan.colour
    others = tuple(
        message("card-zone", zone=Name(zone.zone), coats=zone.coats)
        for zone in colour.zones
        if zone.coats is not None and zone.zone != colour.zone and zone.coats != colour.effect_coats
    )
    told = words.say(
        "card-let-down",
        effect_coats=Name(effect_count_words(colour, words)),
        verdict=Name(verdict_words(colour.verdict, words)),
    )
    return words.say("card-let-down-zones", told=Name(told), zones=others) if others else told


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


def _sketches(plan: Plan, layers: tuple[Layer, ...], room: float, words: Words) -> list[dict[str, str]]:
    """One sketch for each way a layer is worked; where room is short one for each layer."""
    groups = distinct_orders(layers)
    few = room <= _FEW
    if few:
        groups = [next(group for group in groups if group[0] is layer) for layer in layers]
    wide = _width(len(groups), room)
    return [_sketch(plan, group, (wide, words), few=few) for group in groups]


def _width(count: int, room: float) -> float:
    """Width of each of several sketches, all alike so that they share one scale [mm]."""
    if count == 1:
        return _ONE_MM * (1 + 0.25 * min(room, 1.6))
    columns = 2 if room >= _LARGE_ROOM or count == 2 else 4 if count == 4 else 3
    wide = (_FULL_MM - _BETWEEN_MM * (columns - 1)) / columns
    return round(wide * (1 + 0.2 * min(room + 0.1, 0.0)), 1)


def _sketch(
    plan: Plan, group: tuple[Layer, list[Coat]], drawn: tuple[float, Words], *, few: bool
) -> dict[str, str]:
    """One sketch with its caption."""
    wide, words = drawn
    layer, coats = group
    head = sketch_head(layer, coats, words)
    if few and len(coats) < len(layer.coats):
        head = words.say("sketch-others", head=Name(head))
    return {
        "head": shorten(head, wide / _MM_PER_PT, 8, bold=True),
        "start": sketch_start(coats, words),
        "svg": sketch_svg(plan, layer.name, coats[0].number, wide * _PX_PER_MM, words),
        "mm": f"{wide:g}",
        "alt": words.say("sketch-alt", head=Name(head)),
    }
