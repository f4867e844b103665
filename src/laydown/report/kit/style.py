"""Colours, shapes and type sizes of every picture: shape carries the meaning, tone only repeats it."""

from dataclasses import dataclass

PAPER = "#FBFCFC"
"""Ground of every picture. Source: assumption."""

INK = "#1B2733"
"""Outlines, numerals and text. Source: assumption."""

MUTED = "#55636E"
"""Second text and the way of the gun. Source: assumption."""

RULE = "#C4CDD3"
"""Help lines. Source: assumption."""

GLASS = "#DFE6E9"
"""Windows and bumpers. Source: assumption."""

WET = "#0E7C8B"
"""A join that stays wet. Source: assumption."""

TIGHT = "#9A6B00"
"""A join that needs haste. Source: assumption."""

DRY = "#7F1130"
"""A join that comes too late. Source: assumption."""

LAYER_TONES = {"ground": "#3F5873", "effect": "#A88CCB", "clear": "#CFE3E8"}
"""Fill of each layer, always with an outline in ink. Source: assumption."""

FILM_UNDER = "#0E4F60"
"""Film at 0.7 of the target or less; carries level lines because in grey it equals the other end."""

FILM_OVER = "#8A3A12"
"""Film at 1.4 of the target or more; carries dots."""

RAMP = ("#FFF8E1", "#E8C26A", "#C07A3E", "#6B3A57", "#2A1A3C")
"""One ramp from light to dark for age and dry spray; lightness falls at every step."""

SMALLEST_PX = 14
"""No text on a picture is smaller [px]."""

TEXT_PX = 16
"""Body text [px]."""

HEAD_PX = 24
"""Heads [px]."""

PLATE_PX = 34
"""Edge of a plate with the number of a section [px]."""

JOIN_PX = 5.0
"""Width of a join [px]; its casing is 4 px wider."""

CLOSE_M = 0.25
"""Joins of successive coats nearer than this are tied together on the ruler [m].

Source: common practice, no source."""


SectionTones = tuple[str, str, str]
"""Two fills that neighbouring sections take in turn, and the tone of the layer's lines or dots on them."""


@dataclass(frozen=True, slots=True)
class Tones:
    """The tones of one picture."""

    paper: str
    ink: str
    muted: str
    rule: str
    glass: str
    sections: dict[str, SectionTones]
    masked: str
    wet: str
    tight: str
    dry: str
    layers: dict[str, str]


COLOUR = Tones(
    paper=PAPER,
    ink=INK,
    muted=MUTED,
    rule=RULE,
    glass=GLASS,
    sections={
        "ground": ("#F1F4F8", "#DDE5EE", "#A9BACB"),
        "effect": ("#F6F2FA", "#E9E2F3", "#C3B4DA"),
        "clear": ("#F2F9FA", "#DDEEF1", "#9CC9D1"),
    },
    masked="#B4BEC5",
    wet=WET,
    tight=TIGHT,
    dry=DRY,
    layers=LAYER_TONES,
)
"""For a screen."""

GREY = Tones(
    paper="#FFFFFF",
    ink="#000000",
    muted="#3C3C3C",
    rule="#9A9A9A",
    glass="#FFFFFF",
    sections=dict.fromkeys(("ground", "effect", "clear"), ("#FFFFFF", "#F0F0F0", "#A9A9A9")),
    masked="#A9A9A9",
    wet="#000000",
    tight="#000000",
    dry="#000000",
    layers={"ground": "#FFFFFF", "effect": "#FFFFFF", "clear": "#FFFFFF"},
)
"""For print: no colour, patterns from shape."""

JOIN_STATES = ("wet", "tight", "dry")
"""States of a join, best first."""


def tones(*, grey: bool) -> Tones:
    """Tones for print or for a screen."""
    return GREY if grey else COLOUR


def join_tone(state: str, palette: Tones) -> str:
    """Tone of a join's state."""
    return {"wet": palette.wet, "tight": palette.tight, "dry": palette.dry}[state]
