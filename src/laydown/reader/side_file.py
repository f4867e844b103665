"""Reading a side file."""

from pathlib import Path

from laydown.reader.files import read_table
from laydown.reader.format import decode_file
from laydown.schema.problem import InputError
from laydown.schema.side import Side


def read_side(path: Path) -> Side:
    """Read a side file; whether its geometry can be painted is checked elsewhere.

    Parameters
    ----------
    path
        JSON or TOML.

    Returns
    -------
    The side.

    Raises
    ------
    InputError
        Everything that is wrong with its fields.
    """
    decoded = decode_file(Side, read_table(path), path, "side file")
    if decoded.noun is None:
        raise InputError(str(path), decoded.problems)
    return decoded.noun
