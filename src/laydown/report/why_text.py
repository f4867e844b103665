"""An explanation as plain text: decision, reason, figures with their sources, and the next best choice."""

from laydown.report.lines import NARROWEST, columns, paragraph
from laydown.schema.explanation import Because, Explanation
from laydown.units import System, show

_VALUE = 18


def why_text(explanation: Explanation, system: System = "metric", width: int = 80) -> str:
    """Write an explanation.

    Parameters
    ----------
    explanation
        What is explained.
    system
        How figures are shown.
    width
        Columns there are, 72 or more.

    Returns
    -------
    Lines of at most that width, each ended by a line feed.

    Raises
    ------
    ValueError
        When the width is under 72 columns.
    """
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    lines = paragraph(f"{explanation.item}: ", explanation.decision, width)
    lines += paragraph("because  ", explanation.reason, width)
    room = (width - _VALUE - 6) // 2
    lines += [
        columns(
            (
                ("  " + row.name, room),
                (value_text(row, system), -_VALUE),
                (row.source, width - room - _VALUE - 4),
            )
        )
        for row in explanation.figures
    ]
    if explanation.runner_up:
        lines += paragraph("instead  ", explanation.runner_up, width)
    for source in explanation.sources:
        lines += paragraph("source   ", source, width)
    return "\n".join(lines) + "\n"


def value_text(row: Because, system: System) -> str:
    """Write the value of a figure.

    Parameters
    ----------
    row
        The figure.
    system
        How it is shown.

    Returns
    -------
    Number and unit, or its words.
    """
    if isinstance(row.value, str):
        return row.value
    return show(row.value, row.name.rsplit(".", 1)[-1], system)
