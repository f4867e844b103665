"""What stands in the book: the few words that are searched by, and the noun itself as JSON text.

Times are texts in ISO 8601 with their zone, such as ``2026-11-25T16:00:00Z``, given by the caller; the book has no clock.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

UserRole = Literal["painter", "manager", "reader"]
"""What a user may do: spray and plan, also change the shop's own settings, or only look."""

OWN_SHOP = "own"
"""Id of the shop that every new book begins with."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A job, product or side."""

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
    """A file that lies beside a job, such as instrument readings; its content is asked for by itself."""

    name: str
    digest: str


@dataclass(frozen=True, slots=True)
class Away:
    """A job that was put away: it stands in no list, and nothing of it is lost."""

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
    """Planned beside actual, once a session is closed. Fields as in `Kept`, painter and session."""

    id: str
    session_id: str | None
    painter: str
    format: str
    saved_at: str
    text: str
    shop_id: str = ""


@dataclass(frozen=True, slots=True)
class KeptEvent:
    """One tap in a session."""

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
    """Someone who may sign in."""

    name: str
    role: UserRole
    password_hash: str


@dataclass(frozen=True, slots=True)
class ShopSetting:
    """How a shop likes things, by name: its units, for one."""

    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Share:
    """A job that another shop may read."""

    job_id: str
    with_shop_id: str
