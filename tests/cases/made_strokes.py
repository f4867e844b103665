"""Strokes for tests: plain rasters whose numbers are easy to follow."""

import numpy as np

from laydown.physics.spray.strokes import Strokes

DEFAULTS = {
    "ahead": 1.0,
    "fan_m": 0.25,
    "half_m": 0.02,
    "flow_g_s": 3.0,
    "transfer": 0.6,
    "speed_m_s": 0.5,
    "stretch": 1.0,
    "section": 0,
    "light": 0,
}
COUNTS = ("section", "light")


def strokes(count, **values):
    """``count`` strokes; every value is a number or one number a stroke."""
    made = {}
    for name in Strokes.__slots__:
        value = values.get(name, DEFAULTS.get(name))
        kind = np.int64 if name in COUNTS else np.float64
        made[name] = np.array(np.broadcast_to(value, count), kind)
    return Strokes(**made)


def random_strokes(seed, count):
    """Strokes of every kind anywhere between 0.3 and 1.7 m, 0.2 and 0.8 m up, in the order of time."""
    dice = np.random.default_rng(seed)
    left = dice.uniform(0.3, 1.1, count)
    return strokes(
        count,
        begin_s=np.sort(dice.uniform(0.0, 60.0, count)),
        left_m=left,
        right_m=left + dice.uniform(0.05, 0.6, count),
        ahead=dice.choice([-1.0, 1.0], count),
        centre_m=dice.uniform(0.2, 0.8, count),
        fan_m=dice.uniform(0.15, 0.35, count),
        flow_g_s=dice.uniform(1.0, 4.0, count),
        transfer=dice.uniform(0.3, 0.8, count),
        speed_m_s=dice.uniform(0.3, 0.8, count),
        stretch=dice.uniform(1.0, 1.2, count),
    )
