"""Files of the user become nouns and nouns become files; nothing is decided here."""
