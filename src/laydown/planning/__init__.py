"""The decisions: unpack nouns, ask physics and trade, choose, and say why."""
