"""How the pages are served."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Settings:
    """How the pages are served.

    Attributes
    ----------
    secret
        Signs the cookies.
    names
        Host names the pages are reached by, besides this machine's own and plain addresses.
    secure
        Whether the pages are served with TLS; cookies are marked accordingly.
    authority
        Certificate of the shop's own authority, for tablets to install; empty without one.
    """

    secret: str
    names: frozenset[str] = field(default_factory=frozenset)
    secure: bool = False
    authority: bytes = b""
