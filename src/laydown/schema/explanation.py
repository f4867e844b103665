"""Why a plan says what it says: one decision, its reason and the figures behind it."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Because:
    """One figure behind a decision.

    Attributes
    ----------
    name
        Name of the figure, such as "effect.open_s"; its suffix states the unit.
    value
        The figure in its house unit, or words.
    source
        Where it comes from.
    """

    name: str
    value: float | str
    source: str


@dataclass(frozen=True, slots=True)
class Explanation:
    """Why one item of a plan is as it is.

    Attributes
    ----------
    item
        What is explained, such as "e1.2" or "adjustment.effect".
    decision
        What the plan says, in one sentence.
    reason
        Why, in one or two sentences.
    figures
        The figures behind it, the weightiest first.
    runner_up
        The next best choice and why it was not taken; empty if there was none.
    sources
        Rules, papers and data sheets it rests on.
    """

    item: str
    decision: str
    reason: str
    figures: tuple[Because, ...]
    runner_up: str
    sources: tuple[str, ...]
