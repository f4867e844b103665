"""How the pages are served."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from laydown.web.keys import Keys

BookKind = Literal["sqlite", "postgresql"]
"""What keeps jobs and plans."""


@dataclass(frozen=True, slots=True)
class Settings:
    """How the pages are served.

    Attributes
    ----------
    keys
        Secret of the cookies and hashes of the passwords.
    folder
        Folder of the shop: its shelf of products and its sides lie in it.
    book_kind
        What keeps jobs and plans; told by ``/healthz``.
    names
        Host names the pages are reached by, besides this machine's own and plain addresses.
    secure
        Whether the pages are served with TLS; cookies are marked accordingly.
    """

    keys: Keys
    folder: Path
    book_kind: BookKind = "sqlite"
    names: frozenset[str] = field(default_factory=frozenset)
    secure: bool = False
