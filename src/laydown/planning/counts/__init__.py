"""How many coats: ground coats that hide, effect coats that match."""
