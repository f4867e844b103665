"""The catalogue: every sentence laydown says, in English, by its code."""
