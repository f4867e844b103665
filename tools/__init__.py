"""Scripts that write tables which ship with the program; run by hand, never by the program."""
