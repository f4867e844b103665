"""The let-down sheet: one A4 leaf on which the panel is weighed, judged and written down with gloves on."""

import json
from dataclasses import dataclass
from importlib.resources import files

from laydown.report.kit.text_width import readable, shorten
from laydown.report.kit.typeface import FAMILY
from laydown.report.kit.typeset import typeset_pdf
from laydown.report.paper.card_rows import lost_letters
from laydown.report.side.coat import INVENTED
from laydown.units import System
from laydown.words.show import retell

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

RULES = (
    "1000 to 4000 lx of light like daylight, from one side; more for dark colours.",
    "Matt grey around; for a white, a lighter grey. No bright clothes, no coloured walls.",
    "Panel dry and as warm as the car: a damp ground coat looks too dark.",
    "Look only at the half with clear coat.",
    "Panel against the car, touching, in the same plane.",
    "Outdoors in the shade, never in the sun.",
    "Face: look along the mirrored light. Flop: step aside until it is flat. Judge both.",
    "Look away between fields; a tired eye calls everything a match.",
)
"""How to look, in own words. Light and surround: ISO 3668; the rest: common practice, no source."""

SAFETY = (
    "Spraying the panel is spraying: extraction on, respirator, gloves and goggles as the data sheet of each product "
    "says, also for one small panel. The data sheet and the rules of the shop come before this sheet."
)
"""Caution of the sheet; it defers to the data sheet."""

_NOTE = (
    "The panel tells the count only for the ground coat it lies on. Too few coats can be added; too many cannot be "
    "taken off: between two counts take the lower one and look."
)


_UNITS: dict[System, dict[str, str]] = {
    "metric": {"area": "m²", "film": "g/m²", "light": "lx", "edge": "15 mm"},
    "us": {"area": "ft²", "film": "g/ft²", "light": "foot-candles", "edge": "5/8 in"},
}
"""Units of what is written by hand, and how far from the edge an instrument stays; from memory."""


@dataclass(frozen=True, slots=True)
class PanelSheet:
    """What the sheet is printed for.

    Attributes
    ----------
    job, hand, painter, air
        Head of the sheet, in words.
    file
        Name of the job file, for the commands on the back.
    fields
        Effect coats of each field, rising.
    settings
        How the job is sprayed: head and value, in words.
    invented
        Whether the job is a demonstration.
    system
        Units in which the leaf asks for areas and light.
    """

    job: str
    hand: str
    painter: str
    air: str
    file: str
    fields: tuple[float, ...]
    settings: tuple[tuple[str, str], ...]
    invented: bool = False
    system: System = "metric"


def panel_sheet_pdf(sheet: PanelSheet) -> bytes:
    """Set the let-down sheet.

    Parameters
    ----------
    sheet
        What it is printed for.

    Returns
    -------
    A PDF file of two pages, to be printed on both sides of one leaf; the same sheet gives the same bytes.

    Raises
    ------
    ValueError
        When there are no fields or more than fit beside each other.
    """
    if not 1 <= len(sheet.fields) <= MOST_FIELDS:
        raise ValueError(f"fields must be 1 to {MOST_FIELDS}; got {len(sheet.fields)}")
    template = files("laydown.report").joinpath("templates", "strip.typ").read_bytes()
    return typeset_pdf(template, {"data": json.dumps(sheet_data(sheet))})


def sheet_data(sheet: PanelSheet) -> dict[str, object]:
    """Put everything on the sheet into words.

    Parameters
    ----------
    sheet
        What it is printed for.

    Returns
    -------
    Plain values for the template; every text can be shown by the typeface.
    """
    lost = lost_letters([sheet.job, sheet.hand, sheet.painter, sheet.file])
    line = (sheet.air, f"painter {sheet.painter}" if sheet.painter else "", sheet.file)
    return {
        "family": FAMILY,
        "job": shorten(readable(sheet.job), _HEAD_ROOM_PT, _HEAD_PT, bold=True),
        "hand": shorten(readable(sheet.hand), _HAND_ROOM_PT, 14, bold=True),
        "line": [shorten(readable(text), _SMALL_ROOM_PT / 2, 10) for text in line if text],
        "mark": INVENTED.upper() if sheet.invented else "",
        "settings": [[readable(head), readable(value)] for head, value in sheet.settings],
        "zones": list(ZONES),
        "fields": [{"number": f"{coats:g}", "words": _coats(coats)} for coats in sheet.fields],
        "rules": [retell(rule, sheet.system) for rule in RULES],
        "units": _UNITS[sheet.system],
        "header": READINGS_HEADER,
        "commands": _commands(shorten(readable(sheet.file), _SMALL_ROOM_PT / 2, 10), len(sheet.fields)),
        "safety": SAFETY,
        "note": _NOTE,
        "lost": f"not in the typeface, printed as ?: {', '.join(lost)}" if lost else "",
    }


def _coats(coats: float) -> str:
    """Say what lies on a field."""
    return "ground only" if coats == 0 else f"{coats:g} coat{'' if coats == 1 else 's'}"


def _commands(file: str, count: int) -> list[list[str]]:
    """Say how the ticks are typed; one word for each field."""
    words = " ".join(["few"] * (count // 2) + ["match"] + ["many"] * (count - count // 2 - 1))
    return [
        ["a match", f"laydown strip {file} --ground match --face 2 --flop 2"],
        ["between", f'laydown strip {file} --ground match --face "between 2 and 3"'],
        ["field by field", f'laydown strip {file} --face "{words}" --flop "..."'],
        ["instrument", f"laydown strip {file} --readings panel.csv"],
    ]
