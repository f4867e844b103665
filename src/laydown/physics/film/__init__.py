"""Laws of a drying film: mass transfer, open time, the course to matt."""
