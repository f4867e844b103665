"""An explanation as plain text: decision, reason, figures with their sources, and the next best choice."""

from laydown.report.text.lines import NARROWEST, columns, paragraph
from laydown.schema.message import Name, Saying
from laydown.schema.plan import Because, Explanation
from laydown.words.numbers import place_words
from laydown.words.show import ENGLISH, Words

_VALUE = 18
_NAMES = frozenset(
    {
        "temperature_c",
        "rh",
        "speed_m_s",
        "blower_speed_m_s",
        "blower_temperature_c",
        "pressure_pa",
        "age",
        "open",
        "margin",
        "flash",
        "spray_s",
        "sprayed_g",
        "area_m2",
        "metal_c",
        "hold_s",
        "need_ml",
        "mix_ml",
        "mix_g",
        "water_g",
        "temperature_low_c",
        "temperature_high_c",
        "rh_low",
        "rh_high",
    }
)
_SECONDS = ("age", "open", "margin")
_ENDS = {"_low_s": "figure-low", "_high_s": "figure-high", "_s": ""}
_HEAD = 8


def why_text(explanation: Explanation, words: Words = ENGLISH, width: int = 80) -> str:
    """Write an explanation."""
    if width < NARROWEST:
        raise ValueError(f"width must be {NARROWEST} columns or more; got {width}")
    lines = paragraph(f"{explanation.item}: ", place_words(words(explanation.decision)), width)
    lines += paragraph(_head(words, "because"), place_words(words(explanation.reason)), width)
    room = (width - _VALUE - 6) // 2
    lines += [
        columns(
            (
                ("  " + name_words(row.name, words), room),
                (value_text(row, words), -_VALUE),
                (words(row.source), width - room - _VALUE - 4),
            )
        )
        for row in explanation.figures
    ]
    if explanation.runner_up:
        lines += paragraph(_head(words, "instead"), place_words(words(explanation.runner_up)), width)
    for source in explanation.sources:
        lines += paragraph(_head(words, "source"), words(source), width)
    return "\n".join(lines) + "\n"


def _head(words: Words, name: str) -> str:
    """Head of a line, as wide as every other."""
    return f"{words.say(f'why-head.{name}'):{_HEAD}} "


def name_words(name: Saying, words: Words) -> str:
    """Name a figure as a painter would."""
    if not isinstance(name, str) or isinstance(name, Name):
        return words(name)
    if name in _NAMES:
        return words.word("figure_name", name)
    for end, code in _ENDS.items():
        stem = name.removesuffix(end)
        if stem != name and stem in _NAMES:
            told = words.word("figure_name", stem)
            return words.say(code, name=Name(told)) if code else told
    return name


def value_text(row: Because, words: Words) -> str:
    """Write the value of a figure."""
    if not isinstance(row.value, int | float):
        return words(row.value)
    name = row.name if isinstance(row.name, str) else ""
    if name.split("_")[0] in _SECONDS:
        return words.amount(round(row.value), "time_s", ".0f")
    return words.amount(row.value, name.rsplit(".", 1)[-1])
