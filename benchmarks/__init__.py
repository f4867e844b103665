"""How long laydown takes, and against what."""
