"""Curves, rings and grids of a flat side."""
