"""The side of a vehicle: panels, gaps, lines and what is masked, seen from outside with the front at small x."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from laydown.schema.figure import TextLength, Within

Point = tuple[float, float]
"""One point (x_m, y_m): along the vehicle from the front axle, and height above ground [m]."""

Ring = tuple[Point, ...]
"""A closed ring of points; the last joins the first."""

PartName = Annotated[str, TextLength(60)]
"""A label a person reads."""


@dataclass(frozen=True, slots=True)
class SidePanel:
    """One painted panel.

    Attributes
    ----------
    id
        Lower-case name without blanks, unique on the side.
    label
        The trade's name.
    rings
        First ring outer, the rest holes; even-odd.
    area_scale
        Factor from developed skin and edges to the area that is planned with.
    """

    id: PartName
    label: PartName
    rings: tuple[Ring, ...]
    area_scale: Annotated[float, Within(0.5, 2.0)] = 1.0


@dataclass(frozen=True, slots=True)
class Masked:
    """A part cut out of every layer, such as a handle.

    Attributes
    ----------
    id
        Unique name.
    rings
        Outer ring and holes, even-odd.
    """

    id: PartName
    rings: tuple[Ring, ...]


@dataclass(frozen=True, slots=True)
class Cut:
    """A line where one panel ends: a gap, an arch edge or a pillar.

    Attributes
    ----------
    id
        Unique name.
    kind
        What lies there.
    panels
        Ids of the panels on both sides; an arch edge has one.
    points
        Polyline, bottom first.
    """

    id: PartName
    kind: Literal["gap", "arch", "pillar"]
    panels: tuple[PartName, ...]
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """A line on the panels where a join is less seen.

    Attributes
    ----------
    id
        Unique name.
    kind
        Moulding or body line.
    points
        Polyline, front first.
    """

    id: PartName
    kind: Literal["moulding", "body_line"]
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Backdrop:
    """What a picture shows around the panels; nothing is computed from it.

    Attributes
    ----------
    silhouette
        Outline of the whole vehicle.
    glass, bumpers
        Rings of windows and bumpers.
    wheels
        Centre and radius (x_m, y_m, radius_m) of each wheel.
    handles
        Centres of the door handles.
    """

    silhouette: Ring = ()
    glass: tuple[Ring, ...] = ()
    bumpers: tuple[Ring, ...] = ()
    wheels: tuple[tuple[float, float, float], ...] = ()
    handles: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Side:
    """A whole side, always stored as the left one.

    Attributes
    ----------
    format
        Always "laydown-side/1".
    name
        What the side is called.
    side
        Which side it was measured on; geometry is always that of the left side.
    units
        Always metres.
    girth
        Tape length over the skin per height seen from the side.
    edge_m
        Painted return per metre of gap or opening [m].
    status
        Where the geometry comes from.
    panels, masked, cuts, lines
        What is painted, what is not, and where a join may lie.
    backdrop
        For pictures only.
    measures
        The tape measures it was built from, informative.
    """

    format: Literal["laydown-side/1"]
    name: PartName
    panels: tuple[SidePanel, ...]
    side: Literal["left", "right"] = "left"
    units: Literal["m"] = "m"
    girth: Annotated[float, Within(1.0, 1.4)] = 1.0
    edge_m: Annotated[float, Within(0.0, 0.03)] = 0.0
    status: Literal["measured", "photo", "generic_fitted"] = "measured"
    masked: tuple[Masked, ...] = ()
    cuts: tuple[Cut, ...] = ()
    lines: tuple[Line, ...] = ()
    backdrop: Backdrop = field(default_factory=Backdrop)
    measures: dict[str, float] = field(default_factory=dict)
