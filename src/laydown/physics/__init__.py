"""The laws: floats or arrays in, floats or arrays out; no noun is known here."""
