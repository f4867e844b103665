"""The clocks of a job: windows that close and waits that end, and what to do in each state.

Sources: the product sheet; definition of a clock.
"""

from dataclasses import dataclass
from typing import Literal

from laydown.trade.mixing.pot_life import FINISH_SHARE, LAST_SHARE, pot_state

WindowKind = Literal["pot_life", "recoat_max"]
"""Windows: after the limit something may no longer be done."""

WaitKind = Literal["recoat_min", "flash_min", "bake_hold", "clearance", "polish_from"]
"""Waits: before the limit something may not be done yet."""

ClockState = Literal["ok", "finish this coat", "last coat", "over", "wait", "open", "unknown"]
"""State of a clock; over ends a window, open ends a wait."""

RECOAT_MAX_S = 86_400.0
"""Longest time from an effect coat to the clear where the sheet is silent [s]: same day, at most 24 h.

From printed mid-coat sheets.
"""


@dataclass(frozen=True, slots=True)
class ClockReading:
    """A clock at one instant.

    Attributes
    ----------
    state
        Where it stands.
    left_s
        Seconds to the limit, below 0 once past; ``None`` where no limit is known.
    text
        What to do.
    """

    state: ClockState
    left_s: float | None
    text: str


_WAIT_TEXT: dict[WaitKind, tuple[str, str]] = {
    "recoat_min": ("not yet: the coat needs its time", "the next coat may go on once the film looks right"),
    "flash_min": ("not yet", "the time is over: look, it must be matt everywhere"),
    "bake_hold": ("hold the metal temperature", "held long enough: let it cool"),
    "clearance": ("mist is still in the air: stay air-fed", "the booth's own clearing time has passed"),
    "polish_from": ("too soft to polish", "may be polished if it is at room temperature"),
}

_NO_WAIT_LIMIT: dict[WaitKind, str] = {
    "recoat_min": "unknown: ask the sheet",
    "flash_min": "unknown: wait until it is matt everywhere",
    "bake_hold": "unknown: ask the sheet",
    "clearance": "unknown: stay air-fed",
    "polish_from": "unknown: ask the sheet",
}


def read_window(kind: WindowKind, elapsed_s: float, limit_s: float | None) -> ClockReading:
    """Return where a window stands.

    Parameters
    ----------
    kind
        Pot life, or longest time to the next coat.
    elapsed_s
        Time since it opened, 0 or more [s].
    limit_s
        When it closes, greater than 0 [s]; ``None``: not known.

    Notes
    -----
    Half, four fifths and the whole of the limit part the states. Past the longest time to the next coat
    the film must be sanded; it is never "probably fine".
    """
    if limit_s is None:
        return ClockReading("unknown", None, "unknown: ask the sheet")
    left = limit_s - elapsed_s
    if kind == "pot_life":
        state = pot_state(elapsed_s, limit_s)
        text = {
            "ok": "in its life",
            "finish this coat": "finish the coat in hand",
            "last coat": "begin no new coat with it",
            "dead": "dead: to waste, even if it is still thin",
        }[state]
        return ClockReading("over" if state == "dead" else state, left, text)
    share = elapsed_s / limit_s
    if share >= 1.0:
        text = (
            "past the window: sand first. An effect coat is scuffed lightly and gets one more effect coat "
            "before the clear, which changes the colour."
        )
        return ClockReading("over", left, text)
    if share < FINISH_SHARE:
        return ClockReading("ok", left, "the window is open")
    if share < LAST_SHARE:
        return ClockReading("finish this coat", left, "more than half of the window is gone")
    return ClockReading("last coat", left, "the window closes soon: go on now")


def read_wait(kind: WaitKind, elapsed_s: float, limit_s: float | None) -> ClockReading:
    """Return where a wait stands.

    Parameters
    ----------
    kind
        What is waited for.
    elapsed_s
        Time since it began, 0 or more [s].
    limit_s
        How long it takes, 0 or more [s]; ``None``: not known, which never counts as over.
    """
    if limit_s is None:
        return ClockReading("unknown", None, _NO_WAIT_LIMIT[kind])
    waiting, done = _WAIT_TEXT[kind]
    left = limit_s - elapsed_s
    return ClockReading("wait", left, waiting) if left > 0.0 else ClockReading("open", left, done)
