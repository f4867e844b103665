"""Names under which files of readings lie beside their job."""

from pathlib import Path

LONGEST_NAME = 80
"""Letters of a file's name that are kept; assumption."""

_NO_SIGN = frozenset(':*?"<>|')


def plain_name(name: str) -> str:
    """Return the name of a file as every system can write it.

    Parameters
    ----------
    name
        As the sender's computer writes it, perhaps with folders.

    Returns
    -------
    Its last part without signs that some system refuses; "panel.csv" where no letter is left.
    """
    # A browser sends a quotation mark as %22.
    last = name.replace("%22", "-").replace("\\", "/").rpartition("/")[2]
    plain = "".join("-" if sign in _NO_SIGN else sign for sign in last if sign.isprintable()).strip(" .")
    stem, dot, ending = plain.rpartition(".")
    if not dot:
        stem, ending = plain, "csv"
    stem, ending = stem.strip(" ."), ending.strip()[:8]
    if not any(sign.isalnum() for sign in stem):
        stem = "panel"
    return f"{stem[:LONGEST_NAME]}.{ending}"


def name_of_mapping(name: str) -> str:
    """Return the name of the mapping of a file of readings.

    Parameters
    ----------
    name
        Name of the file.

    Returns
    -------
    Such as "panel-map.toml".
    """
    return f"{Path(name).stem}-map.toml"


def name_of_typed(text: str) -> str:
    """Return a name for readings that were typed or pasted.

    Parameters
    ----------
    text
        What was typed.

    Returns
    -------
    A name whose ending goes with the content.
    """
    begin = text.lstrip()[:6].upper()
    ending = "cxf" if begin.startswith("<") else "txt" if begin.startswith("CGATS") else "csv"
    return f"panel.{ending}"
