"""What stands in the book: the few words that are searched by, and the noun itself as JSON text.

Times are texts in ISO 8601 with their zone, such as ``2026-11-25T16:00:00Z``, given by the caller; the book has no clock.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Role = Literal["painter", "manager", "reader"]
"""What a user may do: spray and plan, also change the shop's own settings, or only look."""

OWN_SHOP = "own"
"""Id of the shop that every new book begins with."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A job, product or side.

    Attributes
    ----------
    id
        Name that nothing else of its kind has in this shop.
    name
        What people search by.
    format
        Format of the text, such as ``laydown-job/1``.
    saved_at
        When it was last put in.
    text
        The noun as JSON.
    shop_id
        The shop it belongs to; filled in by the book.
    version
        Grows with every time it is put in; filled in by the book.
    """

    id: str
    name: str
    format: str
    saved_at: str
    text: str
    shop_id: str = ""
    version: int = 0


NO_FILES: Mapping[str, bytes] = MappingProxyType({})
"""What lies beside most jobs."""


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file that lies beside a job, such as instrument readings; its content is asked for by itself.

    Attributes
    ----------
    name
        As the job names it.
    digest
        SHA-256 of its content in hexadecimal: the same digest is the same content.
    """

    name: str
    digest: str


@dataclass(frozen=True, slots=True)
class Away:
    """A job that was put away: it stands in no list, and nothing of it is lost.

    Attributes
    ----------
    job_id, name
        Which job.
    put_at, put_by
        When, as ISO 8601 text, and the name of the user; empty where nobody signs in.
    """

    job_id: str
    name: str
    put_at: str
    put_by: str


@dataclass(frozen=True, slots=True)
class Hanging:
    """How much hangs on a job and is deleted with it."""

    plan_count: int = 0
    session_count: int = 0
    event_count: int = 0
    record_count: int = 0


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A plan of a job; it never changes. Fields as in `Kept`, and the id of its job."""

    id: str
    job_id: str
    format: str
    saved_at: str
    text: str
    shop_id: str = ""


@dataclass(frozen=True, slots=True)
class KeptSession:
    """A plan being carried out; it never changes, its events are added. Fields as in `Kept`, plan and painter."""

    id: str
    plan_id: str
    painter: str
    format: str
    saved_at: str
    text: str
    shop_id: str = ""


@dataclass(frozen=True, slots=True)
class KeptRecord:
    """Planned beside actual, once a session is closed. Fields as in `Kept`, painter and session.

    Attributes
    ----------
    session_id
        The session it closes; ``None``: it was typed in from paper.
    """

    id: str
    session_id: str | None
    painter: str
    format: str
    saved_at: str
    text: str
    shop_id: str = ""


@dataclass(frozen=True, slots=True)
class KeptEvent:
    """One tap in a session.

    Attributes
    ----------
    tap_id
        Made by the screen on which it was tapped; the same tap sent twice is one event.
    made_at
        When it was tapped, by the clock of that screen.
    received_at
        When it reached the book, by the clock of the book's computer.
    text
        What was tapped, as JSON.
    number
        Place in the session, growing in the order of keeping, perhaps with gaps; filled in by the book.
    """

    tap_id: str
    made_at: str
    received_at: str
    text: str
    number: int = 0


@dataclass(frozen=True, slots=True)
class LastNumber:
    """How far the events of a session have come."""

    session_id: str
    number: int


@dataclass(frozen=True, slots=True)
class Shop:
    """A shop with its own pages in the book."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class User:
    """Someone who may sign in.

    Attributes
    ----------
    name
        Name within the shop.
    role
        What they may do.
    password_hash
        Slow hash of the password, never the password; empty: may not sign in.
    """

    name: str
    role: Role
    password_hash: str


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting of a shop."""

    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Share:
    """A job that another shop may read."""

    job_id: str
    with_shop_id: str
