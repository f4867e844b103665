"""A plan followed at the booth: taps, what comes next, faults, the rest planned again."""
