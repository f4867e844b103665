"""Trouble with the book in plain words; neither a password nor a row's content gets into them."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError, SQLAlchemyError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from laydown.schema.message import Message, Name, message
from laydown.schema.problem import InputError, Problem


class BookError(InputError):
    """The book itself cannot be opened, read or written; nothing of the call was kept."""


class ChangedError(InputError):
    """Somebody else saved or deleted it since it was read; nothing of the call was kept."""


_BUSY = "book.busy"
_READ_ONLY = "book.read-only"
_FULL = "book.full"
_NO_ANSWER = "book.no-answer"
_REFUSED = "book.refuses-user"
_BROKEN = "book.damaged"

_SQLITE = {
    "SQLITE_BUSY": _BUSY,
    "SQLITE_LOCKED": _BUSY,
    "SQLITE_READONLY": _READ_ONLY,
    "SQLITE_PERM": _READ_ONLY,
    "SQLITE_CANTOPEN": "book.cannot-open",
    "SQLITE_FULL": _FULL,
    "SQLITE_IOERR": "book.disk-fails",
    "SQLITE_CORRUPT": _BROKEN,
    "SQLITE_NOTADB": "book.no-database",
}
"""What is said by the name of SQLite's error, without its extension."""

_POSTGRES = {
    "55P03": _BUSY,
    "40P01": _BUSY,
    "25006": _READ_ONLY,
    "42501": "book.no-right",
    "53100": _FULL,
    "53300": "book.no-connection",
    "57P01": _NO_ANSWER,
    "57P03": _NO_ANSWER,
    "28P01": _REFUSED,
    "28000": _REFUSED,
    "3D000": "book.not-on-server",
}
"""What is said by the server's SQLSTATE (PostgreSQL manual, appendix A)."""

_AT_THE_DOOR = {
    "password authentication failed": _REFUSED,
    "no password supplied": _REFUSED,
    "authentication failed": _REFUSED,
    "role ": _REFUSED,
    "does not exist": _POSTGRES["3D000"],
    "too many": _POSTGRES["53300"],
    "starting up": _NO_ANSWER,
}
"""What is said by what the server says before it gives a SQLSTATE; the first that fits."""


@contextmanager
def told(place: str, missing: Message | None = None) -> Iterator[None]:
    """Turn what the database says into a fault in plain words; the row that may be missing is named."""
    try:
        yield
    except IntegrityError as error:
        if missing is not None and _points_nowhere(error):
            problem = Problem("book", message("book.no-row", row=missing), message("book.no-row.hint"))
        else:
            problem = _problem("book.misfit")
        raise InputError(place, (problem,)) from None
    except PoolTimeoutError:
        raise BookError(place, (_problem(_BUSY),)) from None
    except SQLAlchemyError as error:
        raise BookError(place, (problem_of(error),)) from None


def _problem(code: str) -> Problem:
    """Return what is wrong with the book and how to mend it."""
    return Problem("book", message(code), message(f"{code}.hint"))


def problem_of(error: SQLAlchemyError) -> Problem:
    """Return what the database says as a problem."""
    inner = error.orig if isinstance(error, DBAPIError) else None
    named = getattr(inner, "sqlite_errorname", None)
    if named:
        plain = "_".join(named.split("_")[:2])
        if plain in _SQLITE:
            return _problem(_SQLITE[plain])
        return Problem("book", message("book.strange", error=Name(plain)), message("book.strange.hint"))
    state = getattr(inner, "sqlstate", None)
    if state:
        if state in _POSTGRES:
            return _problem(_POSTGRES[state])
        return Problem(
            "book", message("book.server-says", state=Name(state)), message("book.server-says.hint")
        )
    said = str(inner).lower()
    return _problem(next((code for piece, code in _AT_THE_DOOR.items() if piece in said), _NO_ANSWER))


def _points_nowhere(error: IntegrityError) -> bool:
    """Whether a row was refused because it points to one that is not there."""
    named = getattr(error.orig, "sqlite_errorname", "")
    return named == "SQLITE_CONSTRAINT_FOREIGNKEY" or getattr(error.orig, "sqlstate", "") == "23503"
