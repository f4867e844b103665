"""A plain rectangle as a field, with holes, fades and joins where a test wants them."""

import numpy as np

from laydown.physics.spray.hand import SKILLED
from laydown.physics.spray.strokes import SkinGrid
from laydown.planning.sections.coat import CoatBase, CoatTask
from laydown.planning.sections.stretches import reach_of
from laydown.planning.sections.strokes import Work
from laydown.planning.setup.field import Field, rows_of
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew, GunPass

CELL_M = 0.02
BOTTOM_M = 0.5
HAND = SKILLED


def field(width_m=3.0, height_m=0.6, *, holes=(), weight=None, stretch=1.0):
    """From x = 0 and s = 0.5 m; holes as (x from, x to, s from, s to); weight as a function of x."""
    columns, rows = round((width_m + 0.2) / CELL_M), round((height_m + 0.64) / CELL_M)
    skin = SkinGrid(-0.10, BOTTOM_M - 0.32, CELL_M, rows, columns)
    x = skin.x0_m + (np.arange(columns) + 0.5) * CELL_M
    s = skin.s0_m + (np.arange(rows) + 0.5) * CELL_M
    mask = ((s > BOTTOM_M) & (s < BOTTOM_M + height_m))[:, None] & ((x > 0.0) & (x < width_m))[None, :]
    for x_from, x_to, s_from, s_to in holes:
        mask &= ~(((s > s_from) & (s < s_to))[:, None] & ((x > x_from) & (x < x_to))[None, :])
    wanted = np.where(mask, 1.0 if weight is None else np.clip(weight(x), 0.0, 1.0)[None, :], 0.0)
    return Field(
        skin,
        wanted > 0.0,
        wanted,
        np.full(mask.shape, stretch),
        np.where(wanted > 0.0, 0, -1),
        1.0,
    )


def place(x_m, kind="gap", cost=0.2):
    """An upright place."""
    return Place(f"{kind}.{x_m:g}", f"{kind} at {x_m:g}", kind, x_m, x_m, x_m, cost, np.array([[0.0, x_m]]))


CLOSED = GunPass("full", 0.24, 0.18, 0.5, 0.75, 3.0, 0.6)
"""Pitch 6 cm: on 60 cm, and 3 cm past each edge, exactly 11 rows."""

LIGHT = GunPass("light", 0.288, 0.216, 0.65, 0.65, 3.0, 0.55)


def work(where, places=(1.5,), *, passes=(CLOSED,), backwards=False, painters=1, refills=(), refill_s=90.0):
    """A coat cut at every place."""
    found = tuple(place(x) for x in places)
    return Work(
        where,
        tuple((one, rows_of(where, one.fan_m, one.overlap, past_edge=one.name == "full")) for one in passes),
        reach_of(where, found, backwards=backwards),
        tuple(range(len(places) + 2)),
        tuple(refills),
        refill_s,
        painters,
    )


LONG = field(5.0, 0.8)
"""A long plain side without any feature."""

OPEN = tuple(place(round(x, 2), "open", 1.3) for x in np.arange(0.2, 4.9, 0.2))
CREW = Crew(1, HAND, 90.0, 550.0)
BASE = CoatBase(LONG, OPEN, CREW, 1.1, 0.4)

TASK = CoatTask("full_light", CLOSED, 120.0, 240.0, (), backwards=False, start="", walk=False)
