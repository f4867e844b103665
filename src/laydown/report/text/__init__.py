"""The plan and its parts as plain text."""
