"""How laydown speaks: codes and figures become sentences, in the reader's units."""
