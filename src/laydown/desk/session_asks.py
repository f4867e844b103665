"""The questions of a gate, all at once, so that they are answered in any order."""

from dataclasses import dataclass

from laydown.booth.legs import legs_of
from laydown.booth.state import replay
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Session


@dataclass(frozen=True, slots=True)
class Ask:
    """A question of a gate, its answer so far, and the two buttons that answer it."""

    text: str
    answer: bool | None
    yes: Button
    no: Button


def asks_of(plan: Plan, session: Session, now_s: float) -> tuple[Ask, ...]:
    """Return the questions of the gate at hand with their answers.

    Parameters
    ----------
    plan, session
        The plan that is followed, and the log.
    now_s
        The clock, seconds since 1970.

    Returns
    -------
    Questions in order; none outside a gate.
    """
    legs = legs_of(plan)
    state = replay(legs, session, now_s)
    leg = legs[state.leg]
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
