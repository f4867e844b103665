"""The guide: from plan, log and clock to what to do now. The log alone is enough to go on after a restart."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from laydown.booth.coat_screen import ScreenFrame, coat_screen
from laydown.booth.day_steps import Leg
from laydown.booth.deadlines import clocks_of, deadlines_of
from laydown.booth.progress import LogPosition, Progress, followed, live, standing_of
from laydown.booth.wait_screen import wait_screen
from laydown.schema.message import Name, message
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Event, Screen, Session


def add(session: Session, event: Event) -> Session:
    """Return the log with one more tap."""
    if any(one.id == event.id for one in session.events):
        return session
    return Session(session.plan_id, (*session.events, event))


def plan_id_of(session: Session) -> str:
    """Return the id of the plan the log goes by now: that of the last plan that was made anew, else its first."""
    return followed(session.plan_id, live(session))


def now(plan: Plan, session: Session, now_s: float) -> Screen:
    """Return what to show now."""
    return screens(standing_of(plan, session, now_s))(now_s)


def screens(standing: LogPosition) -> Callable[[float], Screen]:
    """Return what to show at any moment from the last tap on while nobody taps."""
    plan, legs, state = standing.plan, standing.legs, standing.state
    undo = standing.undo
    if standing.follows != plan.id:
        other = _other_plan(plan, standing.follows, undo)
        return lambda _now_s: other
    undoing = (Button(message("button.undo"), "undo", target=undo),) if undo else ()
    beside = (*_mix_button(plan, legs, state), *undoing)
    fed = _fed(plan)
    clocks = clocks_of(plan, legs, state)
    leg = legs[state.leg]

    def show(now_s: float) -> Screen:
        clock = max(now_s, state.last_s)
        frame = ScreenFrame(clock, deadlines_of(clocks, clock), undo, plan.inputs.painters, fed)
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


def _mix_button(plan: Plan, legs: Sequence[Leg], state: Progress) -> tuple[Button, ...]:
    """A button for the mix of the next layer, until its first stroke."""
    ahead = next((leg for leg in legs[state.leg :] if leg.kind == "spray"), None)
    if ahead is None or (ahead is legs[state.leg] and state.phase != "waiting"):
        return ()
    first = ahead.coat is not None and ahead.coat.number == 1
    known = any(layer == ahead.layer for layer, _ in state.mixed_at_s)
    planned = any(mix.layer == ahead.layer for mix in plan.mixes)
    return (
        (Button(message("button.mix-ready", short_layer=ahead.layer or ""), "mixed", layer=ahead.layer),)
        if first and planned and not known
        else ()
    )


def _other_plan(plan: Plan, follows: str, undo: str) -> Screen:
    """The log goes by another plan than the one at hand."""
    said = message("log-of-other-plan", follows=Name(follows), plan=Name(plan.id))
    return Screen(
        "", 0, 0, message("other-plan"), None, None, said, "", "other plan", "stop", 0, assertive=True, buttons=(),
        deadlines=(), undo=undo,
    )  # fmt: skip
