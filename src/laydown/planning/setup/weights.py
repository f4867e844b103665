"""What the search weighs, in minutes of work; set by hand so that plans meet facts of the trade.

No weight was measured. They were set to meet these facts, common practice without a source: an ordinary car side
is joined at two places and at gaps; in dry air a large side gets the slow reducer and some demineralised water; a
hardened base goes slower; a bigger nozzle helps in warm, dry air. docs/models/planner.md tells which weight was
moved for which fact, and the tests in tests/published/test_trade_facts.py check the facts.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Weights:
    """Weights of the search, minutes of work each; house values.

    Attributes
    ----------
    join
        Any join at all: keeps overlap zones few.
    place
        Times the place cost of the feature it lies on.
    redo
        Times the chance that the join is late: what a visible join costs.
    gap_relief
        Share of ``redo`` that still counts where a late edge lies in a true gap and nobody sees the step.
    width
        Times the square of the metres a section is wider than the arm reaches.
    refill
        One refill, beside the time it takes.
    repeat
        A join at the same gap as in the coat before.
    fast, slow, water_square, nozzle_step, hardener
        What leaving the plain adjustment costs: haze and lost hiding, longer waiting, sag, skin.
    flash_minute
        One minute of waiting between coats.
    """

    join: float = 2.0
    place: float = 2.5
    redo: float = 60.0
    gap_relief: float = 0.6
    width: float = 8.0
    refill: float = 1.5
    repeat: float = 0.2
    fast: float = 0.5
    slow: float = 0.1
    water_square: float = 160.0
    nozzle_step: float = 0.6
    hardener: float = 1.5
    flash_minute: float = 0.10


WEIGHTS = Weights()
"""The weights in use."""

ARM_M = 1.4
"""Width of a section that is sprayed from one stand [m]; common practice, no source."""

NARROWEST_M = 0.6
"""Narrowest section [m]; assumption."""

WIDEST_M = 1.9
"""Widest section that one stride covers [m]; assumption."""

OPEN_STEP_M = 0.2
"""Distance of candidate joins on open panel [m]; a choice of resolution."""

CLEAR_OF_FEATURE_M = 0.12
"""An open join nearer to a feature than this is moved to the feature [m]; assumption."""

STAGGER_M = 0.25
"""Least distance of open joins in successive coats: about one fan [m]; common practice 0.15 to 0.30."""

CUP_SHARE = 0.99
"""Share of the usable cup that the search counts on: ends of strokes are spread at a join and bounds lie between cells
of 2 cm, so the strokes spray up to 1 % more or less than believed; checked in ``tests/unit/planning/sections/test_costs.py``."""

MOVE_S = 3.0
"""Time to step to the next section [s]; common practice, no source."""

TURN_S = 0.4
"""Time to turn at the end of a stroke [s]; assumption, 0.3 to 0.5."""

SIMPLER_MINUTES = 0.5
"""Least gain for which the plan leaves the simpler choice, in minutes; a choice: less is noise."""

SIMPLER_SHARE = 0.05
"""Least gain over the simpler choice as a share of its cost; a choice."""

WET_CHANCE = 0.90
"""Chance from which a join counts as wet; a choice, used everywhere."""

TIGHT_CHANCE = 0.50
"""Chance from which a join counts as tight, below it as dry; a choice, used everywhere."""
