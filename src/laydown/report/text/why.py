"""An explanation as plain text: decision, reason, figures with their sources, and the next best choice."""

from laydown.report.text.lines import NARROWEST, columns, paragraph
from laydown.schema.plan import Because, Explanation
from laydown.units import System, show
from laydown.words.numbers import place_words

_VALUE = 18
_NAMES = {
    "temperature_c": "air temperature",
    "rh": "humidity",
    "speed_m_s": "air speed at the panel",
    "blower_speed_m_s": "air speed of the blowers",
    "blower_temperature_c": "air of the blowers",
    "pressure_pa": "air pressure",
    "age": "age of the edge",
    "open": "edge stays open",
    "spare": "time to spare",
    "flash": "flash",
    "spray_s": "trigger time",
    "sprayed_g": "sprayed",
    "area_m2": "area",
    "metal_c": "metal",
    "hold_s": "held for",
    "need_ml": "the coats need",
    "mix_ml": "the mix",
    "mix_g": "the mix",
    "water_g": "water",
    "temperature_low_c": "air, lowest",
    "temperature_high_c": "air, highest",
    "rh_low": "humidity, lowest",
    "rh_high": "humidity, highest",
}
_SECONDS = ("age", "open", "spare")
_ENDS = {"_low_s": ", low", "_high_s": ", high", "_s": ""}


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
    lines = paragraph(f"{explanation.item}: ", place_words(explanation.decision), width)
    lines += paragraph("because  ", place_words(explanation.reason), width)
    room = (width - _VALUE - 6) // 2
    lines += [
        columns(
            (
                ("  " + name_words(row.name), room),
                (value_text(row, system), -_VALUE),
                (row.source, width - room - _VALUE - 4),
            )
        )
        for row in explanation.figures
    ]
    if explanation.runner_up:
        lines += paragraph("instead  ", place_words(explanation.runner_up), width)
    for source in explanation.sources:
        lines += paragraph("source   ", source, width)
    return "\n".join(lines) + "\n"


def name_words(name: str) -> str:
    """Name a figure as a painter would.

    Parameters
    ----------
    name
        Name in the plan, such as "age_low_s".

    Returns
    -------
    Such as "age of the edge, low"; a name without words of its own stays as it is.
    """
    if name in _NAMES:
        return _NAMES[name]
    for end, told in _ENDS.items():
        stem = name.removesuffix(end)
        if stem != name and stem in _NAMES:
            return f"{_NAMES[stem]}{told}"
    return name


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
    if row.name.split("_")[0] in _SECONDS:
        return f"{round(row.value)} s"
    return show(row.value, row.name.rsplit(".", 1)[-1], system)
