"""Tables that ship with the program; each file names its source on top."""
