"""Where a log stands in its plan, worked out once and asked many times."""

from dataclasses import dataclass, replace

from laydown.booth.legs import Leg, legs_of
from laydown.booth.state import State, after_tap, live, states
from laydown.schema.plan import Plan
from laydown.schema.session import Event, Session


@dataclass(frozen=True, slots=True)
class Standing:
    """A plan, the taps that hold, and where the work stands after them.

    Attributes
    ----------
    plan
        The plan at hand.
    legs
        Its steps at the booth.
    first_plan_id
        Plan the log began with.
    held
        Taps that hold, in order.
    state
        Where the work stands.
    """

    plan: Plan
    legs: tuple[Leg, ...]
    first_plan_id: str
    held: tuple[Event, ...]
    state: State

    @property
    def follows(self) -> str:
        """Id of the plan the log goes by now: that of the last plan that was made anew, else its first."""
        return followed(self.first_plan_id, self.held)

    @property
    def undo(self) -> str:
        """Id of the tap that an undo would take back; empty where nothing was tapped."""
        return self.held[-1].id if self.held else ""

    def after(self, event: Event) -> "Standing":
        """Where the work stands after one more tap, which is no undo."""
        return replace(self, held=(*self.held, event), state=after_tap(self.legs, self.state, event))


def standing_of(plan: Plan, session: Session, now_s: float) -> Standing:
    """Return where a log stands.

    Parameters
    ----------
    plan, session
        The plan at hand, and the log.
    now_s
        The clock; only used while the log is empty [s since 1970 in UTC].

    Returns
    -------
    The standing, taps taken back left out.
    """
    return standings_of(plan, session, now_s, last=0)[-1]


def standings_of(plan: Plan, session: Session, now_s: float, last: int) -> tuple[Standing, ...]:
    """Return where a log stands now and stood before its latest taps.

    Parameters
    ----------
    plan, session, now_s
        As in ``standing_of``.
    last
        How many taps to look back.

    Returns
    -------
    The oldest first, the present last; fewer where the log is shorter.
    """
    legs, held = legs_of(plan), live(session)
    found = states(legs, held, now_s)
    first = max(0, len(held) - last)
    return tuple(
        Standing(plan, legs, session.plan_id, held[:count], found[count])
        for count in range(first, len(held) + 1)
    )


def followed(first_plan_id: str, held: tuple[Event, ...]) -> str:
    """Return the id of the plan that a log goes by.

    Parameters
    ----------
    first_plan_id
        Plan it began with.
    held
        Taps that hold.

    Returns
    -------
    The last plan that was made anew, else the first.
    """
    again = (event.text for event in reversed(held) if event.kind == "replan" and event.text)
    return next(again, first_plan_id)
