"""Sides: build one from tape measures, check one, and give the areas that are planned with.

Sources: plane geometry; definition.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from itertools import combinations

import numpy as np

from laydown.physics.geometry.grid import inside, overlap_area
from laydown.physics.geometry.rings import crosses, polyline_length, ring_area
from laydown.physics.values import Floats
from laydown.schema.message import Name, message
from laydown.schema.problem import InputError, Problem, gathered
from laydown.schema.side import Ring, Side, SidePanel
from laydown.trade.side.car import car_parts
from laydown.trade.side.measures import SHAPES, Measures, full_measures
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


def build_side(shape: str, measures: Measures) -> Side:
    """Build the left side of a vehicle.

    Parameters
    ----------
    shape
        "small hatch", "medium hatch", "large saloon", "medium van" or "large van".
    measures
        Own tape measures by name [m]; those left out keep their proportion.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Every problem at once: an unknown name, a measure out of its range, or measures that each are possible but make
        no side together. Nothing is clipped.

    Notes
    -----
    Panels are closed rings of shared curves, so neighbours share their border point by point and cannot overlap.
    """
    full = full_measures(shape, measures)
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
        what = message("measure.no-side", part=Name(faults[0].where), fault=faults[0].what)
        own = tuple(map(Name, measures))
        hint = message("measure.again-first", measures=own) if own else message("measure.again-wheelbase")
        raise InputError("", (Problem("body.measures", what, hint),))
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


def find_panel(side: Side, name: str, where: str = "panel.name") -> SidePanel:
    """Find a panel by its label or id.

    Parameters
    ----------
    side
        The side.
    name
        What the user wrote; case, hyphens and underscores do not matter.
    where
        Where it was written, for the problem.

    Returns
    -------
    The panel.

    Raises
    ------
    InputError
        The side has no such panel; the hint names the nearest one.
    """
    known = {_plain(text): panel for panel in side.panels for text in (panel.id, panel.label)}
    wanted = _plain(name)
    if wanted in known:
        return known[wanted]
    close = get_close_matches(wanted, known, n=1, cutoff=0.5)
    labels = tuple(Name(panel.label) for panel in side.panels)
    hint = (
        message("panel.near", near=Name(known[close[0]].label), panels=labels)
        if close
        else message("panel.known", panels=labels)
    )
    what = message("panel.unknown", side=Name(side.name), panel=Name(name))
    raise InputError("", (Problem(where, what, hint),))


def panel_problems(side: Side, names: Sequence[str]) -> tuple[Problem, ...]:
    """List the panels of a job that its side does not have, or that are meant twice.

    Parameters
    ----------
    side
        The side.
    names
        What the user wrote, in the order of the job.

    Returns
    -------
    Every problem, at its place in the job.
    """
    problems: list[Problem] = []
    seen: dict[str, int] = {}
    for number, name in enumerate(names, start=1):
        where = f"panel[{number}].name"
        with gathered(problems):
            found = find_panel(side, name, where).id
            if found in seen:
                what = message("panel.twice", panel=Name(name), other=Name(f"panel[{seen[found]}]"))
                problems.append(Problem(where, what, message("panel.keep-one")))
            seen.setdefault(found, number)
    return tuple(problems)


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
        what = message("side.too-many-points", points=points)
        return (Problem("panels", what, message("side.fewer-points", most=_MOST_POINTS)),)
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
    faults = (
        [] if side.panels else [Problem("panels", message("side.no-panel"), message("side.draw-a-panel"))]
    )
    for kind, ids in (
        ("panels", [panel.id for panel in side.panels]),
        ("masked", [part.id for part in side.masked]),
        ("cuts", [cut.id for cut in side.cuts]),
        ("lines", [line.id for line in side.lines]),
    ):
        twice = sorted({name for name in ids if ids.count(name) > 1})
        faults += [
            Problem(f"{kind}.{name}", message("side.id-twice"), message("side.own-ids")) for name in twice
        ]
    known = {panel.id for panel in side.panels}
    for cut in side.cuts:
        strangers = [name for name in cut.panels if name not in known]
        if strangers:
            what = message("side.strange-panels", panels=tuple(map(Name, strangers)))
            hint = message("panel.known", panels=tuple(map(Name, sorted(known))))
            faults.append(Problem(f"cuts.{cut.id}", what, hint))
        if len(cut.points) < 2:
            faults.append(Problem(f"cuts.{cut.id}", message("side.two-points")))
    return faults


def _panel_faults(side: Side, panel: SidePanel) -> list[Problem]:
    """Faults of the rings and the area of one panel."""
    place = f"panels.{panel.id}"
    faults = _ring_faults(place, panel.rings)
    if not faults:
        skin = panel_area(side, panel).skin_m2
        if not _LEAST_M2 <= skin <= _MOST_M2:
            hint = message("side.is-the-scale-right", low_m2=_LEAST_M2, high_m2=_MOST_M2)
            faults.append(Problem(place, message("side.strange-area", skin_m2=skin), hint))
    return faults


def _ring_faults(place: str, rings: tuple[Ring, ...]) -> list[Problem]:
    """Faults of the outlines of one part."""
    if not rings or any(len(ring) < 3 for ring in rings):
        return [Problem(place, message("side.three-points"))]
    drawn = [np.array(ring) for ring in rings]
    faults = []
    if any(crosses(ring, ring) for ring in drawn):
        faults.append(Problem(place, message("side.crosses-itself"), message("side.without-loops")))
    outer, holes = drawn[0], drawn[1:]
    if any(crosses(outer, hole) or not inside(hole, [outer]).all() for hole in holes):
        faults.append(Problem(place, message("side.hole-outside"), message("side.move-the-hole")))
    if any(crosses(a, b) or inside(a[:1], [b]).any() for a, b in combinations(holes, 2)):
        faults.append(Problem(place, message("side.holes-overlap"), message("side.join-holes")))
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
            what = message("side.panels-overlap", panel=Name(name), area_m2=area)
            faults.append(Problem(f"panels.{other}", what, message("side.end-on-one-line")))
    return faults
