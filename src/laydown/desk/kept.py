"""Plans that were written before; reading one needs nothing of the planner."""

from pathlib import Path

from laydown.reader.plan_file import read_plan
from laydown.schema.plan import Plan


def kept_plan(path: Path) -> Plan | None:
    """Return the plan that a path leads to.

    Parameters
    ----------
    path
        A plan document, the folder of one, or a job file.

    Returns
    -------
    The plan; None for a job file, which has to be planned first.

    Raises
    ------
    InputError
        Everything that is wrong with the document.
    """
    return read_plan(path) if path.is_dir() or path.suffix.lower() == ".json" else None
