"""The guide: from plan, log and clock to what to do now. The log alone is enough to go on after a restart."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from laydown.booth.coat_screen import Frame, coat_screen
from laydown.booth.day_steps import Leg
from laydown.booth.deadlines import clocks_of, deadlines_of
from laydown.booth.progress import Standing, State, followed, live, standing_of
from laydown.booth.wait_screen import wait_screen
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Event, Screen, Session


def add(session: Session, event: Event) -> Session:
    """Return the log with one more tap.

    Parameters
    ----------
    session
        The log.
    event
        The tap.

    Returns
    -------
    A longer log; the same one if it holds a tap of this id already, so a tap sent twice changes nothing.
    """
    if any(one.id == event.id for one in session.events):
        return session
    return Session(session.plan_id, (*session.events, event))


def plan_id_of(session: Session) -> str:
    """Return the id of the plan the log goes by now: that of the last plan that was made anew, else its first."""
    return followed(session.plan_id, live(session))


def now(plan: Plan, session: Session, now_s: float) -> Screen:
    """Return what to show now.

    Parameters
    ----------
    plan
        The plan the log goes by.
    session
        The log.
    now_s
        The clock, seconds since 1970 in UTC; never taken to lie before the last tap.

    Returns
    -------
    The screen: one number, one sentence, a sign, and deadlines as absolute times. It depends on nothing else, so
    the same log gives the same screen on any device and after any restart. A log of another plan is told, not
    guessed at.
    """
    return screens(standing_of(plan, session, now_s))(now_s)


def screens(standing: Standing) -> Callable[[float], Screen]:
    """Return what to show at any moment from the last tap on while nobody taps.

    Parameters
    ----------
    standing
        Where the log stands.

    Returns
    -------
    A function from the clock to the screen, the same as ``now``; what does not depend on the clock is worked out once.
    """
    plan, legs, state = standing.plan, standing.legs, standing.state
    undo = standing.undo
    if standing.follows != plan.id:
        other = _other_plan(plan, standing.follows, undo)
        return lambda _now_s: other
    undoing = (Button("undo", "undo", target=undo),) if undo else ()
    beside = (*_mix_button(plan, legs, state), *undoing)
    fed = _fed(plan)
    clocks = clocks_of(plan, legs, state)
    leg = legs[state.leg]

    def show(now_s: float) -> Screen:
        clock = max(now_s, state.last_s)
        frame = Frame(clock, deadlines_of(clocks, clock), undo, plan.inputs.painters, fed)
        screen = (
            coat_screen(leg, leg.coat, state, frame)
            if leg.kind == "spray" and leg.coat is not None
            else wait_screen(plan, legs, state, frame)
        )
        return replace(screen, buttons=(*screen.buttons, *beside))

    return show


def _fed(plan: Plan) -> frozenset[str]:
    """Layers that are sprayed with fed air: any with hardener, and clear always."""
    adjustment = plan.adjustment
    hardened = {"ground": adjustment.ground.hardener, "effect": adjustment.effect.hardener, "clear": True}
    return frozenset(name for name, wanted in hardened.items() if wanted)


def _mix_button(plan: Plan, legs: Sequence[Leg], state: State) -> tuple[Button, ...]:
    """A button for the mix of the next layer, until its first stroke."""
    ahead = next((leg for leg in legs[state.leg :] if leg.kind == "spray"), None)
    if ahead is None or (ahead is legs[state.leg] and state.phase != "waiting"):
        return ()
    first = ahead.coat is not None and ahead.coat.number == 1
    known = any(layer == ahead.layer for layer, _ in state.mixed_at_s)
    planned = any(mix.layer == ahead.layer for mix in plan.mixes)
    return (
        (Button(f"{ahead.layer} mix is ready", "mixed", layer=ahead.layer),)
        if first and planned and not known
        else ()
    )


def _other_plan(plan: Plan, follows: str, undo: str) -> Screen:
    """The log goes by another plan than the one at hand."""
    words = f"this log goes by plan {follows}, not {plan.id}: open that plan"
    return Screen(
        "", 0, 0, "other plan", None, None, words, "", "other plan", "stop", 0, assertive=True, buttons=(),
        deadlines=(), undo=undo,
    )  # fmt: skip
