"""Files of measuring instruments: three formats to readings."""
