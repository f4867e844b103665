"""Who sprays, and how a refill goes."""

from dataclasses import dataclass

from laydown.physics.hand import Hand


@dataclass(frozen=True, slots=True)
class Crew:
    """Who sprays and how a refill goes.

    Attributes
    ----------
    painters
        1 or 2.
    hand
        Spreads of the hand.
    refill_s
        What a refill takes [s].
    cup_ml
        Usable cup [mL].
    """

    painters: int
    hand: Hand
    refill_s: float
    cup_ml: float
