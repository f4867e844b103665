"""Puts this folder on the path of imports, so that every test finds ``planning_cases``."""
