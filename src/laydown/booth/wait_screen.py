"""What to show between the coats: flash, gate, drying, bake, cooling, unmasking, close."""

from collections.abc import Sequence
from dataclasses import replace

from laydown.booth.coat_screen import Frame, earlier_button
from laydown.booth.day_steps import Leg
from laydown.booth.progress import State
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Screen, Sign, Tone

LOOK_SHARE = 0.7
"""From this share of the flash on the painter looks; common practice, no source."""

AIR_FROM_S = 90.0
"""Moving air goes on about then, after the film has settled: 1 to 2 min [s]; common practice, no source."""

_STAY_FED = "stay air-fed until the booth's own clearing time has passed"
_LATER_PRICE = "a fault found now costs a coat; under the clear 25 to 40 times as much"
_WORDS = {
    "prepare": "prepared",
    "cool": "cool enough",
    "dehydrate": "dry",
    "dry": "dry and heat off",
    "unmask": "unmasked",
}


def wait_screen(plan: Plan, legs: Sequence[Leg], state: State, frame: Frame) -> Screen:
    """Return the screen of a step that is no coat.

    Parameters
    ----------
    plan
        For the bake and the limits of use.
    legs, state
        Where the work stands.
    frame
        Clocks, undo and the time.

    Returns
    -------
    What to wait for, to look at, or to answer.
    """
    leg = legs[state.leg]
    if leg.kind == "flash":
        return _flash(leg, state, frame)
    if leg.kind == "release":
        return _gate(leg, legs, state, frame)
    if leg.kind == "bake":
        return _bake(plan, leg, state, frame)
    if leg.kind == "close":
        return _close(leg, state, frame)
    return _timed(plan, leg, state, frame)


def _screen(leg: Leg, where: str, frame: Frame) -> Screen:
    """A screen of this step with nothing on it yet."""
    return Screen(
        leg.id, 0, 0, where, None, None, leg.text, "", "clock", "go", 0, assertive=False, buttons=(),
        deadlines=frame.deadlines, undo=frame.undo,
    )  # fmt: skip


