"""Where a join may lie: gaps, arch feet, pillars and lines of a side, with what each place costs.

Sources: order of places common practice, no source; costs assumptions.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

import numpy as np

from laydown.physics.geometry.grid import inside
from laydown.physics.values import Floats
from laydown.schema.side import Cut, Line, Side
from laydown.trade.side.contact import derive_cuts

PlaceKind = Literal["gap", "arch", "pillar", "moulding", "body_line", "open"]
"""What lies under a join."""

PLACE_COSTS: Mapping[PlaceKind, float] = MappingProxyType(
    {"gap": 0.2, "arch": 0.35, "pillar": 0.45, "moulding": 0.55, "body_line": 0.75, "open": 1.3}
)
"""Cost of a join by its place [minute-equivalents]; the order is common practice, no source; the figures are an
assumption."""

BAN_COST = 0.55
"""What a join in a place that painters avoid costs on top [minute-equivalents]; assumption."""

_SAME_PLACE_M = 0.10
"""An arch foot or pillar closer than this to a gap is the gap's place [m]; assumption."""


@dataclass(frozen=True, slots=True)
class Feature:
    """One place where a join may lie.

    Attributes
    ----------
    id
        Stable name, such as "gap.front_door.rear_door".
    kind
        What lies there.
    label
        In trade words, such as "front door|rear door".
    x_m
        Where an upright place lies at mid height, or the middle of a level one [m].
    x_bottom_m, x_top_m
        Where an upright place lies at its foot and its head, or where a level one starts and ends [m].
    panels
        Ids of the panels it lies between or on.
    s_m
        Height of a level place on the developed skin [m]; None for an upright one.
    """

    id: str
    kind: PlaceKind
    label: str
    x_m: float
    x_bottom_m: float
    x_top_m: float
    panels: tuple[str, ...]
    s_m: float | None = None


@dataclass(frozen=True, slots=True)
class Ban:
    """A zone where painters do not join.

    Attributes
    ----------
    id
        Stable name.
    axis
        "x" for upright joins between two stations, "s" for level joins between two heights of the developed skin.
    low_m, high_m
        The zone [m].
    panels
        Ids of the panels it holds for.
    """

    id: str
    axis: Literal["x", "s"]
    low_m: float
    high_m: float
    panels: tuple[str, ...]


def is_upright(cut: Cut) -> bool:
    """Say whether a cut rises more than it runs along the vehicle."""
    (x_first, y_first), (x_last, y_last) = cut.points[0], cut.points[-1]
    return abs(y_last - y_first) >= abs(x_last - x_first)


def side_cuts(side: Side) -> tuple[Cut, ...]:
    """Give the cuts of a side, derived from its panels where none was drawn."""
    return side.cuts or derive_cuts(side)


def features(side: Side) -> tuple[Feature, ...]:
    """List the places where a join may lie.

    Parameters
    ----------
    side
        The side; without cuts they are derived from the panels.

    Returns
    -------
        Upright places from front to rear, then level ones from the bottom up. An open panel is no feature: every other
        place is one.

    Notes
    -----
    A pillar that belongs to one panel only, such as the narrow place of a roof rail, ends a clear coat but carries no
    join of a whole section, so it is left out.
    """
    labels = {panel.id: panel.label for panel in side.panels}
    cuts = side_cuts(side)
    gaps = [_from_cut(side, cut, labels) for cut in cuts if cut.kind == "gap"]
    taken = [place for gap in gaps if gap.s_m is None for place in (gap.x_m, gap.x_bottom_m)]
    others = [_from_cut(side, cut, labels) for cut in cuts if cut.kind == "pillar" and len(cut.panels) > 1]
    others += [foot for cut in cuts if cut.kind == "arch" for foot in _arch_feet(side, cut, labels)]
    free = [
        place
        for place in others
        if place.s_m is not None or all(abs(place.x_bottom_m - x) > _SAME_PLACE_M for x in taken)
    ]
    lines = [_from_line(side, number) for number in range(len(side.lines))]
    found = gaps + free + lines
    upright = sorted((f for f in found if f.s_m is None), key=lambda f: (f.x_m, f.id))
    level = sorted((f for f in found if f.s_m is not None), key=lambda f: (f.s_m or 0.0, f.id))
    return (*upright, *level)


