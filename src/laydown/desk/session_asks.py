"""The questions of a gate, all at once, so that they are answered in any order."""

from dataclasses import dataclass

from laydown.booth.standing import Standing
from laydown.schema.session import Button


@dataclass(frozen=True, slots=True)
class Ask:
    """A question of a gate, its answer so far, and the two buttons that answer it."""

    text: str
    answer: bool | None
    yes: Button
    no: Button


def asks_of(standing: Standing) -> tuple[Ask, ...]:
    """Return the questions of the gate at hand with their answers.

    Parameters
    ----------
    standing
        Where the log stands.

    Returns
    -------
    Questions in order; none outside a gate.
    """
    state = standing.state
    leg = standing.legs[state.leg]
    if leg.gate is None:
        return ()
    return tuple(
        Ask(
            text,
            state.answers[item],
            Button("yes", "answer", leg.id, item=item, yes=True),
            Button("not yet", "answer", leg.id, item=item),
        )
        for item, text in enumerate(leg.gate.ask)
    )