def _flash(leg: Leg, state: State, frame: Frame) -> Screen:
    """A coat flashes: count down, at 70 % look, then ask whether it is matt."""
    began = state.since_s()
    goal = max(began + leg.length_s, state.again_s)
    passed = frame.now_s - began
    asks = frame.now_s >= goal
    looks = passed >= LOOK_SHARE * leg.length_s
    question, yes = _question(leg)
    sentence = question if asks else f"look: {question}" if looks else leg.text
    second = (
        _STAY_FED if leg.layer == "clear" else "moving air from 1 to 2 min on" if passed < AIR_FROM_S else ""
    )
    sign: Sign = "look" if asks or looks else "flash"
    return replace(
        _screen(leg, f"{leg.layer} coat {leg.coat.number if leg.coat is not None else 0}, flash", frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        sentence=sentence,
        second=second,
        sign=sign,
        tone="go" if asks else "care",
        sound_count=2 if asks else 1 if looks else 0,
        buttons=(
            Button(yes, "matt", leg.id, main=True),
            Button("not yet", "not_yet", leg.id),
            earlier_button(leg),
        ),
    )


def _question(leg: Leg) -> tuple[str, str]:
    """What is asked at the end of a flash, and the button that says yes; clear never gets matt."""
    if leg.layer == "clear":
        return "does it string no more when touched on the masking?", "flashed: yes"
    if "gloss" in leg.text:
        return "is the gloss gone?", "gloss gone: yes"
    return "matt everywhere, lower edge and recesses too?", "matt: yes"


def _seen(legs: Sequence[Leg], state: State) -> str:
    """Flash expected and seen, of the last coat before a gate."""
    flash = next((leg for leg in reversed(legs[: state.leg]) if leg.kind == "flash"), None)
    if flash is None or flash.layer == "clear":
        return ""
    began = next((mark.at_s for mark in reversed(state.marks) if mark.step == flash.id), None)
    ended = state.ended_s(legs, flash.id)
    if began is None or ended is None:
        return ""
    return f"matt expected {flash.length_s / 60.0:.1f} min, seen {(ended - began) / 60.0:.1f} min"


def _gate(leg: Leg, legs: Sequence[Leg], state: State, frame: Frame) -> Screen:
    """A gate: its questions one after the other, then the release."""
    ask = leg.gate.ask if leg.gate is not None else ()
    title = leg.gate.id if leg.gate is not None else leg.text
    open_item = next((item for item, answer in enumerate(state.answers) if answer is None), None)
    refused = next((item for item, answer in enumerate(state.answers) if answer is False), None)
    item = open_item if open_item is not None else refused
    tone: Tone = "go"
    if item is None:
        sentence = f"{title}?"
        buttons: tuple[Button, ...] = (Button("release", "release", leg.id, main=True),)
    else:
        tone = "care"
        words = f"{ask[item]}?"
        sentence = words if open_item is not None else f"not yet: {words} give it air, or see what went wrong"
        buttons = (
            Button("yes", "answer", leg.id, item=item, yes=True),
            Button("not yet", "answer", leg.id, item=item, yes=False),
            Button("release anyway, by name", "release_anyway", leg.id, asks_name=True),
        )
    second = _seen(legs, state) or ("" if leg.layer is None else _LATER_PRICE)
    return replace(
        _screen(leg, title, frame), sentence=sentence, second=second, sign="gate", tone=tone, buttons=buttons
    )


def _bake(plan: Plan, leg: Leg, state: State, frame: Frame) -> Screen:
    """The bake counts from the metal's temperature, not from the air's."""
    bake = plan.bake
    began = state.since_s()
    if state.phase == "waiting":
        goal = began + bake.reaches_s if bake.reaches_s is not None else None
        where = (
            "it never gets there by the plan"
            if goal is None
            else f"expected after {(bake.reaches_s or 0.0) / 60.0:.0f} min"
        )
        return replace(
            _screen(leg, "bake, heating up", frame),
            number_s=goal - frame.now_s if goal is not None else None,
            counts_to_s=goal,
            sentence=f"heat on: thermometer on the slowest part, {bake.slowest_part}; tap at {bake.metal_c:.0f} °C metal",
            second=f"{where}; nobody inside",
            sign="heat",
            tone="care" if goal is not None else "stop",
            buttons=(Button(f"metal at {bake.metal_c:.0f} °C", "begin", leg.id, main=True),),
        )
    goal = began + bake.hold_s
    held = frame.now_s >= goal
    return replace(
        _screen(leg, "bake, hold", frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        sentence="held long enough: heat off" if held else f"hold {bake.metal_c:.0f} °C on the metal",
        sign="heat",
        tone="go" if held else "care",
        sound_count=2 if held else 0,
        buttons=(Button("heat off", "done", leg.id, main=True), earlier_button(leg)),
    )


def _timed(plan: Plan, leg: Leg, state: State, frame: Frame) -> Screen:
    """Preparing, cooling, drying, unmasking: a clock and one button."""
    goal = state.since_s() + leg.length_s
    over = frame.now_s >= goal
    hand = leg.kind in {"prepare", "unmask"}
    signs: dict[str, Sign] = {"cool": "cool", "prepare": "hand", "unmask": "hand"}
    return replace(
        _screen(leg, leg.kind, frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        second=plan.limits_of_use.text if leg.kind == "prepare" else "",
        sign=signs.get(leg.kind, "clock"),
        tone="go" if over or hand else "care",
        sound_count=2 if over and not hand else 0,
        buttons=(Button(_WORDS[leg.kind], "done", leg.id, main=True),),
    )


def _close(leg: Leg, state: State, frame: Frame) -> Screen:
    """The job is closed with one of three words."""
    if state.result:
        return replace(_screen(leg, "closed", frame), sentence=f"closed: {state.result}", sign="done")
    buttons = tuple(
        Button(words, "close", leg.id, says=words, main=words == "good")
        for words in ("good", "visible", "redo")
    )
    return replace(
        _screen(leg, "close", frame),
        sentence="how did it come out, and what is left in each cup?",
        sign="done",
        buttons=buttons,
    )
