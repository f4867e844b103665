"""Where to cut a coat into sections, and what a cut costs."""
