"""Read the table of solvent limits that ships with laydown."""

import tomllib
from importlib.resources import files

from laydown.schema.limits import VocLimit


def read_voc_limits() -> tuple[VocLimit, ...]:
    """Return every row of the shipped table; none of them is confirmed, so none may be shown yet.

    Returns
    -------
    Rows in the order of the file. A shop confirms one by giving it a date.
    """
    text = (files("laydown.data") / "voc_limits.toml").read_text(encoding="utf-8")
    return tuple(VocLimit(**row) for row in tomllib.loads(text)["limit"])
