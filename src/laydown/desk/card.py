"""The booth card of a plan."""

from pathlib import Path

from laydown.reader.write import write_file
from laydown.report.card import card_pdf
from laydown.schema.plan import Plan
from laydown.units import System


def write_card(plan: Plan, path: Path, system: System) -> None:
    """Write the booth card of a plan.

    Parameters
    ----------
    plan
        The plan.
    path
        The PDF to write.
    system
        Units of the card.

    Raises
    ------
    InputError
        The file cannot be written.
    """
    write_file(path, card_pdf(plan, system=system))
