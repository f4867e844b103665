"""The command line: a door that only passes wishes on to the desk."""
