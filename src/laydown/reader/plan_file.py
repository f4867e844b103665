"""Reading a plan document."""

from pathlib import Path

from laydown.reader.files import LARGEST_PLAN, read_table, refused
from laydown.reader.format import decode_file
from laydown.schema.plan import Plan
from laydown.schema.problem import InputError

NAME = "plan.json"
"""Name of the plan document in a folder that laydown wrote."""


def read_plan(path: Path) -> Plan:
    """Read a plan document.

    Parameters
    ----------
    path
        The document, or the folder it was written into.

    Returns
    -------
    The plan.

    Raises
    ------
    InputError
        Everything that is wrong with it.
    """
    file = path / NAME if path.is_dir() else path
    if file.suffix.lower() != ".json":
        raise refused(
            file, "is not a plan document", "plan the job first: laydown plan JOB -o DIR writes plan.json"
        )
    decoded = decode_file(Plan, read_table(file, LARGEST_PLAN), file, "plan")
    if decoded.noun is None:
        raise InputError(str(file), decoded.problems)
    return decoded.noun
