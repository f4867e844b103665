"""The version of the program, printed in every plan."""

VERSION = "0.1.0"
"""Version as in the project's metadata; a test compares the two."""
