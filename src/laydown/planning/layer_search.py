"""The adjustment and the direction of a layer: all options over all sections at once."""

import numpy as np
from numpy.typing import NDArray

from laydown.planning.coat_plan import CoatTask, Ground
from laydown.planning.offers import Offer, own_cost
from laydown.planning.options import Option
from laydown.planning.passes import Setting
from laydown.planning.ways import way_of
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
    ``way_of``.
    """
    count, nozzle_mm = coats
    adjustments, closed = options
    ahead = way_of(base, task, closed, wetting.open_s, backwards=False)
    back = way_of(base, task, closed, wetting.open_s, backwards=True)
    own = own_cost(adjustments, wetting.flash_s, count, nozzle_mm)
    return Offer(
        adjustments,
        closed,
        wetting,
        count * ahead.cost,
        count * back.cost,
        (ahead, back),
        own,
    )


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
