"""What to show between the coats: flash, gate, drying, bake, cooling, unmasking, close."""

from collections.abc import Sequence
from dataclasses import replace

from laydown.booth.coat_screen import ScreenFrame, earlier_button
from laydown.booth.day_steps import Leg, coat_said
from laydown.booth.progress import CLOSED, Progress
from laydown.schema.message import Message, Name, Saying, message
from laydown.schema.plan import Plan
from laydown.schema.session import Button, Screen, Sign, Tone

LOOK_SHARE = 0.7
"""From this share of the flash on the painter looks; common practice, no source."""

AIR_FROM_S = 90.0
"""Moving air goes on about then, after the film has settled: 1 to 2 min [s]; common practice, no source."""

_DONE = {
    "prepare": "button.prepared",
    "cool": "button.cool-enough",
    "dehydrate": "button.dry",
    "dry": "button.dry-heat-off",
    "unmask": "button.unmasked",
}
RESULTS = ("good", "visible", "redo")
"""How a job may come out; the first one is hoped for."""


def wait_screen(plan: Plan, legs: Sequence[Leg], state: Progress, frame: ScreenFrame) -> Screen:
    """Return the screen of a step that is no coat."""
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


def _screen(leg: Leg, where: Saying, frame: ScreenFrame) -> Screen:
    """A screen of this step with nothing on it yet."""
    return Screen(
        leg.id, 0, 0, where, None, None, leg.text, "", "clock", "go", 0, assertive=False, buttons=(),
        deadlines=frame.deadlines, undo=frame.undo,
    )  # fmt: skip


