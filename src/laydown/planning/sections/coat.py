"""One coat of a layer: sections for a chosen adjustment, sprayed on the skin."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from laydown.physics.spray.hand import Hand
from laydown.planning.sections.candidates import Rules
from laydown.planning.sections.costs import Opening, board_of
from laydown.planning.sections.outcome import Filmed, Outcome, filmed_of, outcome_of
from laydown.planning.sections.search import BestCut, Board, best_cuts
from laydown.planning.sections.stretches import Bounds, Lattice, Times, lattice_of, times_of
from laydown.planning.sections.strokes import Joined, Programme, Work, joined_of, programme
from laydown.planning.setup.field import Field
from laydown.planning.setup.places import Place
from laydown.planning.setup.spraying import Crew, GunPass, settings_of
from laydown.schema.coat import Part


@dataclass(frozen=True, slots=True)
class CoatBase:
    """What every coat of a layer stands on."""

    field: Field
    places: tuple[Place, ...]
    crew: Crew
    density_g_ml: float
    open_ln_sd: float


@dataclass(frozen=True, slots=True)
class CoatTask:
    """One coat to be cut into sections."""

    part: Part
    full: GunPass
    open_s: float
    coat_open_s: float
    before: tuple[tuple[float, bool], ...]
    backwards: bool
    start: str
    walk: bool


@dataclass(frozen=True, slots=True)
class PlannedCoat:
    """A coat with its sections."""

    task: CoatTask
    reach: Bounds
    board: Board
    times: Times
    cut: BestCut
    work: Work
    made: Programme
    hand: Hand

    @property
    def filmed(self) -> Filmed:
        """Return its wet film."""
        return filmed_of(self.work, self.made, self.hand)

    @property
    def joined(self) -> Joined:
        """Return where its sections meet, and how old the edges are."""
        return joined_of(self.work, self.made)

    @property
    def outcome(self) -> Outcome:
        """Return all that it comes to."""
        return outcome_of(self.work, self.made, self.task.coat_open_s, self.hand)

    def joins(self) -> tuple[tuple[float, bool], ...]:
        """Return place [m] and whether it is a gap, of every join; definition."""
        found = (self.reach.places[bound - 1] for bound in self.work.bounds[1:-1])
        return tuple(sorted((place.x_m, place.kind == "gap") for place in found))


def rules_of(base: CoatBase, reach: Bounds, task: CoatTask) -> Rules:
    """Return what the coat must keep."""
    ids = [place.id for place in reach.places]
    start = ids.index(task.start) + 1 if task.start in ids else None
    return Rules(task.before, start, base.open_ln_sd, base.density_g_ml)


def board_for(base: CoatBase, task: CoatTask) -> tuple[Lattice, Times, Board]:
    """Return the board of one coat with one adjustment."""
    passes = settings_of(task.part, task.full)
    lattice = lattice_of(base.field, base.places, passes, backwards=task.backwards)
    times = times_of(lattice, task.part, (task.full,), base.crew)
    opening = Opening(np.array([task.open_s]), np.zeros(1, np.int64))
    board = board_of(lattice, times, opening, base.crew, rules_of(base, lattice.reach, task))
    return lattice, times, board


@lru_cache(maxsize=24)
def plan_coat(base: CoatBase, task: CoatTask) -> PlannedCoat:
    """Return the cheapest sections of a coat and what they come to."""
    lattice, times, board = board_for(base, task)
    last = len(lattice.reach.x_m) - 1
    cut = BestCut(0.0, (0, last), ()) if task.walk else best_cuts(board)[1][0]
    bounds = cut.bounds or (0, last)
    work = Work(
        base.field,
        tuple(zip(settings_of(task.part, task.full), lattice.rows, strict=True)),
        lattice.reach,
        bounds,
        tuple(bounds.index(bound) - 1 for bound in cut.refills),
        base.crew.refill_s,
        base.crew.painters,
    )
    made = programme(work)
    return PlannedCoat(task, lattice.reach, board, times, cut, work, made, base.crew.hand)
