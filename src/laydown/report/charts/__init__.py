"""Charts: the day, films, hiding, the let-down panel."""
