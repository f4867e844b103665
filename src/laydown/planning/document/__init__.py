"""How what was decided is written into the plan document."""
