"""The drawing kit: shapes, type, scales and signs that all pictures share."""
