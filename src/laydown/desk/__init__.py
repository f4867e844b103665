"""One function for each thing a user may wish; doors call only this."""
