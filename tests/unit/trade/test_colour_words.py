"""Words for the direction of a colour difference."""

import numpy as np
import pytest

from laydown.physics.colour.difference import colour_parts
from laydown.planning.counts.zone_message import colour_words


@pytest.mark.parametrize(
    ("step", "words"),
    [
        ((1.0, 0.0, 0.0), ("lighter",)),
        ((-1.0, 0.0, 2.0), ("yellower", "more vivid", "darker")),
        ((0.0, 0.5, -2.0), ("bluer", "less vivid", "redder")),
        ((0.1, -0.1, 0.1), ()),
    ],
)
def test_the_largest_part_is_said_first(step, words):
    first = np.array([90.0, 0.0, 6.0])
    assert colour_words(colour_parts(first, first + np.array(step))) == words
