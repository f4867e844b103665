"""Borders between panels, and how far a layer can run from one into the panel beyond it.

Sources: plane geometry; definition. Least lengths: common practice, no source.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from laydown.physics.geometry.grid import inside
from laydown.physics.values import Floats
from laydown.schema.side import Side
from laydown.trade.side.contact import derive_cuts
from laydown.trade.side.features import is_upright, side_cuts


@dataclass(frozen=True, slots=True)
class Border:
    """Where two panels meet.

    Attributes
    ----------
    panels
        Ids of both panels.
    kind
        A gap, a narrow place (pillar), or open: the panels are one piece there.
    upright
        Whether it rises more than it runs along the vehicle.
    points
        Its polyline (x_m, y_m).
    """

    panels: tuple[str, str]
    kind: Literal["gap", "pillar", "open"]
    upright: bool
    points: tuple[tuple[float, float], ...]

    def other(self, panel: str) -> str:
        """Give the id of the panel beyond."""
        return self.panels[1] if panel == self.panels[0] else self.panels[0]


def borders(side: Side) -> tuple[Border, ...]:
    """List all borders between panels.

    Parameters
    ----------
    side
        The side.

    Returns
    -------
        Its gaps and pillars, then an open border wherever two panels touch and no cut names both.
    """
    found = [
        Border((cut.panels[0], cut.panels[1]), cut.kind, is_upright(cut), cut.points)
        for cut in side_cuts(side)
        if cut.kind != "arch" and len(cut.panels) == 2
    ]
    known = {frozenset(border.panels) for border in found}
    open_ones = [
        Border((cut.panels[0], cut.panels[1]), "open", is_upright(cut), cut.points)
        for cut in (derive_cuts(side) if side.cuts else ())
        if frozenset(cut.panels) not in known
    ]
    return (*found, *open_ones)


def run_beyond_m(side: Side, panel_id: str, border: Border) -> float:
    """Give the room a fade has in a panel, away from one of its borders.

    Parameters
    ----------
    side
        The side.
    panel_id
        Panel the layer fades in.
    border
        Border it starts from.

    Returns
    -------
        Length on the developed skin, straight away from the border, that a quarter of the border's length has at least
        [m]; 0 where the panel does not lie beyond the border.

    Notes
    -----
    Straight runs from 40 places of the border to where the panel ends. An arch or a window shortens many of them, and a
    painter fades above the arch and below the window, hence the upper quarter.
    """
    rings = [np.array(ring) for panel in side.panels if panel.id == panel_id for ring in panel.rings]
    line = np.array(border.points)
    if not border.upright:
        # A level border: swap the axes, so that "away" is up or down over the skin.
        rings, line = [ring[:, ::-1] for ring in rings], line[:, ::-1]
    order = np.argsort(line[:, 1], kind="stable")
    low, high = float(line[:, 1].min()), float(line[:, 1].max())
    height = low + (high - low) * (np.arange(40) + 0.5) / 40
    start = np.interp(height, line[order, 1], line[order, 0])
    runs = [
        _run(rings, x, y, sign)
        for sign in (-1.0, 1.0)
        for x, y in zip(start.tolist(), height.tolist(), strict=True)
    ]
    lengths = np.array(runs).reshape(2, -1).max(axis=0)
    room = float(np.percentile(lengths, 75))
    return room if border.upright else room * side.girth


def _run(rings: list[Floats], x: float, y: float, sign: float) -> float:
    """Length from a place to the next outline, when the panel lies that way."""
    if not inside(np.array([[x + sign * 0.02, y]]), rings)[0]:
        return 0.0
    nearest = np.inf
    for ring in rings:
        following = np.roll(ring, -1, axis=0)
        spans = (ring[:, 1] > y) != (following[:, 1] > y)
        a, b = ring[spans], following[spans]
        crossing = a[:, 0] + (y - a[:, 1]) * (b[:, 0] - a[:, 0]) / (b[:, 1] - a[:, 1])
        ahead = sign * (crossing - x)
        nearest = min(nearest, float(ahead[ahead > 0.02].min(initial=np.inf)))
    return nearest if np.isfinite(nearest) else 0.0
