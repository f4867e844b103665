"""Words for the direction of a colour difference."""

import numpy as np
import pytest

from laydown.physics.colour.difference import colour_parts
from laydown.planning.counts.zone_message import looks_of


@pytest.mark.parametrize(
    ("step", "looks"),
    [
        ((1.0, 0.0, 0.0), ("lighter",)),
        ((-1.0, 0.0, 2.0), ("yellower", "more-vivid", "darker")),
        ((0.0, 0.5, -2.0), ("bluer", "less-vivid", "redder")),
        ((0.1, -0.1, 0.1), ()),
    ],
)
def test_the_largest_part_is_said_first(step, looks):
    first = np.array([90.0, 0.0, 6.0])
    assert looks_of(colour_parts(first, first + np.array(step))) == looks
