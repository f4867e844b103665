"""How a region speaks of what it asks for."""

from laydown.schema.limits import Region
from laydown.schema.message import Message, message


def breathing(region: Region) -> Message:
    """Return the name of the breathing protection for hardened mixes, as the region speaks of it.

    Parameters
    ----------
    region
        What the shop has switched on.

    Sources
    -------
    EN 14594 and 29 CFR 1910.134 (a written respiratory protection program), both from memory; else common practice, no source.
    """
    if region in {"uk", "eu"}:
        return message("breathing.europe")
    if region in {"us", "us-ca"}:
        return message("breathing.us")
    return message("breathing.anywhere")
