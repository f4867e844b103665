"""Sides: build one from tape measures, check one, and give the areas that are planned with.

Sources: plane geometry; definition.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import combinations

import numpy as np

from laydown.physics.geometry.curves import Floats
from laydown.physics.geometry.grid import inside, overlap_area
from laydown.physics.geometry.rings import crosses, polyline_length, ring_area
from laydown.schema.problem import Problem
from laydown.schema.side import Ring, Side, SidePanel
from laydown.trade.side.car import car_parts
from laydown.trade.side.measures import AGAIN, SHAPES, Measures, full_measures
from laydown.trade.side.van import van_parts

_LEAST_M2, _MOST_M2 = 0.02, 30.0
"""Area of a panel that is believed [m²]; assumption."""

_OVERLAP_M2 = 1e-4
"""Overlap of two panels that is still a drawing error to forgive [m²]; assumption."""

_MOST_POINTS = 5000
"""Points a side may have; keeps the checks quick; assumption."""


@dataclass(frozen=True, slots=True)
class PanelArea:
    """The three areas of a panel [m²].

    Attributes
    ----------
    skin_m2
        Developed skin: girth times the area seen from the side.
    edge_m2
        Painted returns along gaps, arches and openings.
    planned_m2
        What seconds and grams are planned with.
    """

    skin_m2: float
    edge_m2: float
    planned_m2: float


def build_side(shape: str, measures: Measures) -> Side | tuple[Problem, ...]:
    """Build the left side of a vehicle.

    Parameters
    ----------
    shape
        "small hatch", "medium hatch", "large saloon", "medium van" or "large van".
    measures
        Own tape measures by name [m]; those left out keep their proportion.

    Returns
    -------
        The side, or every problem at once: an unknown name, a measure out of its range, or measures that each are
        possible but make no side together. Nothing is clipped.

    Notes
    -----
    Panels are closed rings of shared curves, so neighbours share their border point by point and cannot overlap.
    """
    full = full_measures(shape, measures)
    if isinstance(full, tuple):
        return full
    chosen = SHAPES[shape]
    parts = van_parts(full) if chosen.kind == "van" else car_parts(full, saloon=chosen.kind == "saloon")
    side = Side(
        format="laydown-side/1",
        name=shape if not measures else f"{shape}, own measures",
        panels=tuple(replace(p, area_scale=chosen.area_scale[p.id]) for p in parts.panels),
        girth=full["girth"],
        edge_m=full["edge_m"],
        status="generic_fitted",
        masked=parts.masked,
        cuts=parts.cuts,
        lines=parts.lines,
        backdrop=parts.backdrop,
        measures=full,
    )
    faults = check_side(side)
    if faults:
        what = f"these measures make no side together: {faults[0].where} {faults[0].what}"
        return (Problem("body.measures", what, f"{AGAIN}, first {', '.join(measures) or 'the wheelbase'}"),)
    return side


def panel_area(side: Side, panel: SidePanel) -> PanelArea:
    """Give the areas of a panel.

    Parameters
    ----------
    side
        The side, for girth, edge and gaps.
    panel
        One of its panels.

    Returns
    -------
        Skin, edges and the planned area [m²].

    Notes
    -----
    skin = girth * (outer - holes);
    edge = edge_m * (length of the panel's gaps and arch edges + outlines of its holes);
    planned = (skin + edge) * area_scale. The factor stretches seconds and grams alike, so that sprayed grams stay flow
    times trigger time.
    """
    areas = [ring_area(np.array(ring)) for ring in panel.rings]
    skin = side.girth * (areas[0] - sum(areas[1:]))
    cuts = [cut for cut in side.cuts if panel.id in cut.panels and cut.kind in {"gap", "arch"}]
    length = sum(polyline_length(np.array(cut.points)) for cut in cuts)
    length += sum(polyline_length(np.array([*ring, ring[0]])) for ring in panel.rings[1:])
    edge = side.edge_m * length
    return PanelArea(skin, edge, (skin + edge) * panel.area_scale)


def panel_areas(side: Side) -> Mapping[str, PanelArea]:
    """Give the areas of all panels by their ids."""
    return {panel.id: panel_area(side, panel) for panel in side.panels}


def find_panel(side: Side, name: str) -> SidePanel | Problem:
    """Find a panel by its label or id.

    Parameters
    ----------
    side
        The side.
    name
        What the user wrote; case, hyphens and underscores do not matter.

    Returns
    -------
        The panel, or a problem with the nearest name.
    """
    known = {_plain(text): panel for panel in side.panels for text in (panel.id, panel.label)}
    wanted = _plain(name)
    if wanted in known:
        return known[wanted]
    close = get_close_matches(wanted, known, n=1, cutoff=0.5)
    labels = ", ".join(panel.label for panel in side.panels)
    hint = f"did you mean '{known[close[0]].label}'? " if close else ""
    return Problem("panel.name", f"{side.name} has no panel '{name}'", f"{hint}panels: {labels}")


def _plain(name: str) -> str:
    """Lower case with single blanks."""
    return " ".join(name.replace("_", " ").replace("-", " ").lower().split())


def check_side(side: Side) -> tuple[Problem, ...]:
    """List everything that makes a side unusable.

    Parameters
    ----------
    side
        Any side, built or drawn.

    Returns
    -------
        All faults at once: repeated ids, rings that cross themselves, holes outside their panel, panels that overlap by
        more than 1 cm2 or are smaller than 0.02 or larger than 30 m2, cuts that name no panel, more than 5000 points.
    """
    rings = [ring for panel in side.panels for ring in panel.rings] + [
        ring for m in side.masked for ring in m.rings
    ]
    lines = [cut.points for cut in side.cuts] + [line.points for line in side.lines]
    points = sum(map(len, rings)) + sum(map(len, lines))
    if points > _MOST_POINTS:
        return (Problem("panels", f"{points} points", f"at most {_MOST_POINTS}: draw with fewer points"),)
    faults = [*_id_faults(side)]
    for panel in side.panels:
        faults += _panel_faults(side, panel)
    for part in side.masked:
        faults += _ring_faults(f"masked.{part.id}", part.rings)
    if not faults:
        faults += _overlaps(side)
    return tuple(faults)


def _id_faults(side: Side) -> list[Problem]:
    """Missing panels, repeated ids, cuts that name nobody."""
    faults = [] if side.panels else [Problem("panels", "no panel", "draw at least one closed panel")]
    for kind, ids in (
        ("panels", [panel.id for panel in side.panels]),
        ("masked", [part.id for part in side.masked]),
        ("cuts", [cut.id for cut in side.cuts]),
        ("lines", [line.id for line in side.lines]),
    ):
        twice = sorted({name for name in ids if ids.count(name) > 1})
        faults += [
            Problem(f"{kind}.{name}", "this id stands twice", "give every part its own id") for name in twice
        ]
    known = {panel.id for panel in side.panels}
    for cut in side.cuts:
        strangers = [name for name in cut.panels if name not in known]
        if strangers:
            hint = f"panels: {', '.join(sorted(known))}"
            faults.append(
                Problem(f"cuts.{cut.id}", f"names no panel of this side: {', '.join(strangers)}", hint)
            )
        if len(cut.points) < 2:
            faults.append(Problem(f"cuts.{cut.id}", "needs two points or more"))
    return faults


def _panel_faults(side: Side, panel: SidePanel) -> list[Problem]:
    """Faults of the rings and the area of one panel."""
    place = f"panels.{panel.id}"
    faults = _ring_faults(place, panel.rings)
    if not faults:
        skin = panel_area(side, panel).skin_m2
        if not _LEAST_M2 <= skin <= _MOST_M2:
            hint = f"between {_LEAST_M2} and {_MOST_M2:.0f} m²: is the scale right?"
            faults.append(Problem(place, f"{skin:.3g} m² of skin", hint))
    return faults


def _ring_faults(place: str, rings: tuple[Ring, ...]) -> list[Problem]:
    """Faults of the outlines of one part."""
    if not rings or any(len(ring) < 3 for ring in rings):
        return [Problem(place, "needs a closed outline of three points or more")]
    drawn = [np.array(ring) for ring in rings]
    faults = []
    if any(crosses(ring, ring) for ring in drawn):
        faults.append(
            Problem(place, "its outline crosses itself", "draw round the panel once, without loops")
        )
    outer, holes = drawn[0], drawn[1:]
    if any(crosses(outer, hole) or not inside(hole, [outer]).all() for hole in holes):
        faults.append(Problem(place, "a hole lies outside its panel", "move the hole inside the outline"))
    if any(crosses(a, b) or inside(a[:1], [b]).any() for a, b in combinations(holes, 2)):
        faults.append(Problem(place, "two holes overlap", "join them to one"))
    return faults


def _overlaps(side: Side) -> list[Problem]:
    """Pairs of panels that lie on each other."""
    rings: list[tuple[str, list[Floats]]] = [
        (p.id, [np.array(ring) for ring in p.rings]) for p in side.panels
    ]
    faults = []
    for (name, first), (other, second) in combinations(rings, 2):
        area = overlap_area(first, second)
        if area > _OVERLAP_M2:
            hint = "let both panels end on the same line"
            faults.append(Problem(f"panels.{other}", f"overlaps {name} by {area * 1e4:.0f} cm²", hint))
    return faults
