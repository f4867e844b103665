"""The clocks of a job: windows that close and waits that end, and what to do in each state.

Sources: the product sheet; definition of a clock.
"""

from dataclasses import dataclass
from typing import Literal

from laydown.schema.message import Saying, message
from laydown.trade.mixing.pot_life import FINISH_SHARE, LAST_SHARE, PotState, pot_state

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
    text: Saying


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
        return ClockReading("unknown", None, message("window.unknown"))
    left = limit_s - elapsed_s
    if kind == "pot_life":
        state = pot_state(elapsed_s, limit_s)
        return ClockReading("over" if state == "dead" else state, left, message(_POT_SAID[state]))
    share = elapsed_s / limit_s
    if share >= 1.0:
        return ClockReading("over", left, message("window.past"))
    if share < FINISH_SHARE:
        return ClockReading("ok", left, message("window.open"))
    if share < LAST_SHARE:
        return ClockReading("finish this coat", left, message("window.half-gone"))
    return ClockReading("last coat", left, message("window.closing"))


_POT_SAID: dict[PotState, str] = {
    "ok": "mix.in-its-life",
    "finish this coat": "mix.finish-the-coat",
    "last coat": "mix.no-new-coat",
    "dead": "mix.dead",
}


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
        return ClockReading("unknown", None, message(f"wait.{kind}.unknown"))
    left = limit_s - elapsed_s
    if left > 0.0:
        return ClockReading("wait", left, message(f"wait.{kind}.running"))
    return ClockReading("open", left, message(f"wait.{kind}.over"))
