"""The adjustment and the direction of a layer: all options over all sections at once."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from laydown.planning.board import Opening, board_of
from laydown.planning.coat_plan import CoatTask, Ground, rules_of
from laydown.planning.lattice import lattice_of, times_of
from laydown.planning.offers import Offer, own_cost
from laydown.planning.options import Option
from laydown.planning.passes import Setting, settings_of
from laydown.planning.search import best_cuts
from laydown.planning.wetting import Wetting
from laydown.schema.coat import Part

Floats = NDArray[np.float64]


def offer_of(
    base: Ground,
    task: CoatTask,
    options: tuple[tuple[Option, ...], tuple[Setting, ...]],
    wetting: Wetting,
    coats: tuple[int, float],
) -> Offer:
    """Return what every option of a layer leads to, in both directions.

    Parameters
    ----------
    base
        What the layer stands on.
    task
        Its first coat.
    options
        n adjustments and their closed passes.
    wetting
        Their times.
    coats
        Coats of the layer, and the nozzle in the gun [mm].

    Returns
    -------
    The offer.

    Sources
    -------
    ``least_cost``.
    """
    count, nozzle_mm = coats
    adjustments, closed = options
    ahead = least_cost(base, task, closed, wetting.open_s, backwards=False)
    back = least_cost(base, task, closed, wetting.open_s, backwards=True)
    own = own_cost(adjustments, wetting.flash_s, count, nozzle_mm)
    return Offer(
        adjustments,
        closed,
        wetting,
        count * ahead,
        count * back,
        own,
    )


def least_cost(
    base: Ground, task: CoatTask, closed: Sequence[Setting], open_s: Floats, *, backwards: bool
) -> Floats:
    """Return what the best sections of one coat in one direction cost with every option.

    Parameters
    ----------
    base
        What the layer stands on.
    task
        The coat; its own adjustment is not used.
    closed, open_s
        Closed pass and open time of each of c options.
    backwards
        Whether the work goes from the rear to the front.

    Returns
    -------
    Minutes of work, shape (c,); infinite where no sections are possible.

    Sources
    -------
    ``best_cuts``.
    """
    lattice = lattice_of(base.field, base.places, settings_of(task.part, closed[0]), backwards=backwards)
    settings = tuple(dict.fromkeys(closed))
    times = times_of(lattice, task.part, settings, base.crew)
    opening = Opening(open_s, np.array([settings.index(one) for one in closed], np.int64))
    board = board_of(lattice, times, opening, base.crew, rules_of(base, lattice.reach, task))
    return best_cuts(board)[0]


def task_of(part: Part, closed: Setting, wetting: Wetting, index: int) -> CoatTask:
    """Return the first coat of a layer as a task, front to rear, free of rules.

    Parameters
    ----------
    part, closed
        The coat and its closed pass.
    wetting, index
        Times, and which option.

    Returns
    -------
    The task.

    Sources
    -------
    Definition.
    """
    return CoatTask(
        part,
        closed,
        float(wetting.open_s[index]),
        float(wetting.coat_open_s[index]),
        (),
        backwards=False,
        start="",
        walk=False,
    )
