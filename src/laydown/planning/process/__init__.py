"""The order of ground, drying, effect and clear, with cooling and bake."""