def _flash(leg: Leg, state: Progress, frame: ScreenFrame) -> Screen:
    """A coat flashes: count down, at 70 % look, then ask whether it is matt."""
    began = state.since_s()
    goal = max(began + leg.length_s, state.again_s)
    passed = frame.now_s - began
    asks = frame.now_s >= goal
    looks = passed >= LOOK_SHARE * leg.length_s
    question, yes = _question(leg)
    sentence = question if asks else message("look-whether", question=question) if looks else leg.text
    second: Saying = message("moving-air-soon") if passed < AIR_FROM_S else ""
    if leg.layer == "clear":
        second = message("stay-air-fed")
    sign: Sign = "look" if asks or looks else "flash"
    return replace(
        _screen(leg, message("in-flash", coat=coat_said(leg)), frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        sentence=sentence,
        second=second,
        sign=sign,
        tone="go" if asks else "caution",
        sound_count=2 if asks else 1 if looks else 0,
        buttons=(
            Button(yes, "matt", leg.id, main=True),
            Button(message("button.not-yet"), "not_yet", leg.id),
            earlier_button(leg),
        ),
    )


def _question(leg: Leg) -> tuple[Message, Message]:
    """What is asked at the end of a flash, and the button that says yes; clear never gets matt."""
    if leg.layer == "clear":
        return message("ask.strings"), message("button.flashed")
    if leg.coat is not None and leg.coat.wet_next:
        return message("ask.gloss"), message("button.gloss-gone")
    return message("ask.matt"), message("button.matt")


def _seen(legs: Sequence[Leg], state: Progress) -> Message | None:
    """Flash expected and seen, of the last coat before a gate."""
    flash = next((leg for leg in reversed(legs[: state.leg]) if leg.kind == "flash"), None)
    if flash is None or flash.layer == "clear":
        return None
    began = next((mark.at_s for mark in reversed(state.marks) if mark.step == flash.id), None)
    ended = state.ended_s(legs, flash.id)
    if began is None or ended is None:
        return None
    return message("matt-expected-seen", expected_s=flash.length_s, seen_s=ended - began)


def _gate(leg: Leg, legs: Sequence[Leg], state: Progress, frame: ScreenFrame) -> Screen:
    """A gate: its questions one after the other, then the release."""
    ask = leg.gate.ask if leg.gate is not None else ()
    title = Name(leg.gate.id) if leg.gate is not None else leg.text
    open_item = next((item for item, answer in enumerate(state.answers) if answer is None), None)
    refused = next((item for item, answer in enumerate(state.answers) if answer is False), None)
    item = open_item if open_item is not None else refused
    tone: Tone = "go"
    if item is None:
        sentence = message("gate-asks", ask=title)
        buttons: tuple[Button, ...] = (Button(message("button.release"), "release", leg.id, main=True),)
    else:
        tone = "caution"
        code = "gate-asks" if open_item is not None else "gate-asks-again"
        sentence = message(code, ask=ask[item])
        buttons = (
            Button(message("button.yes"), "answer", leg.id, item=item, yes=True),
            Button(message("button.not-yet"), "answer", leg.id, item=item, yes=False),
            Button(message("button.release-anyway"), "release_anyway", leg.id, asks_name=True),
        )
    second = _seen(legs, state) or ("" if leg.layer is None else message("price-of-later"))
    return replace(
        _screen(leg, title, frame), sentence=sentence, second=second, sign="gate", tone=tone, buttons=buttons
    )


def _bake(plan: Plan, leg: Leg, state: Progress, frame: ScreenFrame) -> Screen:
    """The bake counts from the metal's temperature, not from the air's."""
    bake = plan.bake
    began = state.since_s()
    if state.phase == "waiting":
        goal = began + bake.reaches_s if bake.reaches_s is not None else None
        expected = message("never-warm-enough")
        if bake.reaches_s is not None:
            expected = message("warm-enough-after", reaches_s=bake.reaches_s)
        return replace(
            _screen(leg, message("bake-heating-up"), frame),
            number_s=goal - frame.now_s if goal is not None else None,
            counts_to_s=goal,
            sentence=message("heat-on", part=Name(bake.slowest_part), metal_c=bake.metal_c),
            second=expected,
            sign="heat",
            tone="caution" if goal is not None else "stop",
            buttons=(Button(message("button.metal-at", metal_c=bake.metal_c), "begin", leg.id, main=True),),
        )
    goal = began + bake.hold_s
    held = frame.now_s >= goal
    return replace(
        _screen(leg, message("bake-hold"), frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        sentence=message("held-long-enough") if held else message("hold-metal", metal_c=bake.metal_c),
        sign="heat",
        tone="go" if held else "caution",
        sound_count=2 if held else 0,
        buttons=(Button(message("button.heat-off"), "done", leg.id, main=True), earlier_button(leg)),
    )


def _timed(plan: Plan, leg: Leg, state: Progress, frame: ScreenFrame) -> Screen:
    """Preparing, cooling, drying, unmasking: a clock and one button."""
    goal = state.since_s() + leg.length_s
    over = frame.now_s >= goal
    hand = leg.kind in {"prepare", "unmask"}
    signs: dict[str, Sign] = {"cool": "cool", "prepare": "hand", "unmask": "hand"}
    return replace(
        _screen(leg, message(f"doing.{leg.kind}"), frame),
        number_s=goal - frame.now_s,
        counts_to_s=goal,
        second=plan.limits_of_use.text if leg.kind == "prepare" else "",
        sign=signs.get(leg.kind, "clock"),
        tone="go" if over or hand else "caution",
        sound_count=2 if over and not hand else 0,
        buttons=(Button(message(_DONE[leg.kind]), "done", leg.id, main=True),),
    )


def _close(leg: Leg, state: Progress, frame: ScreenFrame) -> Screen:
    """The job is closed with one of three words."""
    if state.result:
        known = state.result in {*RESULTS, CLOSED}
        said = message("closed-as", result=state.result if known else Name(state.result))
        return replace(_screen(leg, message("closed"), frame), sentence=said, sign="done")
    buttons = tuple(
        Button(message(f"result.{result}"), "close", leg.id, says=result, main=result == RESULTS[0])
        for result in RESULTS
    )
    return replace(
        _screen(leg, message("closing"), frame),
        sentence=message("ask.result"),
        sign="done",
        buttons=buttons,
    )
