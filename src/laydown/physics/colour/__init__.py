"""To be said."""
