"""Joins of a planned coat as nouns, each with its reason and its runner-up."""

import itertools
import math
from collections.abc import Sequence

from laydown.planning.layers.open_time import LONGEST_S
from laydown.planning.layers.tightest_join import hand_ln_sd, join_ages_s, join_wet_chance
from laydown.planning.sections.coat import PlannedCoat
from laydown.planning.sections.search import Board
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew
from laydown.planning.setup.weights import TIGHT_CHANCE, WET_CHANCE
from laydown.schema.coat import Join, JoinRunnerUp, JoinState
from laydown.schema.figure import Spread
from laydown.schema.message import Message, Name, message

LOOSE = message("droplets-lie-apart")
"""Why a join of a drop coat is not judged by its age; common practice, no source."""

MIDDLE_90 = 1.645
"""Standard deviations from the middle to the ends of the middle 90 %; definition."""


def spread_of(value: float, ln_sd: float) -> Spread:
    """Return a lognormal figure with the ends of its middle 90 %."""
    factor = math.exp(MIDDLE_90 * ln_sd)
    return Spread(value, value / factor, value * factor)


def state_of(chance: float) -> JoinState:
    """Return the state of a join from its chance to be wet; the one definition used everywhere."""
    return "wet" if chance >= WET_CHANCE else "tight" if chance >= TIGHT_CHANCE else "dry"


def _cost(board: Board, bounds: Sequence[int], index: int, alternative: int, *, refill: bool) -> float:
    """Minutes of work of the two sections at a join, and the joins they take part in, with it moved."""
    way = list(bounds)
    way[index] = alternative
    around = [(way[k], way[k + 1]) for k in range(max(0, index - 2), min(len(way) - 1, index + 2))]
    total = sum(board.section_cost(section) for section in around)
    for first, second in itertools.pairwise(around):
        total += board.join_cost(first, second, refill=refill and first[1] == alternative)
    return total


def _runner_up(planned: PlannedCoat, index: int, *, refill: bool) -> JoinRunnerUp | None:
    """The next best place of one join, the others held."""
    bounds = planned.work.bounds
    chosen = _cost(planned.board, bounds, index, bounds[index], refill=refill)
    costs = {
        other: _cost(planned.board, bounds, index, other, refill=refill)
        for other in range(bounds[index - 1] + 1, bounds[index + 1])
        if other != bounds[index]
    }
    finite = {other: cost for other, cost in costs.items() if math.isfinite(cost)}
    if not finite or not math.isfinite(chosen):
        return None
    best = min(finite, key=lambda other: finite[other])
    place, here = planned.reach.places[best - 1], planned.reach.places[bounds[index] - 1]
    more = finite[best] - chosen
    why_not = message("join-second", minutes=more, because=_because(place, here))
    return JoinRunnerUp(place.x_m, place.kind, place.label, why_not)


def _because(other: Place, here: Place) -> Message:
    """Why another place costs more."""
    if other.cost > here.cost + 1e-9:
        return message("join-shows-more", other=_kind(other), here=_kind(here))
    return message("sections-less-even")


def _kind(place: Place) -> Message:
    """What a place is."""
    return message(f"place.{place.kind}")


def join_nouns(
    planned: PlannedCoat, prefix: str, crew: Crew, open_ln_sd: float, refills: Sequence[int]
) -> tuple[Join, ...]:
    """Return the joins of a coat."""
    found = []
    by_hand = hand_ln_sd(planned, crew)
    opening = min(planned.task.open_s, LONGEST_S)
    loose = planned.task.part == "drop"
    ages, chances = join_ages_s(planned), join_wet_chance(planned, crew, open_ln_sd)
    for number, bound in enumerate(planned.work.bounds[1:-1], start=1):
        place = planned.reach.places[bound - 1]
        age, chance = float(ages[number - 1]), float(chances[number - 1])
        refill = number - 1 in refills
        margin = Spread(
            opening - age,
            opening / math.exp(MIDDLE_90 * open_ln_sd) - age * math.exp(MIDDLE_90 * by_hand),
            opening * math.exp(MIDDLE_90 * open_ln_sd) - age / math.exp(MIDDLE_90 * by_hand),
        )
        moved = min((abs(place.x_m - x_m) for x_m, _ in planned.task.before), default=None)
        found.append(
            Join(
                f"{prefix}.{number}",
                (number, number + 1),
                place.x_m,
                place.x_bottom_m,
                place.x_top_m,
                place.label,
                place.kind,
                spread_of(age, by_hand),
                spread_of(opening, open_ln_sd),
                margin,
                state_of(chance),
                chance,
                moved,
                LOOSE if loose else _reason(place, age, opening, moved, refill=refill),
                _runner_up(planned, number, refill=refill),
            )
        )
    return tuple(found)


def _reason(place: Place, age: float, opening: float, moved: float | None, *, refill: bool) -> Message:
    """Why the join lies here."""
    said = [
        message("kind-and-place", place=_kind(place), feature=Name(place.label)),
        message("edge-old-with-stop" if refill else "edge-old", age_s=age, open_s=opening),
    ]
    if moved is not None and moved < 0.25:
        said.append(message("joins-at-same-gap"))
    elif moved is not None:
        said.append(message("joins-moved", moved_m=moved))
    return message("one-after-another", parts=tuple(said))
