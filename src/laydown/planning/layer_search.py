"""The adjustment and the direction of a layer: all options over all sections at once."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from laydown.physics.hand import age_spread, wet_chance
from laydown.planning.board import board_of, lattice_of, times_of
from laydown.planning.coat_plan import CoatTask, Ground, rules_of
from laydown.planning.options import Option
from laydown.planning.passes import Setting, settings_of
from laydown.planning.search import best_cuts
from laydown.planning.weights import SIMPLER_MINUTES, SIMPLER_SHARE, WEIGHTS
from laydown.planning.wetting import Wetting
from laydown.schema.plan import Part

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Offer:
    """The options of a layer and what they lead to, each array of shape (n,).

    Attributes
    ----------
    options, closed, wetting
        Adjustments, their closed passes and their times.
    forward, backward
        Minutes of work front to rear and rear to front, without the adjustment's own cost.
    chance, spare_s
        Least chance that an edge of the first coat is open when it is reached, and least spare time [s], with the
        better direction; 1 and infinite where there is no join.
    spray_s, joins
        Time of the first coat with the better direction [s], and its number of joins.
    own
        The adjustment's own cost in minutes.
    """

    options: tuple[Option, ...]
    closed: tuple[Setting, ...]
    wetting: Wetting
    forward: Floats
    backward: Floats
    chance: Floats
    spare_s: Floats
    spray_s: Floats
    joins: Floats
    own: Floats

    def total(self) -> Floats:
        """Return minutes of work of each option with its better direction; definition."""
        return np.asarray(np.minimum(self.forward, self.backward) + self.own, np.float64)


@dataclass(frozen=True, slots=True)
class Choice:
    """What was chosen.

    Attributes
    ----------
    index, runner_up
        Index of the option and of the next best; None where there is only one.
    kept_simple
        Whether a dearer looking but simpler option was kept.
    gain
        Minutes the best option would have saved over the chosen one.
    """

    index: int
    runner_up: int | None
    kept_simple: bool
    gain: float


def own_cost(options: Sequence[Option], flash_s: Floats, coats: int, own_nozzle_mm: float) -> Floats:
    """Return what each adjustment costs by itself.

    Parameters
    ----------
    options
        n adjustments.
    flash_s
        Time to matt of each [s], shape (n,).
    coats
        Coats of the layer.
    own_nozzle_mm
        Nozzle in the gun [mm].

    Returns
    -------
    Minutes of work, shape (n,).

    Sources
    -------
    House weights, see ``laydown.planning.weights``.
    """
    weights = WEIGHTS
    plain = [
        {"fast": weights.fast, "standard": 0.0, "slow": weights.slow}[option.reducer]
        + weights.water_square * option.water**2
        + weights.nozzle_step * abs(option.nozzle_mm - own_nozzle_mm) / 0.1
        + (weights.hardener if option.hardener else 0.0)
        for option in options
    ]
    waiting = weights.flash_minute * coats * np.minimum(flash_s, 7200.0) / 60.0
    return np.asarray(np.asarray(plain) + waiting, np.float64)


def departures(option: Option, own_nozzle_mm: float) -> int:
    """Return how many steps an adjustment lies from the plain one.

    Parameters
    ----------
    option
        The adjustment.
    own_nozzle_mm
        Nozzle in the gun [mm].

    Returns
    -------
    A count; slow reducer with 5 % water is one step, as the trade mixes it for large areas.

    Sources
    -------
    Common practice, no source.
    """
    water_steps = round(option.water / 0.05)
    if option.reducer == "slow":
        water_steps = max(0, water_steps - 1)
    return (
        (option.reducer != "standard")
        + water_steps
        + (abs(option.nozzle_mm - own_nozzle_mm) > 1e-9)
        + option.hardener
    )


@dataclass(frozen=True, slots=True)
class Way:
    """One direction of one coat with c options, each of shape (c,).

    Attributes
    ----------
    cost
        Minutes of work; infinite where no sections are possible.
    chance, spare_s
        Of its tightest join; 1 and infinite where there is none.
    spray_s
        Time of the coat [s].
    joins
        Number of joins.
    """

    cost: Floats
    chance: Floats
    spare_s: Floats
    spray_s: Floats
    joins: Floats


def way_of(
    base: Ground, task: CoatTask, closed: Sequence[Setting], open_s: Floats, *, backwards: bool
) -> Way:
    """Return the best sections of one coat in one direction, for every option.

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
    Cost, tightest join and time.

    Sources
    -------
    ``best_cuts``.
    """
    lattice = lattice_of(base.field, base.places, settings_of(task.part, closed[0]), backwards=backwards)
    times = times_of(lattice, task.part, closed, base.crew)
    rules = rules_of(base, lattice.reach, task)
    board = board_of(lattice, times, open_s, base.crew, rules)
    costs, cuts = best_cuts(board)
    spare, spray, chance = (np.full(len(costs), value) for value in (np.inf, np.inf, 1.0))
    spread = age_spread(base.crew.hand, max(4.0, float(len(lattice.rows[0].centre_m))), base.open_ln_sd)
    for case, cut in enumerate(cuts):
        sections = list(itertools.pairwise(cut.bounds))
        if not sections:
            chance[case], spare[case] = 0.0, -np.inf
            continue
        spray[case] = sum(float(times.elapsed_s[case, i, j]) for i, j in sections)
        spray[case] += base.crew.refill_s * len(cut.refills)
        ages = [
            float(board.age_s[both][case]) + (base.crew.refill_s if both[0][1] in cut.refills else 0.0)
            for both in itertools.pairwise(sections)
        ]
        if ages:
            opening = min(max(float(open_s[case]), 1e-3), 1e6)
            spare[case] = opening - max(ages)
            chance[case] = wet_chance(np.array([max(ages)]), np.array([opening]), spread, base.crew.hand)[0]
    joins = np.array([max(0, len(cut.bounds) - 2) for cut in cuts], np.float64)
    return Way(costs, chance, spare, spray, joins)


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
    first = ahead.cost <= back.cost
    own = own_cost(adjustments, wetting.flash_s, count, nozzle_mm)
    return Offer(
        adjustments,
        closed,
        wetting,
        count * ahead.cost,
        count * back.cost,
        np.where(first, ahead.chance, back.chance),
        np.where(first, ahead.spare_s, back.spare_s),
        np.where(first, ahead.spray_s, back.spray_s),
        np.where(first, ahead.joins, back.joins),
        own,
    )


def choose(offer: Offer, own_nozzle_mm: float) -> Choice:
    """Choose an option: the cheapest, or a simpler one where the gain is noise.

    Parameters
    ----------
    offer
        What every option leads to.
    own_nozzle_mm
        Nozzle in the gun [mm].

    Returns
    -------
    The choice and the runner-up.

    Sources
    -------
    ``SIMPLER_MINUTES`` and ``SIMPLER_SHARE``; a choice.
    """
    total = offer.total()
    order = np.argsort(total, kind="stable")
    best = int(order[0])
    if not np.isfinite(total[best]):
        return Choice(best, None, kept_simple=False, gain=0.0)
    slack = max(SIMPLER_MINUTES, SIMPLER_SHARE * float(total[best]))
    near = [int(index) for index in order if total[index] <= total[best] + slack]
    chosen = min(near, key=lambda index: (departures(offer.options[index], own_nozzle_mm), total[index]))
    others = [int(index) for index in order if index != chosen]
    runner_up = others[0] if others else None
    return Choice(chosen, runner_up, chosen != best, float(total[chosen] - total[best]))


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
