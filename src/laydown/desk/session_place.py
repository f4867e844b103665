"""The places of a session: each has one name however it was reached, so that two devices mean the same."""

from laydown.booth.legs import legs_of
from laydown.booth.state import live, replay
from laydown.schema.plan import Plan
from laydown.schema.session import Session

LAST_PASSED = 24
"""Taps looked back at when a tablet asks what it hangs its clocks on; assumption, three coats."""


def place_key(plan: Plan, session: Session, now_s: float) -> str:
    """Name the place where a log stands.

    Parameters
    ----------
    plan, session, now_s
        The plan that is followed, the log, and the clock [s since 1970].

    Returns
    -------
    Step, section, what is being done, answers given and mixes that stand ready.
    """
    legs = legs_of(plan)
    state = replay(legs, session, now_s)
    answers = "".join({None: "-", True: "y", False: "n"}[one] for one in state.answers)
    again = "again" if state.again_s > state.since_s() else ""
    mixed = ",".join(sorted({layer for layer, _ in state.mixed_at_s}))
    parts = (
        plan.id,
        legs[state.leg].id,
        str(state.section),
        state.phase,
        answers,
        again,
        mixed,
        state.result,
    )
    return "/".join(parts)


def passed(plan: Plan, session: Session, now_s: float, last: int = LAST_PASSED) -> dict[str, float]:
    """Return when the latest places were reached, for instants that hang on taps the server has meanwhile.

    Parameters
    ----------
    plan, session, now_s
        As in ``place_key``.
    last
        How many taps are looked back at.

    Returns
    -------
    Seconds since 1970 by place; a tap that says it was earlier moves the place at hand.
    """
    held = live(session)
    reached: dict[str, float] = {}
    for number in range(max(1, len(held) - last), len(held) + 1):
        event = held[number - 1]
        key = place_key(plan, Session(session.plan_id, held[:number]), now_s)
        earlier = event.kind == "earlier" and key in reached
        reached[key] = reached[key] - event.seconds_s if earlier else event.at_s
    return reached
