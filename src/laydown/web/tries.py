"""How often a password may be tried."""

from collections import OrderedDict
from dataclasses import dataclass, field
from threading import Lock

MOST_TRIES = 5
"""Tries before waiting; assumption, more than a person with wet gloves needs."""

WAIT_S = 60.0
"""Time after which one more try is granted [s]; assumption."""

MOST_CALLERS = 1000
"""Addresses remembered; assumption, bounds the memory."""


@dataclass(frozen=True, slots=True)
class _Failed:
    """Failed tries of one caller as they stood at a time."""

    try_count: float
    since_s: float


@dataclass(slots=True)
class Tries:
    """Failed tries of each caller: a leaky bucket."""

    _failed: OrderedDict[str, _Failed] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def take_s(self, caller: str, now_s: float) -> float:
        """Take a try, before it is known how it ends, so that many at once count too.

        Parameters
        ----------
        caller
            Address of the caller.
        now_s
            A clock that never goes back [s].

        Returns
        -------
        0 if the try was granted, else the time to wait [s]; then nothing is counted.
        """
        with self._lock:
            level = self._level(caller, now_s)
            if level > MOST_TRIES - 1:
                return (level - (MOST_TRIES - 1)) * WAIT_S
            self._failed[caller] = _Failed(level + 1.0, now_s)
            self._failed.move_to_end(caller)
            while len(self._failed) > MOST_CALLERS:
                self._failed.popitem(last=False)
            return 0.0

    def forgive(self, caller: str) -> None:
        """Forget the tries of a caller who knew the password.

        Parameters
        ----------
        caller
            Address of the caller.
        """
        with self._lock:
            self._failed.pop(caller, None)

    def _level(self, caller: str, now_s: float) -> float:
        """Tries not yet leaked away."""
        failed = self._failed.get(caller, _Failed(0.0, now_s))
        return max(0.0, failed.try_count - (now_s - failed.since_s) / WAIT_S)
