"""Words a painter acts on: in which direction one colour lies from another."""

from typing import Final

from laydown.physics.colour_parts import ColourParts

SAID_FROM: Final = 0.3
"""A part smaller than this [CIELAB] is not said; assumption."""

_WORDS: Final = (
    ("lightness", "lighter", "darker"),
    ("yellowness", "yellower", "bluer"),
    ("redness", "redder", "greener"),
    ("chroma", "more vivid", "less vivid"),
)


def colour_words(parts: ColourParts) -> tuple[str, ...]:
    """Return how the second colour of a pair differs from the first, the largest part first.

    Parameters
    ----------
    parts
        Difference of one pair of colours.

    Returns
    -------
    Up to four words; none where nothing would be seen.

    Sources
    -------
    Common practice, no source.
    """
    sizes = [(float(getattr(parts, name)), more, less) for name, more, less in _WORDS]
    said = [(abs(size), more if size > 0.0 else less) for size, more, less in sizes if abs(size) >= SAID_FROM]
    return tuple(word for _, word in sorted(said, key=lambda part: -part[0]))
