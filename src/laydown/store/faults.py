"""Trouble with the book in plain words; neither a password nor a row's content gets into them."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError, SQLAlchemyError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from laydown.schema.problem import InputError, Problem


class BookError(InputError):
    """The book itself cannot be opened, read or written; nothing of the call was kept."""


class ChangedError(InputError):
    """Somebody else saved or deleted it since it was read; nothing of the call was kept."""


_BUSY = ("is busy: another program writes to it", "try again")
_READ_ONLY = ("may only be read", "give the user who runs laydown the right to write it and its folder")
_FULL = ("cannot grow: the disk is full", "make room; nothing that was kept before is lost")
_NO_ANSWER = ("does not answer", "start the database server and check address, port and network")
_REFUSED = ("refuses user or password", "check both; an @ in a password is written %40 in the address")
_BROKEN = ("is damaged", "stop, copy the file away as it is, and go back to the last good copy")

_SQLITE = {
    "SQLITE_BUSY": _BUSY,
    "SQLITE_LOCKED": _BUSY,
    "SQLITE_READONLY": _READ_ONLY,
    "SQLITE_PERM": _READ_ONLY,
    "SQLITE_CANTOPEN": ("cannot be opened", "check that file and folder may be read and written"),
    "SQLITE_FULL": _FULL,
    "SQLITE_IOERR": ("cannot be read or written by the disk", "check the disk before going on"),
    "SQLITE_CORRUPT": _BROKEN,
    "SQLITE_NOTADB": ("is not a book: it is no database at all", "check the path"),
}
"""Words by the name of SQLite's error, without its extension."""

_POSTGRES = {
    "55P03": _BUSY,
    "40P01": _BUSY,
    "25006": _READ_ONLY,
    "42501": (
        "may not be written by this user",
        "let the owner of the database grant the right to create tables",
    ),
    "53100": _FULL,
    "53300": ("has no connection left", "raise the server's max_connections, or close other programs"),
    "57P01": _NO_ANSWER,
    "57P03": _NO_ANSWER,
    "28P01": _REFUSED,
    "28000": _REFUSED,
    "3D000": ("is not on that server", "create the database first, with encoding UTF8"),
}
"""Words by the server's SQLSTATE (PostgreSQL manual, appendix A)."""

_AT_THE_DOOR = {
    "password authentication failed": _REFUSED,
    "no password supplied": _REFUSED,
    "authentication failed": _REFUSED,
    "role ": _REFUSED,
    "does not exist": _POSTGRES["3D000"],
    "too many": _POSTGRES["53300"],
    "starting up": _NO_ANSWER,
}
"""Words by what the server says before it gives a SQLSTATE; the first that fits."""


_MISFIT = (
    "what was given does not fit into the book",
    "check the words that only a few values are allowed for",
)


@contextmanager
def told(place: str, missing: str = "") -> Iterator[None]:
    """Turn what the database says into a fault in plain words.

    Parameters
    ----------
    place
        Name of the book in messages, without a password.
    missing
        What a refused reference points to.

    Returns
    -------
    A block that is watched.

    Raises
    ------
    InputError
        A row points to one that is not there.
    BookError
        Everything else.
    """
    try:
        yield
    except IntegrityError as error:
        words = (
            (f"there is no {missing} in the book", "keep that first") if _points_nowhere(error) else _MISFIT
        )
        raise InputError(place, (Problem("book", *words),)) from None
    except PoolTimeoutError:
        raise BookError(place, (Problem("book", *_BUSY),)) from None
    except SQLAlchemyError as error:
        raise BookError(place, (Problem("book", *words_for(error)),)) from None


def words_for(error: SQLAlchemyError) -> tuple[str, str]:
    """Return what is wrong with the book and how to mend it.

    Parameters
    ----------
    error
        As raised by the library.

    Returns
    -------
    What and hint. What the database itself says is left out: it may hold a password or a row.
    """
    inner = error.orig if isinstance(error, DBAPIError) else None
    named = getattr(inner, "sqlite_errorname", None)
    if named:
        plain = "_".join(named.split("_")[:2])
        return _SQLITE.get(plain, (f"cannot be used: {plain}", "check the file"))
    state = getattr(inner, "sqlstate", None)
    if state:
        return _POSTGRES.get(state, (f"cannot be used: the server says {state}", "ask who runs the server"))
    said = str(inner).lower()
    return next((words for piece, words in _AT_THE_DOOR.items() if piece in said), _NO_ANSWER)


def _points_nowhere(error: IntegrityError) -> bool:
    """Whether a row was refused because it points to one that is not there."""
    named = getattr(error.orig, "sqlite_errorname", "")
    return named == "SQLITE_CONSTRAINT_FOREIGNKEY" or getattr(error.orig, "sqlstate", "") == "23503"
