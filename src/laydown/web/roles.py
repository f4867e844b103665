"""Who may do what."""

from typing import Literal

from laydown.store.kept import Role

ROLES: tuple[Role, ...] = ("manager", "painter", "reader")
"""From the one who may do most to the one who only looks."""

Needed = Literal["anybody", "reader", "painter", "manager"]
"""What a page asks of its visitor; anybody needs no password."""


def may(role: Role | None, needed: Needed) -> bool:
    """Tell whether a role opens a page.

    Parameters
    ----------
    role
        Role of the visitor; None before a password was given.
    needed
        What the page asks for.

    Returns
    -------
    Whether it does.
    """
    if needed == "anybody":
        return True
    return role is not None and ROLES.index(role) <= ROLES.index(needed)
