"""A day at the booth for tests: taps that follow the screen, and the plan of a shipped case."""

from cases.planning import MILD, quick
from laydown.booth.guide import add, now
from laydown.schema.session import Event, Session

START_S = 1_800_000_000.0


def plan_of(case=MILD):
    return quick(case).plan


def event(name, at_s, kind, **fields):
    return Event(name, START_S + at_s, kind, **fields)


def tapped(button, name, at_s):
    """The tap a button sends."""
    return Event(
        name,
        at_s,
        button.kind,
        button.step,
        button.section,
        button.layer,
        button.item,
        button.yes,
        button.seconds_s,
        0.0,
        button.says,
        button.target,
    )


def main_button(screen):
    return next((one for one in screen.buttons if one.main), screen.buttons[0])


def section_time(plan, screen):
    """How long the section on a screen takes by the plan; 0 outside a coat."""
    for layer in plan.layers:
        for coat in layer.coats:
            if screen.step == f"{layer.name}.{coat.number}.spray":
                return coat.sections[screen.section - 1].elapsed_s
    return 0.0


def follow(plan, session, at_s, until):
    """Tap the main button as the plan wants it until a screen says stop; session and time then."""
    for number in range(200):
        screen = now(plan, session, at_s)
        if until(screen):
            return session, at_s
        if screen.section and screen.counts_to_s is not None:
            at_s += section_time(plan, screen)
        elif screen.counts_to_s is not None:
            at_s = max(at_s, screen.counts_to_s)
        else:
            at_s += 2.0
        session = add(session, tapped(main_button(screen), f"tap{len(session.events)}.{number}", at_s))
    raise AssertionError("never got there")


def at(plan, step, section=0):
    """A session that stands at a step, and in a section of it."""
    session, at_s = follow(plan, Session(plan.id), START_S, lambda screen: screen.step == step)
    if section:
        session, at_s = follow(
            plan,
            session,
            at_s,
            lambda screen: screen.step == step and screen.section == section and screen.sign != "ready",
        )
    return session, at_s
