"""An invented let-down panel, written by hand: every figure is made up and no model stands behind any of them."""

from dataclasses import replace

from laydown.schema.coat import CoatMap, Maps
from laydown.schema.colour import (
    AngleAppearance,
    AngleColour,
    AngleCurve,
    Appearance,
    ColourVerdict,
    HalfChance,
    HidingVerdict,
    JoinContrast,
    PanelEvidence,
    PanelField,
    UndercoatChoice,
    ZoneVerdict,
)
from laydown.schema.message import message

ANGLES = {
    15: (93.0, 10.0, 0.9),
    25: (92.6, 2.2, 1.3),
    45: (90.5, -8.4, 2.4),
    75: (87.0, -13.0, 2.0),
    110: (85.0, -17.2, 1.0),
}
"""L* of the ground coat, how far L* moves in five coats, and b* at five coats."""

COATS = (0.0, 1.0, 2.0, 3.0, 4.0, 5.0)


def lab(angle, coats):
    start, move, blue = ANGLES[angle]
    share = 1.36 * (1 - 2.718281828 ** (-0.265 * coats))
    return (round(start + move * share, 2), -0.8, round(1.4 + (blue - 1.4) * share, 2))


def curve_of(angle, zones, ordered):
    points = tuple(AngleColour(n / 4, "", lab(angle, n / 4)) for n in range(21))
    wiggle = {0.0: 0.1, 1.0: -0.2, 2.0: 0.15, 3.0: -0.1, 4.0: 0.2, 5.0: -0.15}
    fields = tuple(
        AngleColour(n, "", (lab(angle, n)[0] + wiggle[n], -0.8, lab(angle, n)[2] - wiggle[n] / 2))
        for n in COATS
    )
    car = tuple(
        AngleColour(None, zone, tuple(value + 0.25 for value in lab(angle, count))) for zone, count in zones
    )
    shown = None if ordered is None else AngleColour(ordered, "", lab(angle, ordered))
    return AngleCurve(float(angle), points, fields, car, shown, None if ordered is None else 0.4)


LOOKS_DARKER = message(
    "car-looks", looks=("darker",), lightness=-0.9, chroma=0.1, hue=0.0, redness=0.0, yellowness=0.1
)


def zone_verdict(zone, mean, order, *, joins=()):
    return ZoneVerdict(
        zone,
        "clear",
        order,
        mean,
        mean - 0.25,
        mean + 0.3,
        (HalfChance(order - 0.5, 0.12), HalfChance(order, 0.84), HalfChance(order + 0.5, 0.04)),
        0.8,
        110.0,
        "0.6 lighter, 0.3 yellower",
        joins,
        "the panel meets the car at every angle",
        f"spray {order:g} coats",
    )


def instrument_verdict():
    zones = (("side", 2.6), ("roof", 3.4))
    evidence = PanelEvidence(
        tuple(PanelField(n) for n in COATS),
        tuple(curve_of(angle, zones, 2.5) for angle in ANGLES),
        "D65",
        10,
        0.6,
    )
    return ColourVerdict(
        "clear",
        2.5,
        2.35,
        2.9,
        False,
        "the instrument finds 2.6 coats, and 2.5 is the nearest half",
        "spray two coats and a light one",
        "instrument",
        "side",
        0.92,
        2.5,
        (
            zone_verdict("side", 2.6, 2.5),
            replace(zone_verdict("roof", 3.4, 3.5), differs=LOOKS_DARKER),
            ZoneVerdict(
                "bumper",
                "no_fit",
                None,
                None,
                None,
                None,
                (),
                3.2,
                15.0,
                LOOKS_DARKER,
                (),
                "no count fits: the flakes lie differently",
                "spray a new strip with the settings of the car",
            ),
        ),
        evidence,
    )


def eye_verdict():
    face = ("few", "few", "match", "many", "many", "many")
    flop = ("few", "few", "match", "match", "many", "many")
    fields = tuple(PanelField(n, a, b) for n, a, b in zip(COATS, face, flop, strict=True))
    zone = ZoneVerdict(
        "", "undecided", 2.0, 2.2, 1.6, 2.8,
        (HalfChance(1.0, 0.02), HalfChance(1.5, 0.17), HalfChance(2.0, 0.49), HalfChance(2.5, 0.27), HalfChance(3.0, 0.05)),
        None, None, "", (), "the eye cannot tell 2 from 2.5", "spray 2, compare, keep half a coat ready",
    )  # fmt: skip
    return ColourVerdict(
        "undecided",
        2.0,
        1.6,
        2.8,
        True,
        zone.reason,
        zone.next_step,
        "eye",
        "",
        1.0,
        2.0,
        (zone,),
        PanelEvidence(fields),
    )


def hiding_verdict():
    return HidingVerdict(
        3.0,
        2.5,
        4.0,
        3,
        "front wing",
        (11.8, 2.1, 0.68, 0.27),
        "filler on the front wing is hidden to 0.47 after 3 coats",
        (2.6, 1.1, 0.47, 0.18),
        (50.0, 3.3, 0.98, 0.37),
        0.986,
        (
            UndercoatChoice(92.0, 1.5, 0.4, 1, False),
            UndercoatChoice(85.0, 2.5, 3.0, 2, False),
            UndercoatChoice(70.0, 3.0, 11.8, 3, True),
            UndercoatChoice(30.0, 3.5, 49.8, 3, False),
            UndercoatChoice(15.0, None, 60.0, 4, False),
        ),
    )


def appearance():
    return Appearance(
        1.4,
        0.11,
        "e1.2",
        "film only",
        tuple(
            AngleAppearance(float(angle), de, de / 4, de / 12, de / 60, 0.06 / de, 0.05 / de)
            for angle, de in ((15, 0.5), (25, 0.3), (45, 0.9), (75, 1.2), (110, 1.4))
        ),
        (
            JoinContrast("e1.1", "front door|rear door", 0.3, 45.0),
            JoinContrast("e1.2", "front wing|front door", 0.8, 110.0),
        ),
    )


def with_panel(plan, verdict=None):
    """A plan with an invented panel behind it."""
    return replace(
        plan, colour=verdict or instrument_verdict(), hiding=hiding_verdict(), appearance=appearance()
    )


def appearance_map(maps):
    """The film map of the first coat as if its film were a colour difference."""
    film = next(field for field in maps.coats if field.kind == "film")
    values = tuple(
        tuple(None if value is None else abs(value / film.target - 1.0) * 6.0 for value in row)
        for row in film.values
    )
    worst = max(value for row in values for value in row if value is not None)
    return CoatMap(
        film.layer, film.coat, "appearance", film.cell_m, film.cell_height_m, film.x0_m, film.y0_m, values, 0.0,
        worst, film.worst_at, film.worst_where, "dE00",
    )  # fmt: skip


def maps_with_appearance(maps):
    return Maps((*maps.coats, appearance_map(maps)))
