"""Job, product, side and plan files: text to nouns and back."""