def _from_cut(side: Side, cut: Cut, labels: Mapping[str, str]) -> Feature:
    """Place of a gap or pillar."""
    label = "|".join(labels.get(name, name) for name in cut.panels)
    x = np.array([point[0] for point in cut.points])
    y = np.array([point[1] for point in cut.points])
    if is_upright(cut):
        order = np.argsort(y, kind="stable")
        middle = float(np.interp((y.min() + y.max()) / 2, y[order], x[order]))
        return Feature(cut.id, cut.kind, label, middle, float(x[order][0]), float(x[order][-1]), cut.panels)
    height = side.girth * float(np.mean(y))
    return Feature(
        cut.id,
        cut.kind,
        label,
        float(x.min() + x.max()) / 2,
        float(x.min()),
        float(x.max()),
        cut.panels,
        height,
    )


def _arch_feet(side: Side, cut: Cut, labels: Mapping[str, str]) -> list[Feature]:
    """Both feet of a wheel arch as upright places."""
    ends = sorted((cut.points[0], cut.points[-1]))
    label = labels.get(cut.panels[0], cut.panels[0])
    feet = []
    for name, end in zip(("front", "rear"), ends, strict=True):
        x = end[0]
        panels = _panels_at(side, x) or cut.panels
        feet.append(Feature(f"{cut.id}.{name}_foot", "arch", f"{label} at the arch", x, x, x, panels))
    return feet


def _panels_at(side: Side, x: float) -> tuple[str, ...]:
    """Ids of the panels that an upright line crosses for more than 0.15 m."""
    y = np.arange(0.05, 3.6, 0.05)
    line = np.column_stack([np.full_like(y, x), y])
    crossed = []
    for panel in side.panels:
        rings: list[Floats] = [np.array(ring) for ring in panel.rings]
        if int(inside(line, rings).sum()) > 3:
            crossed.append(panel.id)
    return tuple(crossed)


def _from_line(side: Side, number: int) -> Feature:
    """Place of a moulding or body line."""
    line = side.lines[number]
    x = [point[0] for point in line.points]
    y = [point[1] for point in line.points]
    middle = np.column_stack([np.linspace(x[0], x[-1], 40), np.interp(np.linspace(x[0], x[-1], 40), x, y)])
    on = tuple(p.id for p in side.panels if inside(middle, [np.array(ring) for ring in p.rings]).any())
    label = line.id.replace("_", " ")
    height = side.girth * float(np.mean(y))
    if max(y) - min(y) > max(x) - min(x):
        return Feature(line.id, line.kind, label, float(np.mean(x)), x[0], x[-1], on)
    return Feature(line.id, line.kind, label, (min(x) + max(x)) / 2, min(x), max(x), on, height)


def bans(side: Side) -> tuple[Ban, ...]:
    """List the zones where painters do not join.

    Parameters
    ----------
    side
        The side.

    Returns
    -------
        The middle third of every door; 8 cm either side of every body line; the light band 15 to 35 cm below the waist
        of the doors.

    Sources
    -------
    Common practice, no source: not in the middle of a door, not on the shoulder, not level with the eye in the light
    band. The figures are assumptions.
    """
    found = []
    doors = [panel for panel in side.panels if "door" in panel.id]
    for panel in doors:
        x = [point[0] for point in panel.rings[0]]
        third = (max(x) - min(x)) / 3
        found.append(Ban(f"middle.{panel.id}", "x", min(x) + third, max(x) - third, (panel.id,)))
    found += [ban for line in side.lines if line.kind == "body_line" for ban in _shoulder(side, line)]
    waist = _waist_s(side)
    if waist is not None:
        ids = tuple(panel.id for panel in doors)
        found.append(Ban("light_band", "s", waist - 0.35, waist - 0.15, ids))
    return tuple(found)


def _shoulder(side: Side, line: Line) -> list[Ban]:
    """The strip along a body line, panel by panel because the line rises."""
    x = np.array([point[0] for point in line.points])
    s = side.girth * np.array([point[1] for point in line.points])
    found = []
    for panel in side.panels:
        stations = np.array([point[0] for point in panel.rings[0]])
        ends = np.clip((stations.min(), stations.max()), x.min(), x.max())
        heights = np.interp(ends, x, s)
        middle = np.array([[float(ends.mean()), float(heights.mean()) / side.girth]])
        if ends[1] - ends[0] > _SAME_PLACE_M and inside(middle, [np.array(ring) for ring in panel.rings])[0]:
            low, high = float(heights.min()) - 0.08, float(heights.max()) + 0.08
            found.append(Ban(f"shoulder.{panel.id}", "s", low, high, (panel.id,)))
    return found


def _waist_s(side: Side) -> float | None:
    """Height of the waist on the developed skin: the measure it was built from, else the lowest head of a door gap."""
    if "waist_front_m" in side.measures:
        return side.girth * side.measures["waist_front_m"]
    heads = [cut.points[-1][1] for cut in side_cuts(side) if cut.kind == "gap" and is_upright(cut)]
    return side.girth * min(heads) if heads else None
