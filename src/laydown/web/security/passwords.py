"""How often a password may be tried."""

from collections import OrderedDict
from dataclasses import dataclass, field
from functools import cache
from threading import Lock

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from laydown.schema.message import message
from laydown.schema.problem import InputError, Problem
from laydown.store.book import Book
from laydown.store.kept import User, UserRole

SHORTEST = 8
"""Fewest characters of a password. Source: NIST SP 800-63B, 5.1.1.2."""

LONGEST = 256
"""Most characters of a password; assumption, keeps hashing short."""

LONGEST_NAME = 40
"""Most characters of a user's name; assumption, it stands in the bar of each page."""

_HASHER = PasswordHasher()
_ONE_AT_A_TIME = Lock()
"""Each hash takes 64 MiB: guessing must not fill the memory."""


@cache
def _nobody() -> str:
    """Hash to compare with when there is no such user, so that the time of the answer does not tell."""
    return _HASHER.hash("nobody has this password")


def set_user(book: Book, name: str, role: UserRole, password: str) -> None:
    """Keep who may sign in."""
    problems = []
    if not name.strip() or len(name) > LONGEST_NAME or not name.isprintable():
        hint = message("user-name.hint", most=LONGEST_NAME)
        problems.append(Problem("name", message("name-missing-or-long"), hint))
    if not SHORTEST <= len(password) <= LONGEST:
        what = message("password-length", count=len(password))
        hint = message("password-length.hint", least=SHORTEST, most=LONGEST)
        problems.append(Problem("password", what, hint))
    others = [one for one in book.users() if one.name != name.strip()]
    if role != "manager" and not any(one.role == "manager" and one.password_hash for one in others):
        problems.append(Problem("role", message("no-manager"), message("no-manager.hint")))
    if problems:
        raise InputError("", tuple(problems))
    with _ONE_AT_A_TIME:
        hashed = _HASHER.hash(password)
    book.put_user(User(name.strip(), role, hashed))


def fits(user: User | None, password: str) -> bool:
    """Compare a password with what is kept; takes a tenth of a second, so call it off the loop."""
    if len(password) > LONGEST:
        return False
    known = user is not None and bool(user.password_hash)
    with _ONE_AT_A_TIME:
        try:
            right = _HASHER.verify(user.password_hash if known and user else _nobody(), password)
        except (VerificationError, InvalidHashError):
            return False
    return right and known


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
        """Take a try, before it is known how it ends, so that many at once count too."""
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
        """Forget the tries of a caller who knew the password."""
        with self._lock:
            self._failed.pop(caller, None)

    def _level(self, caller: str, now_s: float) -> float:
        """Tries not yet leaked away."""
        failed = self._failed.get(caller, _Failed(0.0, now_s))
        return max(0.0, failed.try_count - (now_s - failed.since_s) / WAIT_S)
