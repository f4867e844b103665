"""Plans: made, written, shown, explained, poured from."""
