"""Which adjustment, how long an edge stays open, where to start."""
