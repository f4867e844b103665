"""The let-down sheet: one A4 leaf on which the panel is weighed, judged and written down with gloves on."""

import json
from dataclasses import dataclass
from importlib.resources import files

from laydown.report.kit.chart import invented
from laydown.report.kit.text_width import readable, shorten
from laydown.report.kit.typeface import FAMILY
from laydown.report.kit.typeset import typeset_pdf
from laydown.report.paper.card_rows import lost_letters
from laydown.schema.message import Name, Range
from laydown.units import System
from laydown.words.letdown import coats_words
from laydown.words.show import ENGLISH, Words

_HEAD_PT = 18.0
_HEAD_ROOM_PT = 235.0
_SMALL_ROOM_PT = 330.0
_HAND_ROOM_PT = 150.0

MOST_FIELDS = 7
"""Fields that fit beside each other with boxes large enough for a glove; assumption."""

READINGS_HEADER = "panel,role,coats,zone,reading,angle_deg,L,a,b"
"""First line of a table of instrument readings; definition."""

ZONES = ("side", "roof", "bumper")
"""Zones of a car that may want counts of their own; common practice, no source."""

RULES = ("around", "dry", "half", "touching", "shade", "angles", "away")
"""How to look, after the light. Surround: ISO 3668; the rest: common practice, no source."""

_LIGHT_LX = (1000.0, 4000.0)
"""Light to look in [lx]; ISO 3668."""

_TEXTS = (
    *("footer", "colour", "variant", "ground-batch", "date", "notes"),
    *("spray", "spray-more", "job-says", "panel", "area", "before", "after", "difference"),
    *("ground", "ground-more", "match", "slightly", "off", "no-spot", "both-dry", "both-cleared"),
    *("tick", "tick-half", "too-few", "too-many", "against", "light", "not-cleared", "field", "coats"),
    *("hatched", "or-between", "between", "and", "judged-by"),
    *("look", "look-more", "zones", "zones-more", "zone", "face-field", "flop-field", "seen"),
    *("card", "card-more", "card-after", "card-still"),
    *("instrument", "instrument-more", "roles", "hand-in", "decided", "effect-coats", "by"),
)
"""What is printed on every sheet, under these names."""

_UNITS: dict[System, dict[str, str]] = {
    "metric": {"area": "m²", "film": "g/m²", "light": "lx", "edge": "15 mm"},
    "us": {"area": "ft²", "film": "g/ft²", "light": "foot-candles", "edge": "5/8 in"},
}
"""Units of what is written by hand, and how far from the edge an instrument stays; from memory."""


@dataclass(frozen=True, slots=True)
class PanelSheet:
    """What the sheet is printed for."""

    job: str
    hand: str
    painter: str
    air: str
    file: str
    fields: tuple[float, ...]
    settings: tuple[tuple[str, str], ...]
    invented: bool = False
    words: Words = ENGLISH


def panel_sheet_pdf(sheet: PanelSheet) -> bytes:
    """Set the let-down sheet."""
    if not 1 <= len(sheet.fields) <= MOST_FIELDS:
        raise ValueError(f"fields must be 1 to {MOST_FIELDS}; got {len(sheet.fields)}")
    template = files("laydown.report").joinpath("templates", "strip.typ").read_bytes()
    return typeset_pdf(template, {"data": json.dumps(sheet_data(sheet))})


def sheet_data(sheet: PanelSheet) -> dict[str, object]:
    """Put everything on the sheet into words."""
    words = sheet.words
    lost = lost_letters([sheet.job, sheet.hand, sheet.painter, sheet.file])
    painter = words.say("painters-named", count=1, name=Name(sheet.painter)) if sheet.painter else ""
    units = _UNITS[words.system]
    job = shorten(readable(sheet.job), _HEAD_ROOM_PT, _HEAD_PT, bold=True)
    return {
        "family": FAMILY,
        "language": words.language,
        "title": words.say("sheet-title", job=Name(job)),
        "head": words.say("sheet-head", job=Name(job)),
        "texts": {name: words.say(f"sheet.{name}") for name in _TEXTS},
        "sides": [words.say("sheet-side", number=number) for number in (1, 2)],
        "hand": shorten(readable(sheet.hand), _HAND_ROOM_PT, 14, bold=True),
        "line": [
            shorten(readable(text), _SMALL_ROOM_PT / 2, 10)
            for text in (sheet.air, painter, sheet.file)
            if text
        ],
        "mark": invented(words).upper() if sheet.invented else "",
        "settings": [[readable(head), readable(value)] for head, value in sheet.settings],
        "zones": [words.say(f"sheet-zone.{zone}") for zone in ZONES],
        "looks": [words.word("looked_at", look) for look in ("face", "flop")],
        "judgements": [words.word("judgement", one) for one in ("few", "match", "many")],
        "fields": [{"number": f"{coats:g}", "words": coats_words(coats, words)} for coats in sheet.fields],
        "rules": [
            words.say("sheet-rule.light", light_lx=Range(*_LIGHT_LX)),
            *(words.say(f"sheet-rule.{rule}") for rule in RULES),
        ],
        "units": units,
        "readings": words.say("sheet-readings", edge=Name(units["edge"])),
        "header": READINGS_HEADER,
        "commands": _commands(
            shorten(readable(sheet.file), _SMALL_ROOM_PT / 2, 10), len(sheet.fields), words
        ),
        "safety": words.say("sheet-safety"),
        "note": words.say("sheet-note"),
        "lost": words.say("letters-lost", letters=tuple(map(Name, lost))) if lost else "",
    }


def _commands(file: str, count: int, words: Words) -> list[list[str]]:
    """Say how the ticks are typed; one word for each field."""
    ticks = " ".join(["few"] * (count // 2) + ["match"] + ["many"] * (count - count // 2 - 1))
    typed = {
        "match": "--ground-match match --face 2 --flop 2",
        "between": '--ground-match match --face "between 2 and 3"',
        "each": f'--face "{ticks}" --flop "..."',
        "instrument": "--readings panel.csv",
    }
    return [
        [words.say(f"sheet-typed.{name}"), f"laydown coats {file} {tail}"] for name, tail in typed.items()
    ]
