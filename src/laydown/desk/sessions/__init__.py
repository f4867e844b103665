"""A plan followed at the booth: taps, what comes next, defects, the rest planned again."""
